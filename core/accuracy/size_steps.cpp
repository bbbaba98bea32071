#include "core/accuracy/size_steps.h"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "core/fault/input_fault.h"

namespace waybench {

namespace {

[[noreturn]] void unreadable(const std::filesystem::path& file, const std::string& place, const std::string& problem) {
    throw InputFault("standard_unreadable", file.filename().string(), place, problem,
                     "restore the table from the installed program");
}

}  // namespace

SizeSteps::SizeSteps(std::vector<double> limits_mm) : limits_mm_(std::move(limits_mm)) {
    if (limits_mm_.size() < 2) throw std::logic_error("size steps need at least two limits");
    for (size_t i = 1; i < limits_mm_.size(); ++i)
        if (!(limits_mm_[i] > limits_mm_[i - 1])) throw std::logic_error("size steps must ascend");
}

std::optional<size_t> SizeSteps::stepOf(double size_mm, bool includesFirst) const {
    if (limits_mm_.empty() || !std::isfinite(size_mm)) return std::nullopt;
    if (includesFirst && size_mm == limits_mm_.front()) return 0;
    if (!(size_mm > limits_mm_.front())) return std::nullopt;
    for (size_t i = 1; i < limits_mm_.size(); ++i)
        if (size_mm <= limits_mm_[i]) return i - 1;
    return std::nullopt;
}

namespace standards {

nlohmann::json readTable(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    if (!stream) unreadable(file, "", "the table cannot be opened");
    nlohmann::json table = nlohmann::json::parse(stream, nullptr, false);
    if (table.is_discarded() || !table.is_object()) unreadable(file, "", "this is not a JSON object");
    return table;
}

SizeSteps readSteps(const nlohmann::json& table, const std::string& key, const std::filesystem::path& file) {
    if (!table.is_object() || !table.contains(key) || !table[key].is_array())
        unreadable(file, "key '" + key + "'", "a list of numbers is needed");
    std::vector<double> limits;
    for (const nlohmann::json& limit : table[key]) {
        if (!limit.is_number() || (!limits.empty() && !(limit.get<double>() > limits.back())))
            unreadable(file, "key '" + key + "'", "the limits must be ascending numbers");
        limits.push_back(limit.get<double>());
    }
    if (limits.size() < 2) unreadable(file, "key '" + key + "'", "at least two limits are needed");
    return SizeSteps(std::move(limits));
}

std::vector<std::optional<double>> readRow(const nlohmann::json& row, const std::string& key, size_t count,
                                           const std::filesystem::path& file) {
    if (!row.is_object() || !row.contains(key) || !row[key].is_array() || row[key].size() != count)
        unreadable(file, "key '" + key + "'", "one value per size step is needed");
    std::vector<std::optional<double>> values;
    for (const nlohmann::json& value : row[key]) {
        if (value.is_null()) {
            values.emplace_back();
            continue;
        }
        if (!value.is_number() || !(value.get<double>() > 0))
            unreadable(file, "key '" + key + "'", "a positive number or null is needed");
        values.emplace_back(value.get<double>());
    }
    return values;
}

}  // namespace standards

}  // namespace waybench
