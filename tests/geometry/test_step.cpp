#include <unistd.h>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRep_Builder.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_PrinterOStream.hxx>
#include <STEPControl_Writer.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS_Compound.hxx>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <iterator>
#include <numbers>
#include <random>

#include "core/fault/input_fault.h"
#include "core/geometry/import/step.h"
#include "core/geometry/shape.h"

using namespace waybench;
namespace fs = std::filesystem;

namespace {

class Folder {
public:
    Folder() : path_(fs::temp_directory_path() / ("waybench-step-" + std::to_string(::getpid()))) {
        fs::create_directories(path_);
    }
    ~Folder() {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
    }
    fs::path operator/(const std::string& name) const { return path_ / name; }

private:
    fs::path path_;
};

constexpr double kLong = 80, kWide = 50, kThick = 8, kBore = 5.5;

/// 80 x 50 x 8 with two bores of 5.5, in units of so many mm.
TopoDS_Shape plate(double unit_mm = 1) {
    const double s = 1 / unit_mm;
    TopoDS_Shape shape = BRepPrimAPI_MakeBox(s * kLong, s * kWide, s * kThick).Shape();
    for (const double x : {12.0, 68.0})
        shape = BRepAlgoAPI_Cut(
            shape,
            BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(s * x, s * 25, -s), gp::DZ()), s * kBore / 2, s * 10).Shape());
    return shape;
}

void write(const TopoDS_Shape& shape, const fs::path& file, const char* unit = "MM") {
    Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_PrinterOStream));
    STEPControl_Writer writer;
    Interface_Static::SetCVal("write.step.unit", unit);
    writer.Transfer(shape, STEPControl_AsIs);
    REQUIRE(writer.Write(file.string().c_str()) == IFSelect_RetDone);
    Interface_Static::SetCVal("write.step.unit", "MM");
}

std::string textOf(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::string faultOf(const fs::path& file) {
    try {
        readStep(file, file.filename().string());
    } catch (const InputFault& fault) {
        return fault.code();
    }
    return "none";
}

void checkPlate(const Solid& solid) {
    const double bores = 2 * std::numbers::pi * kBore * kBore / 4;
    CHECK(findLeak(solid.mesh).openEdges == 0);
    CHECK(volumeOf(solid.mesh) == Approx((kLong * kWide - bores) * kThick).epsilon(5e-4));
    int planes = 0, cylinders = 0;
    for (const Face& face : solid.faces) {
        planes += face.kind == SurfaceKind::plane ? 1 : 0;
        if (face.kind != SurfaceKind::cylinder) continue;
        ++cylinders;
        CHECK(face.radius_mm == Approx(kBore / 2).epsilon(1e-9));
        CHECK(face.isHollow);
        CHECK(face.isFullTurn);
        CHECK(face.area_mm2 == Approx(std::numbers::pi * kBore * kThick).epsilon(5e-3));
        CHECK(std::abs(face.direction.z()) == Approx(1));
    }
    CHECK(planes == 6);
    CHECK(cylinders == 2);
}

}  // namespace

TEST_CASE("a STEP file keeps its faces: planes, bores with radius and axis, areas, volume") {
    const Folder folder;
    write(plate(), folder / "plate.step");
    const Solid solid = readStep(folder / "plate.step", "plate.step");
    checkPlate(solid);
    CHECK(solid.faces[0].area_mm2 >= solid.faces[1].area_mm2);
    CHECK(solid.faces[0].name == "face 1");
    Shape shape;
    shape.kind = ShapeKind::surface;
    shape.file = folder / "plate.step";
    CHECK(buildSolid(shape, {}).mesh.triangles == solid.mesh.triangles);
    const auto bore = select(solid, FaceSelector::byPoint({12 + kBore / 2, 25, 4}, {-1, 0, 0}));
    CHECK(solid.faces[solid.faceOfTriangle[bore.front()]].kind == SurfaceKind::cylinder);
}

TEST_CASE("a STEP file in inches comes in millimetres") {
    const Folder folder;
    write(plate(25.4), folder / "inch.stp", "INCH");  // numbers as they stand, said to be inches
    CHECK(textOf(folder / "inch.stp").find("INCH") != std::string::npos);
    checkPlate(readStep(folder / "inch.stp", "inch.stp"));
}

TEST_CASE("a STEP file with two bodies, with loose surfaces, or that is none is refused by name") {
    const Folder folder;
    TopoDS_Compound two;
    BRep_Builder().MakeCompound(two);
    BRep_Builder().Add(two, BRepPrimAPI_MakeBox(10, 10, 10).Shape());
    BRep_Builder().Add(two, BRepPrimAPI_MakeBox(gp_Pnt(30, 0, 0), 10, 10, 10).Shape());
    write(two, folder / "two.step");
    CHECK(faultOf(folder / "two.step") == "several_bodies");
    TopoDS_Compound loose;
    BRep_Builder().MakeCompound(loose);
    for (TopExp_Explorer e(plate(), TopAbs_FACE); e.More(); e.Next())
        if (BRep_Builder().Add(loose, e.Current()), true) break;
    write(loose, folder / "loose.step");
    CHECK(faultOf(folder / "loose.step") == "no_solid");
    std::ofstream(folder / "text.step") << "this is a shopping list\n";
    std::ofstream(folder / "empty.step").flush();
    CHECK(faultOf(folder / "text.step") == "file_not_step");
    CHECK(faultOf(folder / "empty.step") == "file_not_step");
    CHECK(faultOf(folder / "absent.step") == "file_not_step");
}

TEST_CASE("a STEP file cut short or with spoilt bytes is refused or still a closed body") {
    const Folder folder;
    write(plate(), folder / "whole.step");
    const std::string whole = textOf(folder / "whole.step");
    std::mt19937 random(20);
    const auto survives = [&](const std::string& text, int i) {
        const fs::path file = folder / ("spoilt" + std::to_string(i) + ".step");
        std::ofstream(file, std::ios::binary) << text;
        try {
            const Solid solid = readStep(file, "spoilt.step");
            CHECK(findLeak(solid.mesh).openEdges == 0);
        } catch (const InputFault& fault) {
            CHECK_FALSE(fault.remedy().empty());
        }
    };
    for (int i = 0; i < 30; ++i)
        survives(whole.substr(0, random() % whole.size()), i);
    for (int i = 0; i < 60; ++i) {
        std::string spoilt = whole;
        for (int k = 0; k < 3; ++k)
            spoilt[random() % spoilt.size()] = char(32 + random() % 95);
        survives(spoilt, 100 + i);
    }
}
