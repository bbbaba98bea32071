#include "core/geometry/import/dxf.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "core/fault/input_fault.h"
#include "core/geometry/import/dxf_contour.h"
#include "core/geometry/import/dxf_entities.h"
#include "core/geometry/import/dxf_tokens.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

using namespace dxf;

constexpr std::size_t kMostPoints = 1000000;
constexpr double kSmallest_mm = 0.5, kLargest_mm = 20000;

struct AppliedUnit {
    double mm = 1;
    std::string origin;
    bool isAssumed = false;
};

/// Group 70 of $INSUNITS in the DXF reference; only units of length a part can be drawn in.
AppliedUnit unitOf(const Drawing& drawing, double chosen_mm) {
    if (chosen_mm != 0) {
        if (!(chosen_mm > 0) || !std::isfinite(chosen_mm))
            throw InputFault("size_absurd", "", "unit", "the drawing unit is not above zero",
                             "enter mm per drawing unit");
        return {chosen_mm, "chosen"};
    }
    static const std::map<int, double> kUnits{{1, 25.4},   {2, 304.8},  {4, 1},     {5, 10},    {6, 1000}, {8, 25.4e-6},
                                              {9, 0.0254}, {10, 914.4}, {12, 1e-6}, {13, 1e-3}, {14, 100}};
    const auto found = drawing.header.find("$INSUNITS");
    if (found != drawing.header.end()) {
        const auto unit = kUnits.find(wholeNumberOf(found->second));
        if (unit != kUnits.end()) return {unit->second, "header $INSUNITS"};
    }
    return {1, "assumed mm: the file does not say", true};
}

std::vector<Chain> chainsOf(const std::vector<Path>& paths, double unit_mm, double chord_mm,
                            std::vector<std::string>& notes) {
    const Affine scale{Mat2(unit_mm * Mat2::Identity()), Vec2::Zero()};
    std::vector<Chain> chains;
    std::size_t points = 0, empty = 0;
    for (Path path : paths) {
        for (Curve& curve : path.curves)
            curve = moved(curve, scale);
        Chain chain = chainOf(path, chord_mm);
        if (chain.pieces.empty()) {
            ++empty;
            continue;
        }
        for (const Piece& piece : chain.pieces)
            points += piece.points.size();
        if (points > kMostPoints)
            throw InputFault("drawing_too_complex", "", "", "the drawing needs more than a million points",
                             "export only the profile of the part");
        chains.push_back(std::move(chain));
    }
    if (empty > 0) notes.push_back("left out: " + std::to_string(empty) + " entities without length");
    return chains;
}

void refuseEmpty(const std::vector<Chain>& chains) {
    if (chains.empty())
        throw InputFault("drawing_empty", "", "",
                         "there is no line, arc, circle, polyline, ellipse or spline in the drawing",
                         "export the profile of the part");
}

struct RingBox {
    Vec2 low, high;
    explicit RingBox(const Ring& ring) : low(ring.front()), high(ring.front()) {
        for (const Vec2& p : ring) {
            low = low.cwiseMin(p);
            high = high.cwiseMax(p);
        }
    }
    bool contains(const RingBox& o) const {
        return (low.array() <= o.low.array()).all() && (high.array() >= o.high.array()).all();
    }
    Vec2 middle() const { return 0.5 * (low + high); }
};

void refuseAbsurdSize(const RingBox& box, const AppliedUnit& unit) {
    const double size = (box.high - box.low).maxCoeff();
    if (size >= kSmallest_mm && size <= kLargest_mm) return;
    throw InputFault("size_absurd", "", "",
                     "the profile would be " + plainNumber(size) + " mm large (unit: " + unit.origin + ")",
                     "choose the unit of the drawing (mm per drawing unit)");
}

/// Indices of the contours, outline first. Contours do not cross, so one point decides what lies inside what.
std::vector<std::size_t> outlineAndHoles(const std::vector<Contour>& contours) {
    std::vector<std::size_t> order(contours.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<RingBox> boxes;
    std::vector<double> areas;
    for (const Contour& c : contours) {
        boxes.emplace_back(c.ring);
        areas.push_back(std::abs(signedArea(c.ring)));
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return areas[a] > areas[b]; });
    const auto isInside = [&](std::size_t inner, std::size_t outer) {
        return boxes[outer].contains(boxes[inner]) && contains(Region{contours[outer].ring}, contours[inner].ring[0]);
    };
    const std::size_t outline = order.front();
    for (std::size_t i = 1; i < order.size(); ++i) {
        int around = 0;
        for (std::size_t j = 0; j < i && around < 2; ++j)
            around += isInside(order[i], order[j]) ? 1 : 0;
        if (around == 1 && isInside(order[i], outline)) continue;
        const Vec2 place = boxes[order[i]].middle();
        throw InputFault("several_bodies", "", placeOf(contours[order[i]].line) + ", at " + textOf(place),
                         around == 0 ? "the drawing holds several separate bodies"
                                     : "a contour lies inside a hole, so the drawing holds several separate bodies",
                         "keep one part per drawing; a drawing frame around the part must be removed");
    }
    std::stable_sort(order.begin() + 1, order.end(),
                     [&](std::size_t a, std::size_t b) { return comesFirst(boxes[a].middle(), boxes[b].middle()); });
    return order;
}

Profile profileOf(const Drawing& drawing, double unit_mm, double tolerance_mm, double chord_mm) {
    Profile profile;
    const AppliedUnit unit = unitOf(drawing, unit_mm);
    profile.unit_mm = unit.mm;
    profile.unitOrigin = unit.origin;
    profile.isUnitAssumed = unit.isAssumed;
    std::vector<Chain> chains = chainsOf(placedPaths(drawing, profile.notes), unit.mm, chord_mm, profile.notes);
    refuseEmpty(chains);
    dropDuplicates(chains, profile.notes);
    std::vector<Ring> rings;
    std::vector<Contour> contours;
    const std::vector<Chain> closed = closedChains(std::move(chains), tolerance_mm, profile.notes);
    for (const Chain& chain : closed) {
        contours.push_back(contourOf(chain, true));
        if (contours.back().ring.size() < 3)
            throw InputFault("contour_crosses_itself", "", placeOf(chain.line) + " (" + chain.entity + ")",
                             "the contour encloses no area", "remove the entity, or draw the whole contour");
        rings.push_back(contours.back().ring);
    }
    refuseCrossings(rings);
    const std::vector<std::size_t> order = outlineAndHoles(contours);
    refuseAbsurdSize(RingBox(rings[order.front()]), unit);
    for (std::size_t i = 0; i < order.size(); ++i) {
        Contour contour = i == 0 ? contours[order[i]] : contourOf(closed[order[i]], false);
        profile.region.push_back(std::move(contour.ring));
        profile.runs.push_back(std::move(contour.runs));
    }
    return profile;
}

DrawingMeasure measureOf(const Drawing& drawing) {
    // As if drawn in inches: chords then follow an arc closely enough in a drawing of metres as well as of millimetres.
    constexpr double kFine = 25.4, kChord = 0.005;
    std::vector<std::string> notes;
    const std::vector<Chain> chains = chainsOf(placedPaths(drawing, notes), kFine, kChord, notes);
    refuseEmpty(chains);
    Ring all;
    for (const Chain& chain : chains)
        for (const Piece& piece : chain.pieces)
            all.insert(all.end(), piece.points.begin(), piece.points.end());
    const RingBox box(all);
    return {!unitOf(drawing, 0).isAssumed, (box.high - box.low) / kFine};
}

}  // namespace

DrawingMeasure measuredDxf(std::istream& in, const std::string& fileName) {
    try {
        const std::string text = readText(in);
        Groups groups(text);
        return measureOf(readDrawing(groups));
    } catch (const InputFault& fault) {
        throw fault.inFile(fileName);
    }
}

Profile readDxf(std::istream& in, const std::string& fileName, double unit_mm, double tolerance_mm, double chord_mm) {
    try {
        const std::string text = readText(in);
        Groups groups(text);
        return profileOf(readDrawing(groups), unit_mm, tolerance_mm, chord_mm);
    } catch (const InputFault& fault) {
        throw fault.inFile(fileName);
    }
}

}  // namespace waybench
