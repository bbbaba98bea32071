#include "core/geometry/family/described_family.h"
#include "core/geometry/surface_builder.h"

namespace waybench {

namespace {

class Bar : public DescribedFamily {
public:
    Bar()
        : DescribedFamily("bar", "Bar",
                          {{"length", "length", Unit::millimetre, 5, 1000, 120, "along x"},
                           {"width", "width", Unit::millimetre, 1, 300, 20, "along y"},
                           {"thickness", "thickness", Unit::millimetre, 0.5, 200, 8, "along z"},
                           {"bore_diameter", "bore diameter", Unit::millimetre, 0, 200, 0,
                            "of a bore along z near each end, 0 for none"},
                           {"bore_distance", "bore distance", Unit::millimetre, 0.5, 400, 10,
                            "from each end to the centre of its bore"}}) {}

    void check(const DimensionValues& v) const override {
        requireNoneOrAtLeast(v, "bore_diameter", 0.5);
        if (v.at("bore_diameter") <= 0) return;
        requireAtMost(v, "bore_diameter", v.at("width") - 2 * kLeastWeb_mm, "width", "the bore is as wide as the bar");
        requireAtMost(v, "bore_diameter", 2 * (v.at("bore_distance") - kLeastWeb_mm), "bore_distance",
                      "the bores break through the ends");
        requireAtMost(v, "bore_diameter", v.at("length") - 2 * v.at("bore_distance") - kLeastWeb_mm, "bore_distance",
                      "the two bores run into each other");
    }

    Solid build(const DimensionValues& v) const override {
        const double length = v.at("length"), width = v.at("width"), diameter = v.at("bore_diameter");
        const Outline outline =
            polygonal({{0, 0}, {length, 0}, {length, width}, {0, width}}, {"side -y", "end +x", "side +y", "end -x"});
        std::vector<Outline> bores;
        if (diameter > 0) {
            const double from = v.at("bore_distance");
            bores.push_back(circular("bore 1", {from, width / 2}, diameter / 2));
            bores.push_back(circular("bore 2", {length - from, width / 2}, diameter / 2));
        }
        SurfaceBuilder builder;
        builder.plate(outline, bores, Frame{}, v.at("thickness"), "bottom", "top");
        return builder.finished();
    }
};

}  // namespace

const Family& barFamily() {
    static const Bar family;
    return family;
}

}  // namespace waybench
