#pragma once
#include <string>
#include <utility>
#include <vector>

#include "core/geometry/shape.h"

namespace waybench {

/// A family that states its key, title and dimensions once, in its constructor.
class DescribedFamily : public Family {
public:
    DescribedFamily(std::string key, std::string title, std::vector<Dimension> dimensions)
        : key_(std::move(key)), title_(std::move(title)), dimensions_(std::move(dimensions)) {}
    std::string key() const override { return key_; }
    std::string title() const override { return title_; }
    const std::vector<Dimension>& dimensions() const override { return dimensions_; }

protected:
    /// "wall thickness 3 mm", for messages.
    std::string described(const DimensionValues& values, const std::string& key) const;
    /// @throws InputFault "dimension_conflict" with place "'a' and 'b'"
    [[noreturn]] void conflict(const std::string& keyA, const std::string& keyB, const std::string& problem,
                               const std::string& remedy) const;
    /// Conflict unless values[key] <= limit: the remedy names the largest value that fits beside the other dimension.
    void requireAtMost(const DimensionValues& values, const std::string& key, double limit, const std::string& other,
                       const std::string& why) const;
    /// Conflict unless values[key] >= limit.
    void requireAtLeast(const DimensionValues& values, const std::string& key, double limit, const std::string& other,
                        const std::string& why) const;
    /// For dimensions where 0 leaves the feature out. @throws InputFault "dimension_out_of_range"
    void requireNoneOrAtLeast(const DimensionValues& values, const std::string& key, double least) const;

private:
    const Dimension& dimension(const std::string& key) const;

    std::string key_, title_;
    std::vector<Dimension> dimensions_;
};

/// Least material left between two openings, or between an opening and an edge. Common practice, no source.
inline constexpr double kLeastWeb_mm = 0.5;

/// Value as people write it, at most three decimals: "17.5".
std::string shortNumber(double value);

/// A round hole (from == to) or a slot in a flat face, with the dimensions that set its size and its place.
struct Opening {
    std::string name, sizeKey, placeKey;
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();
    double radius_mm = 0;
};
/// Material between two openings, mm; negative where they overlap.
double webBetween(const Opening& a, const Opening& b);

const Family& plateFamily();
const Family& bracketFamily();
const Family& channelFamily();
const Family& boxFamily();
const Family& barFamily();
const Family& armFamily();
const Family& blockFamily();
const Family& guideFamily();

}  // namespace waybench
