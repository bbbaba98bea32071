#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

class Channel : public DescribedFamily {
public:
    Channel()
        : DescribedFamily(
              "channel", "U channel",
              {{"length", "length", Unit::millimetre, 5, 1000, 100, "along x"},
               {"width", "width", Unit::millimetre, 4, 500, 50, "over all, along y"},
               {"height", "height", Unit::millimetre, 2, 500, 40, "over all, along z"},
               {"thickness", "wall thickness", Unit::millimetre, 0.8, 100, 5, "of the two side walls"},
               {"floor_thickness", "floor thickness", Unit::millimetre, 0.8, 100, 6, "of the floor"},
               {"bore_count", "number of bores", Unit::none, 0, 20, 2, "in the floor, spread along the length"},
               {"bore_diameter", "bore diameter", Unit::millimetre, 0.5, 200, 6.6, "of every bore"}}) {}

    void check(const DimensionValues& v) const override {
        requireAtMost(v, "thickness", (v.at("width") - 1) / 2, "width", "the walls fill the channel");
        requireAtMost(v, "floor_thickness", v.at("height") - 0.5, "height", "the floor fills the channel");
        const double count = v.at("bore_count");
        if (count < 1) return;
        requireAtMost(v, "bore_diameter", v.at("width") - 2 * v.at("thickness") - 2 * kLeastWeb_mm, "thickness",
                      "the bores run into the walls");
        requireAtMost(v, "bore_diameter", v.at("length") / count - kLeastWeb_mm, count > 1 ? "bore_count" : "length",
                      "the bores run into each other or into the ends");
    }

    Solid build(const DimensionValues& v) const override {
        const double l = v.at("length"), w = v.at("width"), h = v.at("height"), t = v.at("thickness"),
                     f = v.at("floor_thickness");
        // Profile in y, z, extruded along x.
        const Outline profile = polygonal({{0, 0}, {w, 0}, {w, h}, {w - t, h}, {w - t, f}, {t, f}, {t, h}, {0, h}},
                                          {"floor bottom", "wall +y outside", "wall +y top", "wall +y inside",
                                           "floor top", "wall -y inside", "wall -y top", "wall -y outside"});
        const Frame across{Vec3::Zero(), Vec3::UnitY(), Vec3::UnitZ()};
        SurfaceBuilder builder;
        std::map<std::string, SurfaceBuilder::Holes> holes;
        const int count = static_cast<int>(v.at("bore_count"));
        for (int i = 0; i < count; ++i) {
            const auto bore = builder.bore("floor bore " + std::to_string(i + 1), Frame{},
                                           {l * (2 * i + 1) / (2 * count), w / 2}, v.at("bore_diameter") / 2, f);
            holes["floor bottom"].push_back(bore.begin);
            holes["floor top"].push_back(bore.end);
        }
        builder.walls(profile, across, l, false, holes);
        builder.flat("end -x", -Vec3::UnitX(), across.at(profile.points));
        builder.flat("end +x", Vec3::UnitX(), across.at(profile.points, l));
        return builder.finished();
    }
};

}  // namespace

const Family& channelFamily() {
    static const Channel family;
    return family;
}

}  // namespace waybench
