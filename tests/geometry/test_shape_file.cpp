#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "core/fault/input_fault.h"
#include "core/geometry/import/shape_file.h"
#include "core/geometry/import/stl.h"
#include "core/geometry/shape.h"
#include "tests/geometry/dxf_text.h"

using namespace waybench;
using waybench::test::DxfText;

namespace {

class Folder {
public:
    Folder() : path_(std::filesystem::temp_directory_path() / "waybench_shape_file") {
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    std::filesystem::path write(const std::string& name, const std::string& content) const {
        std::ofstream(path_ / name, std::ios::binary) << content;
        return path_ / name;
    }

private:
    std::filesystem::path path_;
};

/// A family's body, its coordinates multiplied.
std::string stlOfPlate(double scale) {
    Shape plate;
    plate.family = "plate";
    Mesh mesh = buildSolid(plate, "").mesh;
    for (Vec3& p : mesh.vertices)
        p *= scale;
    std::ostringstream out;
    writeStl(out, mesh);
    return out.str();
}

Vec3 sizeOfPlate() {
    Shape plate;
    plate.family = "plate";
    return boundsOf(buildSolid(plate, "").mesh).size();
}

bool notesAssumedUnit(const Solid& solid) {
    for (const std::string& note : solid.notes)
        if (note.ends_with(kUnitAssumed)) return true;
    return false;
}

Shape shapeOf(ShapeKind kind, const std::filesystem::path& file, double unit_mm) {
    Shape shape;
    shape.kind = kind;
    shape.file = file;
    shape.fileUnit_mm = unit_mm;
    return shape;
}

}  // namespace

TEST_CASE("a surface never states its unit, and its size is told as it stands in the file", "[geometry][shape_file]") {
    const Folder folder;
    for (const double scale : {1.0, 1e-3, 1 / 25.4}) {
        const FileMeasure measure = measured(folder.write("plate.stl", stlOfPlate(scale)), "plate.stl");
        CHECK_FALSE(measure.statesUnit);
        CHECK((measure.size - scale * sizeOfPlate()).norm() < 1e-5 * scale * sizeOfPlate().norm());
    }
}

TEST_CASE("a drawing states its unit only by a length in its header", "[geometry][shape_file]") {
    const Folder folder;
    for (const auto& [code, states] : {std::pair(1, true), {4, true}, {5, true}, {6, true}, {0, false}, {-1, false}}) {
        const std::string text = DxfText(code).rectangle(3, 4, 15, 9).circle(8, 6, 1).text();
        const FileMeasure measure = measured(folder.write("plate.dxf", text), "plate.dxf");
        CHECK(measure.statesUnit == states);
        CHECK((measure.size - Vec3(12, 5, 0)).norm() < 1e-9);
    }
}

TEST_CASE("a round drawing of metres is measured to half a per cent", "[geometry][shape_file]") {
    const Folder folder;
    const FileMeasure disc = measured(folder.write("disc.DXF", DxfText(0).circle(0, 0, 0.05).text()), "disc.DXF");
    CHECK(disc.size.x() == Approx(0.1).epsilon(5e-3));
    CHECK(disc.size.y() == Approx(0.1).epsilon(5e-3));
}

TEST_CASE("a body in STEP is not asked about", "[geometry][shape_file]") {
    const Folder folder;
    CHECK(measured(folder.write("body.stp", "not looked into"), "body.stp").statesUnit);
}

TEST_CASE("a file that is missing or no shape says so by the name the user gave", "[geometry][shape_file]") {
    const Folder folder;
    const auto codeOf = [](const std::filesystem::path& path) {
        try {
            measured(path, "the name.stl");
        } catch (const InputFault& fault) {
            CHECK(fault.file() == "the name.stl");
            return fault.code();
        }
        return std::string("nothing wrong");
    };
    CHECK(codeOf(folder.write("plate.stl", stlOfPlate(1)).replace_filename("absent.stl")) == "file_missing");
    CHECK(codeOf(folder.write("words.stl", "these are only words")) == "file_not_stl");
    CHECK(codeOf(folder.write("words.dxf", "these\nare\nonly\nwords\n")) == "file_not_dxf");
}

TEST_CASE("the chosen unit scales the body, and without one millimetres are taken and told", "[geometry][shape_file]") {
    const Folder folder;
    const std::filesystem::path inches = folder.write("inches.stl", stlOfPlate(1 / 25.4));
    const Solid chosen = buildSolid(shapeOf(ShapeKind::surface, inches, 25.4), "");
    CHECK((boundsOf(chosen.mesh).size() - sizeOfPlate()).norm() < 1e-3);
    CHECK_FALSE(notesAssumedUnit(chosen));
    const Solid taken = buildSolid(shapeOf(ShapeKind::surface, folder.write("mm.stl", stlOfPlate(1)), 0), "");
    CHECK((boundsOf(taken.mesh).size() - sizeOfPlate()).norm() < 1e-3);
    CHECK(notesAssumedUnit(taken));
}

TEST_CASE("a drawing's unit is noted as taken only where neither file nor user says it", "[geometry][shape_file]") {
    const Folder folder;
    const auto isNoted = [&](int code, double unit_mm) {
        const std::string text = DxfText(code).rectangle(0, 0, 12, 5).text();
        return notesAssumedUnit(buildSolid(shapeOf(ShapeKind::drawing, folder.write("plate.dxf", text), unit_mm), ""));
    };
    CHECK(isNoted(0, 0));
    CHECK(isNoted(-1, 0));
    CHECK_FALSE(isNoted(4, 0));
    CHECK_FALSE(isNoted(0, 10));
}
