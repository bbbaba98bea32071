#include "core/cost/cost_terms.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace waybench {

namespace {

void requireUnit(const Figure& figure, Unit unit, const char* what) {
    if (figure.unit != unit) throw std::logic_error(std::string(what) + " is not in " + std::string(symbolOf(unit)));
}

Figure atRate(const Figure& time, const Figure& rate_per_h) {
    requireUnit(time, Unit::second, "time");
    return product(time, rate_per_h, Unit::none).in(Unit::money, 1.0 / 3600);
}

}  // namespace

Figure machineCost(const Figure& time, const Figure& rate_per_h) {
    return atRate(time, rate_per_h).named("machine time at its rate");
}

Figure labourCost(const Figure& time, const Figure& rate_per_h) {
    return atRate(time, rate_per_h).named("hands-on time at the labour rate");
}

Figure materialCost(const Figure& boughtMass, const Figure& price_per_kg, double credit) {
    requireUnit(boughtMass, Unit::gram, "mass");
    if (!(credit >= 0 && credit <= 1)) throw std::logic_error("material credit lies between 0 and 1");
    return product(boughtMass, price_per_kg, Unit::none)
        .in(Unit::money, 1e-3 * (1 - credit))
        .named("material bought at its price");
}

Figure energyCost(const Figure& energy, const Figure& price_per_kWh) {
    requireUnit(energy, Unit::watt_hour, "energy");
    return product(energy, price_per_kWh, Unit::none).in(Unit::money, 1e-3).named("electricity");
}

Figure toolWearCost(const Figure& cutting, const Figure& life_h, const Figure& price) {
    requireUnit(cutting, Unit::second, "cutting time");
    requireUnit(life_h, Unit::hour, "tool life");
    return quotient(product(cutting, price, Unit::none), life_h, Unit::none)
        .in(Unit::money, 1.0 / 3600)
        .named("tool wear: cutting time over tool life");
}

Figure withScrap(const Figure& cost, const Figure& share) {
    if (!(share.low >= 0 && share.high < 1)) throw std::logic_error("scrap share lies between 0 and 1");
    const Figure goodShare =
        Figure::bounded(1 - share.value, 1 - share.high, 1 - share.low, Unit::none, share.origin, share.note);
    return quotient(cost, goodShare, cost.unit).named(cost.note + "; scrapped parts shared over the good ones");
}

Figure attendedTime(const Figure& handsOn, const Figure& running, const Figure& attendance) {
    requireUnit(handsOn, Unit::second, "hands-on time");
    requireUnit(running, Unit::second, "running time");
    return sumIndependent({handsOn, product(running, attendance, Unit::second)});
}

Figure totalCost(std::span<const CostTerm> terms) {
    std::vector<Figure> costs{Figure::exact(0, Unit::money)};
    std::string note = "sum of";
    for (size_t i = 0; i < terms.size(); ++i) {
        costs.push_back(terms[i].cost);
        note += (i ? ", " : " ") + terms[i].name;
    }
    return sumIndependent(costs).named(note);
}

}  // namespace waybench
