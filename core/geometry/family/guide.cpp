#include <algorithm>

#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

/// The duct is wider than its two mouths: no straight cutter reaches its walls, so the body can only be built up.
class Guide : public DescribedFamily {
public:
    Guide()
        : DescribedFamily(
              "guide", "Cable guide block with inner duct",
              {{"length", "length", Unit::millimetre, 10, 500, 80, "along x"},
               {"width", "width", Unit::millimetre, 6, 300, 44, "along y"},
               {"height", "height", Unit::millimetre, 4, 200, 22, "along z"},
               {"duct_width", "duct width", Unit::millimetre, 1, 280, 18, "of the inner duct, along y"},
               {"duct_height", "duct height", Unit::millimetre, 1, 190, 12, "of the inner duct, along z"},
               {"end_thickness", "end thickness", Unit::millimetre, 0.8, 200, 6, "of the walls that hold the mouths"},
               {"mouth_diameter", "mouth diameter", Unit::millimetre, 0.5, 190, 6, "of the round opening at each end"},
               {"mounting_diameter", "mounting hole diameter", Unit::millimetre, 0, 100, 5.5,
                "of the two holes along z beside the duct, 0 for none"}}) {}

    void check(const DimensionValues& v) const override {
        requireNoneOrAtLeast(v, "mounting_diameter", 0.5);
        requireAtMost(v, "duct_width", v.at("width") - 2 * kLeastWeb_mm, "width", "the duct breaks through the sides");
        requireAtMost(v, "duct_height", v.at("height") - 2 * kLeastWeb_mm, "height",
                      "the duct breaks through top and bottom");
        requireAtMost(v, "end_thickness", (v.at("length") - 1) / 2, "length", "the end walls leave no duct");
        const std::string narrow = v.at("duct_width") < v.at("duct_height") ? "duct_width" : "duct_height";
        requireAtMost(v, "mouth_diameter", v.at(narrow) - 0.2, narrow, "a mouth must be narrower than the duct");
        if (v.at("mounting_diameter") <= 0) return;
        requireAtMost(v, "mounting_diameter", (v.at("width") - v.at("duct_width")) / 2 - 2 * kLeastWeb_mm, "duct_width",
                      "the mounting holes run into the duct or the sides");
        requireAtMost(v, "mounting_diameter", v.at("length") - 2 * kLeastWeb_mm, "length",
                      "the mounting holes are as long as the block");
    }

    Solid build(const DimensionValues& v) const override {
        const double l = v.at("length"), w = v.at("width"), h = v.at("height"), end = v.at("end_thickness");
        const Vec2 middle(w / 2, h / 2), half(v.at("duct_width") / 2, v.at("duct_height") / 2);
        const Outline outside = polygonal({{0, 0}, {l, 0}, {l, w}, {0, w}}, {"side -y", "end +x", "side +y", "end -x"});
        const Outline duct = roundedRectangle(middle - half, middle + half, 0,
                                              {"duct floor", "duct wall +y", "duct ceiling", "duct wall -y"}, "");
        const Frame first{Vec3::Zero(), Vec3::UnitY(), Vec3::UnitZ()}, inner{{end, 0, 0}, Vec3::UnitY(), Vec3::UnitZ()},
            last{{l - end, 0, 0}, Vec3::UnitY(), Vec3::UnitZ()};
        SurfaceBuilder builder;
        const double r = v.at("mouth_diameter") / 2;
        const auto mouth1 = builder.bore("mouth -x", first, middle, r, end);
        const auto mouth2 = builder.bore("mouth +x", last, middle, r, end);
        builder.walls(duct, inner, l - 2 * end, true);
        builder.flat("duct end -x", Vec3::UnitX(), inner.at(duct.points), {mouth1.end});
        builder.flat("duct end +x", -Vec3::UnitX(), inner.at(duct.points, l - 2 * end), {mouth2.begin});
        builder.walls(outside, Frame{}, h, false, {{"end -x", {mouth1.begin}}, {"end +x", {mouth2.end}}});
        SurfaceBuilder::Holes below, above;
        if (v.at("mounting_diameter") > 0)
            for (int i = 0; i < 2; ++i) {
                const double beside = (w - v.at("duct_width")) / 4;
                const auto hole = builder.bore("mounting hole " + std::to_string(i + 1), Frame{},
                                               {l / 2, i == 0 ? beside : w - beside}, v.at("mounting_diameter") / 2, h);
                below.push_back(hole.begin);
                above.push_back(hole.end);
            }
        builder.flat("bottom", -Vec3::UnitZ(), Frame{}.at(outside.points), below);
        builder.flat("top", Vec3::UnitZ(), Frame{}.at(outside.points, h), above);
        return builder.finished();
    }
};

}  // namespace

const Family& guideFamily() {
    static const Guide family;
    return family;
}

}  // namespace waybench
