#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <set>

#include "core/fault/input_fault.h"
#include "core/geometry/outline.h"
#include "core/geometry/section.h"
#include "core/geometry/shape.h"

using namespace waybench;

namespace {

constexpr double kPi = M_PI;

Solid built(const std::string& family, const DimensionValues& dimensions = {}) {
    Shape shape;
    shape.family = family;
    shape.dimensions = dimensions;
    return buildSolid(shape, {});
}

const Face& faceNamed(const Solid& solid, const std::string& name) {
    for (const Face& face : solid.faces)
        if (face.name == name) return face;
    FAIL("no face " << name);
    return solid.faces.front();
}

/// Area of the regular polygon that stands for a circle: n/2 r^2 sin(2 pi / n), never more than the circle.
double faceted(double diameter) {
    const double r = diameter / 2, n = segmentsPerTurn(r);
    return n / 2 * r * r * std::sin(2 * kPi / n);
}

std::string faultOf(const std::string& family, const DimensionValues& dimensions) {
    try {
        built(family, dimensions);
    } catch (const InputFault& fault) {
        return fault.code() + "|" + fault.what();
    }
    return "";
}

DimensionValues randomValues(const Family& family, std::mt19937& random, double spread) {
    DimensionValues values;
    for (const Dimension& d : family.dimensions()) {
        std::uniform_real_distribution<double> unit(0, 1);
        double value = d.standard > 0 ? d.standard * std::exp((2 * unit(random) - 1) * spread)
                                      : d.minimum + 0.05 * unit(random) * (d.maximum - d.minimum);
        if (d.unit == Unit::none) value = std::floor(unit(random) * 5);
        values[d.key] = std::clamp(value, d.minimum, d.maximum);
    }
    return values;
}

void requireSound(const Solid& solid) {
    const Leak leak = findLeak(solid.mesh);
    REQUIRE(leak.openEdges == 0);
    REQUIRE(volumeOf(solid.mesh) > 0);
    REQUIRE(solid.faceOfTriangle.size() == solid.mesh.triangles.size());
    std::set<std::string> names;
    double area = 0;
    for (const Face& face : solid.faces) {
        REQUIRE((names.insert(face.name).second && face.area_mm2 > 0));
        area += face.area_mm2;
    }
    REQUIRE(area == Approx(areaOf(solid.mesh)).epsilon(1e-9));
    // No vector field is constant and has flux: outward areas of a closed surface add up to nothing.
    Vec3 flux = Vec3::Zero();
    for (const auto& t : solid.mesh.triangles) {
        const Vec3& a = solid.mesh.vertices[t[0]];
        flux += (solid.mesh.vertices[t[1]] - a).cross(solid.mesh.vertices[t[2]] - a) / 2;
    }
    REQUIRE(flux.norm() < 1e-8 * area);
    bool facesTellTheTruth = true;  // one assertion for all facets: a million of them take their time
    for (std::size_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        const Face& face = solid.faces[solid.faceOfTriangle[t]];
        const Vec3 n = normalOf(solid.mesh, t);
        if (n.isZero()) continue;
        if (face.kind == SurfaceKind::plane && !(n.dot(face.direction) > 1 - 1e-6)) facesTellTheTruth = false;
        if (face.kind != SurfaceKind::cylinder) continue;
        if (!(std::abs(n.dot(face.direction)) < 1e-6)) facesTellTheTruth = false;
        for (std::uint32_t v : solid.mesh.triangles[t]) {
            const Vec3 d = solid.mesh.vertices[v] - face.point;
            const Vec3 radial = d - d.dot(face.direction) * face.direction;
            if (std::abs(radial.norm() - face.radius_mm) > 1e-9 * (1 + face.radius_mm)) facesTellTheTruth = false;
            if ((radial.dot(n) < 0) != face.isHollow) facesTellTheTruth = false;
        }
    }
    REQUIRE(facesTellTheTruth);
}

}  // namespace

TEST_CASE("Every family's standard dimensions make a sound body") {
    for (const Family* family : families()) {
        INFO(family->key());
        requireSound(built(family->key()));
    }
}

TEST_CASE("Dimensions are described fully and once") {
    std::set<std::string> keys;
    for (const Family* family : families()) {
        CHECK(keys.insert(family->key()).second);
        CHECK_FALSE(family->title().empty());
        std::set<std::string> seen;
        for (const Dimension& d : family->dimensions()) {
            INFO(family->key() << " " << d.key);
            CHECK(seen.insert(d.key).second);
            CHECK_FALSE(d.label.empty());
            CHECK_FALSE(d.help.empty());
            CHECK(d.minimum <= d.standard);
            CHECK(d.standard <= d.maximum);
        }
    }
    for (const char* family : {"plate", "bracket", "channel", "box", "bar", "arm"}) {
        const auto& dimensions = familyNamed(family).dimensions();
        CHECK(
            std::any_of(dimensions.begin(), dimensions.end(), [](const Dimension& d) { return d.key == "thickness"; }));
    }
}

TEST_CASE("Three hundred random dimension sets of each family that pass the checks are sound") {
    const std::size_t index = GENERATE(range(std::size_t{0}, std::size_t{8}));
    REQUIRE(families().size() == 8);
    const Family* family = families()[index];
    INFO(family->key());
    std::mt19937 random(static_cast<unsigned>(20 + index));
    int valid = 0;
    for (int tried = 0; valid < 300 && tried < 20000; ++tried) {
        const DimensionValues values = randomValues(*family, random, 0.7);
        try {
            family->check(values);
        } catch (const InputFault& fault) {
            REQUIRE((fault.code() == "dimension_conflict" || fault.code() == "dimension_out_of_range"));
            REQUIRE_FALSE(fault.remedy().empty());
            continue;
        }
        ++valid;
        requireSound(family->build(values));
    }
    CHECK(valid == 300);
}

TEST_CASE("Wild dimension sets are refused or built, never anything else") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> unit(0, 1);
    const double odd[] = {std::nan(""), INFINITY, -INFINITY, -1, 0, 1e-300, 1e300, 0.5, 1};
    for (const Family* family : families()) {
        INFO(family->key());
        for (int i = 0; i < 400; ++i) {
            DimensionValues values;
            for (const Dimension& d : family->dimensions()) {
                const double u = unit(random);
                if (u < 0.03) {
                    values[d.key] = odd[static_cast<int>(unit(random) * 9) % 9];
                } else {
                    values[d.key] = d.minimum + (d.maximum - d.minimum) * unit(random) * unit(random) * unit(random);
                    if (d.unit == Unit::none) values[d.key] = std::floor(values[d.key]);
                }
            }
            if (unit(random) < 0.05) values["no_such_dimension"] = 1;
            try {
                requireSound(built(family->key(), values));
            } catch (const InputFault& fault) {
                REQUIRE((fault.code() == "dimension_conflict" || fault.code() == "dimension_out_of_range" ||
                         fault.code() == "dimension_unknown"));
            }
        }
    }
}

TEST_CASE("The value a conflict says would fit does not raise the same conflict again") {
    std::mt19937 random(9);
    int used = 0;
    for (const Family* family : families())
        for (int i = 0; i < 300; ++i) {
            DimensionValues values = randomValues(*family, random, 1.2);
            try {
                family->check(values);
            } catch (const InputFault& fault) {
                if (fault.code() != "dimension_conflict") continue;
                const std::string remedy = fault.remedy();
                const std::string first = fault.place().substr(1, fault.place().find('\'', 1) - 1);
                const auto at = std::max(remedy.find(" up to ") + 1, remedy.find(" from ") + 1);
                if (at == 0) continue;
                const auto number = remedy.find_first_of("0123456789", first.size());
                const double fits = std::stod(remedy.substr(number));
                for (const Dimension& d : family->dimensions())
                    if (d.label == first) values[d.key] = fits;
                ++used;
                try {
                    family->check(values);
                } catch (const InputFault& next) {
                    INFO(family->key() << ": " << fault.what() << "  then  " << next.what());
                    REQUIRE((next.problem() != fault.problem()));
                    const bool sameReason =
                        next.place() == fault.place() && next.problem().substr(next.problem().rfind(": ")) ==
                                                             fault.problem().substr(fault.problem().rfind(": "));
                    REQUIRE_FALSE(sameReason);
                }
            }
        }
    CHECK(used > 200);
}

TEST_CASE("Plate volume is outline less holes, bore and slots, times thickness") {
    const DimensionValues v{{"length", 150},           {"width", 90},
                            {"thickness", 7},          {"corner_radius", 10},
                            {"holes_along_length", 3}, {"holes_along_width", 2},
                            {"hole_diameter", 8},      {"edge_distance", 15},
                            {"bore_diameter", 20},     {"slot_count", 2},
                            {"slot_length", 30},       {"slot_width", 6}};
    const Solid plate = built("plate", v);
    const double round = 150 * 90 - (400 - faceted(20)) - 6 * faceted(8) - faceted(20) - 2 * (24 * 6 + faceted(6));
    CHECK(volumeOf(plate.mesh) == Approx(7 * round).epsilon(1e-9));
    const double exact = 150 * 90 - (4 - kPi) * 100 - 6 * kPi * 16 - kPi * 100 - 2 * (24 * 6 + kPi * 9);
    CHECK(volumeOf(plate.mesh) == Approx(7 * exact).epsilon(1e-3));
    CHECK(faceNamed(plate, "top").area_mm2 == Approx(round).epsilon(1e-9));
    const Face& hole = faceNamed(plate, "hole 1");
    CHECK(hole.kind == SurfaceKind::cylinder);
    CHECK(hole.isHollow);
    CHECK(hole.isFullTurn);
    CHECK(hole.radius_mm == 4);
    CHECK((hole.point - Vec3(15, 15, 3.5)).norm() < 1e-9);
    CHECK_FALSE(faceNamed(plate, "corner 1").isHollow);
    CHECK_FALSE(faceNamed(plate, "corner 1").isFullTurn);
    CHECK((faceNamed(plate, "bore").centroid - Vec3(75, 45, 3.5)).norm() < 1e-9);
    CHECK((centroidOf(plate.mesh) - Vec3(75, 45, 3.5)).norm() < 1e-9);
    CHECK(boundsOf(plate.mesh).low.norm() < 1e-12);
    CHECK((boundsOf(plate.mesh).high - Vec3(150, 90, 7)).norm() < 1e-12);
}

TEST_CASE("Bracket volume is legs and gusset less bores") {
    const Solid bracket = built("bracket", {{"base_length", 60},
                                            {"upright_height", 50},
                                            {"width", 40},
                                            {"thickness", 6},
                                            {"gusset_thickness", 5},
                                            {"gusset_leg", 20},
                                            {"hole_diameter", 6.6},
                                            {"holes_per_leg", 2},
                                            {"hole_distance", 12}});
    const double legs = 40 * (60 * 6 + 44 * 6), gusset = 5 * 20 * 20 / 2;
    CHECK(volumeOf(bracket.mesh) == Approx(legs + gusset - 4 * 6 * faceted(6.6)).epsilon(1e-9));
    CHECK(faceNamed(bracket, "base top").area_mm2 == Approx(54 * 40 - 5 * 20 - 2 * faceted(6.6)).epsilon(1e-9));
    CHECK(faceNamed(bracket, "gusset slope").area_mm2 == Approx(5 * 20 * std::sqrt(2.0)).epsilon(1e-9));
    CHECK((faceNamed(bracket, "base bore 1").point - Vec3(48, 10, 3)).norm() < 1e-9);
    CHECK((faceNamed(bracket, "upright bore 2").point - Vec3(3, 30, 38)).norm() < 1e-9);
    CHECK(std::abs(faceNamed(bracket, "upright bore 2").direction.x()) == 1);
    CHECK(faceNamed(bracket, "upright back").direction == Vec3(-1, 0, 0));
    const Solid plain = built("bracket", {{"gusset_thickness", 0}, {"holes_per_leg", 0}});
    CHECK(volumeOf(plain.mesh) == Approx(40 * (60 * 6 + 54 * 6)));
}

TEST_CASE("Channel, box, bar and block volumes follow their formulas") {
    const Solid channel = built("channel", {{"length", 100},
                                            {"width", 50},
                                            {"height", 40},
                                            {"thickness", 5},
                                            {"floor_thickness", 6},
                                            {"bore_count", 3},
                                            {"bore_diameter", 8}});
    CHECK(volumeOf(channel.mesh) == Approx(100 * (50 * 6 + 2 * 5 * 34) - 3 * 6 * faceted(8)).epsilon(1e-9));
    CHECK(faceNamed(channel, "floor top").area_mm2 == Approx(100 * 40 - 3 * faceted(8)).epsilon(1e-9));
    CHECK(faceNamed(channel, "wall +y inside").direction == Vec3(0, -1, 0));

    const Solid box =
        built("box", {{"length", 100}, {"width", 60}, {"height", 40}, {"thickness", 3}, {"floor_thickness", 4}});
    CHECK(volumeOf(box.mesh) == Approx(100 * 60 * 40 - 94 * 54 * 36).epsilon(1e-9));
    CHECK(faceNamed(box, "wall +x outside").area_mm2 == Approx(60 * 40));
    CHECK(faceNamed(box, "wall +x inside").direction == Vec3(-1, 0, 0));
    CHECK(faceNamed(box, "floor").area_mm2 == Approx(94 * 54));

    const Solid bar =
        built("bar", {{"length", 120}, {"width", 20}, {"thickness", 8}, {"bore_diameter", 10}, {"bore_distance", 12}});
    CHECK(volumeOf(bar.mesh) == Approx(8 * (120 * 20 - 2 * faceted(10))).epsilon(1e-9));
    CHECK(volumeOf(built("bar", {{"bore_diameter", 0}}).mesh) == Approx(120 * 20 * 8));

    const Solid block = built("block", {{"length", 60},
                                        {"width", 40},
                                        {"height", 30},
                                        {"step_length", 25},
                                        {"step_height", 12},
                                        {"bore_diameter", 8.5}});
    CHECK(volumeOf(block.mesh) == Approx(40 * (35 * 30 + 25 * 12) - 12 * faceted(8.5)).epsilon(1e-9));
    CHECK(faceNamed(block, "step wall").direction == Vec3(1, 0, 0));
    CHECK(faceNamed(block, "side -y").direction == Vec3(0, -1, 0));
    CHECK(faceNamed(block, "side -y").centroid.y() == Approx(0).margin(1e-12));
}

TEST_CASE("Arm volume is its outline less bores and pockets, and deep pockets become windows") {
    DimensionValues v{{"length", 120},     {"width", 30},       {"thickness", 8},    {"hub_diameter", 12},
                      {"tip_diameter", 6}, {"pocket_count", 3}, {"pocket_depth", 5}, {"pocket_corner_radius", 3},
                      {"rib_width", 5}};
    const double outline = 120 * 30 + faceted(30);
    const double each = (120 - 6 - 3 - 4 * 5) / 3.0, pocket = each * 20 - (36 - faceted(6));
    const Solid arm = built("arm", v);
    CHECK(volumeOf(arm.mesh) == Approx(8 * (outline - faceted(12) - faceted(6)) - 3 * 5 * pocket).epsilon(1e-9));
    CHECK(faceNamed(arm, "pocket 2 floor").area_mm2 == Approx(pocket).epsilon(1e-9));
    CHECK(faceNamed(arm, "pocket 2 floor").point.z() == Approx(3));
    v["pocket_depth"] = 8;
    const Solid open = built("arm", v);
    CHECK(volumeOf(open.mesh) == Approx(8 * (outline - faceted(12) - faceted(6) - 3 * pocket)).epsilon(1e-9));
    CHECK(faceNamed(open, "bottom").area_mm2 == Approx(faceNamed(open, "top").area_mm2));
}

TEST_CASE("Guide volume is the block less duct, mouths and mounting holes; its duct is wider than its mouths") {
    const Solid guide = built("guide", {{"length", 80},
                                        {"width", 44},
                                        {"height", 22},
                                        {"duct_width", 18},
                                        {"duct_height", 12},
                                        {"end_thickness", 6},
                                        {"mouth_diameter", 6},
                                        {"mounting_diameter", 5.5}});
    const double duct = 68 * 18 * 12, mouths = 2 * 6 * faceted(6), holes = 2 * 22 * faceted(5.5);
    CHECK(volumeOf(guide.mesh) == Approx(80 * 44 * 22 - duct - mouths - holes).epsilon(1e-9));
    CHECK(faceNamed(guide, "duct ceiling").direction == Vec3(0, 0, -1));
    CHECK(faceNamed(guide, "duct floor").direction == Vec3(0, 0, 1));
    CHECK(faceNamed(guide, "mouth -x").isHollow);
    CHECK(faultOf("guide", {{"mouth_diameter", 15}}).find("mouth diameter up to 11.8 fits") != std::string::npos);
}

TEST_CASE("Rounds are at most 0.005 mm off, with 24 to 128 chords a turn") {
    for (double r = 0.1; r < 200; r *= 1.1) {
        const int n = segmentsPerTurn(r);
        CHECK(n >= 24);
        CHECK(n <= 128);
        CHECK(n % 4 == 0);
        if (n < 128) CHECK(r * (1 - std::cos(kPi / n)) <= 0.005 + 1e-12);
    }
}

TEST_CASE("Conflicting dimensions are named with what would fit") {
    const std::string deep = faultOf("arm", {{"pocket_depth", 9}, {"thickness", 8}});
    CHECK(deep.find("dimension_conflict|") == 0);
    CHECK(deep.find("'pocket depth' and 'thickness'") != std::string::npos);
    CHECK(deep.find("pocket depth up to 8 fits") != std::string::npos);
    const std::string radius = faultOf("plate", {{"corner_radius", 50}});
    CHECK(radius.find("corner radius up to 40 fits") != std::string::npos);
    CHECK(faultOf("plate", {{"hole_diameter", 30}}).find("dimension_conflict|") == 0);
    CHECK(faultOf("plate", {{"holes_along_length", 2.5}}).find("dimension_out_of_range|") == 0);
    CHECK(faultOf("plate", {{"thickness", std::nan("")}}).find("dimension_out_of_range|") == 0);
    CHECK(faultOf("plate", {{"depth", 3}}).find("dimension_unknown|") == 0);
    CHECK(faultOf("gearbox", {}).find("family_unknown|") == 0);
}

TEST_CASE("Dimensions are replaced one by one and checked") {
    Shape shape;
    shape.family = "bar";
    const Shape thick = withDimensions(shape, {{"thickness", 12}});
    CHECK(thick.dimensions.at("thickness") == 12);
    CHECK(shape.dimensions.empty());
    CHECK(volumeOf(buildSolid(thick, {}).mesh) == Approx(120 * 20 * 12));
    CHECK_THROWS_AS(withDimensions(shape, {{"thickness", -1}}), InputFault);
    CHECK_THROWS_AS(withDimensions(shape, {{"depth", 1}}), InputFault);
    Shape drawing;
    drawing.kind = ShapeKind::drawing;
    CHECK(dimensionsOf(drawing).size() == 1);
    CHECK(withDimensions(drawing, {{"thickness", 3}}).dimensions.at("thickness") == 3);
    Shape surface;
    surface.kind = ShapeKind::surface;
    CHECK(dimensionsOf(surface).empty());
    CHECK_THROWS_AS(withDimensions(surface, {{"thickness", 3}}), InputFault);
}

TEST_CASE("A drawing or surface whose file is missing is said so") {
    for (const ShapeKind kind : {ShapeKind::drawing, ShapeKind::surface})
        for (const char* file : {"no_such_file.dxf", "", "."}) {
            Shape shape;
            shape.kind = kind;
            shape.file = file;
            try {
                buildSolid(shape, "/nonexistent_folder");
                FAIL("built from nothing");
            } catch (const InputFault& fault) {
                CHECK(fault.code() == "file_missing");
            }
        }
}
