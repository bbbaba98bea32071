#include "core/bench/catalogue_json.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

/// Status code of the tables, in words, and whether anybody stands behind the figure.
struct Status {
    const char* code;
    const char* words;
    Origin origin;
};
constexpr Status kStatuses[] = {
    {"R", "read", Origin::table},
    {"R2", "second-hand", Origin::table},
    {"M", "from memory", Origin::table},
    {"M?", "from memory, low confidence", Origin::table},
    {"D", "derived", Origin::table},
    {"C", "common practice, no source", Origin::defaulted},
    {"INV", "invented for the demonstration", Origin::defaulted},
};

const Status* statusOf(const std::string& code) {
    for (const Status& status : kStatuses)
        if (code == status.code) return &status;
    return nullptr;
}

/// Source keys that name no text but the status itself.
bool isStatusSource(const std::string& key) {
    return key == "C" || key == "MEM" || key == "INV" || key == "D";
}

bool statusFits(const std::string& source, const std::string& status) {
    if (source == "C" || source == "INV" || source == "D") return status == source;
    if (source == "MEM") return status == "M" || status == "M?";
    return status != "C" && status != "INV";
}

std::vector<std::string> splitKeys(const std::string& written) {
    std::vector<std::string> keys;
    for (size_t begin = 0; begin <= written.size();) {
        const size_t end = std::min(written.find(", ", begin), written.size());
        keys.push_back(written.substr(begin, end - begin));
        begin = end + 2;
    }
    return keys;
}

size_t editDistance(const std::string& a, const std::string& b) {
    std::vector<size_t> row(b.size() + 1);
    for (size_t j = 0; j <= b.size(); ++j)
        row[j] = j;
    for (size_t i = 1; i <= a.size(); ++i) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= b.size(); ++j) {
            const size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, replaced});
        }
    }
    return row[b.size()];
}

}  // namespace

std::string catalogue::nearestName(const std::string& text, const std::vector<std::string>& candidates) {
    std::string nearest;
    size_t least = std::max<size_t>(2, text.size() / 2) + 1;
    for (const std::string& candidate : candidates) {
        const size_t distance = editDistance(text, candidate);
        if (distance < least) {
            least = distance;
            nearest = candidate;
        }
    }
    return nearest;
}

nlohmann::json readJsonFile(const std::filesystem::path& path, const std::string& shownName) {
    std::ifstream stream(path, std::ios::binary);
    if (!stream)
        throw InputFault("resource_missing", shownName, "", "the file cannot be opened",
                         "restore it from the installed program");
    std::ostringstream text;
    text << stream.rdbuf();

    std::vector<std::set<std::string>> open;
    std::string twice;
    const auto watch = [&](int, nlohmann::json::parse_event_t event, nlohmann::json& parsed) {
        if (event == nlohmann::json::parse_event_t::object_start) open.emplace_back();
        if (event == nlohmann::json::parse_event_t::object_end && !open.empty()) open.pop_back();
        if (event == nlohmann::json::parse_event_t::key && !open.empty() &&
            !open.back().insert(parsed.get<std::string>()).second)
            twice = parsed.get<std::string>();
        return true;
    };
    nlohmann::json json;
    try {
        json = nlohmann::json::parse(text.str(), watch);
    } catch (const nlohmann::json::parse_error& error) {
        throw InputFault("resource_unreadable", shownName, "byte " + std::to_string(error.byte),
                         "this is not valid JSON", "mend the file at that place");
    } catch (const nlohmann::json::exception&) {
        throw InputFault("resource_unreadable", shownName, "", "a number is too large or the text is not UTF-8",
                         "mend the file");
    }
    if (!twice.empty())
        throw InputFault("resource_key_twice", shownName, "key '" + twice + "'", "the key stands twice in one object",
                         "remove one of them");
    return json;
}

CatalogueEntry::CatalogueEntry(const nlohmann::json& object, std::string file, std::string place,
                               const std::map<std::string, SourceEntry>& sources)
    : object_(&object), file_(std::move(file)), place_(std::move(place)), sources_(&sources) {
    if (!object.is_object())
        throw InputFault("resource_wrong_type", file_, place_, "an object in braces is needed here", "see README.md");
}

void CatalogueEntry::refuse(const std::string& code, const std::string& key, const std::string& problem,
                            const std::string& remedy) const {
    std::string place = place_;
    if (!key.empty()) place += (place.empty() ? "" : ", ") + std::string("key '") + key + "'";
    throw InputFault(code, file_, place, problem, remedy);
}

bool CatalogueEntry::has(const std::string& key) {
    asked_.insert(key);
    return object_->contains(key);
}

const nlohmann::json& CatalogueEntry::member(const std::string& key) {
    if (!has(key)) refuse("resource_key_missing", key, "the key is missing", "add it with value, unit and source");
    return (*object_)[key];
}

std::string CatalogueEntry::text(const std::string& key) {
    const nlohmann::json& value = member(key);
    if (!value.is_string() || value.get<std::string>().empty())
        refuse("resource_wrong_type", key, "a text in quotes is needed, not empty", "write a text");
    return value.get<std::string>();
}

std::vector<std::string> CatalogueEntry::texts(const std::string& key) {
    const nlohmann::json& value = member(key);
    if (!value.is_array()) refuse("resource_wrong_type", key, "a list of texts is needed", "write [\"...\"]");
    std::vector<std::string> lines;
    for (const nlohmann::json& line : value) {
        if (!line.is_string()) refuse("resource_wrong_type", key, "every item must be a text", "write [\"...\"]");
        lines.push_back(line.get<std::string>());
    }
    return lines;
}

bool CatalogueEntry::flag(const std::string& key) {
    const nlohmann::json& value = member(key);
    if (!value.is_boolean()) refuse("resource_wrong_type", key, "true or false is needed", "write true or false");
    return value.get<bool>();
}

int CatalogueEntry::count(const std::string& key) {
    const double value = number(key, {0, 1e6});
    if (value != std::floor(value)) refuse("resource_wrong_type", key, "a whole number is needed", "round it");
    return static_cast<int>(value);
}

double CatalogueEntry::number(const std::string& key, CatalogueRange range) {
    const nlohmann::json& value = member(key);
    if (!value.is_number()) refuse("resource_wrong_type", key, "a number is needed", "write a plain number");
    const double x = value.get<double>();
    if (!std::isfinite(x)) refuse("resource_not_finite", key, "the number is not finite", "write a plain number");
    if (x < range.least || x > range.most) {
        refuse("resource_out_of_range", key,
               plainNumber(x) + " lies outside " + plainNumber(range.least) + " to " + plainNumber(range.most),
               "check value and unit");
    }
    return x;
}

Vec3 CatalogueEntry::triple(const std::string& key) {
    const nlohmann::json& value = member(key);
    if (!value.is_array() || value.size() != 3)
        refuse("resource_wrong_type", key, "three numbers are needed", "write [x, y, z]");
    Vec3 v;
    for (int i = 0; i < 3; ++i) {
        const nlohmann::json& part = value[static_cast<size_t>(i)];
        if (!part.is_number() || !std::isfinite(part.get<double>()) || part.get<double>() <= 0)
            refuse("resource_out_of_range", key, "three positive numbers are needed", "write [x, y, z] in mm");
        v[i] = part.get<double>();
    }
    return v;
}

std::vector<CatalogueEntry> CatalogueEntry::entries(const std::string& key) {
    const nlohmann::json& value = member(key);
    if (!value.is_array() || value.empty())
        refuse("resource_wrong_type", key, "a list with at least one object is needed", "write [{...}]");
    std::vector<CatalogueEntry> list;
    for (size_t i = 0; i < value.size(); ++i)
        list.emplace_back(value[i], file_,
                          (place_.empty() ? "" : place_ + ", ") + key + " no. " + std::to_string(i + 1), *sources_);
    return list;
}

std::string CatalogueEntry::sourceKeys(const std::string& key) {
    const std::string written = text(key);
    std::vector<std::string> known;
    for (const auto& [name, entry] : *sources_)
        known.push_back(name);
    for (const std::string& name : splitKeys(written))
        if (!sources_->contains(name)) {
            const std::string near = catalogue::nearestName(name, known);
            refuse("resource_source_unknown", key, "source '" + name + "' is not in sources.json",
                   near.empty() ? "add it there" : "add it there, or write '" + near + "'");
        }
    return written;
}

Figure CatalogueEntry::ownFigure(CatalogueUnit unit, CatalogueRange range) {
    const double value = number("value", range);
    double low = 0, high = 0;
    if (has("spread")) {
        if (has("low") || has("high"))
            refuse("resource_bounds_twice", "spread", "both a spread and bounds are given", "keep one of them");
        const double spread = number("spread", {0, 0.99});
        low = value * (1 - spread);
        high = value * (1 + spread);
    } else {
        low = number("low", range);
        high = number("high", range);
    }
    if (low > value || value > high)
        refuse("resource_bounds_unordered", "value", "low <= value <= high does not hold", "put the bounds in order");
    if (text("unit") != unit.text)
        refuse("resource_unit_wrong", "unit", "the unit is '" + text("unit") + "' and must be '" + unit.text + "'",
               "convert the figure");

    const std::string source = sourceKeys("source");
    const Status* status = statusOf(text("status"));
    if (!status)
        refuse("resource_status_unknown", "status", "status '" + text("status") + "' is not known",
               "use R, R2, M, M?, D, C or INV");
    std::string note;
    for (const std::string& key : splitKeys(source)) {
        if (!statusFits(key, status->code))
            refuse("resource_status_wrong", "status",
                   "status '" + std::string(status->code) + "' does not fit source '" + key + "'",
                   "name the source that was read, or mark the figure as what it is");
        if (!isStatusSource(key)) note += (note.empty() ? "" : ", ") + key;
    }
    note += (note.empty() ? "" : ", ") + std::string(status->words);
    if (has("remark")) note += "; " + text("remark");
    return Figure::bounded(value, low, high, unit.unit, status->origin, note);
}

Figure CatalogueEntry::figure(const std::string& key, CatalogueUnit unit, CatalogueRange range) {
    const nlohmann::json& value = member(key);
    CatalogueEntry entry(value, file_, (place_.empty() ? "" : place_ + ", ") + std::string("key '") + key + "'",
                         *sources_);
    const Figure figure = entry.ownFigure(unit, range);
    entry.finish();
    return figure;
}

std::optional<Figure> CatalogueEntry::optionalFigure(const std::string& key, CatalogueUnit unit, CatalogueRange range) {
    if (!has(key)) return std::nullopt;
    return figure(key, unit, range);
}

void CatalogueEntry::finish() const {
    const std::vector<std::string> known(asked_.begin(), asked_.end());
    for (const auto& [key, value] : object_->items()) {
        if (asked_.contains(key)) continue;
        const std::string near = catalogue::nearestName(key, known);
        refuse("resource_key_unknown", key, "the key is not known",
               near.empty() ? "remove it" : "did you mean '" + near + "'?");
    }
}

}  // namespace waybench
