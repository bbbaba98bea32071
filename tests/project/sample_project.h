#pragma once
#include "core/project/project.h"

namespace waybench::testing {

/// A project that uses every key of the file at least once. Invented figures.
inline Project sampleProject() {
    Project project;
    project.title = "Invented rig, \"left\" half";
    project.author = "A. Builder";
    project.identification = "R-7";
    project.note = "line one\nline two";
    project.date = "2024-05-01";

    Part plate;
    plate.name = "plate";
    plate.note = "carries the motor";
    plate.shape.family = "plate";
    plate.shape.dimensions = {{"length", 120}, {"thickness", 1.0 / 3}};
    plate.printedDimensions = {{"thickness", 12}};
    plate.machinedDimensions = {{"thickness", 6}};
    plate.recipe.material = "pla";
    plate.recipe.walls = 5;
    plate.recipe.infill = InfillPattern::grid;
    plate.recipe.up = Direction::minus_y;
    plate.recipe.supports = false;
    plate.plan.tabs = false;
    plate.plan.stockMargin_mm = 7.5;
    LoadCase& l = plate.loadCase;
    l.name = "motor stalls";
    l.holds = {{FaceSelector::byName("bore 1")},
               {FaceSelector::byBox(Vec3(0, 0, 0), Vec3(1, 60, 10.1))},
               {FaceSelector::byPoint(Vec3(1, 2, 3), Vec3(1, 1, 1).normalized())}};
    l.loads = {{LoadKind::force, FaceSelector::byName("top"), Vec3(0, 0.1, -40), 0},
               {LoadKind::moment, FaceSelector::byName("bore 2"), Vec3(100, 0, 0), 0},
               {LoadKind::pressure, FaceSelector::byBox(Vec3(0, 0, 0), Vec3(2, 2, 2)), Vec3::Zero(), 0.25},
               {LoadKind::bearing, FaceSelector::byPoint(Vec3(0, 0, 1), Vec3(0, 0, 1)), Vec3(0, 12, 0), 0}};
    l.measuredFace = FaceSelector::byName("top");
    l.measuredDirection = Vec3(1, 2, -2) / 3;
    l.deflectionLimit_mm = 0.1;
    l.duration = Duration::cyclic;
    l.cycles = 200000;
    plate.weights = {{"cost", 0.25}, {"waste", 0}};
    plate.chosenRoute = "machined";

    Part drawn;
    drawn.name = "drawn";
    drawn.shape.kind = ShapeKind::drawing;
    drawn.shape.file = "parts/cross plate.dxf";
    drawn.shape.fileUnit_mm = 25.4;
    drawn.shape.dimensions = {{"thickness", 8}};
    drawn.loadCase = l;
    drawn.loadCase.duration = Duration::hours;
    drawn.loadCase.duration_h = 12.5;

    Part clamp;
    clamp.name = "clamp";
    clamp.shape.kind = ShapeKind::surface;
    clamp.shape.file = "clamp.stl";
    clamp.loadCase = l;

    Part loaded;
    loaded.name = "loaded in several ways";
    loaded.shape.family = "plate";
    loaded.shape.dimensions = {{"length", 90}};
    loaded.loadCase = l;
    LoadCase stop = drawn.loadCase;
    stop.name = "emergency stop";
    stop.holds = {{FaceSelector::byName("bore 1"), HoldKind::bolted, 11.5},
                  {FaceSelector::byName("bore 2"), HoldKind::bolted},
                  {FaceSelector::byName("bottom"), HoldKind::sliding}};
    LoadCase weight = l;
    weight.name = "weight";
    weight.gravity = Vec3(0, 0, -1);
    loaded.furtherLoadCases = {stop, weight};
    project.parts = {plate, drawn, clamp, loaded};
    return project;
}

}  // namespace waybench::testing
