#include <cmath>

#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

class Bracket : public DescribedFamily {
public:
    Bracket()
        : DescribedFamily(
              "bracket", "Angle bracket with gusset and holes",
              {{"base_length", "base length", Unit::millimetre, 5, 500, 60, "of the lying leg, along x"},
               {"upright_height", "upright height", Unit::millimetre, 5, 500, 60, "of the standing leg, along z"},
               {"width", "width", Unit::millimetre, 4, 500, 40, "along y"},
               {"thickness", "thickness", Unit::millimetre, 0.8, 100, 6, "of both legs"},
               {"gusset_thickness", "gusset thickness", Unit::millimetre, 0, 100, 5,
                "of the rib in the middle of the corner, 0 for none"},
               {"gusset_leg", "gusset leg", Unit::millimetre, 0.5, 400, 25, "how far the rib reaches along each leg"},
               {"hole_diameter", "hole diameter", Unit::millimetre, 0.5, 200, 6.6, "of every hole"},
               {"holes_per_leg", "holes per leg", Unit::none, 0, 12, 2, "side by side along the width of each leg"},
               {"hole_distance", "hole distance", Unit::millimetre, 0.5, 400, 15,
                "from the free end of each leg to its holes"}}) {}

    void check(const DimensionValues& v) const override {
        requireNoneOrAtLeast(v, "gusset_thickness", 0.4);
        const double t = v.at("thickness"), width = v.at("width"), distance = v.at("hole_distance");
        const double gusset = v.at("gusset_thickness"), leg = v.at("gusset_leg"), hole = v.at("hole_diameter");
        const double base = v.at("base_length"), height = v.at("upright_height");
        const std::string shorter = base < height ? "base_length" : "upright_height";
        const double shortLeg = std::min(base, height);
        requireAtMost(v, "thickness", shortLeg - 1, shorter, "the leg is no longer than the other is thick");
        if (gusset > 0) {
            requireAtMost(v, "gusset_thickness", width - 2 * kLeastWeb_mm, "width",
                          "the gusset is as wide as the legs");
            requireAtMost(v, "gusset_leg", shortLeg - t - kLeastWeb_mm, shorter, "the gusset reaches past the leg");
        }
        const int count = static_cast<int>(v.at("holes_per_leg"));
        if (count == 0) return;
        requireAtMost(v, "hole_diameter", width / count - kLeastWeb_mm, count > 1 ? "holes_per_leg" : "width",
                      "the holes run into each other or into the sides");
        requireAtMost(v, "hole_diameter", 2 * (distance - kLeastWeb_mm), "hole_distance",
                      "the holes break through the end of the leg");
        requireAtMost(v, "hole_distance", shortLeg - t - hole / 2 - kLeastWeb_mm, shorter,
                      "the holes run into the corner");
        if (gusset <= 0) return;
        for (int i = 0; i < count; ++i) {
            const double aside = std::abs(width * (2 * i + 1) / (2 * count) - width / 2);
            const Vec2 gap(std::max(0.0, aside - gusset / 2), std::max(0.0, shortLeg - distance - t - leg));
            if (gap.norm() - hole / 2 >= kLeastWeb_mm) continue;
            if (gap.x() <= 0)
                requireAtMost(v, "gusset_leg", shortLeg - distance - t - hole / 2 - kLeastWeb_mm, "hole_distance",
                              "a hole runs into the gusset");
            else
                requireAtMost(v, "hole_diameter", 2 * (gap.norm() - kLeastWeb_mm), "gusset_thickness",
                              "a hole runs into the gusset");
        }
    }

    Solid build(const DimensionValues& v) const override {
        const double l = v.at("base_length"), h = v.at("upright_height"), w = v.at("width"), t = v.at("thickness");
        const double leg = v.at("gusset_leg"), y1 = (w - v.at("gusset_thickness")) / 2, y2 = w - y1;
        const bool hasGusset = v.at("gusset_thickness") > 0;
        SurfaceBuilder builder;
        SurfaceBuilder::Holes bottom, top, back, front;
        const int count = static_cast<int>(v.at("holes_per_leg"));
        const Frame lying{};                                               // x, y; normal +z
        const Frame standing{Vec3::Zero(), Vec3::UnitY(), Vec3::UnitZ()};  // y, z; normal +x
        for (int i = 0; i < count; ++i) {
            const double y = w * (2 * i + 1) / (2 * count), r = v.at("hole_diameter") / 2, d = v.at("hole_distance");
            const std::string number = std::to_string(i + 1);
            const auto down = builder.bore("base bore " + number, lying, {l - d, y}, r, t);
            bottom.push_back(down.begin);
            top.push_back(down.end);
            const auto through = builder.bore("upright bore " + number, standing, {y, h - d}, r, t);
            back.push_back(through.begin);
            front.push_back(through.end);
        }
        builder.flat("base bottom", -Vec3::UnitZ(), {{0, 0, 0}, {l, 0, 0}, {l, w, 0}, {0, w, 0}}, bottom);
        builder.flat("upright back", -Vec3::UnitX(), {{0, 0, 0}, {0, w, 0}, {0, w, h}, {0, 0, h}}, back);
        builder.flat("base end", Vec3::UnitX(), {{l, 0, 0}, {l, w, 0}, {l, w, t}, {l, 0, t}});
        builder.flat("upright top", Vec3::UnitZ(), {{0, 0, h}, {t, 0, h}, {t, w, h}, {0, w, h}});
        builder.flat("side -y", -Vec3::UnitY(), {{0, 0, 0}, {l, 0, 0}, {l, 0, t}, {t, 0, t}, {t, 0, h}, {0, 0, h}});
        builder.flat("side +y", Vec3::UnitY(), {{0, w, 0}, {l, w, 0}, {l, w, t}, {t, w, t}, {t, w, h}, {0, w, h}});
        SpaceRing baseTop{{t, 0, t}, {l, 0, t}, {l, w, t}, {t, w, t}};
        SpaceRing uprightFront{{t, 0, t}, {t, w, t}, {t, w, h}, {t, 0, h}};
        if (hasGusset) {
            const Vec3 foot(leg, 0, 0), head(0, 0, leg), left(t, y1, t), right(t, y2, t);
            baseTop.insert(baseTop.end(), {right, right + foot, left + foot, left});
            uprightFront.insert(uprightFront.begin() + 1, {left, left + head, right + head, right});
            builder.flat("gusset -y", -Vec3::UnitY(), {left, left + foot, left + head});
            builder.flat("gusset +y", Vec3::UnitY(), {right, right + foot, right + head});
            builder.flat("gusset slope", {1, 0, 1}, {left + foot, right + foot, right + head, left + head});
        }
        builder.flat("base top", Vec3::UnitZ(), baseTop, top);
        builder.flat("upright front", Vec3::UnitX(), uprightFront, front);
        return builder.finished();
    }
};

}  // namespace

const Family& bracketFamily() {
    static const Bracket family;
    return family;
}

}  // namespace waybench
