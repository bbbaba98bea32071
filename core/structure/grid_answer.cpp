#include "core/structure/grid_answer.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/progress/thread_team.h"
#include "core/structure/hold_supports.h"
#include "core/structure/stress_recovery.h"

namespace waybench::statics {

namespace {

std::vector<Vec3> outwardAtVertices(const Mesh& mesh) {
    std::vector<Vec3> normal(mesh.vertices.size(), Vec3::Zero());
    for (const auto& t : mesh.triangles) {
        const Vec3 n = (mesh.vertices[t[1]] - mesh.vertices[t[0]]).cross(mesh.vertices[t[2]] - mesh.vertices[t[0]]);
        for (std::uint32_t v : t)
            normal[v] += n;
    }
    for (Vec3& n : normal)
        if (n.norm() > 0) n.normalize();
    return normal;
}

/// How far outside its cell a displacement is continued to a surface, half cells.
constexpr double kContinued = 3;

std::vector<Vec3> displacementsAtVertices(const Equilibrium& equilibrium, const Mesh& mesh) {
    const std::vector<Vec3> outward = outwardAtVertices(mesh);
    std::vector<Vec3> u(mesh.vertices.size(), Vec3::Zero());
    for (std::size_t v = 0; v < u.size(); ++v)
        u[v] = equilibrium.displacementNear(mesh.vertices[v], outward[v], kContinued).value_or(Vec3::Zero());
    return u;
}

/// Over the vertices and the probes: a long facet moves most where it has no corner.
double largestNorm(const Equilibrium& equilibrium, const std::vector<Vec3>& atVertices,
                   const std::vector<Vec3>& probes) {
    double largest = 0;
    for (const Vec3& x : atVertices)
        largest = std::max(largest, x.norm());
    for (const Vec3& x : probes)
        if (const auto u = equilibrium.displacementNear(x, Vec3::Zero(), kContinued))
            largest = std::max(largest, u->norm());
    return largest;
}

struct Worst {
    double utilisation = 0;
    Vec3 place = Vec3::Zero();
};

/// Averaging everywhere would cost more than the solution itself, so it is done where single cells are worst.
constexpr std::size_t kAveragedProbes = 2500, kDraftProbes = 300;
constexpr std::size_t kAveragesAtOnce = 64;

Worst worstOf(const StressField& field, std::vector<Vec3> points, std::size_t most, const Task& task) {
    if (points.size() > most) {
        std::vector<std::pair<double, std::size_t>> peaks(points.size());
        inShares(points.size(), 1024, [&](std::size_t begin, std::size_t end) {
            task.check();
            for (std::size_t i = begin; i < end; ++i)
                peaks[i] = {-field.peakNear(points[i]), i};
        });
        std::nth_element(peaks.begin(), peaks.begin() + std::ptrdiff_t(most), peaks.end());
        std::sort(peaks.begin(), peaks.begin() + std::ptrdiff_t(most));
        std::vector<Vec3> worst;
        for (std::size_t i = 0; i < most; ++i)
            worst.push_back(points[peaks[i].second]);
        points = std::move(worst);
    }
    std::vector<double> utilisation(points.size());
    inShares(points.size(), kAveragesAtOnce, [&](std::size_t begin, std::size_t end) {
        task.check();
        for (std::size_t i = begin; i < end; ++i)
            utilisation[i] = field.at(points[i]).utilisation;
    });
    Worst worst;
    for (std::size_t i = 0; i < points.size(); ++i)
        if (utilisation[i] > worst.utilisation) worst = {utilisation[i], points[i]};
    return worst;
}

/// Rates of convergence near which the extrapolation is trusted, and the share of what it adds that may be wrong.
constexpr double kLeastRate = 0.1, kMostRate = 0.38, kAddedShare = 0.6;

/// Least band: what holds of finite stiffness and the theory itself leave open even when two grids agree.
constexpr double kLeastBand = 0.01, kLeastBandPrinted = 0.02;

/// Errors of one coarse grid measured on plates, angles, tubes, rings and oblique bars, solid and printed: -7 to +0.3 %
/// where walls follow the grid, -14 % where they lie askew, and -9 to +17 % for printed oblique bars.
std::pair<double, double> draftBand(const Plan& plan, const Body& body) {
    return {plan.mostlyOblique && body.inside ? 0.2 : 0.03, plan.mostlyOblique ? 0.25 : 0.12};
}

/// u_h + (u_h - u_2h)/3 with the difference as band; the fine value alone where the coarse grid misses the shell.
Figure extrapolated(double coarse, double fine, bool extrapolate, double leastBand, const std::string& note) {
    const double value = std::max(0.0, extrapolate ? fine + (fine - coarse) / 3 : fine);
    const double step = std::max(std::abs(fine - coarse), leastBand * value);
    return Figure::bounded(value, std::max(0.0, value - step), value + step, Unit::millimetre, Origin::computed, note);
}

/// The value is that of two grids. The third shows the rate r = (u_h - u_2h)/(u_2h - u_4h): 1/4 where the error falls
/// with the square of the spacing, as the extrapolation takes it. Where r is near that, the band is the greater of 0.6
/// of what the extrapolation adds and what it would add with the rate seen; else the whole last step.
Figure extrapolatedFromThree(double coarsest, double coarse, double fine, double leastBand) {
    const double last = fine - coarse, before = coarse - coarsest;
    const double rate = before != 0 ? last / before : -1;
    if (!(rate > kLeastRate && rate < kMostRate))
        return extrapolated(coarse, fine, true, leastBand, "three grids, irregular; band is the last difference");
    const double seen = last * rate / (1 - rate), plain = last / 3;
    const double value = std::max(0.0, fine + plain);
    const double band = std::max({leastBand * value, kAddedShare * std::abs(plain), std::abs(seen - plain)});
    return Figure::bounded(value, std::max(0.0, value - band), value + band, Unit::millimetre, Origin::computed,
                           "three grids, extrapolated; band from the rate they show");
}

/// The frequency of the coarser grid, brought to the finer ones as the work of the loads goes: its square follows the
/// stiffness, wherever the deflection is measured.
Figure frequencyOf(const Grids& grids) {
    const double fine = grids.finest().work_Nmm;
    const double work = grids.plan.hasFine ? fine + (fine - grids.coarse.work_Nmm) / 3 : fine;
    const double softer = work > 0 ? grids.workThen_Nmm / work : 1;
    const double factor = std::sqrt(std::clamp(softer, 0.5, 1.5));
    const double spread = std::max(0.02, std::abs(1 - factor));
    return Figure::relative(grids.frequency_Hz * factor, spread, spread, Unit::hertz, Origin::computed,
                            "inverse iteration on the coarser grid, corrected as the work of the loads");
}

/// Share of what a face that only lies on something carries, beyond which pull there is no rounding.
constexpr double kMostPulled = 0.05;

/// A measured face whose mean tells too little of it.
constexpr double kUnevenFace = 1.8;

double mostOnMeasuredFace(const Problem& problem, const std::vector<Vec3>& displacement) {
    double most = 0;
    for (const std::uint32_t t : problem.measured)
        for (const std::uint32_t v : problem.mesh.triangles[t])
            most = std::max(most, std::abs(displacement[v].dot(problem.measuredDirection)));
    return most;
}

std::string tenths(double x) {
    const long rounded = std::lround(10 * std::min(x, 1e6));
    return std::to_string(rounded / 10) + "." + std::to_string(rounded % 10);
}

Figure widened(Figure f, double below, double above) {
    f.low = std::max(0.0, f.low - below);
    f.high += above;
    return f;
}

/// What one grid says of the whole part.
struct Extremes {
    double largest_mm = 0, utilisation = 0;
};

/// What the unknown stiffness of bolts' seats does, seen on the coarse grid: how much less a rigid seat gives, which is
/// also about how much more one half as stiff would. @param bedded of the coarse grid with the seats as they are taken
void allowForSeats(const Grids& grids, const Question& question, const Extremes& bedded, StructureAnswer& answer,
                   const Task& task) {
    Problem rigid = question.problem;
    rigid.supports = supportsOf(question.body, question.loads, question.rotation, true);
    const double tolerance = grids.plan.hasFine ? kTolerance : kDraftTolerance;
    const Equilibrium clamped = solveOnGrid(rigid, grids.plan.coarse, tolerance, &grids.coarse, task.part(0, 0.7));
    const double change = std::abs(grids.coarse.deflection_mm - clamped.deflection_mm);
    answer.deflection = widened(answer.deflection, change, change);
    const Mesh& mesh = question.problem.mesh;
    const std::vector<Vec3> probes = stressProbes(clamped, mesh, task);
    const double largestChange =
        std::abs(bedded.largest_mm - largestNorm(clamped, displacementsAtVertices(clamped, mesh), probes));
    answer.deflectionMax = widened(answer.deflectionMax, largestChange, largestChange);
    const double utilisation = worstOf(StressField(clamped, question.strength, question.layerAxis, task), probes,
                                       grids.plan.hasFine ? kAveragedProbes : kDraftProbes, task)
                                   .utilisation;
    if (bedded.utilisation > 0 && utilisation > 0) {
        const double spread = answer.strengthMargin.value * std::abs(bedded.utilisation / utilisation - 1);
        answer.strengthMargin = widened(answer.strengthMargin, spread, spread);
    }
    answer.notes.push_back(
        "bolts: the seat under each head is taken to give as the clamped plate does, with the wall of the bore close "
        "to the shank; the band goes from a rigid seat to one half as stiff; slip and loss of preload are not "
        "computed");
}

}  // namespace

bool closesGaps(const Equilibrium& equilibrium) {
    return equilibrium.field.split && equilibrium.field.split->weldedCells > 0;
}

Figure deflectionOf(const Grids& grids, const Question& question) {
    const double sign = grids.finest().deflection_mm < 0 ? -1 : 1;
    const double leastBand = question.body.inside ? kLeastBandPrinted : kLeastBand;
    if (grids.coarsestDeflection_mm)
        return extrapolatedFromThree(sign * *grids.coarsestDeflection_mm, sign * grids.coarse.deflection_mm,
                                     sign * grids.fine.deflection_mm, leastBand);
    if (grids.plan.hasFine)
        return extrapolated(sign * grids.coarse.deflection_mm, sign * grids.fine.deflection_mm,
                            !grids.plan.shellUnresolved, leastBand,
                            "two grids, extrapolated; band is their difference");
    const auto [below, above] = draftBand(grids.plan, question.body);
    return Figure::relative(std::abs(grids.finest().deflection_mm), below, above, Unit::millimetre, Origin::computed,
                            "draft: one coarse grid, band by rule of thumb");
}

StructureAnswer answerFrom(const Grids& grids, const Question& question, const Task& task) {
    const auto& [body, strength, loads, problem, rotation, layerAxis] = question;
    const Plan& plan = grids.plan;
    const Equilibrium &coarse = grids.coarse, &finest = grids.finest();
    StructureAnswer answer;
    answer.budgetBinds = plan.budgetBinds;
    answer.spacing_mm = plan.spacing_mm;
    answer.iterations = finest.iterations;
    answer.unknowns = finest.lattice.unknowns();
    answer.reaction = rotation.transpose() * finest.reaction_N;
    answer.strainEnergy_Nmm = finest.strainEnergy_Nmm;
    answer.work_Nmm = finest.work_Nmm;

    const std::vector<Vec3> displacement = displacementsAtVertices(finest, problem.mesh);
    const std::vector<Vec3> probes = stressProbes(finest, problem.mesh, task);
    const std::vector<Vec3> coarseProbes =
        plan.hasFine ? stressProbes(coarse, problem.mesh, task) : std::vector<Vec3>();
    const double largest = largestNorm(finest, displacement, probes);
    if (finest.deflection_mm < 0)
        answer.notes.push_back("the measured face moves against the measured direction; its magnitude is given");
    answer.deflection = deflectionOf(grids, question);
    if (grids.frequency_Hz > 0) answer.firstFrequency = frequencyOf(grids);
    Extremes onCoarse{largest, 0};
    if (plan.hasFine) {
        onCoarse.largest_mm = largestNorm(coarse, displacementsAtVertices(coarse, problem.mesh), coarseProbes);
        answer.deflectionMax = extrapolated(onCoarse.largest_mm, largest, !plan.shellUnresolved,
                                            body.inside ? kLeastBandPrinted : kLeastBand,
                                            "two grids, extrapolated; band is their difference");
    } else {
        const auto [below, above] = draftBand(plan, body);
        answer.deflectionMax = Figure::relative(largest, below, above, Unit::millimetre, Origin::computed,
                                                "draft: one coarse grid, band by rule of thumb");
    }
    for (const Vec3& u : displacement)
        answer.displacement_mm.push_back(rotation.transpose() * u);

    const StressField stress(finest, strength, layerAxis, task);
    task.report(0.3);
    Worst worst = worstOf(stress, probes, plan.hasFine ? kAveragedProbes : kDraftProbes, task);
    task.report(0.7);
    const std::vector<Vec3>& vertices = problem.mesh.vertices;
    answer.stress_MPa.resize(vertices.size());
    answer.utilisation.resize(vertices.size());
    inShares(vertices.size(), kAveragesAtOnce, [&](std::size_t begin, std::size_t end) {
        task.check();
        for (std::size_t v = begin; v < end; ++v) {
            const AveragedStress s = plan.hasFine ? stress.at(vertices[v]) : stress.inCellOf(vertices[v]);
            answer.stress_MPa[v] = s.vonMises_MPa;
            answer.utilisation[v] = s.utilisation;
        }
    });
    for (std::size_t v = 0; v < vertices.size() && plan.hasFine; ++v)
        if (answer.utilisation[v] > worst.utilisation) worst = {answer.utilisation[v], vertices[v]};
    answer.weakestPlace = rotation.transpose() * worst.place;
    if (!(worst.utilisation > 0)) throw std::logic_error("no stress under load");
    const double margin = 1 / worst.utilisation;
    double below = 0.15, above = 0.15;
    if (plan.hasFine) {
        const StressField coarseStress(coarse, strength, layerAxis, task);
        onCoarse.utilisation = worstOf(coarseStress, coarseProbes, kAveragedProbes, task).utilisation;
        const double change = onCoarse.utilisation > 0 ? std::abs(1 - worst.utilisation / onCoarse.utilisation) : 1;
        below = std::max(0.05, std::min(0.9, change));
        above = std::max(0.05, change);
    } else {
        onCoarse.utilisation = worst.utilisation;
        below = 0.5;  // coarse grids miss peaks: to -44 % of finer ones on the parts measured
        above = 0.2;
    }
    answer.strengthMargin = Figure::relative(margin, below, above, Unit::none, Origin::computed,
                                             "strength over stress averaged over a ball; band from the grids");
    for (const std::string& caution : seatCautions(*body.solid, loads))
        answer.cautions.push_back(caution);
    if (hasBolts(loads)) allowForSeats(grids, question, onCoarse, answer, task.part(0.8, 1));
    const double span = boundsOf(problem.mesh).size().maxCoeff();
    answer.isBeyondLinear = answer.deflectionMax.value > 0.05 * span;
    if (answer.isBeyondLinear)
        answer.cautions.push_back(
            "the part moves by more than a twentieth of its length: linear statics no longer holds, look at the units "
            "of size and load first");
    if (const double most = mostOnMeasuredFace(problem, displacement);
        most > kUnevenFace * std::abs(finest.deflection_mm))
        answer.cautions.push_back("the measured face does not move evenly: its mean is given, a place on it moves " +
                                  tenths(most / std::abs(finest.deflection_mm)) + " times as far");
    for (std::size_t i = 0; i < problem.supports.size(); ++i)
        if (problem.supports[i].isLaidOn && finest.pulledShare[i] > kMostPulled)
            answer.cautions.push_back("a sliding hold would have to pull on " +
                                      std::to_string(std::lround(100 * finest.pulledShare[i])) +
                                      " % of what it carries: where the part only lies on it, it lifts off and moves "
                                      "more than given here");
    if (finest.lattice.droppedVolume_mm3 > 0.01 * finest.lattice.volume_mm3)
        answer.notes.push_back("more than 1 % of the material lies in slivers the calculation grid leaves out");
    if (closesGaps(finest))
        answer.cautions.push_back(
            "a gap narrower than a cell of the calculation grid acts as closed somewhere, as the surface is degenerate "
            "there: the part may really bend more than the band says");
    if (plan.shellUnresolved)
        answer.notes.push_back("the coarser calculation grid is wider than the printed shell; the band allows for it");
    if (plan.spacing_mm > 0.55 * strength.averagingLength_mm)
        answer.notes.push_back(
            "stress is averaged over two cells of the calculation grid, more than the averaging length");
    if (plan.budgetBinds) answer.notes.push_back("the calculation grid is coarser than the rule asks (cell budget)");
    task.report(1);
    return answer;
}

}  // namespace waybench::statics
