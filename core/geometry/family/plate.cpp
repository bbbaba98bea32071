#include <algorithm>
#include <cmath>

#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

class Plate : public DescribedFamily {
public:
    Plate()
        : DescribedFamily(
              "plate", "Plate with holes and slots",
              {{"length", "length", Unit::millimetre, 5, 1000, 120, "along x"},
               {"width", "width", Unit::millimetre, 5, 1000, 80, "along y"},
               {"thickness", "thickness", Unit::millimetre, 0.5, 100, 8, "along z"},
               {"corner_radius", "corner radius", Unit::millimetre, 0, 200, 6,
                "of the four upright edges, 0 for sharp"},
               {"holes_along_length", "holes along length", Unit::none, 0, 20, 2, "columns of the hole grid"},
               {"holes_along_width", "holes along width", Unit::none, 0, 20, 2, "rows of the hole grid"},
               {"hole_diameter", "hole diameter", Unit::millimetre, 0.5, 200, 6.6, "of every hole of the grid"},
               {"edge_distance", "edge distance", Unit::millimetre, 0.5, 200, 12,
                "from the edges to the centres of the outer holes"},
               {"bore_diameter", "bore diameter", Unit::millimetre, 0, 500, 30, "bore in the middle, 0 for none"},
               {"slot_count", "number of slots", Unit::none, 0, 12, 0, "spread along the length, each across it"},
               {"slot_length", "slot length", Unit::millimetre, 1, 500, 24, "over all, along y"},
               {"slot_width", "slot width", Unit::millimetre, 0.5, 100, 6.6, "of every slot"}}) {}

    void check(const DimensionValues& v) const override {
        const double length = v.at("length"), width = v.at("width");
        requireNoneOrAtLeast(v, "corner_radius", 0.1);
        requireNoneOrAtLeast(v, "bore_diameter", 0.5);
        requireAtMost(v, "corner_radius", std::min(length, width) / 2, length < width ? "length" : "width",
                      "the rounds of two corners meet");
        if (v.at("slot_count") > 0)
            requireAtLeast(v, "slot_length", v.at("slot_width") + 0.1, "slot_width",
                           "a slot must be longer than it is wide");
        checkPairs(v);
        checkEdges(v);
    }

    Solid build(const DimensionValues& v) const override {
        const Outline outline = roundedRectangle({0, 0}, {v.at("length"), v.at("width")}, v.at("corner_radius"),
                                                 {"side -y", "side +x", "side +y", "side -x"}, "corner");
        std::vector<Outline> through;
        for (const Opening& o : openingsOf(v)) {
            if (o.from == o.to)
                through.push_back(circular(o.name, o.from, o.radius_mm));
            else
                through.push_back(
                    slotted(o.name, 0.5 * (o.from + o.to), v.at("slot_length"), v.at("slot_width"), false));
        }
        SurfaceBuilder builder;
        builder.plate(outline, through, Frame{}, v.at("thickness"), "bottom", "top");
        return builder.finished();
    }

private:
    static std::vector<Opening> openingsOf(const DimensionValues& v) {
        const double length = v.at("length"), width = v.at("width"), edge = v.at("edge_distance");
        std::vector<Opening> openings;
        const auto place = [&](int index, int count, double size) {
            return count == 1 ? size / 2 : edge + (size - 2 * edge) * index / (count - 1);
        };
        const int columns = static_cast<int>(v.at("holes_along_length")),
                  rows = static_cast<int>(v.at("holes_along_width"));
        int number = 0;
        for (int i = 0; i < columns; ++i)
            for (int j = 0; j < rows; ++j) {
                const Vec2 at(place(i, columns, length), place(j, rows, width));
                openings.push_back({"hole " + std::to_string(++number), "hole_diameter", "edge_distance", at, at,
                                    v.at("hole_diameter") / 2});
            }
        if (v.at("bore_diameter") > 0) {
            const Vec2 middle(length / 2, width / 2);
            openings.push_back({"bore", "bore_diameter", length < width ? "length" : "width", middle, middle,
                                v.at("bore_diameter") / 2});
        }
        const int slots = static_cast<int>(v.at("slot_count"));
        const double half = (v.at("slot_length") - v.at("slot_width")) / 2;
        for (int i = 0; i < slots; ++i) {
            const Vec2 middle(length * (i + 1) / (slots + 1), width / 2), way(0, half);
            openings.push_back({"slot " + std::to_string(i + 1), "slot_length", "width", middle - way, middle + way,
                                v.at("slot_width") / 2});
        }
        return openings;
    }

    /// Material between an opening and the rounded outline, mm.
    static double webToEdge(const Opening& o, const DimensionValues& v) {
        const double length = v.at("length"), width = v.at("width"), radius = v.at("corner_radius");
        const auto inside = [&](const Vec2& p) {
            const Vec2 q = (p - Vec2(length / 2, width / 2)).cwiseAbs() - Vec2(length / 2 - radius, width / 2 - radius);
            return radius - q.cwiseMax(0.0).norm() - std::min(q.maxCoeff(), 0.0);
        };
        return std::min(inside(o.from), inside(o.to)) - o.radius_mm;
    }

    void checkPairs(const DimensionValues& v) const {
        const std::vector<Opening> openings = openingsOf(v);
        for (std::size_t i = 0; i < openings.size(); ++i)
            for (std::size_t j = i + 1; j < openings.size(); ++j) {
                // The grid and the bore come first in the list, so that a is round unless both are slots.
                const Opening &a = openings[i], &b = openings[j];
                const double missing = kLeastWeb_mm - webBetween(a, b);
                if (missing <= 0) continue;
                const std::string why = a.name + " and " + b.name + " run into each other";
                if (a.sizeKey == "slot_length")
                    requireAtMost(v, "slot_width", v.at("slot_width") - missing, "slot_count", why);
                else if (a.sizeKey == b.sizeKey)
                    requireAtMost(v, a.sizeKey, v.at(a.sizeKey) - missing, pitchKey(a, b), why);
                else
                    requireAtMost(v, a.sizeKey, v.at(a.sizeKey) - 2 * missing, b.sizeKey, why);
            }
    }

    void checkEdges(const DimensionValues& v) const {
        for (const Opening& o : openingsOf(v)) {
            const double missing = kLeastWeb_mm - webToEdge(o, v);
            if (missing <= 0) continue;
            const std::string why = o.name + " comes too near to the edge of the plate";
            if (o.sizeKey == "slot_length")
                requireAtMost(v, "slot_length", longestSlot(v), "width", why);
            else
                requireAtMost(v, o.sizeKey, v.at(o.sizeKey) - 2 * missing, o.placeKey, why);
        }
    }

    /// Longest slot that stays clear of the outline, 0 if none does.
    static double longestSlot(DimensionValues v) {
        double fits = v.at("slot_width") + 0.1, fails = v.at("slot_length");
        const auto clear = [&](double length) {
            v["slot_length"] = length;
            for (const Opening& o : openingsOf(v))
                if (o.sizeKey == "slot_length" && webToEdge(o, v) < kLeastWeb_mm) return false;
            return true;
        };
        if (!clear(fits)) return 0;
        for (int i = 0; i < 50; ++i)
            (clear(0.5 * (fits + fails)) ? fits : fails) = 0.5 * (fits + fails);
        return fits;
    }

    static std::string pitchKey(const Opening& a, const Opening& b) {
        const Vec2 gap = (a.from - b.from).cwiseAbs();
        return gap.x() > gap.y() ? "holes_along_length" : "holes_along_width";
    }
};

}  // namespace

const Family& plateFamily() {
    static const Plate family;
    return family;
}

}  // namespace waybench
