#include "core/geometry/import/dxf_contour.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace waybench::dxf {

namespace {

constexpr double kSameCircle_mm = 1e-3;
constexpr double kSameDirection = 1e-6;  // rad

bool isSameLine(const Piece& before, const Piece& behind) {
    const Vec2 a = (before.points.back() - before.points.front()).normalized();
    const Vec2 b = (behind.points.back() - behind.points.front()).normalized();
    return std::abs(a.x() * b.y() - a.y() * b.x()) < kSameDirection && a.dot(b) > 0;
}

bool isSameCircle(const Piece& before, const Piece& behind) {
    return before.isCounterClockwise == behind.isCounterClockwise &&
           (before.centre - behind.centre).norm() < kSameCircle_mm &&
           std::abs(before.radius_mm - behind.radius_mm) < kSameCircle_mm;
}

bool isOneRun(const Piece& before, const Piece& behind) {
    if (before.kind != behind.kind || before.kind == Piece::Kind::free) return false;
    return before.kind == Piece::Kind::line ? isSameLine(before, behind) : isSameCircle(before, behind);
}

ContourRun runOf(const Piece& piece, std::size_t first) {
    ContourRun run;
    run.first = first;
    if (piece.kind == Piece::Kind::line) return run;
    if (piece.kind == Piece::Kind::free) {
        run.kind = SurfaceKind::other;
        return run;
    }
    run.kind = SurfaceKind::cylinder;
    run.centre = piece.centre;
    run.radius_mm = piece.radius_mm;
    run.isHollow = !piece.isCounterClockwise;  // material lies on the left, so a clockwise arc is seen from its centre
    run.isFullTurn = piece.isFullTurn;
    return run;
}

double signedAreaOf(const std::vector<Piece>& pieces) {
    Ring ring;
    for (const Piece& piece : pieces)
        ring.insert(ring.end(), piece.points.begin(), piece.points.end() - 1);
    return signedArea(ring);
}

}  // namespace

bool comesFirst(const Vec2& a, const Vec2& b) {
    // Whole steps, not a tolerance, so that the order is a strict weak one.
    constexpr double kStep_mm = 1e-3;
    const double ax = std::round(a.x() / kStep_mm), bx = std::round(b.x() / kStep_mm);
    return ax != bx ? ax < bx : a.y() < b.y();
}

Contour contourOf(const Chain& chain, bool counterClockwise) {
    std::vector<Piece> pieces = chain.pieces;
    if ((signedAreaOf(pieces) > 0) != counterClockwise) {
        std::reverse(pieces.begin(), pieces.end());
        for (Piece& piece : pieces)
            piece = reversed(piece);
    }
    const std::size_t n = pieces.size();
    std::vector<std::size_t> starts;  // pieces that begin a run
    for (std::size_t i = 0; i < n; ++i)
        if (n == 1 || !isOneRun(pieces[(i + n - 1) % n], pieces[i])) starts.push_back(i);
    const bool isOneCircle = starts.empty();
    if (isOneCircle) starts.push_back(0);
    std::size_t begin = starts.front();
    for (const std::size_t s : starts)
        if (comesFirst(pieces[s].points.front(), pieces[begin].points.front())) begin = s;
    std::rotate(pieces.begin(), pieces.begin() + static_cast<std::ptrdiff_t>(begin), pieces.end());

    Contour contour;
    contour.line = chain.line;
    for (std::size_t i = 0; i < n; ++i) {
        if (i == 0 || !isOneRun(pieces[i - 1], pieces[i]))
            contour.runs.push_back(runOf(pieces[i], contour.ring.size()));
        contour.ring.insert(contour.ring.end(), pieces[i].points.begin(), pieces[i].points.end() - 1);
    }
    if (isOneCircle && pieces.front().kind == Piece::Kind::arc) contour.runs.front().isFullTurn = true;
    return contour;
}

}  // namespace waybench::dxf
