#include <algorithm>
#include <cmath>

#include "core/cost/cost_terms.h"
#include "core/energy/energy_balance.h"
#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

constexpr double kPerHour = 1.0 / 3600;

void addMaterial(const MachiningEvaluation& e, RouteOutcome& outcome) {
    const Figure& density = e.material.density_g_per_cm3;
    const double part_cm3 = e.part_mm3 / 1000, blank_cm3 = e.stock.volume_mm3() / 1000;
    const Figure mass = product(Figure::relative(part_cm3, 0.01, 0.01, Unit::none), density, Unit::gram);
    // the blank's sides are sawn within about a millimetre
    const double edge = std::min(0.3, 1.0 / std::max(1.0, e.stock.size_mm.minCoeff()) * 0.5);
    const Figure stock = product(Figure::relative(blank_cm3, edge, edge, Unit::none), density, Unit::gram);
    const double waste = stock.value - mass.value;
    outcome.figures[Question::mass] = mass.named("volume x density");
    outcome.figures[Question::stock] = stock.named(e.stock.text);
    outcome.figures[Question::waste] =
        Figure::bounded(waste, std::min(waste, std::max(0.0, stock.low - mass.low)),
                        std::max(waste, stock.high - mass.high), Unit::gram, Origin::computed, "swarf and skeleton");
    outcome.workings[Question::mass] =
        shown(part_cm3, 4) + " cm3 x " + shown(density.value) + " g/cm3 [" + density.note + "]";
    outcome.workings[Question::stock] =
        e.stock.text + ": " + shown(blank_cm3, 4) + " cm3 x " + shown(density.value) + " g/cm3 [" + density.note + "]";
    outcome.workings[Question::waste] =
        "stock - part = " + shown(stock.value, 4) + " - " + shown(mass.value, 4) + " g; the saw's kerf is left out";
}

Figure cuttingEnergy(const MachiningEvaluation& e) {
    double value = 0, low = 0, high = 0;
    for (const Operation& o : e.work.operations) {
        const double joule = o.removed_mm3 / 1000 / 3600;  // of 1 MPa, in Wh
        value += joule * o.cutting.pressure.value;
        low += joule * o.cutting.pressure.low;
        high += joule * o.cutting.pressure.high;
    }
    const Figure& eta = e.mill.spindleEfficiency;
    return Figure::bounded(value / eta.value, low / eta.high, high / eta.low, Unit::watt_hour, Origin::computed,
                           "removed volume x cutting pressure / spindle efficiency");
}

Figure drawn(const Figure& power, const Figure& time) {
    return product(power, time.times(kPerHour), Unit::watt_hour);
}

void addEnergy(const MachiningEvaluation& e, RouteOutcome& outcome) {
    const double run = runSeconds(e.work);
    const Figure runTime = Figure::relative(run, 0.25, 0.30, Unit::second);
    const Figure controller = drawn(e.mill.controllerPower, outcome.at(Question::machine_time));
    const Figure spindle = drawn(e.mill.spindleIdlePower, runTime);
    const Figure extraction = drawn(e.mill.extractionPower, runTime);
    const Figure cutting = cuttingEnergy(e);
    const Figure process =
        sumIndependent({controller, spindle, extraction, cutting}).named("from rated powers, no meter");
    outcome.figures[Question::process_energy] = process;
    outcome.workings[Question::process_energy] =
        "controller " + shown(controller.value) + " + spindle turning " + shown(spindle.value) + " + cutting " +
        shown(cutting.value) + " + extraction " + shown(extraction.value) +
        " Wh; E = P0 t + integral Pc/eta, eta = " + shown(e.mill.spindleEfficiency.value) + " [machined-route 7; " +
        e.mill.spindleIdlePower.note + "]";
    outcome.details.emplace_back("energy, controller", controller);
    outcome.details.emplace_back("energy, spindle turning", spindle);
    outcome.details.emplace_back("energy, cutting", cutting);
    outcome.details.emplace_back("energy, extraction", extraction);

    const Figure& stock = outcome.figures.at(Question::stock);
    const StockMaterial& m = e.material;
    const Figure& primary = e.tariff.primaryEnergyFactor;
    const Figure bought = embodiedEnergy(stock, m.embodied_MJ_per_kg);
    const Figure electricity = product(asMegajoule(process), primary, Unit::megajoule);
    outcome.figures[Question::embodied_energy] =
        sumIndependent({bought, electricity}).named("blank bought and electricity");
    outcome.workings[Question::embodied_energy] = shown(stock.value, 4) + " g x " + shown(m.embodied_MJ_per_kg.value) +
                                                  " MJ/kg + " + shown(process.value) + " Wh x " + shown(primary.value) +
                                                  " primary [" + m.embodied_MJ_per_kg.note + "; " + primary.note +
                                                  "]; no credit for recycled swarf";
    outcome.figures[Question::carbon] =
        carbonOf(stock, m.carbon_kg_per_kg, process, e.tariff.carbon_kg_per_kWh).named("blank and electricity");
    outcome.workings[Question::carbon] =
        shown(stock.value, 4) + " g x " + shown(m.carbon_kg_per_kg.value) + " kg/kg + " + shown(process.value) +
        " Wh x " + shown(e.tariff.carbon_kg_per_kWh.value) + " kg/kWh [" + m.carbon_kg_per_kg.note + "]";
}

Figure toolWear(const MachiningEvaluation& e) {
    double value = 0, low = 0, high = 0;
    for (const Operation& o : e.work.operations) {
        const double hours = o.cutting_seconds * kPerHour;
        value += hours / o.tool->life_h.value * o.tool->price.value;
        low += hours / o.tool->life_h.high * o.tool->price.low;
        high += hours / std::max(1e-6, o.tool->life_h.low) * o.tool->price.high;
    }
    return Figure::bounded(value, std::min(low, value), std::max(high, value), Unit::money, Origin::computed,
                           "cutting time over tool life x price");
}

void addCost(const MachiningEvaluation& e, RouteOutcome& outcome) {
    const CostTerm terms[] = {
        {"stock", materialCost(outcome.at(Question::stock), e.material.price_per_kg)},
        {"machine time", machineCost(outcome.at(Question::machine_time), e.mill.hourRate)},
        {"labour", labourCost(outcome.at(Question::hands_on_time), e.tariff.labour_per_h)},
        {"tool wear", toolWear(e)},
        {"electricity", energyCost(outcome.at(Question::process_energy), e.tariff.electricity_per_kWh)}};
    addBill(terms, e.mill.scrapShare, "scrap", e.tariff, outcome);
    outcome.workings[Question::cost] += "; machined-route 9; programming is not counted";
}

}  // namespace

void addResourceFigures(const MachiningEvaluation& e, RouteOutcome& outcome) {
    addMaterial(e, outcome);
    addEnergy(e, outcome);
    addCost(e, outcome);
}

}  // namespace waybench::machined
