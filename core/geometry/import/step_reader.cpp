// A program of its own: reads one STEP file with Open CASCADE and writes its solid to standard output, as step.cpp
// takes it. Apart from the rest, so that a spoilt file on which the library crashes or hangs costs this program only.
#include <BRepAdaptor_Surface.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_PrinterOStream.hxx>
#include <Poly_Triangulation.hxx>
#include <STEPControl_Reader.hxx>
#include <Standard_Failure.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <iostream>
#include <numbers>

#include "core/fault/input_fault.h"
#include "core/geometry/adjacency.h"
#include "core/geometry/solid.h"

namespace waybench {

namespace {

constexpr double kChord_mm = 0.01, kChordShare = 1.0 / 4000, kAngle_rad = 0.15;
constexpr double kSmallest_mm = 1e-3, kLargest_mm = 1e5;  // sizes of fixture parts, with room

TopoDS_Shape rootOf(const std::filesystem::path& path, const std::string& name) {
    Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_PrinterOStream));
    const InputFault broken("file_not_step", name, "", "it cannot be read as a STEP file",
                            "export the part again as STEP (AP203, AP214 or AP242)");
    STEPControl_Reader reader;
    if (reader.ReadFile(path.string().c_str()) != IFSelect_RetDone) throw broken;
    if (reader.TransferRoots() < 1) throw broken;
    return reader.OneShape();
}

TopoDS_Shape onlySolidIn(const TopoDS_Shape& root, const std::string& name) {
    TopoDS_Shape solid;
    int solids = 0;
    for (TopExp_Explorer e(root, TopAbs_SOLID); e.More(); e.Next(), ++solids)
        if (solids == 0) solid = e.Current();
    if (solids == 0)
        throw InputFault("no_solid", name, "", "the file holds no solid, only loose surfaces or curves",
                         "close the body in the drawing program and export it as a solid");
    if (solids > 1)
        throw InputFault("several_bodies", name, "", "the file holds " + std::to_string(solids) + " bodies",
                         "export the one part alone, or join them to one body");
    return solid;
}

double sizeOf(const TopoDS_Shape& solid) {
    Vec3 low = Vec3::Constant(1e300), high = Vec3::Constant(-1e300);
    for (TopExp_Explorer e(solid, TopAbs_VERTEX); e.More(); e.Next()) {
        const gp_Pnt p = BRep_Tool::Pnt(TopoDS::Vertex(e.Current()));
        low = low.cwiseMin(Vec3(p.X(), p.Y(), p.Z()));
        high = high.cwiseMax(Vec3(p.X(), p.Y(), p.Z()));
    }
    return (high - low).norm();
}

Vec3 vec(const gp_XYZ& p) {
    return {p.X(), p.Y(), p.Z()};
}

Face faceRecord(const TopoDS_Face& face) {
    const BRepAdaptor_Surface surface(face);
    Face record;
    if (surface.GetType() == GeomAbs_Plane) {
        record.kind = SurfaceKind::plane;
        record.point = vec(surface.Plane().Location().XYZ());
    } else if (surface.GetType() == GeomAbs_Cylinder) {
        const gp_Cylinder cylinder = surface.Cylinder();
        record.kind = SurfaceKind::cylinder;
        record.point = vec(cylinder.Axis().Location().XYZ());
        record.direction = vec(cylinder.Axis().Direction().XYZ());
        record.radius_mm = cylinder.Radius();
        // One sense for one axis, as for the cylinders found in a mesh.
        Eigen::Index main = 0;
        record.direction.cwiseAbs().maxCoeff(&main);
        if (record.direction[main] < 0) record.direction = -record.direction;
    }
    return record;
}

/// Facets of every face, corners not yet shared between faces.
Solid facetted(const TopoDS_Shape& solid) {
    Solid result;
    for (TopExp_Explorer e(solid, TopAbs_FACE); e.More(); e.Next()) {
        const TopoDS_Face face = TopoDS::Face(e.Current());
        TopLoc_Location location;
        const Handle(Poly_Triangulation) facets = BRep_Tool::Triangulation(face, location);
        if (facets.IsNull()) continue;
        const auto first = static_cast<std::uint32_t>(result.mesh.vertices.size());
        const auto number = static_cast<std::uint32_t>(result.faces.size());
        result.faces.push_back(faceRecord(face));
        for (int i = 1; i <= facets->NbNodes(); ++i)
            result.mesh.vertices.push_back(vec(facets->Node(i).Transformed(location.Transformation()).XYZ()));
        const bool isTurned = (face.Orientation() == TopAbs_REVERSED) != location.Transformation().IsNegative();
        for (int i = 1; i <= facets->NbTriangles(); ++i) {
            int a = 0, b = 0, c = 0;
            facets->Triangle(i).Get(a, b, c);
            if (isTurned) std::swap(b, c);
            const auto index = [&](int n) { return first + static_cast<std::uint32_t>(n) - 1; };
            result.mesh.triangles.push_back({index(a), index(b), index(c)});
            result.faceOfTriangle.push_back(number);
        }
    }
    return result;
}

/// Corners at one place become one; facets that collapse go.
void weld(Solid& solid, double tolerance_mm) {
    Mesh corners;
    corners.vertices = solid.mesh.vertices;
    std::vector<std::uint32_t> order(corners.vertices.size());
    for (std::uint32_t i = 0; i < order.size(); ++i)
        order[i] = i;
    const auto& v = corners.vertices;
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        return std::tie(v[a].x(), v[a].y(), v[a].z(), a) < std::tie(v[b].x(), v[b].y(), v[b].z(), b);
    });
    std::vector<std::uint32_t> same(v.size(), UINT32_MAX);
    Mesh mesh;
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (same[order[i]] != UINT32_MAX) continue;
        const auto kept = static_cast<std::uint32_t>(mesh.vertices.size());
        mesh.vertices.push_back(v[order[i]]);
        for (std::size_t j = i; j < order.size() && v[order[j]].x() - v[order[i]].x() <= tolerance_mm; ++j)
            if (same[order[j]] == UINT32_MAX && (v[order[j]] - v[order[i]]).norm() <= tolerance_mm)
                same[order[j]] = kept;
    }
    std::vector<std::uint32_t> faces;
    for (std::size_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        auto corner = solid.mesh.triangles[t];
        for (std::uint32_t& c : corner)
            c = same[c];
        if (corner[0] == corner[1] || corner[1] == corner[2] || corner[2] == corner[0]) continue;
        mesh.triangles.push_back(corner);
        faces.push_back(solid.faceOfTriangle[t]);
    }
    solid.mesh = std::move(mesh);
    solid.faceOfTriangle = std::move(faces);
}

bool areOneCylinder(const Face& a, const Face& b) {
    if (a.kind != SurfaceKind::cylinder || b.kind != SurfaceKind::cylinder || a.isHollow != b.isHollow) return false;
    const double slack = 1e-4 * std::max(1.0, a.radius_mm);
    return std::abs(a.radius_mm - b.radius_mm) < slack && std::abs(a.direction.dot(b.direction)) > 1 - 1e-8 &&
           (b.point - a.point).cross(a.direction).norm() < slack;
}

/// Joins the parts a cylinder was exported in, where they meet along an edge.
void joinCylinders(Solid& solid) {
    std::vector<std::uint32_t> into(solid.faces.size());
    for (std::uint32_t f = 0; f < into.size(); ++f)
        into[f] = f;
    const auto root = [&](std::uint32_t f) {
        while (into[f] != f)
            f = into[f];
        return f;
    };
    const std::vector<std::uint32_t> twins = edgeTwins(solid.mesh.triangles);
    for (std::uint32_t e = 0; e < twins.size(); ++e) {
        if (twins[e] == kNoEdge) continue;
        const std::uint32_t a = root(solid.faceOfTriangle[e / 3]), b = root(solid.faceOfTriangle[twins[e] / 3]);
        if (a != b && areOneCylinder(solid.faces[a], solid.faces[b])) into[std::max(a, b)] = std::min(a, b);
    }
    std::vector<Face> faces;
    std::vector<std::uint32_t> number(into.size());
    for (std::uint32_t f = 0; f < into.size(); ++f) {
        if (root(f) != f) continue;
        number[f] = static_cast<std::uint32_t>(faces.size());
        faces.push_back(solid.faces[f]);
    }
    for (std::uint32_t& f : solid.faceOfTriangle)
        f = number[root(f)];
    solid.faces = std::move(faces);
}

/// Which side the material is on, from the facets; a plane's outward normal.
void findSides(Solid& solid) {
    for (std::size_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        Face& face = solid.faces[solid.faceOfTriangle[t]];
        const Vec3 n = normalOf(solid.mesh, t);
        if (face.kind == SurfaceKind::plane && face.direction.isZero()) face.direction = n;
        if (face.kind != SurfaceKind::cylinder) continue;
        const Vec3 p = solid.mesh.vertices[solid.mesh.triangles[t][0]] - face.point;
        face.isHollow = n.dot(p - p.dot(face.direction) * face.direction) < 0;
    }
}

/// A cylinder whose facets look every way round its axis closes on itself.
void findFullTurns(Solid& solid) {
    constexpr int kSectors = 24;
    std::vector<std::vector<char>> seen(solid.faces.size(), std::vector<char>(kSectors, 0));
    for (std::size_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        const std::uint32_t f = solid.faceOfTriangle[t];
        const Face& face = solid.faces[f];
        if (face.kind != SurfaceKind::cylinder) continue;
        const Vec3 u = face.direction.unitOrthogonal(), v = face.direction.cross(u), n = normalOf(solid.mesh, t);
        const double turn = std::atan2(n.dot(v), n.dot(u)) / (2 * std::numbers::pi) + 0.5;
        seen[f][static_cast<std::size_t>(std::clamp(int(turn * kSectors), 0, kSectors - 1))] = 1;
    }
    for (std::size_t f = 0; f < seen.size(); ++f)
        solid.faces[f].isFullTurn = solid.faces[f].kind == SurfaceKind::cylinder &&
                                    std::all_of(seen[f].begin(), seen[f].end(), [](char s) { return s != 0; });
}

std::string placeText(const Vec3& p) {
    const auto whole = [](double x) { return std::to_string(std::lround(x)); };
    return "near (" + whole(p.x()) + " " + whole(p.y()) + " " + whole(p.z()) + ") mm";
}

Solid read(const std::filesystem::path& path, const std::string& name) {
    const TopoDS_Shape shape = onlySolidIn(rootOf(path, name), name);
    const double size = sizeOf(shape);
    if (!(size > kSmallest_mm && size < kLargest_mm))
        throw InputFault("size_absurd", name, "", "the body is smaller than a micrometre or larger than 100 m",
                         "check the unit the file was exported in");
    const double chord = std::max(kChord_mm, kChordShare * size);
    BRepMesh_IncrementalMesh(shape, chord, Standard_False, kAngle_rad, Standard_False);
    Solid solid = facetted(shape);
    weld(solid, 1e-7 * size);
    if (findLeak(solid.mesh).openEdges > 0) weld(solid, 1e-5 * size);
    const Leak leak = findLeak(solid.mesh);
    if (solid.mesh.triangles.empty() || leak.openEdges > 0)
        throw InputFault("surface_leaks", name, placeText(leak.place),
                         "the body's surface does not close (" + std::to_string(leak.openEdges) + " open edges)",
                         "repair the body in the drawing program and export it again");
    if (volumeOf(solid.mesh) < 0)
        for (auto& t : solid.mesh.triangles)
            std::swap(t[1], t[2]);
    findSides(solid);
    joinCylinders(solid);
    findFullTurns(solid);
    return solid;
}

/// One line for a fault; else counts, corners, facets with their face, faces.
void put(const Solid& solid) {
    std::string text;
    const auto number = [&](double x) {
        char digits[40];
        std::snprintf(digits, sizeof digits, "%a ", x);  // hexadecimal: exact, and no locale is set here
        text += digits;
    };
    const auto vector = [&](const Vec3& v) {
        for (int k = 0; k < 3; ++k)
            number(v[k]);
    };
    text += "solid " + std::to_string(solid.mesh.vertices.size()) + " " + std::to_string(solid.mesh.triangles.size()) +
            " " + std::to_string(solid.faces.size()) + "\n";
    for (const Vec3& v : solid.mesh.vertices)
        vector(v);
    for (std::size_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        for (const std::uint32_t c : solid.mesh.triangles[t])
            text += std::to_string(c) + " ";
        text += std::to_string(solid.faceOfTriangle[t]) + " ";
    }
    for (const Face& f : solid.faces) {
        text += std::to_string(int(f.kind)) + " ";
        vector(f.point);
        vector(f.direction);
        number(f.radius_mm);
        text += std::string(f.isHollow ? "1 " : "0 ") + (f.isFullTurn ? "1 " : "0 ");
    }
    std::fwrite(text.data(), 1, text.size(), stdout);
}

void put(const InputFault& fault) {
    std::printf("fault\n%s\n%s\n%s\n%s\n", fault.code().c_str(), fault.place().c_str(), fault.problem().c_str(),
                fault.remedy().c_str());
}

}  // namespace
}  // namespace waybench

int main(int count, char** arguments) {
    using namespace waybench;
    if (count != 2) return 2;
    try {
        put(read(arguments[1], arguments[1]));
    } catch (const InputFault& fault) {
        put(fault);
    } catch (const Standard_Failure&) {
        return 1;
    } catch (const std::exception&) {
        return 1;
    }
    return std::fflush(stdout) == 0 ? 0 : 1;
}
