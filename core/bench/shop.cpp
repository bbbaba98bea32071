#include "core/bench/shop.h"

#include <algorithm>
#include <cstdlib>

#include "core/bench/shop_readers.h"
#include "core/fault/input_fault.h"

namespace waybench {

namespace {

template <class Item>
const Item& named(const std::vector<Item>& items, const std::string& key, const char* code, const char* what) {
    std::vector<std::string> known;
    for (const Item& item : items) {
        if (item.key == key) return item;
        known.push_back(item.key);
    }
    std::string list;
    for (const std::string& name : known)
        list += (list.empty() ? "" : ", ") + name;
    const std::string near = catalogue::nearestName(key, known);
    throw InputFault(code, "", "", std::string(what) + " '" + key + "' is not in the workshop tables",
                     (near.empty() ? "" : "did you mean '" + near + "'? ") + ("known: " + list));
}

void insist(bool distinct, const std::string& key, const std::string& file) {
    if (!distinct)
        throw InputFault("resource_key_twice", file, "key '" + key + "'", "two entries have the same key",
                         "rename one of them");
}

template <class Item>
void insistDistinct(const std::vector<Item>& items, const std::string& file) {
    std::set<std::string> seen;
    for (const Item& item : items)
        insist(seen.insert(item.key).second, item.key, file);
}

std::map<std::string, SourceEntry> readSources(const std::filesystem::path& resources) {
    const std::string file = "sources.json";
    const nlohmann::json json = readJsonFile(resources / file, file);
    if (!json.is_object() || json.size() != 1 || !json.contains("sources") || !json["sources"].is_object())
        throw InputFault("resource_wrong_type", file, "", "one object 'sources' with key and text is needed",
                         "see README.md");
    std::map<std::string, SourceEntry> sources;
    for (const auto& [key, text] : json["sources"].items()) {
        if (!text.is_string() || text.get<std::string>().empty())
            throw InputFault("resource_wrong_type", file, "key '" + key + "'", "a source is a text", "write it out");
        sources[key] = {key, text.get<std::string>()};
    }
    return sources;
}

/// Every *.json of a folder, one entry each, in the order of the file names.
template <class Item>
std::vector<Item> readFolder(const std::filesystem::path& resources, const std::string& folder,
                             const std::map<std::string, SourceEntry>& sources, Item (*read)(CatalogueEntry)) {
    std::vector<std::string> names;
    std::error_code error;
    for (const auto& file : std::filesystem::directory_iterator(resources / folder, error))
        if (file.path().extension() == ".json") names.push_back(file.path().stem().string());
    std::sort(names.begin(), names.end());
    if (names.empty())
        throw InputFault("resource_missing", folder, "", "the folder is missing or holds no table",
                         "restore it from the installed program, or correct WAYBENCH_RESOURCES");
    std::vector<Item> items;
    for (const std::string& name : names) {
        const std::string file = folder + "/" + name + ".json";
        const nlohmann::json json = readJsonFile(resources / file, file);
        items.push_back(read(CatalogueEntry(json, file, "", sources)));
        if (items.back().key != name)
            throw InputFault("resource_key_wrong", file, "key 'key'", "it says '" + items.back().key + "'",
                             "make it the name of the file");
    }
    return items;
}

/// A file that holds one list of entries.
template <class Item>
std::vector<Item> readList(const std::filesystem::path& resources, const std::string& file, const std::string& list,
                           const std::map<std::string, SourceEntry>& sources, Item (*read)(CatalogueEntry)) {
    const nlohmann::json json = readJsonFile(resources / file, file);
    CatalogueEntry whole(json, file, "", sources);
    std::vector<Item> items;
    for (const CatalogueEntry& entry : whole.entries(list))
        items.push_back(read(entry));
    whole.finish();
    insistDistinct(items, file);
    return items;
}

}  // namespace

const PrintingMaterial& Shop::printingMaterial(const std::string& key) const {
    return named(printingMaterials, key, "material_unknown", "printing material");
}

const StockMaterial& Shop::stockMaterial(const std::string& key) const {
    return named(stockMaterials, key, "material_unknown", "stock material");
}

const Printer& Shop::printer(const std::string& key) const {
    return named(printers, key, "printer_unknown", "printer");
}

const Mill& Shop::mill(const std::string& key) const {
    return named(mills, key, "mill_unknown", "mill");
}

const Workholding& Shop::workholding(const std::string& key) const {
    return named(workholdings, key, "workholding_unknown", "way of holding");
}

const Tariff& Shop::tariff(const std::string& key) const {
    return named(tariffs, key, "tariff_unknown", "tariff");
}

std::vector<SourceEntry> Shop::sourcesNamedIn(const std::string& note) const {
    std::vector<SourceEntry> found;
    for (size_t begin = 0; begin < note.size();) {
        const size_t end = std::min(note.find_first_of(" ,;()", begin), note.size());
        const auto at = sources.find(note.substr(begin, end - begin));
        const bool seen = at != sources.end() && std::any_of(found.begin(), found.end(), [&](const SourceEntry& entry) {
                              return entry.key == at->first;
                          });
        if (at != sources.end() && at->first.find('-') != std::string::npos && !seen) found.push_back(at->second);
        begin = end + 1;
    }
    return found;
}

Shop readShop(const std::filesystem::path& resources) {
    std::error_code error;
    if (!std::filesystem::is_directory(resources, error))
        throw InputFault("resource_missing", resources.string(), "", "the folder of workshop tables is not there",
                         "correct WAYBENCH_RESOURCES or install the program again");
    Shop shop;
    shop.folder = resources;
    shop.sources = readSources(resources);
    shop.printingMaterials = readFolder(resources, "materials/printing", shop.sources, readPrintingMaterial);
    shop.stockMaterials = readFolder(resources, "materials/stock", shop.sources, readStockMaterial);
    shop.printers = readFolder(resources, "printers", shop.sources, readPrinter);
    shop.mills = readFolder(resources, "mills", shop.sources, readMill);
    shop.workholdings = readFolder(resources, "holding", shop.sources, readWorkholding);
    shop.tariffs = readFolder(resources, "tariffs", shop.sources, readTariff);
    shop.tools = readList(resources, "tools/rack.json", "tools", shop.sources, readTool);
    shop.shelf = readList(resources, "stock/shelf.json", "pieces", shop.sources, readStockPiece);
    for (const StockPiece& piece : shop.shelf) {
        try {
            shop.stockMaterial(piece.material);
        } catch (const InputFault& fault) {
            throw fault.within("piece '" + piece.key + "', key 'material'").inFile("stock/shelf.json");
        }
    }
    return shop;
}

std::filesystem::path resourceFolder() {
    if (const char* chosen = std::getenv("WAYBENCH_RESOURCES"); chosen && *chosen) return chosen;
    std::error_code error;
    const std::filesystem::path installed = WAYBENCH_INSTALLED_RESOURCES;
    if (std::filesystem::is_directory(installed, error)) return installed;
    return WAYBENCH_SOURCE_RESOURCES;
}

}  // namespace waybench
