#pragma once
#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

namespace waybench {

/// Ranges of size "over the lower, up to and including the upper limit", as the ISO tables have them. mm.
class SizeSteps {
public:
    SizeSteps() = default;
    /// @param limits ascending, at least two
    explicit SizeSteps(std::vector<double> limits_mm);
    /// The step a size falls in; nothing at or below the first limit, above the last, or when not finite.
    /// @param includesFirst the first limit itself belongs to the first step ("0.5 up to 3")
    std::optional<size_t> stepOf(double size_mm, bool includesFirst = false) const;
    size_t count() const { return limits_mm_.empty() ? 0 : limits_mm_.size() - 1; }
    const std::vector<double>& limits_mm() const { return limits_mm_; }

private:
    std::vector<double> limits_mm_;
};

namespace standards {
/// Reads a table of resources/standards. @throws InputFault "standard_unreadable" with the file's name
nlohmann::json readTable(const std::filesystem::path& file);
/// Ascending finite limits under a key. @throws InputFault "standard_unreadable"
SizeSteps readSteps(const nlohmann::json& table, const std::string& key, const std::filesystem::path& file);
/// A row of numbers, one per step; null becomes nothing. @throws InputFault "standard_unreadable"
std::vector<std::optional<double>> readRow(const nlohmann::json& row, const std::string& key, size_t count,
                                           const std::filesystem::path& file);
}  // namespace standards

}  // namespace waybench
