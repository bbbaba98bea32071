#include "core/geometry/family/described_family.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "core/fault/input_fault.h"

namespace waybench {

namespace {

double distanceToSegment(const Vec2& p, const Vec2& a, const Vec2& b) {
    const Vec2 ab = b - a;
    const double square = ab.squaredNorm();
    const double s = square > 0 ? std::clamp((p - a).dot(ab) / square, 0.0, 1.0) : 0.0;
    return (p - a - s * ab).norm();
}

bool cross(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
    const auto side = [](const Vec2& p, const Vec2& q, const Vec2& r) {
        return (q.x() - p.x()) * (r.y() - p.y()) - (q.y() - p.y()) * (r.x() - p.x());
    };
    return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/// Limits are quoted rounded so that the quoted value itself passes.
double roundedDown(double limit) {
    return std::floor(limit * 100 + 1e-6) / 100;
}
double roundedUp(double limit) {
    return std::ceil(limit * 100 - 1e-6) / 100;
}

}  // namespace

std::string shortNumber(double value) {
    const double rounded = std::round(value * 1000) / 1000 + 0.0;
    char buffer[40];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, rounded).ptr;
    return {buffer, end};
}

double webBetween(const Opening& a, const Opening& b) {
    double distance = std::min({distanceToSegment(a.from, b.from, b.to), distanceToSegment(a.to, b.from, b.to),
                                distanceToSegment(b.from, a.from, a.to), distanceToSegment(b.to, a.from, a.to)});
    if (cross(a.from, a.to, b.from, b.to)) distance = 0;
    return distance - a.radius_mm - b.radius_mm;
}

const Dimension& DescribedFamily::dimension(const std::string& key) const {
    for (const Dimension& d : dimensions_)
        if (d.key == key) return d;
    throw std::logic_error("family " + key_ + " has no dimension " + key);
}

std::string DescribedFamily::described(const DimensionValues& values, const std::string& key) const {
    const Dimension& d = dimension(key);
    return d.label + " " + shortNumber(values.at(key)) + (d.unit == Unit::millimetre ? " mm" : "");
}

void DescribedFamily::conflict(const std::string& keyA, const std::string& keyB, const std::string& problem,
                               const std::string& remedy) const {
    throw InputFault("dimension_conflict", "", "'" + dimension(keyA).label + "' and '" + dimension(keyB).label + "'",
                     problem, remedy);
}

void DescribedFamily::requireAtMost(const DimensionValues& values, const std::string& key, double limit,
                                    const std::string& other, const std::string& why) const {
    if (values.at(key) <= limit + 1e-9) return;
    const std::string label = dimension(key).label;
    const double fits = roundedDown(limit);
    conflict(key, other, described(values, key) + " with " + described(values, other) + ": " + why,
             fits < dimension(key).minimum
                 ? "no " + label + " fits here; change the " + dimension(other).label
                 : label + " up to " + shortNumber(fits) + " fits, or change the " + dimension(other).label);
}

void DescribedFamily::requireAtLeast(const DimensionValues& values, const std::string& key, double limit,
                                     const std::string& other, const std::string& why) const {
    if (values.at(key) >= limit - 1e-9) return;
    const std::string label = dimension(key).label;
    const double fits = roundedUp(limit);
    conflict(key, other, described(values, key) + " with " + described(values, other) + ": " + why,
             fits > dimension(key).maximum
                 ? "no " + label + " fits here; change the " + dimension(other).label
                 : label + " from " + shortNumber(fits) + " on fits, or change the " + dimension(other).label);
}

void DescribedFamily::requireNoneOrAtLeast(const DimensionValues& values, const std::string& key, double least) const {
    const double value = values.at(key);
    if (value == 0 || value >= least) return;
    throw InputFault("dimension_out_of_range", "", "dimension '" + key + "'",
                     described(values, key) + " is too small to make",
                     "give 0 for none, or at least " + shortNumber(least) + " mm");
}

}  // namespace waybench
