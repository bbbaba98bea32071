#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>

#include "core/bench/catalogue_json.h"
#include "core/bench/shop.h"
#include "core/fault/input_fault.h"

using namespace waybench;
namespace fs = std::filesystem;

namespace {

fs::path shipped() {
    return fs::path(WAYBENCH_SOURCE) / "resources";
}

/// A copy of the shipped tables in which one file may be spoilt; one per process, as tests run side by side.
class TablesCopy {
public:
    TablesCopy() : folder_(fs::path(WAYBENCH_BUILD) / ("test_shop_tables_" + std::to_string(::getpid()))) {
        fs::remove_all(folder_);
        fs::copy(shipped(), folder_, fs::copy_options::recursive);
    }
    ~TablesCopy() {
        std::error_code ignored;
        fs::remove_all(folder_, ignored);
    }
    const fs::path& folder() const { return folder_; }
    void write(const std::string& file, const std::string& text) const { std::ofstream(folder_ / file) << text; }
    void change(const std::string& file, const std::function<void(nlohmann::json&)>& edit) const {
        nlohmann::json json;
        std::ifstream(folder_ / file) >> json;
        edit(json);
        write(file, json.dump());
    }

private:
    fs::path folder_;
};

InputFault faultOf(const std::function<void()>& work) {
    try {
        work();
    } catch (const InputFault& fault) {
        return fault;
    }
    return {"no fault", "", "", "", ""};
}

const std::string kPetg = "materials/printing/petg.json";

InputFault faultAfter(const std::function<void(nlohmann::json&)>& edit) {
    const TablesCopy tables;
    tables.change(kPetg, edit);
    return faultOf([&] { readShop(tables.folder()); });
}

}  // namespace

TEST_CASE("The shipped tables are read and hold what the demo needs") {
    const Shop shop = readShop(shipped());
    CHECK(shop.printingMaterials.size() >= 8);
    CHECK(shop.stockMaterials.size() >= 10);
    CHECK(shop.printers.size() >= 2);
    CHECK(shop.mills.size() >= 2);
    CHECK(shop.tools.size() >= 10);
    CHECK(shop.folder == shipped());

    const PrintingMaterial& petg = shop.printingMaterial("petg");
    CHECK(petg.modulusInLayer.value == 1800);
    CHECK(petg.modulusInLayer.low == 1400);
    CHECK(petg.modulusInLayer.high == 2800);
    CHECK(petg.modulusInLayer.unit == Unit::megapascal);
    CHECK(petg.modulusInLayer.origin == Origin::table);
    const StockMaterial& al = shop.stockMaterial("al-6082");
    CHECK(al.modulus.value == 70000);
    CHECK(al.modulus.low == Approx(68600));
    CHECK(al.modulus.high == Approx(71400));
    CHECK(al.yieldStrength.low == 240);
    CHECK(al.yieldStrength.high == 260);
    CHECK(shop.printer("bed-moving").travel_mm == Vec3(200, 200, 220));
    CHECK(shop.printer("fast-enclosed").isEnclosed);
    CHECK(shop.mill("light-gantry").spindleHigh.value == 24000);
    CHECK(shop.mill("bench-mill").stiffness_N_per_um.value == 8);
    CHECK(shop.tariff("workshop").currency == "EUR");
    CHECK(shop.stockMaterial("stainless-304").blockedOnLightMachines);
}

TEST_CASE("Every figure of a machine is marked as assumed, never as read") {
    const Shop shop = readShop(shipped());
    for (const Printer& p : shop.printers) {
        CHECK(p.flowLimit_mm3_s.origin == Origin::defaulted);
        CHECK(p.hourRate.note.find("invented") != std::string::npos);
    }
    for (const Mill& m : shop.mills)
        CHECK(m.stiffness_N_per_um.origin == Origin::defaulted);
}

TEST_CASE("A note names its sources, and the tables know each of them") {
    const Shop shop = readShop(shipped());
    const std::vector<SourceEntry> sources = shop.sourcesNamedIn(shop.printingMaterial("petg").modulusInLayer.note);
    REQUIRE(sources.size() == 2);
    CHECK(sources[0].key == "P-S4");
    CHECK(sources[1].key == "P-S5");
    CHECK(shop.sourcesNamedIn(shop.printer("bed-moving").flowLimit_mm3_s.note).empty());
}

TEST_CASE("Every piece on the shelf is of a known material and each size fits the trade's plates") {
    const Shop shop = readShop(shipped());
    double thinnest = 1e9, thickest = 0;
    for (const StockPiece& piece : shop.shelf) {
        CHECK_NOTHROW(shop.stockMaterial(piece.material));
        thinnest = std::min(thinnest, piece.size_mm.z());
        thickest = std::max(thickest, piece.size_mm.z());
    }
    CHECK(thinnest <= 2);
    CHECK(thickest >= 25);
}

TEST_CASE("An unknown key of the workshop is answered with the nearest known one") {
    const Shop shop = readShop(shipped());
    const InputFault material = faultOf([&] { shop.printingMaterial("petgg"); });
    CHECK(material.code() == "material_unknown");
    CHECK(material.remedy().find("'petg'") != std::string::npos);
    CHECK(faultOf([&] { shop.stockMaterial("al-6083"); }).code() == "material_unknown");
    CHECK(faultOf([&] { shop.printer("x"); }).code() == "printer_unknown");
    CHECK(faultOf([&] { shop.mill("x"); }).code() == "mill_unknown");
    CHECK(faultOf([&] { shop.tariff("x"); }).code() == "tariff_unknown");
}

TEST_CASE("A missing key is refused with file and place") {
    const InputFault fault = faultAfter([](nlohmann::json& json) { json.erase("modulus_in_layer"); });
    CHECK(fault.code() == "resource_key_missing");
    CHECK(fault.file() == kPetg);
    CHECK(fault.place().find("modulus_in_layer") != std::string::npos);
}

TEST_CASE("An unknown key is refused with the nearest known name") {
    const InputFault outer = faultAfter([](nlohmann::json& json) { json["shrinkages"] = json["shrinkage"]; });
    CHECK(outer.code() == "resource_key_unknown");
    CHECK(outer.remedy().find("'shrinkage'") != std::string::npos);
    const InputFault inner = faultAfter([](nlohmann::json& json) { json["shrinkage"]["remarks"] = "x"; });
    CHECK(inner.code() == "resource_key_unknown");
    CHECK(inner.remedy().find("'remark'") != std::string::npos);
    CHECK(inner.place().find("shrinkage") != std::string::npos);
}

TEST_CASE("Bounds out of order, wrong units, unknown sources and false statuses are refused") {
    CHECK(faultAfter([](nlohmann::json& j) { j["shrinkage"]["low"] = 0.09; }).code() == "resource_bounds_unordered");
    CHECK(faultAfter([](nlohmann::json& j) { j["shrinkage"]["high"] = 0.0001; }).code() == "resource_bounds_unordered");
    CHECK(faultAfter([](nlohmann::json& j) { j["modulus_in_layer"]["unit"] = "GPa"; }).code() == "resource_unit_wrong");
    CHECK(faultAfter([](nlohmann::json& j) { j["density"]["source"] = "P-S999"; }).code() == "resource_source_unknown");
    CHECK(faultAfter([](nlohmann::json& j) { j["density"]["status"] = "sure"; }).code() == "resource_status_unknown");
    CHECK(faultAfter([](nlohmann::json& j) { j["flow_factor"]["status"] = "R"; }).code() == "resource_status_wrong");
    CHECK(faultAfter([](nlohmann::json& j) { j["density"]["value"] = "1.27"; }).code() == "resource_wrong_type");
    CHECK(faultAfter([](nlohmann::json& j) { j["density"]["value"] = -1.27; }).code() == "resource_out_of_range");
    CHECK(faultAfter([](nlohmann::json& j) { j["density"]["spread"] = 0.1; }).code() == "resource_bounds_twice");
    CHECK(faultAfter([](nlohmann::json& j) { j["poisson_ratio"]["high"] = 0.5; }).code() == "resource_out_of_range");
    CHECK(faultAfter([](nlohmann::json& j) { j["key"] = "petgg"; }).code() == "resource_key_wrong");
    CHECK(faultAfter([](nlohmann::json& j) { j["is_abrasive"] = 1; }).code() == "resource_wrong_type");
}

TEST_CASE("Whichever key of a table is taken away or spoilt, the file is refused and named") {
    const TablesCopy tables;
    for (const std::string file : {"materials/printing/petg.json", "materials/stock/al-6082.json",
                                   "printers/bed-moving.json", "mills/light-gantry.json", "tariffs/workshop.json"}) {
        nlohmann::json whole;
        std::ifstream(shipped() / file) >> whole;
        for (const auto& [key, value] : whole.items()) {
            INFO(file << " " << key);
            const bool optional = key == "fatigue_ratio_1e6" || key == "fatigue_amplitude" || key == "shear_strength";
            nlohmann::json without = whole;
            without.erase(key);
            tables.write(file, without.dump());
            const InputFault missing = faultOf([&] { readShop(tables.folder()); });
            CHECK(missing.code() == (optional ? "no fault" : "resource_key_missing"));

            nlohmann::json spoilt = whole;
            spoilt[key] = nullptr;
            tables.write(file, spoilt.dump());
            const InputFault wrong = faultOf([&] { readShop(tables.folder()); });
            CHECK(wrong.code() == "resource_wrong_type");
            CHECK(wrong.file() == file);
        }
        tables.write(file, whole.dump());
    }
    CHECK_NOTHROW(readShop(tables.folder()));
}

TEST_CASE("A relative spread gives bounds on both sides") {
    const TablesCopy tables;
    tables.change(kPetg, [](nlohmann::json& json) {
        json["density"].erase("low");
        json["density"].erase("high");
        json["density"]["spread"] = 0.1;
    });
    const Figure density = readShop(tables.folder()).printingMaterial("petg").density_g_per_cm3;
    CHECK(density.low == Approx(0.9 * density.value));
    CHECK(density.high == Approx(1.1 * density.value));
}

TEST_CASE("Files that are no JSON, cut short, with huge numbers or keys given twice are refused") {
    const TablesCopy tables;
    for (const char* text : {"", "{", "[]", "{\"key\": \"petg\", ", "\xff\xfe", "null", "{\"key\": 1e999}"}) {
        INFO(text);
        tables.write(kPetg, text);
        const InputFault fault = faultOf([&] { readShop(tables.folder()); });
        CHECK(fault.code().rfind("resource_", 0) == 0);
        CHECK(fault.file() == kPetg);
    }
    tables.write(kPetg, "{\"key\": \"petg\", \"key\": \"petg\"}");
    CHECK(faultOf([&] { readShop(tables.folder()); }).code() == "resource_key_twice");
    fs::remove(tables.folder() / "sources.json");
    CHECK(faultOf([&] { readShop(tables.folder()); }).code() == "resource_missing");
    CHECK(faultOf([&] { readShop(tables.folder() / "nowhere"); }).code() == "resource_missing");
}

TEST_CASE("A shelf piece of an unknown material and a tool key given twice are refused") {
    const TablesCopy tables;
    tables.change("stock/shelf.json", [](nlohmann::json& json) { json["pieces"][0]["material"] = "al-608"; });
    const InputFault piece = faultOf([&] { readShop(tables.folder()); });
    CHECK(piece.code() == "material_unknown");
    CHECK(piece.file() == "stock/shelf.json");
    tables.change("tools/rack.json", [](nlohmann::json& json) { json["tools"][1]["key"] = json["tools"][0]["key"]; });
    CHECK(faultOf([&] { readShop(tables.folder()); }).code() == "resource_key_twice");
}

TEST_CASE("The folder named in the environment comes first") {
    ::setenv("WAYBENCH_RESOURCES", "/somewhere/else", 1);
    CHECK(resourceFolder() == "/somewhere/else");
    ::unsetenv("WAYBENCH_RESOURCES");
    CHECK(fs::is_directory(resourceFolder()));
}

TEST_CASE("The nearest name is found by edit distance, and nothing far is offered") {
    CHECK(catalogue::nearestName("travel_spede", {"travel_speed", "infill_speed"}) == "travel_speed");
    CHECK(catalogue::nearestName("x", {"travel_speed", "infill_speed"}).empty());
    CHECK(catalogue::nearestName("", {}).empty());
}
