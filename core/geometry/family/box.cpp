#include <algorithm>

#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

class Box : public DescribedFamily {
public:
    Box()
        : DescribedFamily("box", "Open box",
                          {{"length", "length", Unit::millimetre, 5, 1000, 100, "over all, along x"},
                           {"width", "width", Unit::millimetre, 5, 1000, 60, "over all, along y"},
                           {"height", "height", Unit::millimetre, 2, 500, 40, "over all, along z; open at the top"},
                           {"thickness", "wall thickness", Unit::millimetre, 0.8, 100, 3, "of the four walls"},
                           {"floor_thickness", "floor thickness", Unit::millimetre, 0.8, 100, 3, "of the floor"}}) {}

    void check(const DimensionValues& v) const override {
        const std::string narrow = v.at("length") < v.at("width") ? "length" : "width";
        requireAtMost(v, "thickness", (v.at(narrow) - 1) / 2, narrow, "the walls fill the box");
        requireAtMost(v, "floor_thickness", v.at("height") - 0.5, "height", "the floor fills the box");
    }

    Solid build(const DimensionValues& v) const override {
        const double l = v.at("length"), w = v.at("width"), h = v.at("height"), t = v.at("thickness"),
                     f = v.at("floor_thickness");
        const auto rectangle = [](const Vec2& low, const Vec2& high, const std::string& side) {
            return roundedRectangle(low, high, 0,
                                    {"wall -y " + side, "wall +x " + side, "wall +y " + side, "wall -x " + side}, "");
        };
        const Outline outside = rectangle({0, 0}, {l, w}, "outside"),
                      inside = rectangle({t, t}, {l - t, w - t}, "inside");
        const Frame onFloor{{0, 0, f}, Vec3::UnitX(), Vec3::UnitY()};
        SurfaceBuilder builder;
        builder.walls(outside, Frame{}, h, false);
        builder.walls(inside, onFloor, h - f, true);
        builder.flat("bottom", -Vec3::UnitZ(), Frame{}.at(outside.points));
        builder.flat("floor", Vec3::UnitZ(), onFloor.at(inside.points));
        builder.flat("rim", Vec3::UnitZ(), Frame{}.at(outside.points, h), {onFloor.at(inside.points, h - f)});
        return builder.finished();
    }
};

}  // namespace

const Family& boxFamily() {
    static const Box family;
    return family;
}

}  // namespace waybench
