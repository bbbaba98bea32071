#include <algorithm>
#include <cmath>

#include "core/cost/cost_terms.h"
#include "core/energy/energy_balance.h"
#include "core/printed/bead.h"
#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

void addMaterial(const PrintEvaluation& e, RouteOutcome& outcome) {
    const PrintJob& job = e.job;
    const Figure& density = e.material.density_g_per_cm3;
    // flow and diameter of filament: +/-5 to 8 % without calibration (printed-route.md 8)
    const double draft = e.isDraft ? 0.04 : 0;
    const Figure part =
        product(Figure::relative(job.part_mm3() / 1000, std::hypot(0.05, draft), std::hypot(0.08, draft), Unit::none),
                density, Unit::gram);
    const Figure support =
        product(Figure::relative(job.support_mm3 / 1000, 0.35, 0.35, Unit::none), density, Unit::gram);
    const Figure brim = product(Figure::relative(job.brim_mm3 / 1000, 0.08, 0.08, Unit::none), density, Unit::gram);
    const Figure& priming = e.printer.priming;
    const Figure waste = sumShared({support, brim, priming});
    outcome.figures[Question::mass] = part.named("beads laid x density");
    outcome.figures[Question::waste] =
        waste.named(job.brim_mm3 > 0 ? "supports, brim, skirt and purge" : "supports, skirt and purge");
    outcome.figures[Question::stock] = sumShared({part, waste}).named("part and waste");
    outcome.workings[Question::mass] = "(contours " + shown(job.wall_mm3 / 1000) + " + solid fill " +
                                       shown(job.skin_mm3 / 1000) + " + infill " + shown(job.infill_mm3 / 1000) +
                                       ") cm3 x " + shown(density.value) + " g/cm3 [" + density.note + "]";
    outcome.workings[Question::waste] = "supports " + shown(support.value) + " g (" + shown(100 * kSupportShare) +
                                        " % of their columns) + " +
                                        (job.brim_mm3 > 0 ? "brim " + shown(brim.value) + " g + " : "") +
                                        "skirt and purge " + shown(priming.value) + " g [" + priming.note + "]";
    outcome.workings[Question::stock] = "part + waste = " + shown(part.value, 4) + " + " + shown(waste.value) + " g";
}

void addEnergy(const PrintEvaluation& e, RouteOutcome& outcome) {
    const PrintEnergy& w = e.energy;
    const Figure& stock = outcome.figures.at(Question::stock);
    const PrintingMaterial& m = e.material;
    const Figure process = Figure::relative(w.total_Wh(), 0.3, 0.45, Unit::watt_hour, Origin::computed,
                                            "heat-up and hold of bed and nozzle, melt, electronics");
    outcome.figures[Question::process_energy] = process;
    outcome.workings[Question::process_energy] =
        "heat-up " + shown(w.heatUp_Wh) + " + bed " + shown(w.bed_Wh) + " + nozzle " + shown(w.nozzle_Wh) + " + melt " +
        shown(w.melt_Wh) + " + electronics " + shown(w.electronics_Wh) + " Wh; bed held " + shown(w.bedRise_K) +
        " K above the room by " + shown(e.printer.bedLoss_W_per_m2K.value) + " W/m2K [" +
        e.printer.bedLoss_W_per_m2K.note + "]";

    const Figure& primary = e.tariff.primaryEnergyFactor;
    const Figure bought = embodiedEnergy(stock, m.embodied_MJ_per_kg);
    const Figure electricity = product(asMegajoule(process), primary, Unit::megajoule);
    outcome.figures[Question::embodied_energy] =
        sumIndependent({bought, electricity}).named("filament used and electricity");
    outcome.workings[Question::embodied_energy] = shown(stock.value, 4) + " g x " + shown(m.embodied_MJ_per_kg.value) +
                                                  " MJ/kg + " + shown(process.value) + " Wh x " + shown(primary.value) +
                                                  " primary [" + m.embodied_MJ_per_kg.note + "; " + primary.note + "]";

    outcome.figures[Question::carbon] = carbonOf(stock, m.carbon_kg_per_kg, process, e.tariff.carbon_kg_per_kWh);
    outcome.workings[Question::carbon] =
        shown(stock.value, 4) + " g x " + shown(m.carbon_kg_per_kg.value) + " kg/kg + " + shown(process.value) +
        " Wh x " + shown(e.tariff.carbon_kg_per_kWh.value) + " kg/kWh [" + m.carbon_kg_per_kg.note + "]";
}

void addCost(const PrintEvaluation& e, RouteOutcome& outcome) {
    const CostTerm terms[] = {
        {"filament", materialCost(outcome.at(Question::stock), e.material.price_per_kg)},
        {"machine", machineCost(outcome.at(Question::machine_time), e.printer.hourRate)},
        {"labour", labourCost(outcome.at(Question::hands_on_time), e.tariff.labour_per_h)},
        {"electricity", energyCost(outcome.at(Question::process_energy), e.tariff.electricity_per_kWh)}};
    addBill(terms, e.printer.failureShare, "failed prints", e.tariff, outcome);
}

}  // namespace

void addResourceFigures(const PrintEvaluation& e, RouteOutcome& outcome) {
    addMaterial(e, outcome);
    addEnergy(e, outcome);
    addCost(e, outcome);
}

void addDetails(const PrintEvaluation& e, RouteOutcome& outcome) {
    const PrintJob& job = e.job;
    const auto add = [&](const std::string& name, double value, Unit unit) {
        outcome.details.emplace_back(name, Figure::exact(value, unit));
    };
    add("layers", static_cast<double>(job.layers), Unit::none);
    add("filament length", filamentLength_mm(outcome.at(Question::stock).value, e.material.density_g_per_cm3.value),
        Unit::millimetre);
    add("contours, volume", job.wall_mm3, Unit::cubic_millimetre);
    add("solid fill, volume", job.skin_mm3, Unit::cubic_millimetre);
    add("infill, volume", job.infill_mm3, Unit::cubic_millimetre);
    add("supports, volume", job.support_mm3, Unit::cubic_millimetre);
    if (job.brim_mm3 > 0) add("brim, volume", job.brim_mm3, Unit::cubic_millimetre);
    add("supports over filament used", job.support_mm3 / (job.part_mm3() + job.support_mm3 + job.brim_mm3), Unit::none);
    if (job.missing_mm3 > 1) add("narrower than one bead, not laid", job.missing_mm3, Unit::cubic_millimetre);
    LayerTime all;
    all.add(job.firstLayer, 1);
    all.add(job.others, 1);
    for (std::size_t k = 0; k < kPathKinds; ++k) {
        if (all.path_s[k] <= 0) continue;
        const std::string name = nameOf(static_cast<PathKind>(k));
        add(name + ", time", all.path_s[k], Unit::second);
        add(name + ", mean speed", all.path_mm[k] / all.path_s[k], Unit::millimetre_per_second);
    }
    add("travel, time", all.travel_s, Unit::second);
    add("retracts", std::round(all.retracts), Unit::none);
    add("energy, heat-up", e.energy.heatUp_Wh, Unit::watt_hour);
    add("energy, bed", e.energy.bed_Wh, Unit::watt_hour);
    add("energy, nozzle", e.energy.nozzle_Wh, Unit::watt_hour);
    add("energy, melt", e.energy.melt_Wh, Unit::watt_hour);
    add("energy, electronics", e.energy.electronics_Wh, Unit::watt_hour);
    add("energy by the regression of Hopkins et al. 2021, for comparison",
        regressionEnergy_MJ(e.material.nozzleTemperature.value, e.material.bedTemperature.value, job.layers_s() / 60) /
            0.0036,
        Unit::watt_hour);
}

}  // namespace waybench::printed
