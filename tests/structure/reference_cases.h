#pragma once
// The structural reference cases as bodies, supports and loads. What they should give stands, with its source, in
// tests/checks/structural_cases.json; tests/checks/check_structure.cpp compares, tests/bench prints.

#include <map>
#include <string>

#include "core/structure/stress_recovery.h"
#include "tests/structure/test_bodies.h"

namespace waybench::testing {

inline constexpr double kPi = 3.14159265358979323846;

struct CaseRun {
    std::map<std::string, double> got;              ///< by quantity name of the case file
    std::map<std::string, StructureAnswer> answer;  ///< where the public solver was asked
};

struct Material {
    double E, nu;
};
inline constexpr Material kAluminium{69000, 0.33}, kPolymer{2300, 0.36}, kPlate{69000, 0.3};

/// Asks the public solver; facets by plane or by hand.
inline StructureAnswer ask(const Solid& solid, Material material, const BoundLoadCase& bound,
                           Fidelity fidelity = Fidelity::standard) {
    Body body;
    body.solid = &solid;
    body.law = isotropicLaw(material.E, material.nu);
    StrengthLaw strength;
    strength.inLayer_MPa = 100;
    // some published cases are in inches: keep the ball small against the body
    strength.averagingLength_mm = std::min(2.0, 0.01 * boundsOf(solid.mesh).size().maxCoeff());
    Resolution resolution;
    resolution.fidelity = fidelity;
    return solveStructure(body, strength, bound, resolution, Task());
}

inline void put(CaseRun& run, const std::string& name, const StructureAnswer& answer) {
    run.got[name] = answer.deflection.value;
    run.answer[name] = answer;
}

/// Side-by-side rings of facets between radii, with plane top and bottom; first radius 0 closes the middle.
inline Mesh polarMesh(const std::vector<double>& radii, int corners, double height) {
    Mesh mesh;
    const auto ring = [&](double r, double z, int i) {
        const double angle = 2 * kPi * i / corners;
        return Vec3(r * std::cos(angle), r * std::sin(angle), z);
    };
    const auto add = [&](const Vec3& a, const Vec3& b, const Vec3& c) {
        if ((b - a).cross(c - a).norm() < 1e-14) return;
        const auto first = std::uint32_t(mesh.vertices.size());
        mesh.vertices.insert(mesh.vertices.end(), {a, b, c});
        mesh.triangles.push_back({first, first + 1, first + 2});
    };
    const auto quad = [&](const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
        add(a, b, c);
        add(a, c, d);
    };
    for (int i = 0; i < corners; ++i) {
        for (std::size_t k = 0; k + 1 < radii.size(); ++k) {
            const double r = radii[k], s = radii[k + 1];
            quad(ring(r, height, i), ring(s, height, i), ring(s, height, i + 1), ring(r, height, i + 1));
            quad(ring(r, 0, i), ring(r, 0, i + 1), ring(s, 0, i + 1), ring(s, 0, i));
        }
        const double out = radii.back(), in = radii.front();
        quad(ring(out, 0, i), ring(out, 0, i + 1), ring(out, height, i + 1), ring(out, height, i));
        if (in > 0) quad(ring(in, 0, i), ring(in, height, i), ring(in, height, i + 1), ring(in, 0, i + 1));
    }
    return welded(mesh, 1e-9 * radii.back());
}

inline CaseRun cantilever(const Vec3& size, Material material, double force, const Mat3& turn,
                          const std::string& name) {
    CaseRun run;
    const Mesh straight = boxMesh({0, size[0]}, {0, size[1]}, {0, size[2]});
    const Solid solid = solidOf(transformed(straight, turn, Vec3::Zero()));
    const auto end = facetsOn(straight, 0, size[0]);
    put(run, name,
        ask(solid, material,
            loadedBy(solid, turn * Vec3(0, 0, -force), facetsOn(straight, 0, 0), end, end, turn * Vec3(0, 0, -1))));
    return run;
}

/// Half of a beam on line supports, from mid-span x = 0: supports at x = halfSpan below, force strips above.
inline CaseRun halfBeam(const Vec3& size, double halfSpan, double loadAt, double force, Material material,
                        double spacing, const std::string& name) {
    constexpr double strip = 0.05;
    const double half = size[0] / 2, width = size[1], height = size[2];
    std::vector<double> x{0, halfSpan - strip / 2, halfSpan + strip / 2, half};
    if (loadAt > 0) x.insert(x.begin() + 1, {loadAt - strip / 2, loadAt + strip / 2});
    if (loadAt == 0) x.insert(x.begin() + 1, strip / 2);
    statics::Problem p;
    p.mesh = boxMesh(x, {0, width / 2}, {0, 0.45 * height, 0.55 * height, height});
    p.law = isotropicLaw(material.E, material.nu);
    const auto strips = [&](double at, double z) {
        return facetsWhere(p.mesh, [&](const Vec3& c, const Vec3& n) {
            return std::abs(c[2] - z) < 1e-9 && std::abs(n[2]) > 0.9 && std::abs(c[0] - at) < 0.6 * strip;
        });
    };
    p.supports = {heldAlong(facetsOn(p.mesh, 0, 0), {0}), heldAlong(facetsOn(p.mesh, 1, 0), {1}),
                  heldAlong(strips(halfSpan, 0), {2})};
    p.tractions = {evenForce(p.mesh, strips(loadAt, height), {0, 0, -force / 4})};
    p.measured = facetsWhere(p.mesh, [&](const Vec3& c, const Vec3& n) {
        return std::abs(n[0]) > 0.9 && c[0] < 1e-9 && std::abs(c[2] - height / 2) < 0.05 * height;
    });
    p.measuredDirection = {0, 0, -1};
    CaseRun run;
    run.got[name] = solveTwice(p, spacing).deflection();
    return run;
}

inline CaseRun fixedBothEnds(bool spread, const std::string& name) {
    const Solid solid = solidOf(boxMesh({0, 99, 101, 200}, {0, 14, 16, 30}, {0, 10}));
    auto ends = facetsOn(solid.mesh, 0, 0);
    for (auto t : facetsOn(solid.mesh, 0, 200))
        ends.push_back(t);
    const auto top = facetsOn(solid.mesh, 2, 10);
    const auto line = facetsWhere(
        solid.mesh, [](const Vec3& c, const Vec3& n) { return n[2] > 0.9 && c[2] > 9.9 && std::abs(c[0] - 100) < 1; });
    // Below the middle of the width: the edges bend down further (anticlastic), the top is dented by the line load.
    const auto middle = facetsWhere(solid.mesh, [](const Vec3& c, const Vec3& n) {
        return n[2] < -0.9 && std::abs(c[0] - 100) < 1 && std::abs(c[1] - 15) < 1;
    });
    CaseRun run;
    put(run, name,
        ask(solid, kAluminium,
            loadedBy(solid, {0, 0, spread ? -200.0 : -1000.0}, ends, spread ? top : line, middle, {0, 0, -1})));
    return run;
}

/// A bar 200 long clamped at x = 0 that carries its own weight, or swings.
inline StructureAnswer weightedBar(const Vec3& size, Material material, double density_g_per_cm3, const Vec3& gravity,
                                   double tipMass_g, const Vec3& push) {
    const Solid solid = solidOf(boxMesh({0, size[0]}, {0, size[1]}, {0, size[2]}));
    const auto held = facetsOn(solid.mesh, 0, 0), tip = facetsOn(solid.mesh, 0, size[0]);
    BoundLoadCase loads = loadedBy(solid, push, held, tip, tip, gravity.isZero() ? push : gravity);
    if (!gravity.isZero()) {
        loads.loadedTriangles.clear();
        loads.laws.clear();
        loads.loadCase.loads.clear();
        loads.loadCase.gravity = gravity;
    }
    if (tipMass_g > 0) {
        loads.loadCase.masses = {{FaceSelector::byName("tip"), tipMass_g}};
        loads.attachedTriangles = {tip};
    }
    Body body;
    body.solid = &solid;
    body.law = isotropicLaw(material.E, material.nu);
    body.density_g_per_mm3 = density_g_per_cm3 / 1000;
    StrengthLaw strength;
    strength.inLayer_MPa = 100;
    return solveStructure(body, strength, loads, Resolution{}, Task());
}

inline CaseRun sagging(const std::string& name) {
    CaseRun run;
    put(run, name, weightedBar({200, 20, 10}, kAluminium, 2.7, {0, 0, -1}, 0, {0, 0, -1}));
    return run;
}

/// Hangs from a face that slides in itself: only the motion along its normal is blocked, the rest of it at one edge.
inline CaseRun hanging(const std::string& name) {
    const Mesh mesh = boxMesh({0, 200}, {0, 10}, {0, 10});
    statics::Problem p;
    p.mesh = mesh;
    p.law = isotropicLaw(kPolymer.E, kPolymer.nu);
    p.density_g_per_mm3 = 1.24e-3;
    p.gravity_m_per_s2 = {kStandardGravity_m_per_s2, 0, 0};  // hung at x = 0, x points down
    p.supports = {heldAlong(facetsOn(mesh, 0, 0), {0}), heldAlong(facetsOn(mesh, 1, 0), {1}),
                  heldAlong(facetsOn(mesh, 2, 0), {2})};
    p.measured = facetsOn(mesh, 0, 200);
    p.measuredDirection = {1, 0, 0};
    CaseRun run;
    run.got[name] = solveTwice(p, 2.5).deflection();
    return run;
}

inline CaseRun swinging(double tipMass_g, const std::vector<std::pair<std::string, Vec3>>& modes) {
    CaseRun run;
    for (const auto& [name, size] : modes)
        run.got[name] =
            weightedBar(size, kAluminium, 2.7, Vec3::Zero(), tipMass_g, {0, 0, -1}).firstFrequency.value().value;
    return run;
}

inline CaseRun frame(const std::string& vertical, const std::string& horizontal) {
    const Region outline{{{-3, 0}, {3, 0}, {3, 117}, {100, 117}, {100, 123}, {-3, 123}}};
    const Solid solid = solidOf(extruded(outline, 20));
    const auto foot = facetsOn(solid.mesh, 1, 0), end = facetsOn(solid.mesh, 0, 100);
    CaseRun run;
    put(run, vertical, ask(solid, kAluminium, loadedBy(solid, {0, -50, 0}, foot, end, end, {0, -1, 0})));
    put(run, horizontal, ask(solid, kAluminium, loadedBy(solid, {0, -50, 0}, foot, end, end, {1, 0, 0})));
    return run;
}

inline CaseRun clampedPlate(double length, bool pressed, const std::string& name) {
    const double half = 1.0, disc = std::sqrt(kPi);  // square of the area of a disc of radius 2
    const std::vector<double> y{0, 50 - disc, 50 - half, 50 + half, 50 + disc, 100};
    std::vector<double> x = y;
    for (double& v : x)
        v += v > 50 ? (length - 100) * (v > 99 ? 1 : 0.5) : v > 1 ? (length - 100) / 2 : 0;
    const Solid solid = solidOf(boxMesh(x, y, {0, 2}));
    const auto edges = facetsWhere(solid.mesh, [](const Vec3&, const Vec3& n) { return std::abs(n[2]) < 0.1; });
    const Vec3 centre(length / 2, 50, 0);
    const auto near = [&](double reach, double z) {
        return facetsWhere(solid.mesh, [&](const Vec3& c, const Vec3& n) {
            return std::abs(n[2]) > 0.9 && std::abs(c[2] - z) < 1e-9 &&
                   (c - centre).head<2>().cwiseAbs().maxCoeff() < reach;
        });
    };
    CaseRun run;
    put(run, name,
        ask(solid, kPlate,
            loadedBy(solid, {0, 0, pressed ? -0.01 * length * 100 : -20.0}, edges,
                     pressed ? facetsOn(solid.mesh, 2, 2) : near(disc, 2), near(half, 0), {0, 0, -1})));
    return run;
}

/// Quarter of a plate whose edges rest at mid-height.
inline CaseRun restingPlate(double length, bool pressed, const std::string& name) {
    const double disc = std::sqrt(kPi);
    statics::Problem p;
    p.mesh = boxMesh({0, 1, disc, length / 2}, {0, 1, disc, 50}, {0, 0.95, 1.05, 2});
    p.law = isotropicLaw(kPlate.E, kPlate.nu);
    const auto edges = facetsWhere(p.mesh, [&](const Vec3& c, const Vec3& n) {
        return std::abs(c[2] - 1) < 0.05 && ((n[0] > 0.9 && c[0] > 1) || (n[1] > 0.9 && c[1] > 1));
    });
    const auto near = [&](double reach, double z) {
        return facetsWhere(p.mesh, [&](const Vec3& c, const Vec3& n) {
            return std::abs(n[2]) > 0.9 && std::abs(c[2] - z) < 1e-9 && std::max(c[0], c[1]) < reach;
        });
    };
    p.supports = {heldAlong(facetsOn(p.mesh, 0, 0), {0}), heldAlong(facetsOn(p.mesh, 1, 0), {1}),
                  heldAlong(edges, {2})};
    p.tractions = {evenForce(p.mesh, pressed ? facetsOn(p.mesh, 2, 2) : near(disc, 2),
                             {0, 0, pressed ? -0.01 * length * 25 : -5.0})};
    p.measured = near(1, 0);
    p.measuredDirection = {0, 0, -1};
    CaseRun run;
    run.got[name] = solveTwice(p, 1).deflection();
    return run;
}

inline CaseRun clampedDisc(bool pressed, const std::string& name) {
    const Solid solid = solidOf(polarMesh({0, 1, 2, 50}, 160, 2.5));
    const auto rim = facetsWhere(solid.mesh, [](const Vec3&, const Vec3& n) { return std::abs(n[2]) < 0.5; });
    const auto within = [&](double r, double z) {
        return facetsWhere(solid.mesh, [&](const Vec3& c, const Vec3& n) {
            return std::abs(n[2]) > 0.9 && std::abs(c[2] - z) < 1e-9 && c.head<2>().norm() < r;
        });
    };
    CaseRun run;
    put(run, name,
        ask(solid, kAluminium,
            loadedBy(solid, {0, 0, pressed ? -0.05 * kPi * 2500 : -100.0}, rim, within(pressed ? 50 : 2, 2.5),
                     within(1, 0), {0, 0, -1})));
    return run;
}

inline CaseRun ringPlate(const std::string& name) {
    const Solid solid = solidOf(polarMesh({20, 60}, 160, 5));
    const auto wall = [&](bool outer) {
        return facetsWhere(solid.mesh, [&](const Vec3& c, const Vec3& n) {
            return std::abs(n[2]) < 0.5 && (c.head<2>().norm() > 40) == outer;
        });
    };
    CaseRun run;
    put(run, name,
        ask(solid, kAluminium, loadedBy(solid, {0, 0, -500}, wall(true), wall(false), wall(false), {0, 0, -1})));
    return run;
}

inline CaseRun straightBenchmarkBeam(const std::map<std::string, Vec3>& forces) {
    const Solid solid = solidOf(boxMesh({0, 6}, {0, 0.1}, {0, 0.2}));
    const auto end = facetsOn(solid.mesh, 0, 6);
    CaseRun run;
    for (const auto& [name, force] : forces)
        put(run, name, ask(solid, {1e7, 0.3}, loadedBy(solid, force, facetsOn(solid.mesh, 0, 0), end, end, force)));
    return run;
}

inline CaseRun curvedBenchmarkBeam(const std::map<std::string, Vec3>& forces) {
    Ring outline;
    constexpr int parts = 90;
    for (int i = 0; i <= parts; ++i)
        outline.push_back(4.32 * Vec2(std::cos(kPi / 2 * i / parts), std::sin(kPi / 2 * i / parts)));
    for (int i = parts; i >= 0; --i)
        outline.push_back(4.12 * Vec2(std::cos(kPi / 2 * i / parts), std::sin(kPi / 2 * i / parts)));
    outline[parts] = {0, 4.32};
    outline[parts + 1] = {0, 4.12};
    const Solid solid = solidOf(extruded({outline}, 0.1));
    const auto free = facetsOn(solid.mesh, 1, 0), fixed = facetsOn(solid.mesh, 0, 0);
    CaseRun run;
    for (const auto& [name, force] : forces)
        put(run, name, ask(solid, {1e7, 0.25}, loadedBy(solid, force, fixed, free, free, force)));
    return run;
}

inline CaseRun twistedBenchmarkBeam(const std::map<std::string, bool>& alongWidth) {
    Mesh mesh = boxMesh(steps(0, 12, 48), steps(-0.55, 0.55, 8), steps(-0.16, 0.16, 2));
    const auto root = facetsOn(mesh, 0, 0), tip = facetsOn(mesh, 0, 12);
    for (Vec3& v : mesh.vertices)
        v = Eigen::AngleAxisd(kPi / 2 * v[0] / 12, Vec3::UnitX()) * v;
    const Solid solid = solidOf(mesh);
    CaseRun run;
    for (const auto& [name, width] : alongWidth) {
        const Vec3 force = width ? Vec3::UnitZ() : Vec3::UnitY();  // the tip's width has turned from y to z
        put(run, name, ask(solid, {2.9e7, 0.22}, loadedBy(solid, force, root, tip, tip, force)));
    }
    return run;
}

/// Quarter of a thick cylinder in plane strain; radial displacement of the bore.
inline CaseRun thickCylinder(const std::string& name) {
    Ring outline;
    constexpr int parts = 60;
    for (int i = 0; i <= parts; ++i)
        outline.push_back(20 * Vec2(std::cos(kPi / 2 * i / parts), std::sin(kPi / 2 * i / parts)));
    for (int i = parts; i >= 0; --i)
        outline.push_back(10 * Vec2(std::cos(kPi / 2 * i / parts), std::sin(kPi / 2 * i / parts)));
    outline[parts] = {0, 20};
    outline[parts + 1] = {0, 10};
    statics::Problem p;
    p.mesh = extruded({outline}, 2);
    p.law = isotropicLaw(210000, 0.3);
    auto ends = facetsOn(p.mesh, 2, 0);
    for (auto t : facetsOn(p.mesh, 2, 2))
        ends.push_back(t);
    p.supports = {heldAlong(facetsOn(p.mesh, 0, 0), {0}), heldAlong(facetsOn(p.mesh, 1, 0), {1}), heldAlong(ends, {2})};
    const auto bore = facetsWhere(p.mesh, [](const Vec3& c, const Vec3& n) {
        return std::abs(n[2]) < 0.5 && c.head<2>().norm() < 10.5 && n.dot(c) < 0;
    });
    const Mesh& mesh = p.mesh;
    p.tractions = {{bore, [&mesh](std::uint32_t t, const Vec3&) { return Vec3(-100 * normalOf(mesh, t)); }}};
    p.measured = bore;
    p.measuredDirection = Vec3(1, 1, 0).normalized();
    // mean of u over the quarter bore is u_r * (2/pi, 2/pi); along the diagonal that is u_r * 2 sqrt(2)/pi
    CaseRun run;
    run.got[name] = solveTwice(p, 0.5).deflection() * kPi / (2 * std::sqrt(2.0));
    return run;
}

/// Quarter of a sandwich strip, skins on a soft core, as a printed body with skins and no walls.
inline CaseRun sandwich(const std::string& name) {
    statics::Problem p;
    p.mesh = boxMesh({0, 0.25, 80}, {0, 10}, {0, 4.5, 5.5, 10});
    p.law = isotropicLaw(2300, 0.36);
    p.inside.emplace();
    p.inside->skinAbove_mm = p.inside->skinBelow_mm = 1.2;
    p.inside->infillLaw = isotropicLaw(150, 0.3);
    const auto line =
        facetsWhere(p.mesh, [](const Vec3& c, const Vec3& n) { return n[2] > 0.9 && c[2] > 9 && c[0] < 0.25; });
    p.supports = {heldAlong(facetsOn(p.mesh, 0, 0), {0}), heldAlong(facetsOn(p.mesh, 1, 0), {1}),
                  heldAlong(facetsOn(p.mesh, 0, 80), {2})};
    p.tractions = {evenForce(p.mesh, line, {0, 0, -5})};
    p.measured = facetsWhere(p.mesh, [](const Vec3& c, const Vec3& n) {
        return std::abs(n[0]) > 0.9 && c[0] < 1e-9 && std::abs(c[2] - 5) < 0.5;
    });
    p.measuredDirection = {0, 0, -1};
    CaseRun run;
    run.got[name] = solveTwice(p, 1.2).deflection();
    return run;
}

/// Modulus along a bar of layered material whose layers' normal makes the angle with the bar.
inline double modulusOfLayeredBar(double angle) {
    statics::Problem p;
    p.mesh = boxMesh({0, 60}, {0, 4.75, 5.25, 10}, {0, 4.75, 5.25, 10});
    Mat3 turn;  // columns: material axes in the bar's; z along the bar turned by the angle
    turn.col(2) = Vec3(std::cos(angle), 0, std::sin(angle));
    turn.col(0) = Vec3(std::sin(angle), 0, -std::cos(angle));
    turn.col(1) = turn.col(2).cross(turn.col(0));
    p.law = rotated(transverselyIsotropicLaw(2600, 2000, 0.35, 0.35, 750), turn);
    const auto near = facetsOn(p.mesh, 0, 0), far = facetsOn(p.mesh, 0, 60);
    p.supports = {{facetsWhere(p.mesh,
                               [](const Vec3& c, const Vec3& n) {
                                   return n[0] < -0.9 && std::abs(c[1] - 5) < 0.25 && std::abs(c[2] - 5) < 0.25;
                               }),
                   Mat3::Identity()}};
    p.tractions = {evenForce(p.mesh, near, {-1000, 0, 0}), evenForce(p.mesh, far, {1000, 0, 0})};
    p.measured = far;
    p.measuredDirection = Vec3::UnitX();
    const TwoGrids both = solveTwice(p, 1.25);
    const double stretch = meanOver(both.fine, p.mesh, far)[0] - meanOver(both.fine, p.mesh, near)[0];
    return 10.0 / (stretch / 60);
}

/// Cook's membrane: half the thickness from the symmetry plane.
inline CaseRun membrane(const std::string& name) {
    statics::Problem p;
    p.mesh = extruded({{{0, 0}, {48, 44}, {48, 51}, {48, 53}, {48, 60}, {0, 44}}}, 0.5);
    p.law = isotropicLaw(1, 1.0 / 3);
    p.supports = {heldAlong(facetsOn(p.mesh, 0, 0), {0, 1}), heldAlong(facetsOn(p.mesh, 2, 0), {2})};
    p.tractions = {evenForce(p.mesh, facetsOn(p.mesh, 0, 48), {0, 0.5, 0})};
    p.measured =
        facetsWhere(p.mesh, [](const Vec3& c, const Vec3& n) { return n[0] > 0.9 && std::abs(c[1] - 52) < 1; });
    p.measuredDirection = Vec3::UnitY();
    CaseRun run;
    run.got[name] = solveTwice(p, 0.5).deflection();
    return run;
}

/// Round tube under a twisting moment; rotation of the loaded end.
inline CaseRun twistedTube(const std::string& name) {
    const Solid solid = solidOf(polarMesh({7, 10}, 160, 100));
    BoundLoadCase bound = loadedBy(solid, {0, 0, 1}, facetsOn(solid.mesh, 2, 0), facetsOn(solid.mesh, 2, 100),
                                   facetsOn(solid.mesh, 2, 100), {0, 0, 1});
    bound.loadCase.loads[0].kind = LoadKind::moment;
    bound.loadCase.loads[0].vector = {0, 0, 20000};
    bound.laws[0] = tractionLaw(solid, bound.loadCase.loads[0], bound.loadedTriangles[0], "load 1");
    const StructureAnswer answer = ask(solid, kAluminium, bound);
    double sum = 0, count = 0;
    for (std::size_t v = 0; v < solid.mesh.vertices.size(); ++v) {
        const Vec3& x = solid.mesh.vertices[v];
        if (x[2] < 99.9) continue;
        sum += x.cross(answer.displacement_mm[v])[2] / x.head<2>().squaredNorm();
        count += 1;
    }
    CaseRun run;
    run.got[name] = sum / count;
    return run;
}

/// All cases by identifier.
inline const std::map<std::string, std::function<CaseRun()>>& referenceCases() {
    static const Mat3 straight = Mat3::Identity();
    static const std::map<std::string, std::function<CaseRun()>> cases{
        {"S01",
         [] {
             return cantilever({200, 20, 10}, kAluminium, 100, straight, "mean end deflection, -z");
         }},
        {"S02",
         [] {
             return cantilever({40, 10, 10}, kPolymer, 50, straight, "mean end deflection, -z");
         }},
        {"S03", [] { return sagging("mean end deflection, -z"); }},
        {"S04",
         [] {
             return halfBeam({80, 10, 4}, 32, 0, 20, kPolymer, 0.5, "mid-span deflection (mid-height)");
         }},
        {"S05",
         [] {
             return halfBeam({127, 12.7, 3.2}, 25.6, 0, 25, kPolymer, 0.5, "mid-span deflection (mid-height)");
         }},
        {"S06",
         [] {
             return halfBeam({80, 10, 4}, 33, 11, 30, kPolymer, 0.5, "mid-span deflection (mid-height)");
         }},
        {"S07", [] { return fixedBothEnds(false, "mid-span deflection (mid-height)"); }},
        {"S08", [] { return fixedBothEnds(true, "mid-span deflection (mid-height)"); }},
        {"S09", [] { return frame("vertical end deflection", "horizontal end deflection"); }},
        {"S10",
         [] {
             return straightBenchmarkBeam({{"end displacement, axial", Vec3::UnitX()},
                                           {"end displacement, in-plane", Vec3::UnitZ()},
                                           {"end displacement, out-of-plane", Vec3::UnitY()}});
         }},
        {"S11",
         [] {
             return curvedBenchmarkBeam({{"end displacement along the force, in-plane", Vec3::UnitX()},
                                         {"end displacement along the force, out-of-plane", Vec3::UnitZ()}});
         }},
        {"S12",
         [] {
             return twistedBenchmarkBeam({{"end displacement, force along the tip width", true},
                                          {"end displacement, force along the tip thickness", false}});
         }},
        {"S13", [] { return restingPlate(100, true, "centre deflection"); }},
        {"S14", [] { return restingPlate(200, true, "centre deflection"); }},
        {"S15", [] { return restingPlate(100, false, "centre deflection"); }},
        {"S16", [] { return clampedPlate(100, true, "centre deflection"); }},
        {"S17", [] { return clampedPlate(200, true, "centre deflection"); }},
        {"S18", [] { return clampedPlate(100, false, "centre deflection"); }},
        {"S19", [] { return clampedDisc(true, "centre deflection"); }},
        {"S21", [] { return clampedDisc(false, "centre deflection (underside)"); }},
        {"S22", [] { return ringPlate("deflection of the bore"); }},
        {"S25", [] { return twistedTube("rotation of the end"); }},
        {"S26", [] { return thickCylinder("radial displacement of the bore"); }},
        {"S27", [] { return sandwich("mid-span deflection (mid-height)"); }},
        {"S28",
         [] {
             CaseRun run;
             run.got["modulus along the bar, 0 deg (along z)"] = modulusOfLayeredBar(0);
             run.got["modulus along the bar, 45 deg"] = modulusOfLayeredBar(kPi / 4);
             run.got["modulus along the bar, 90 deg (in the layer)"] = modulusOfLayeredBar(kPi / 2);
             return run;
         }},
        {"S29", [] { return membrane("vertical displacement of the middle of the free edge, (48,52)"); }},
        {"S32",
         [] {
             return swinging(0, {{"first frequency (bends about the thin side)", Vec3(200, 20, 10)}});
         }},
        {"S33",
         [] {
             return swinging(2000, {{"first frequency", Vec3(200, 20, 10)}});
         }},
        {"S37", [] { return hanging("mean u_z of the lower face (magnitude)"); }},
        {"S38",
         [] {
             const Mat3 turn = (Eigen::AngleAxisd(kPi / 6, Vec3::UnitZ()) * Eigen::AngleAxisd(kPi / 9, Vec3::UnitY()))
                                   .toRotationMatrix();
             return cantilever({200, 20, 10}, kAluminium, 100, turn, "end deflection along the turned force");
         }},
    };
    return cases;
}

}  // namespace waybench::testing
