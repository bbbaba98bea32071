#include "core/structure/structure.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>
#include <utility>

#include "core/fault/input_fault.h"
#include "core/structure/grid_answer.h"
#include "core/structure/hold_supports.h"

namespace waybench {

namespace {

using namespace statics;

/// Rotation that turns the build direction into +z; exact for the principal directions.
Mat3 toSolverAxes(const Body& body) {
    // A body alike all through needs no turning unless its layers lie askew to the axes.
    if (!body.inside && (!body.layerNormal || body.layerNormal->cwiseAbs().maxCoeff() > 1 - 1e-9))
        return Mat3::Identity();
    const Vec3 up = (body.inside ? body.inside->buildDirection : *body.layerNormal).normalized();
    for (int axis = 0; axis < 3; ++axis)
        for (double sign : {1.0, -1.0}) {
            if ((up - sign * Vec3::Unit(axis)).norm() > 1e-9) continue;
            Mat3 r;
            const Vec3 x = Vec3::Unit((axis + 1) % 3), z = sign * Vec3::Unit(axis);
            r.row(0) = x;
            r.row(1) = z.cross(x);
            r.row(2) = z;
            return r;
        }
    return Eigen::Quaterniond::FromTwoVectors(up, Vec3::UnitZ()).toRotationMatrix();
}

/// Axis of the layers in solver axes.
int layerAxisOf(const Body& body) {
    if (body.inside || !body.layerNormal || body.layerNormal->cwiseAbs().maxCoeff() <= 1 - 1e-9) return 2;
    Eigen::Index axis = 2;
    body.layerNormal->cwiseAbs().maxCoeff(&axis);
    return int(axis);
}

Problem problemFrom(const Body& body, const BoundLoadCase& loads, const Mat3& rotation) {
    Problem problem;
    problem.mesh = transformed(body.solid->mesh, rotation, Vec3::Zero());
    for (const Vec3& v : problem.mesh.vertices)
        if (!v.allFinite()) throw std::logic_error("a vertex of the body is not finite");
    problem.law = rotated(body.law, rotation);
    if (body.inside) {
        problem.inside = body.inside;
        problem.inside->buildDirection = Vec3::UnitZ();
        problem.inside->infillLaw = rotated(body.inside->infillLaw, rotation);
    }
    problem.supports = supportsOf(body, loads, rotation);
    for (std::size_t i = 0; i < loads.loadedTriangles.size(); ++i)
        problem.tractions.push_back(
            {loads.loadedTriangles[i], [&body, &loads, rotation, i](std::uint32_t t, const Vec3& p) {
                 return Vec3(rotation * tractionAt(*body.solid, loads, i, t, rotation.transpose() * p));
             }});
    problem.density_g_per_mm3 = body.density_g_per_mm3;
    problem.gravity_m_per_s2 = kStandardGravity_m_per_s2 * (rotation * loads.loadCase.gravity);
    for (std::size_t i = 0; i < loads.attachedTriangles.size(); ++i)
        problem.masses.push_back({loads.attachedTriangles[i], loads.loadCase.masses[i].mass_g});
    problem.measured = loads.measuredTriangles;
    problem.measuredDirection = rotation * loads.loadCase.measuredDirection.normalized();
    return problem;
}

std::vector<double> touchedBores(const Solid& solid, const BoundLoadCase& loads) {
    std::vector<char> touched(solid.faces.size(), 0);
    const auto mark = [&](const std::vector<std::uint32_t>& triangles) {
        for (std::uint32_t t : triangles)
            if (t < solid.faceOfTriangle.size()) touched[solid.faceOfTriangle[t]] = 1;
    };
    for (const BoundHold& hold : loads.holds)
        mark(hold.triangles);
    for (const auto& l : loads.loadedTriangles)
        mark(l);
    std::vector<double> radii;
    for (std::size_t f = 0; f < solid.faces.size(); ++f)
        if (touched[f] != 0 && solid.faces[f].kind == SurfaceKind::cylinder && solid.faces[f].isHollow &&
            solid.faces[f].radius_mm > 0)
            radii.push_back(solid.faces[f].radius_mm);
    return radii;
}

/// Grids small enough for an answer in a fraction of a second; the band that makes finer ones unnecessary; by how much
/// the next grids may grow, as most show regular convergence, and with it a far narrower band, before the last step's
/// whole difference has fallen so far.
constexpr std::size_t kQuickCells = 12000;
constexpr double kGoodBand = 0.03;
constexpr double kMostGrowth = 3;
constexpr int kAttempts = 5;

bool hasMass(const Problem& problem) {
    return problem.density_g_per_mm3 > 0 || !problem.masses.empty();
}

Grids solvedOn(Plan plan, const Question& question, const Grids* before, const Task& task) {
    Grids grids;
    grids.plan = std::move(plan);
    const double tolerance = grids.plan.hasFine ? kTolerance : kDraftTolerance;
    Equilibrium coarsest;
    const Equilibrium* start = before ? &before->finest() : nullptr;
    if (grids.plan.hasCoarsest) {
        // Thin places may fall apart on so coarse a grid; then two grids have to do.
        try {
            coarsest = solveOnGrid(question.problem, grids.plan.coarsest, tolerance, start, task.part(0, 0.05), false,
                                   std::exchange(grids.plan.material, std::nullopt));
            grids.coarsestDeflection_mm = coarsest.deflection_mm;
            if (!start) start = &coarsest;
        } catch (const InputFault&) {
        }
    }
    grids.coarse = solveOnGrid(
        question.problem, grids.plan.coarse, tolerance, start, grids.plan.hasFine ? task.part(0.05, 0.25) : task,
        grids.plan.hasFine && !before && hasMass(question.problem),
        grids.plan.hasCoarsest ? std::nullopt : std::exchange(grids.plan.material, std::nullopt));
    grids.frequency_Hz = before ? before->frequency_Hz : grids.coarse.frequency_Hz;
    grids.workThen_Nmm = before ? before->workThen_Nmm : grids.coarse.work_Nmm;
    if (grids.plan.hasFine)
        grids.fine = solveOnGrid(question.problem, grids.plan.fine, tolerance, &grids.coarse, task.part(0.25, 1));
    return grids;
}

/// Cells that should bring the two grids' difference to the good band: it falls with the square of the spacing.
std::size_t cellsFor(double band, std::size_t cells) {
    const double growth = 1.4 * std::pow(band / kGoodBand, 1.5);
    return std::size_t(double(cells) * std::clamp(growth, 2.0, kMostGrowth));
}

/// Grids of growing size, until the two agree, the printed shell is resolved and the strength margin is comfortable, or
/// the rule or the budget asks for no more.
StructureAnswer refinedUntilGood(const Question& question, const std::vector<double>& bores,
                                 const Resolution& resolution, const Task& task) {
    std::size_t cells = std::min(kQuickCells, resolution.cellBudget);
    Grids grids;
    double done = 0;
    for (int attempt = 0;; ++attempt) {
        Resolution stage = resolution;
        stage.cellBudget = cells;
        Plan plan = planGrids(question.problem, bores, stage, task);
        // A smaller budget of ours does not bind, it comes first.
        const bool isLast = attempt + 1 == kAttempts || cells >= resolution.cellBudget || !plan.budgetBinds;
        if (!isLast) plan.budgetBinds = false;
        const double next = isLast ? 0.9 : done + 0.3 * (0.9 - done);
        const Grids before = std::move(grids);
        grids = solvedOn(std::move(plan), question, attempt > 0 ? &before : nullptr, task.part(done, next));
        done = next;
        const double band = deflectionOf(grids, question).relativeAbove();
        if (isLast) return answerFrom(grids, question, task.part(done, 1));
        if (band <= kGoodBand && !grids.plan.shellUnresolved) {
            StructureAnswer answer = answerFrom(grids, question, task.part(done, done));
            const bool isStrong = answer.strengthMargin.low >= resolution.comfortableMargin;
            if (isStrong && !closesGaps(grids.finest())) {
                task.report(1);
                return answer;
            }
            cells = resolution.cellBudget;
        } else {
            const std::size_t wanted = cellsFor(band, cells);
            const bool isTime = attempt + 2 == kAttempts || grids.plan.shellUnresolved;
            cells = isTime || wanted > resolution.cellBudget / 6 ? resolution.cellBudget : wanted;
        }
    }
}

}  // namespace

StructureAnswer solveStructure(const Body& body, const StrengthLaw& strength, const BoundLoadCase& loads,
                               const Resolution& resolution, const Task& task) {
    const auto started = std::chrono::steady_clock::now();
    if (body.solid == nullptr || body.solid->mesh.triangles.empty()) throw std::logic_error("a body without a solid");
    if (!(strength.inLayer_MPa > 0)) throw std::logic_error("a strength must be positive");
    if (std::all_of(loads.holds.begin(), loads.holds.end(), [](const BoundHold& h) { return h.triangles.empty(); }))
        throw InputFault("body_free", "", "holds", "nothing holds the part", "hold at least one face");
    const Mat3 rotation = toSolverAxes(body);
    const Problem problem = problemFrom(body, loads, rotation);
    const Question question{body, strength, loads, problem, rotation, layerAxisOf(body)};
    const std::vector<double> bores = touchedBores(*body.solid, loads);

    const auto whole = [&](const Task& rest) {
        const Grids grids = solvedOn(planGrids(problem, bores, resolution, rest), question, nullptr, rest.part(0, 0.8));
        return answerFrom(grids, question, rest.part(0.8, 1));
    };
    StructureAnswer answer;
    if (resolution.fidelity != Fidelity::standard || resolution.spacing_mm > 0)
        answer = whole(task);
    else
        answer = refinedUntilGood(question, bores, resolution, task);
    answer.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
    return answer;
}

}  // namespace waybench
