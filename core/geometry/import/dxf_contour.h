#pragma once
#include <string>
#include <vector>

#include "core/geometry/import/dxf.h"
#include "core/geometry/import/dxf_curve.h"

namespace waybench::dxf {

/// A path as pieces joined end to end; mm.
struct Chain {
    std::vector<Piece> pieces;
    bool isClosed = false;
    std::size_t line = 0;
    std::string entity;

    const Vec2& front() const { return pieces.front().points.front(); }
    const Vec2& back() const { return pieces.back().points.back(); }
};

/// Points of a path, without stretches of no length. Empty when nothing is left. @throws InputFault "size_absurd"
Chain chainOf(const Path& path, double chord_mm);

/// Drops chains that are drawn twice (same points within 0.001 mm, either direction) and says so in notes.
void dropDuplicates(std::vector<Chain>& chains, std::vector<std::string>& notes);

/// Joins chains at their ends into closed ones: first ends that coincide, then the nearest free ends within
/// tolerance_mm. Notes say which gaps were closed.
/// @throws InputFault "contour_open" with the largest gap and its place, "contour_branches"
std::vector<Chain> closedChains(std::vector<Chain> chains, double tolerance_mm, std::vector<std::string>& notes);

/// A closed chain as ring and runs, neighbouring pieces of one line or circle merged, counter-clockwise or clockwise
/// as asked, starting at the run whose first point has the smallest x, then y.
struct Contour {
    Ring ring;
    std::vector<ContourRun> runs;
    std::size_t line = 0;
};
Contour contourOf(const Chain& chain, bool counterClockwise);

/// Positions in order of x, then y, where x within 0.001 mm is the same, so that rounding in a file changes no order.
bool comesFirst(const Vec2& a, const Vec2& b);

/// @throws InputFault "contour_crosses_itself" with the place where two segments of the contours meet
void refuseCrossings(const std::vector<Ring>& rings);

std::string textOf(const Vec2& place);  ///< "(12.5 40)", mm

}  // namespace waybench::dxf
