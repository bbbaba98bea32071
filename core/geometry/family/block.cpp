#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

class Block : public DescribedFamily {
public:
    Block()
        : DescribedFamily(
              "block", "Stepped block",
              {{"length", "length", Unit::millimetre, 5, 500, 60, "over all, along x"},
               {"width", "width", Unit::millimetre, 2, 500, 40, "along y"},
               {"height", "height", Unit::millimetre, 2, 300, 30, "over all, along z"},
               {"step_length", "step length", Unit::millimetre, 0.5, 500, 25, "of the lower part, at the +x end"},
               {"step_height", "step height", Unit::millimetre, 0.5, 300, 12, "of the lower part"},
               {"bore_diameter", "bore diameter", Unit::millimetre, 0, 200, 8.5,
                "through the middle of the step, along z, 0 for none"}}) {}

    void check(const DimensionValues& v) const override {
        requireNoneOrAtLeast(v, "bore_diameter", 0.5);
        requireAtMost(v, "step_length", v.at("length") - 0.5, "length", "the step takes the whole block");
        requireAtMost(v, "step_height", v.at("height") - 0.1, "height", "the step is no lower than the block");
        if (v.at("bore_diameter") <= 0) return;
        requireAtMost(v, "bore_diameter", v.at("step_length") - 2 * kLeastWeb_mm, "step_length",
                      "the bore is wider than the step is long");
        requireAtMost(v, "bore_diameter", v.at("width") - 2 * kLeastWeb_mm, "width",
                      "the bore is as wide as the block");
    }

    Solid build(const DimensionValues& v) const override {
        const double l = v.at("length"), w = v.at("width"), h = v.at("height"), s = l - v.at("step_length"),
                     low = v.at("step_height");
        // Profile in x, z on the plane y = w, extruded towards -y (u x v = x × z = -y).
        const Outline profile = polygonal({{0, 0}, {l, 0}, {l, low}, {s, low}, {s, h}, {0, h}},
                                          {"bottom", "step end", "step top", "step wall", "top", "end -x"});
        const Frame upright{{0, w, 0}, Vec3::UnitX(), Vec3::UnitZ()};
        SurfaceBuilder builder;
        std::map<std::string, SurfaceBuilder::Holes> holes;
        if (v.at("bore_diameter") > 0) {
            const auto bore =
                builder.bore("bore", Frame{}, {l - v.at("step_length") / 2, w / 2}, v.at("bore_diameter") / 2, low);
            holes["bottom"].push_back(bore.begin);
            holes["step top"].push_back(bore.end);
        }
        builder.walls(profile, upright, w, false, holes);
        builder.flat("side +y", Vec3::UnitY(), upright.at(profile.points));
        builder.flat("side -y", -Vec3::UnitY(), upright.at(profile.points, w));
        return builder.finished();
    }
};

}  // namespace

const Family& blockFamily() {
    static const Block family;
    return family;
}

}  // namespace waybench
