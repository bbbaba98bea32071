#pragma once
#include <string>
#include <vector>

#include "core/geometry/mesh.h"

namespace waybench {

enum class SurfaceKind { plane, cylinder, other };

/// A named stretch of a solid's surface.
struct Face {
    std::string name;  ///< unique in its solid; family faces by meaning ("bore 1"), else "face 7"
    SurfaceKind kind = SurfaceKind::other;
    Vec3 point = Vec3::Zero();      ///< plane: a point on it; cylinder: a point on the axis (middle of the face)
    Vec3 direction = Vec3::Zero();  ///< plane: outward unit normal; cylinder: unit axis
    double radius_mm = 0;           ///< cylinder only
    bool isHollow = false;          ///< cylinder with material outside: a bore or an inner fillet
    bool isFullTurn = false;        ///< cylinder that closes on itself: a hole or a boss
    double area_mm2 = 0;
    Vec3 centroid = Vec3::Zero();  ///< area centroid
};

/// A closed body: outer surface with every facet belonging to one face. mm, part coordinates.
struct Solid {
    Mesh mesh;
    std::vector<std::uint32_t> faceOfTriangle;  ///< one per triangle, index into faces
    std::vector<Face> faces;
    std::vector<std::string> notes{};  ///< what was mended in the file it came from
};

/// Groups facets into planes, cylinders and the rest by their normals, and fills kind, axis, radius, area.
/// Precondition: mesh closed. Names are "face 1" ... ordered by size, so that they survive a re-export of the file
/// with other facet order. @param smoothAngle_deg facets meeting below this angle are one curved face
Solid segmented(Mesh mesh, double smoothAngle_deg = 25.0);
/// Measures the faces, orders them by size and names them "face 1" ... in that order.
Solid namedBySize(Solid solid);
/// Fills area, centroid and point of every face from the mesh; for makers that set name, kind, direction themselves.
void measureFaces(Solid& solid);
/// Rotated and moved body with its faces. rotation must be proper.
Solid transformed(const Solid& solid, const Mat3& rotation, const Vec3& shift);

/// Outward unit normal of the true surface at a point of a facet: that of the plane or cylinder its face is, else the
/// facet's own.
Vec3 surfaceNormalAt(const Solid& solid, std::uint32_t triangle, const Vec3& p);

/// How a face is meant in a project file: by name, by an axis-aligned box that takes all faces lying inside it,
/// or by a point on the face and its outward normal. The last two survive re-import.
struct FaceSelector {
    enum class Kind { name, box, point } kind = Kind::name;
    std::string name;
    Box3 box;
    Vec3 point = Vec3::Zero(), normal = Vec3::Zero();

    static FaceSelector byName(std::string name);
    static FaceSelector byBox(const Vec3& low, const Vec3& high);
    static FaceSelector byPoint(const Vec3& point, const Vec3& normal);
    std::string text() const;  ///< for messages: "face 'bore 1'", "box (0 0 0) to (1 60 10)"
    bool operator==(const FaceSelector&) const = default;
};

/// Facet indices the selector takes. A box takes single facets (all three corners inside, 1e-6 mm slack; a large
/// planar face may therefore be taken in part only after the mesh was refined: see refinedForBox).
/// @throws InputFault "face_not_found" naming the selector and the faces there are
std::vector<std::uint32_t> select(const Solid& solid, const FaceSelector& selector);
/// The same body with its facets cut along the six planes of the box, so that a box selector takes exactly the stretch
/// of surface inside it. Closed when the solid was closed; faces keep their names and order.
Solid refinedForBox(const Solid& solid, const Box3& box);

}  // namespace waybench
