#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

constexpr double kSmallestHole_mm = 2;  // diameter, common practice, no source

class Warnings {
public:
    explicit Warnings(RouteOutcome& outcome, std::string heading = {})
        : outcome_(outcome), heading_(std::move(heading)) {}
    void add(const char* code, Severity severity, const std::string& text) {
        outcome_.warnings.push_back({code, severity, heading_ + text});
    }

private:
    RouteOutcome& outcome_;
    std::string heading_;
};

std::string sizeText(const Vec3& size) {
    return shown(size.x(), 4) + " x " + shown(size.y(), 4) + " x " + shown(size.z(), 4) + " mm";
}

/// ", at x 1.0, y 2.0, z 3.0 mm of the part" or nothing where no place is known.
std::string placeText(const std::optional<Vec3>& at) {
    if (!at) return {};
    return " (largest at x " + shown(at->x(), 3) + ", y " + shown(at->y(), 3) + ", z " + shown(at->z(), 3) +
           " mm of the part)";
}

void addMachineLimits(const PrintEvaluation& e, Warnings& w) {
    const Vec3 &size = e.job.size_mm, &room = e.printer.travel_mm;
    if (!fitsPrinter(e))
        w.add("too_large_for_printer", Severity::blocking,
              "The part stands " + sizeText(size) + (e.recipe.brimReach_mm > 0 ? " and its brim around it" : "") +
                  "; the printer holds " + sizeText(room) + ". Turn it, choose a larger printer, or split the part.");
    if (e.material.nozzleTemperature.low > e.printer.maximumNozzle.high)
        w.add("nozzle_too_cold", Severity::blocking,
              e.material.title + " needs a nozzle of " + shown(e.material.nozzleTemperature.low) + " °C at least; " +
                  e.printer.title + " reaches " + shown(e.printer.maximumNozzle.value) + ". Choose another material.");
    else if (e.material.nozzleTemperature.value > e.printer.maximumNozzle.value)
        w.add("nozzle_at_its_limit", Severity::caution,
              e.material.title + " is usually printed at " + shown(e.material.nozzleTemperature.value) +
                  " °C; the nozzle reaches " + shown(e.printer.maximumNozzle.value) +
                  ". Print slower, and expect weaker layers.");
    const double reached = e.energy.bedRise_K + kRoom_celsius;
    if (reached < e.material.bedTemperature.low - 0.5)
        w.add("bed_too_cold", Severity::caution,
              "The bed reaches " + shown(reached) + " °C; " + e.material.title + " asks for " +
                  shown(e.material.bedTemperature.low) + ". Expect the corners to lift.");
    if (e.material.needsEnclosure && !e.printer.isEnclosed)
        w.add("needs_enclosure", Severity::caution,
              e.material.title +
                  " warps and splits between layers in an open printer. Enclose it, or take a material "
                  "that prints in the open; strength across layers is at its low bound here.");
}

void addShape(const PrintEvaluation& e, Warnings& w) {
    const PrintJob& job = e.job;
    const double missing = job.section_mm3 > 0 ? job.missing_mm3 / job.section_mm3 : 0;
    if (missing > 0.002)
        w.add("thin_wall", missing > 0.05 ? Severity::blocking : Severity::caution,
              shown(100 * missing, 2) + " % of the part is narrower than one bead (" + shown(e.recipe.beadWidth_mm) +
                  " mm) in its layer and is not laid" + placeText(job.missingAt_mm) +
                  ". Thicken those places or choose a narrower bead.");
    if (job.supports.overhang_mm2 > 1) {
        const std::string area = shown(job.supports.overhang_mm2 / 100) + " cm² of surface leans further than " +
                                 shown(e.recipe.overhangLimit_deg) + " degrees" + placeText(job.overhangAt_mm);
        if (e.recipe.supports)
            w.add("supports_needed", Severity::note,
                  area +
                      " and is printed on supports; those faces come out rough, and supports inside closed channels "
                      "cannot be taken out. Another upward direction may avoid them.");
        else
            w.add("overhang", Severity::caution,
                  area + " with no supports below: it sags or fails. Switch supports on or turn the part.");
    }
    if (job.supports.longBridge_mm2 > 1)
        w.add(
            "bridge_too_long", e.recipe.supports ? Severity::note : Severity::caution,
            shown(job.supports.longBridge_mm2 / 100) + " cm² spans a gap wider than " + shown(kFreeSpan_mm) + " mm" +
                placeText(job.longBridgeAt_mm) +
                (e.recipe.supports ? ": supports carry it."
                                   : ": the beads sag or fall. Switch supports on, narrow the gap, or turn the part."));
    if (job.trapped.columns_mm3 > 1)
        w.add("trapped_support", Severity::caution,
              shown(job.trapped.columns_mm3 / 1000) + " cm³ of supports stand in a cavity that opens nowhere" +
                  placeText(job.trappedAt_mm) +
                  " and stay in the part. Open the cavity, slope its roof, or turn the part.");
    if (job.supports.free_mm2 > 1)
        w.add("bridge", Severity::note,
              "Bridges up to " + shown(kFreeSpan_mm) + " mm and ledges up to " + shown(kFreeLedge_mm) + " mm (" +
                  shown(job.supports.free_mm2) + " mm2) are printed free and sag a little.");
    const double held_mm2 = job.footprint_mm2 + job.brim_mm3 / e.recipe.firstLayerThickness_mm;
    if (job.size_mm.z() > 4 * std::sqrt(held_mm2))
        w.add("slender_on_bed", Severity::caution,
              "The part stands " + shown(job.size_mm.z()) + " mm high on " + shown(held_mm2 / 100) +
                  (job.brim_mm3 > 0
                       ? " cm², brim included: it may break loose. Lay it down, or let the brim reach further."
                       : " cm²: it may break loose. Lay it down, or add a brim."));
    const double footprint = std::max(job.size_mm.x(), job.size_mm.y());
    if (e.material.shrinkage.value >= 0.005 && footprint > 80)
        w.add("warp_prone", Severity::caution,
              "Shrinks " + shown(100 * e.material.shrinkage.value) + " % over " + shown(footprint, 4) +
                  " mm: corners tend to lift. " + (e.job.brim_mm3 > 0 ? "The brim helps; so does" : "Use a brim,") +
                  " a warm chamber, or a material that shrinks less.");
}

void addHoles(const PrintEvaluation& e, Warnings& w) {
    const Vec3 up = upwardOf(e.recipe);
    std::size_t sideways = 0, upright = 0, tiny = 0;
    const Face* tiniest = nullptr;
    for (const Face& f : e.part.solid->faces) {
        if (f.kind != SurfaceKind::cylinder || !f.isHollow || !f.isFullTurn) continue;
        ++(std::abs(f.direction.dot(up)) < 0.9 ? sideways : upright);
        if (2 * f.radius_mm >= kSmallestHole_mm) continue;
        ++tiny;
        if (!tiniest || f.radius_mm < tiniest->radius_mm) tiniest = &f;
    }
    if (upright + sideways > 0)
        w.add("holes_undersize", Severity::note,
              "Holes come out " + shown(e.printer.holeUndersize.low) + " to " + shown(e.printer.holeUndersize.high) +
                  " mm undersize on the diameter. Drill or ream those that must fit.");
    if (sideways > 0)
        w.add("sideways_hole", Severity::note,
              std::to_string(sideways) + (sideways == 1 ? " hole lies" : " holes lie") +
                  " in the layers: the crown sags 0.2 to 0.5 mm. Drill after printing, or turn the part.");
    if (tiny > 0)
        w.add("tiny_hole", Severity::caution,
              std::to_string(tiny) + (tiny == 1 ? " hole is" : " holes are") + " smaller than " +
                  shown(kSmallestHole_mm) + " mm and may close (the smallest, " + shown(2 * tiniest->radius_mm) +
                  " mm, at x " + shown(tiniest->point.x(), 3) + ", y " + shown(tiniest->point.y(), 3) + ", z " +
                  shown(tiniest->point.z(), 3) + " mm). Drill after printing.");
}

/// What one load case brings with it.
void addService(const PrintEvaluation& e, std::size_t index, RouteOutcome& outcome) {
    const PrintedCase& c = e.cases[index];
    const LoadCase& load = c.loadCase();
    Warnings w(outcome, caseHeading(load, e.cases.size()));
    const Figure& temperature = outcome.at(Question::temperature_margin, index);
    const double margin = temperature.value;
    const std::string limit = shown(e.material.serviceTemperature.value) + " °C";
    if (c.isTooHot || margin < 0)
        w.add("temperature_above_service", Severity::blocking,
              shown(load.temperature_celsius) + " °C is above what " + e.material.title + " carries load at (" + limit +
                  (c.isTooHot ? "); figures are those of the last temperature the softening law covers" : ")") +
                  ". Choose a material for more heat.");
    else if (temperature.low < 5)
        w.add("near_softening", Severity::caution,
              shown(load.temperature_celsius) + " °C is close to the service temperature of " + e.material.title +
                  " (" + limit + "); stiffness falls steeply there.");
    if (load.duration == Duration::hours) {
        w.add("creep", load.duration_h > 24 ? Severity::caution : Severity::note,
              "Under load for " + shown(load.duration_h) + " h the part creeps to 1/" +
                  shown(1 / c.modulusFactor.value) +
                  " of its brief stiffness; the creep law is worth +/-35 % at best. Test a bar of your own filament.");
        const double shortTerm = c.structure->strengthMargin.value * c.heatFactor / std::max(1e-9, c.strength.value);
        if (shortTerm < 2)
            w.add("creep_not_linear", Severity::caution,
                  "Stress passes half the brief strength: creep is faster there than the law reckons with.");
    }
    if (load.duration == Duration::cyclic && !c.strength.hasFatigueFigure)
        w.add("no_fatigue_figure", Severity::caution,
              "No fatigue figure is known for " + e.material.title +
                  ": the strength margin is for one load and not for " + shown(load.cycles) + " cycles.");
    for (const std::string& caution : c.structure->cautions)
        w.add("structure", Severity::caution, caution);
    for (const std::string& note : c.structure->notes)
        w.add("structure", Severity::note, note);
}

void addMaterialNotes(const PrintEvaluation& e, Warnings& w) {
    if (e.recipe.infillShare < 0.15 && e.job.infillSpace_mm3 > 0.2 * e.job.section_mm3)
        w.add("sparse_infill", Severity::note,
              "Infill below 15 %: thin solid layers may dent or buckle under point loads, which is not computed.");
    if (e.material.isAbrasive)
        w.add("abrasive", Severity::note,
              e.material.title + " wears brass nozzles: use a hardened one, which melts about 15 % less per second.");
    if (e.material.absorbsMoisture)
        w.add("moisture", Severity::note,
              e.material.title + " takes up water: dry the filament, and expect less stiffness once it has settled.");
}

}  // namespace

bool fitsPrinter(const PrintEvaluation& e) {
    const Vec3 &size = e.job.size_mm, &room = e.printer.travel_mm;
    const double brim = 2 * e.recipe.brimReach_mm;
    const auto [partShort, partLong] = std::minmax(size.x(), size.y());
    const auto [bedShort, bedLong] = std::minmax(room.x(), room.y());
    return partShort + brim <= bedShort && partLong + brim <= bedLong && size.z() <= room.z();
}

void addWarnings(const PrintEvaluation& e, RouteOutcome& outcome) {
    Warnings w(outcome);
    addMachineLimits(e, w);
    addShape(e, w);
    addHoles(e, w);
    for (std::size_t i = 0; i < e.cases.size(); ++i)
        addService(e, i, outcome);
    addMaterialNotes(e, w);
    std::stable_sort(outcome.warnings.begin(), outcome.warnings.end(),
                     [](const RouteWarning& a, const RouteWarning& b) { return a.severity > b.severity; });
}

void addCautions(const PrintEvaluation& e, RouteOutcome& outcome) {
    outcome.cautions = {
        "Not where a failing part can injure (lifting, pressure, guards, personal safety), nor for food or medical "
        "use: adhesion between layers varies. Proof-load the real part at 1.5 to 2 times its load.",
        "Nozzle and bed burn and the axes move: keep hands out, let the part cool. Fumes and fine particles: "
        "ventilate, filter for ABS, ASA, PC and polyamides. No printer unattended without thermal-runaway protection "
        "and a smoke alarm.",
    };
    for (const std::string& caution : e.material.cautions)
        if (std::find(outcome.cautions.begin(), outcome.cautions.end(), caution) == outcome.cautions.end())
            outcome.cautions.push_back(caution);
}

}  // namespace waybench::printed
