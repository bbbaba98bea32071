#include "core/geometry/outline.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace waybench {

namespace {

constexpr double kChordError_mm = 0.005;

/// Points of `quarters` quarter turns from the quadrant's axis on, without the last one. Computed in one quadrant and
/// turned exactly, so that rounds are symmetric to the last bit.
void appendArc(Ring& points, const Vec2& centre, double radius_mm, int firstQuadrant, int quarters) {
    const int perQuarter = segmentsPerTurn(radius_mm) / 4;
    for (int q = firstQuadrant; q < firstQuadrant + quarters; ++q)
        for (int k = 0; k < perQuarter; ++k) {
            const double angle = k * (M_PI / 2) / perQuarter;
            double x = radius_mm * std::cos(angle), y = radius_mm * std::sin(angle);
            for (int turn = 0; turn < q % 4; ++turn) {
                const double previous = x;
                x = -y;
                y = previous;
            }
            points.emplace_back(centre.x() + x, centre.y() + y);
        }
}

OutlineRun arcRun(const std::string& name, const Vec2& centre, double radius_mm, int quarters) {
    OutlineRun run;
    run.name = name;
    run.edges = static_cast<std::size_t>(quarters * segmentsPerTurn(radius_mm) / 4);
    run.isArc = true;
    run.centre = centre;
    run.radius_mm = radius_mm;
    run.isFullTurn = quarters == 4;
    return run;
}

OutlineRun straightRun(const std::string& name) {
    OutlineRun run;
    run.name = name;
    return run;
}

}  // namespace

int segmentsPerTurn(double radius_mm) {
    if (!(radius_mm > kChordError_mm)) return 24;
    const int exact = static_cast<int>(std::ceil(M_PI / std::acos(1 - kChordError_mm / radius_mm)));
    return std::clamp((exact + 3) / 4 * 4, 24, 128);
}

Outline polygonal(const Ring& corners, const std::vector<std::string>& names) {
    if (corners.size() != names.size()) throw std::logic_error("one name per edge");
    Outline outline;
    outline.points = corners;
    for (const std::string& name : names)
        outline.runs.push_back(straightRun(name));
    return outline;
}

Outline circular(const std::string& name, const Vec2& centre, double radius_mm) {
    Outline outline;
    appendArc(outline.points, centre, radius_mm, 0, 4);
    outline.runs.push_back(arcRun(name, centre, radius_mm, 4));
    return outline;
}

Outline roundedRectangle(const Vec2& low, const Vec2& high, double radius_mm, const std::vector<std::string>& sides,
                         const std::string& corner) {
    const double r = std::max(0.0, radius_mm);
    const Vec2 corners[4] = {{high.x(), low.y()}, high, {low.x(), high.y()}, low};
    const Vec2 centres[4] = {{high.x() - r, low.y() + r},
                             {high.x() - r, high.y() - r},
                             {low.x() + r, high.y() - r},
                             {low.x() + r, low.y() + r}};
    const Vec2 starts[4] = {
        {low.x() + r, low.y()}, {high.x(), low.y() + r}, {high.x() - r, high.y()}, {low.x(), high.y() - r}};
    const double length[4] = {high.x() - low.x() - 2 * r, high.y() - low.y() - 2 * r, high.x() - low.x() - 2 * r,
                              high.y() - low.y() - 2 * r};
    Outline outline;
    for (int i = 0; i < 4; ++i) {
        if (length[i] > 1e-6) {
            outline.points.push_back(r > 0 ? starts[i] : corners[(i + 3) % 4]);
            outline.runs.push_back(straightRun(sides.at(static_cast<std::size_t>(i))));
        }
        if (r > 0) {
            appendArc(outline.points, centres[i], r, (i + 3) % 4, 1);
            outline.runs.push_back(arcRun(corner + " " + std::to_string(i + 1), centres[i], r, 1));
        }
    }
    return outline;
}

Outline slotted(const std::string& name, const Vec2& centre, double length_mm, double width_mm, bool alongX) {
    const double r = width_mm / 2, half = length_mm / 2 - r;
    Outline outline;
    const Vec2 way = alongX ? Vec2(half, 0) : Vec2(0, half), across = alongX ? Vec2(0, r) : Vec2(-r, 0);
    const char* names[2][4] = {{" side +x", " end +y", " side -x", " end -y"},
                               {" side -y", " end +x", " side +y", " end -x"}};
    const auto& called = names[alongX ? 1 : 0];
    for (int end = 0; end < 2; ++end) {
        const double sense = end == 0 ? 1 : -1;
        outline.points.push_back(centre - sense * way - sense * across);
        outline.runs.push_back(straightRun(name + called[2 * end]));
        const Vec2 middle = centre + sense * way;
        appendArc(outline.points, middle, r, (alongX ? 3 : 0) + 2 * end, 2);
        outline.runs.push_back(arcRun(name + called[2 * end + 1], middle, r, 2));
    }
    return outline;
}

}  // namespace waybench
