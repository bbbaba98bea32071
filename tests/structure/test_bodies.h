#pragma once
#include <cmath>
#include <functional>
#include <vector>

#include "core/geometry/polygon.h"
#include "core/loadcase/traction.h"
#include "core/structure/problem.h"
#include "core/structure/structure.h"

namespace waybench::testing {

/// Coordinates from low to high in equal steps.
inline std::vector<double> steps(double low, double high, int count) {
    std::vector<double> x;
    for (int i = 0; i <= count; ++i)
        x.push_back(low + (high - low) * i / count);
    return x;
}

/// Surface of a box, divided by the given coordinates on each axis, so that strips of facets can be picked.
inline Mesh boxMesh(const std::vector<double>& x, const std::vector<double>& y, const std::vector<double>& z) {
    const std::array<std::vector<double>, 3> lines{x, y, z};
    Mesh mesh;
    for (std::size_t axis = 0; axis < 3; ++axis)
        for (bool high : {false, true}) {
            const std::size_t u = (axis + 1) % 3, v = (axis + 2) % 3;
            for (std::size_t i = 0; i + 1 < lines[u].size(); ++i)
                for (std::size_t j = 0; j + 1 < lines[v].size(); ++j) {
                    const auto first = std::uint32_t(mesh.vertices.size());
                    for (std::size_t q = 0; q < 4; ++q) {
                        Vec3 p;
                        p[Eigen::Index(axis)] = high ? lines[axis].back() : lines[axis].front();
                        p[Eigen::Index(u)] = lines[u][i + (q == 1 || q == 2)];
                        p[Eigen::Index(v)] = lines[v][j + (q >= 2)];
                        mesh.vertices.push_back(p);
                    }
                    if (high) {
                        mesh.triangles.push_back({first, first + 1, first + 2});
                        mesh.triangles.push_back({first, first + 2, first + 3});
                    } else {
                        mesh.triangles.push_back({first, first + 2, first + 1});
                        mesh.triangles.push_back({first, first + 3, first + 2});
                    }
                }
        }
    return welded(mesh, 1e-9 * boundsOf(mesh).size().norm());
}

/// Upright sides over a ring, with vertices of their own: the lower ones first.
inline void addSides(Mesh& mesh, const Ring& ring, double low, double high) {
    const auto first = std::uint32_t(mesh.vertices.size()), n = std::uint32_t(ring.size());
    for (double z : {low, high})
        for (const Vec2& p : ring)
            mesh.vertices.push_back({p[0], p[1], z});
    for (std::uint32_t i = 0; i < n; ++i) {
        const std::uint32_t a = first + i, b = first + (i + 1) % n;
        mesh.triangles.push_back({a, b, b + n});
        mesh.triangles.push_back({a, b + n, a + n});
    }
}

/// Region swept from z = 0 to height.
inline Mesh extruded(const Region& region, double height) {
    Mesh mesh;
    for (const Ring& ring : region)
        addSides(mesh, ring, 0, height);
    for (const auto& t : triangulate(region)) {
        std::array<std::uint32_t, 3> below{}, above{};
        for (std::size_t k = 0; k < 3; ++k) {
            std::uint32_t index = t[k], first = 0;
            for (const Ring& ring : region) {
                if (index < ring.size()) {
                    below[k] = first + index;
                    above[k] = below[k] + std::uint32_t(ring.size());
                    break;
                }
                index -= std::uint32_t(ring.size());
                first += 2 * std::uint32_t(ring.size());
            }
        }
        mesh.triangles.push_back(above);
        mesh.triangles.push_back({below[0], below[2], below[1]});
    }
    return mesh;
}

inline Ring circle(double radius, int corners, bool isHole = false, const Vec2& centre = Vec2::Zero()) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * 3.14159265358979323846 * i / corners * (isHole ? -1 : 1);
        ring.push_back(centre + radius * Vec2(std::cos(angle), std::sin(angle)));
    }
    return ring;
}

/// Two bodies as one mesh.
inline Mesh joined(const Mesh& a, const Mesh& b) {
    Mesh both = a;
    const auto shift = std::uint32_t(a.vertices.size());
    both.vertices.insert(both.vertices.end(), b.vertices.begin(), b.vertices.end());
    for (const auto& t : b.triangles)
        both.triangles.push_back({t[0] + shift, t[1] + shift, t[2] + shift});
    return both;
}

/// One face only; the tests pick facets by place.
inline Solid solidOf(Mesh mesh) {
    Solid solid;
    solid.mesh = std::move(mesh);
    solid.faceOfTriangle.assign(solid.mesh.triangles.size(), 0);
    solid.faces.push_back({});
    solid.faces[0].name = "all";
    return solid;
}

inline std::vector<std::uint32_t> facetsWhere(const Mesh& mesh,
                                              const std::function<bool(const Vec3& centre, const Vec3& normal)>& pick) {
    std::vector<std::uint32_t> picked;
    for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
        const auto& c = mesh.triangles[t];
        if (pick((mesh.vertices[c[0]] + mesh.vertices[c[1]] + mesh.vertices[c[2]]) / 3, normalOf(mesh, t)))
            picked.push_back(t);
    }
    return picked;
}

/// Facets of the plane x, y or z = position.
inline std::vector<std::uint32_t> facetsOn(const Mesh& mesh, int axis, double position) {
    const double slack = 1e-6 * boundsOf(mesh).size().norm();
    return facetsWhere(mesh, [&](const Vec3& centre, const Vec3& normal) {
        return std::abs(centre[axis] - position) < slack && std::abs(normal[axis]) > 0.999;
    });
}

/// Load case bound by hand: facets held, facets under one force, facets measured along a direction.
inline BoundLoadCase loadedBy(const Solid& solid, const Vec3& force, std::vector<std::uint32_t> held,
                              std::vector<std::uint32_t> loaded, std::vector<std::uint32_t> measured,
                              const Vec3& direction) {
    BoundLoadCase bound;
    Load load;
    load.kind = LoadKind::force;
    load.vector = force;
    bound.loadCase.loads.push_back(load);
    bound.loadCase.holds.push_back({});
    bound.loadCase.measuredDirection = direction.normalized();
    bound.loadCase.deflectionLimit_mm = 1;
    bound.holds.push_back({HoldKind::fixed, std::move(held)});
    bound.loadedTriangles.push_back(std::move(loaded));
    bound.measuredTriangles = std::move(measured);
    bound.laws.push_back(tractionLaw(solid, load, bound.loadedTriangles[0], "load 1"));
    return bound;
}

/// Deflection of a problem with supports that a load case does not have (symmetry planes, line supports): two nested
/// grids of the given fine spacing, extrapolated as the solver does.
struct TwoGrids {
    statics::Equilibrium coarse, fine;
    double deflection() const { return fine.deflection_mm + (fine.deflection_mm - coarse.deflection_mm) / 3; }
};

inline TwoGrids solveTwice(const statics::Problem& problem, double fineSpacing) {
    TwoGrids both;
    const statics::Grid coarse =
        statics::snappedGrid(boundsOf(problem.mesh), statics::axisParallelPlanes(problem.mesh), 2 * fineSpacing);
    both.coarse = statics::solveOnGrid(problem, coarse, 1e-7, nullptr, Task());
    both.fine = statics::solveOnGrid(problem, statics::bisected(coarse), 1e-7, &both.coarse, Task());
    return both;
}

inline statics::Traction evenForce(const Mesh& mesh, std::vector<std::uint32_t> triangles, const Vec3& force) {
    double area = 0;
    for (std::uint32_t t : triangles) {
        const auto& c = mesh.triangles[t];
        area +=
            0.5 * (mesh.vertices[c[1]] - mesh.vertices[c[0]]).cross(mesh.vertices[c[2]] - mesh.vertices[c[0]]).norm();
    }
    const Vec3 traction = force / area;
    return {std::move(triangles), [traction](std::uint32_t, const Vec3&) { return traction; }};
}

inline statics::Support heldAlong(std::vector<std::uint32_t> triangles, const std::vector<int>& axes) {
    statics::Support support{std::move(triangles), Mat3::Zero()};
    for (int axis : axes)
        support.held(axis, axis) = 1;
    return support;
}

/// Mean displacement over facets of a solved problem.
inline Vec3 meanOver(const statics::Equilibrium& equilibrium, const Mesh& mesh,
                     const std::vector<std::uint32_t>& triangles) {
    double lost = 0, area = 0;
    Vec3 sum = Vec3::Zero();
    for (const auto& p : statics::surfacePoints(equilibrium.lattice, mesh, triangles, lost, Task())) {
        sum += p.area_mm2 * equilibrium.displacementAt(p.element, p.local);
        area += p.area_mm2;
    }
    return sum / area;
}

}  // namespace waybench::testing
