#pragma once
#include <memory>

#include "core/bench/shop.h"
#include "core/geometry/surface_builder.h"
#include "core/machined/machined_route.h"
#include "core/machined/machining_evaluation.h"

namespace waybench::machined {

/// Shipped catalogue, read once.
inline const Shop& shippedShop() {
    static const Shop shop = readShop(resourceFolder());
    return shop;
}

inline Outline rectangleOutline(double x0, double y0, double x1, double y1, const std::string& name) {
    return polygonal({{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}},
                     {name + " -y", name + " +x", name + " +y", name + " -x"});
}

/// A pocket or a blind hole in the top or the underside of a plate.
struct Sunk {
    Outline outline;
    double depth_mm = 0;
    bool below = false;
};

/// Rectangular plate with through cut-outs and sunk ones, its corner at the origin.
inline Solid plateWith(double length, double width, double height, const std::vector<Outline>& through,
                       const std::vector<Sunk>& sunk = {}) {
    SurfaceBuilder builder;
    const Frame bottom{};
    const Outline outside = rectangleOutline(0, 0, length, width, "side");
    SurfaceBuilder::Holes above, below;
    for (const Outline& t : through) {
        builder.walls(t, bottom, height, true);
        below.push_back(bottom.at(t.points));
        above.push_back(bottom.at(t.points, height));
    }
    int n = 0;
    for (const Sunk& s : sunk) {
        const double floor = s.below ? s.depth_mm : height - s.depth_mm;
        builder.walls(s.outline, bottom.raised(s.below ? 0 : floor), s.depth_mm, true);
        builder.flat("floor " + std::to_string(++n), s.below ? Vec3(-Vec3::UnitZ()) : Vec3(Vec3::UnitZ()),
                     bottom.at(s.outline.points, floor));
        (s.below ? below : above).push_back(bottom.at(s.outline.points, s.below ? 0 : height));
    }
    builder.walls(outside, bottom, height, false);
    builder.flat("top", Vec3::UnitZ(), bottom.at(outside.points, height), above);
    builder.flat("bottom", -Vec3::UnitZ(), bottom.at(outside.points), below);
    return builder.finished();
}

/// Held at one short end, pushed down at the other.
inline RouteTask taskFor(Solid solid, double force_N = 40) {
    RouteTask task;
    task.partName = "sample";
    LoadCase& c = task.loadCase;
    c.holds = {{FaceSelector::byName("side -x")}};
    Load load;
    load.face = FaceSelector::byName("side +x");
    load.vector = {0, 0, -force_N};
    c.loads = {load};
    c.measuredFace = FaceSelector::byName("side +x");
    c.measuredDirection = -Vec3::UnitZ();
    c.deflectionLimit_mm = 0.2;
    task.solid = std::make_shared<const Solid>(std::move(solid));
    return task;
}

inline RouteOutcome machine(const RouteTask& task, const Plan& plan = {}, Fidelity fidelity = Fidelity::draft) {
    return MachinedRoute(shippedShop(), plan, "workshop").evaluate(task, fidelity, Task{});
}

inline const RouteWarning* warningOf(const RouteOutcome& outcome, const std::string& code) {
    for (const RouteWarning& w : outcome.warnings)
        if (w.code == code) return &w;
    return nullptr;
}

/// Access, set-ups and operations alone.
struct Planned {
    AccessPlan access;
    std::vector<SetUp> setUps;
    OperationPlan work;
};
inline Planned planned(const Solid& solid, const Plan& plan = {}) {
    Planned p;
    const Workshop workshop = workshopFor(shippedShop(), plan);
    const AccessGrid grid = accessGridOf(solid, Fidelity::draft, Task{}, reachOf(workshop));
    p.access = planAccess(grid, solid);
    p.setUps = setUpsFor(solid, grid, p.access, Fidelity::draft, Task{});
    p.work = planOperations(workshop, p.setUps, 0, Task{});
    return p;
}

}  // namespace waybench::machined
