#pragma once
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/bench/shop.h"

namespace waybench {

/// A unit as the resource files write it and the unit the figure carries inside.
struct CatalogueUnit {
    const char* text;  ///< "g/cm3"
    Unit unit = Unit::none;
};

/// Closed interval a figure's bounds must lie in. Nothing in the workshop tables is negative.
struct CatalogueRange {
    double least = 0, most = 1e12;
};
inline constexpr CatalogueRange kPositive{1e-12, 1e12};
inline constexpr CatalogueRange kNotNegative{0, 1e12};
inline constexpr CatalogueRange kShare{0, 1};
inline constexpr CatalogueRange kPositiveShare{1e-6, 1};

/// One JSON object of a resource file, read key by key. Every complaint carries the file and the place in it.
///
/// Ask for every key the object may have, then call finish(): keys nobody asked for are refused with the nearest
/// known name, so that a slip of the pen can never pass as a default.
class CatalogueEntry {
public:
    /// @param sources the known source keys; the object must outlive the entry
    CatalogueEntry(const nlohmann::json& object, std::string file, std::string place,
                   const std::map<std::string, SourceEntry>& sources);

    bool has(const std::string& key);
    std::string text(const std::string& key);  ///< not empty
    std::vector<std::string> texts(const std::string& key);
    bool flag(const std::string& key);
    int count(const std::string& key);  ///< whole, >= 0
    double number(const std::string& key, CatalogueRange range = kPositive);
    Vec3 triple(const std::string& key);                          ///< three positive numbers
    std::vector<CatalogueEntry> entries(const std::string& key);  ///< array of objects
    /// {"value","low","high"|"spread","unit","source","status"[,"remark"]}; note = sources and status in words.
    Figure figure(const std::string& key, CatalogueUnit unit, CatalogueRange range = kPositive);
    std::optional<Figure> optionalFigure(const std::string& key, CatalogueUnit unit, CatalogueRange range = kPositive);
    /// The figure whose keys stand in this object itself, beside others.
    Figure ownFigure(CatalogueUnit unit, CatalogueRange range = kPositive);
    /// One or more source keys separated by ", ", all known. @return as written
    std::string sourceKeys(const std::string& key);

    void finish() const;
    [[noreturn]] void refuse(const std::string& code, const std::string& key, const std::string& problem,
                             const std::string& remedy) const;
    const std::string& file() const { return file_; }

private:
    const nlohmann::json& member(const std::string& key);

    const nlohmann::json* object_;
    std::string file_, place_;
    const std::map<std::string, SourceEntry>* sources_;
    std::set<std::string> asked_;
};

/// Parses a file. @throws InputFault "resource_missing", "resource_unreadable" (with the byte), "resource_key_twice"
nlohmann::json readJsonFile(const std::filesystem::path& path, const std::string& shownName);

namespace catalogue {
/// The candidate with the smallest edit distance to text, empty when none is near (more than half of it wrong).
std::string nearestName(const std::string& text, const std::vector<std::string>& candidates);
}  // namespace catalogue

}  // namespace waybench
