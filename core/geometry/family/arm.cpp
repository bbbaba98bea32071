#include <algorithm>

#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

class Arm : public DescribedFamily {
public:
    Arm()
        : DescribedFamily(
              "arm", "Arm with lightening pockets",
              {{"length", "length", Unit::millimetre, 10, 800, 120, "from hub axis to tip axis, along x"},
               {"width", "width", Unit::millimetre, 4, 200, 30, "over all; both ends are half rounds of this width"},
               {"thickness", "thickness", Unit::millimetre, 0.8, 100, 8, "along z"},
               {"hub_diameter", "hub bore", Unit::millimetre, 0, 190, 12, "bore at the origin end, 0 for none"},
               {"tip_diameter", "tip bore", Unit::millimetre, 0, 190, 6, "bore at the far end, 0 for none"},
               {"pocket_count", "number of pockets", Unit::none, 0, 12, 3, "in a row between the bores, from the top"},
               {"pocket_depth", "pocket depth", Unit::millimetre, 0.1, 100, 5,
                "from the top; as deep as the thickness makes windows"},
               {"pocket_corner_radius", "pocket corner radius", Unit::millimetre, 0, 50, 3,
                "a cutter needs at least its own radius"},
               {"rib_width", "rib width", Unit::millimetre, 0.5, 80, 5, "left around and between the pockets"}}) {}

    void check(const DimensionValues& v) const override {
        requireNoneOrAtLeast(v, "hub_diameter", 0.5);
        requireNoneOrAtLeast(v, "tip_diameter", 0.5);
        requireNoneOrAtLeast(v, "pocket_corner_radius", 0.1);
        const double width = v.at("width"), length = v.at("length");
        for (const char* bore : {"hub_diameter", "tip_diameter"})
            requireAtMost(v, bore, width - 2 * kLeastWeb_mm, "width", "the bore is as wide as the arm");
        requireAtMost(v, "hub_diameter", 2 * (length - kLeastWeb_mm) - v.at("tip_diameter"), "length",
                      "the two bores run into each other");
        if (v.at("pocket_count") < 1) return;
        requireAtMost(v, "pocket_depth", v.at("thickness"), "thickness", "a pocket cannot be deeper than the arm");
        const double left = v.at("thickness") - v.at("pocket_depth");
        if (left > 1e-9 && left < 0.2)
            requireAtMost(v, "pocket_depth", v.at("thickness") - 0.2, "thickness",
                          "the pocket floor is thinner than 0.2 mm");
        const double wide = width - 2 * v.at("rib_width"), longEach = pocketLength(v);
        requireAtMost(v, "rib_width", (width - 1) / 2, "width", "the ribs leave no room for a pocket");
        if (longEach < 1) {
            const double count = v.at("pocket_count");
            requireAtMost(v, "rib_width", v.at("rib_width") - (1 - longEach) * count / (count + 1), "pocket_count",
                          "the ribs leave no room for that many pockets");
        }
        requireAtMost(v, "pocket_corner_radius", std::min(wide, longEach) / 2,
                      wide < longEach ? "width" : "pocket_count", "the rounds of two corners meet");
    }

    Solid build(const DimensionValues& v) const override {
        const double length = v.at("length"), width = v.at("width"), thickness = v.at("thickness"), r = width / 2;
        const Vec2 hub(r, r), tip(r + length, r);
        Outline outline = slotted("", hub + 0.5 * (tip - hub), length + width, width, true);
        for (OutlineRun& run : outline.runs)
            run.name = run.name.substr(1);
        const int count = static_cast<int>(v.at("pocket_count"));
        const double depth = v.at("pocket_depth"), rib = v.at("rib_width"), each = pocketLength(v);
        const bool isWindow = depth >= thickness - 1e-9;
        std::vector<Outline> through, pockets;
        if (v.at("hub_diameter") > 0) through.push_back(circular("hub bore", hub, v.at("hub_diameter") / 2));
        if (v.at("tip_diameter") > 0) through.push_back(circular("tip bore", tip, v.at("tip_diameter") / 2));
        for (int i = 0; i < count; ++i) {
            const double from = hub.x() + v.at("hub_diameter") / 2 + rib + i * (each + rib);
            const std::string name = "pocket " + std::to_string(i + 1);
            (isWindow ? through : pockets)
                .push_back(roundedRectangle(
                    {from, rib}, {from + each, width - rib}, v.at("pocket_corner_radius"),
                    {name + " wall -y", name + " wall +x", name + " wall +y", name + " wall -x"}, name + " corner"));
        }
        SurfaceBuilder builder;
        SurfaceBuilder::Holes mouths;
        const Frame onFloor{{0, 0, thickness - depth}, Vec3::UnitX(), Vec3::UnitY()};
        for (std::size_t i = 0; i < pockets.size(); ++i) {
            builder.walls(pockets[i], onFloor, depth, true);
            builder.flat("pocket " + std::to_string(i + 1) + " floor", Vec3::UnitZ(), onFloor.at(pockets[i].points));
            mouths.push_back(onFloor.at(pockets[i].points, depth));
        }
        builder.plate(outline, through, Frame{}, thickness, "bottom", "top", mouths);
        return builder.finished();
    }

private:
    static double pocketLength(const DimensionValues& v) {
        const double count = v.at("pocket_count");
        const double room = v.at("length") - (v.at("hub_diameter") + v.at("tip_diameter")) / 2;
        return (room - (count + 1) * v.at("rib_width")) / count;
    }
};

}  // namespace

const Family& armFamily() {
    static const Arm family;
    return family;
}

}  // namespace waybench
