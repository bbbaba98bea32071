#include <algorithm>
#include <cmath>

#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

/// One-sided deviations as factors, collected as logarithms in quadrature.
class Spread {
public:
    Spread& withFactors(double below, double above) {
        below_ += std::pow(std::log(std::max(1.0, below)), 2);
        above_ += std::pow(std::log(std::max(1.0, above)), 2);
        return *this;
    }
    /// The answer goes as one over the figure.
    Spread& inverse(const Figure& f) { return withFactors(f.high / f.value, f.low > 0 ? f.value / f.low : 2); }
    /// Relative band of a figure of either sign, as factors on its size.
    Spread& likeBandOf(const Figure& f) {
        const double size = std::abs(f.value);
        if (size <= 0) return *this;
        const double towardsZero = (f.value > 0 ? f.value - f.low : f.high - f.value) / size;
        const double away = (f.value > 0 ? f.high - f.value : f.value - f.low) / size;
        return withFactors(1 / std::max(0.1, 1 - towardsZero), 1 + away);
    }
    Figure around(double value, Unit unit, const std::string& note) const {
        const double a = value * std::exp(-std::sqrt(below_)), b = value * std::exp(std::sqrt(above_));
        return Figure::bounded(value, std::min({a, b, value}), std::max({a, b, value}), unit, Origin::computed, note);
    }
    double below() const { return std::exp(-std::sqrt(below_)); }
    double above() const { return std::exp(std::sqrt(above_)); }

private:
    double below_ = 0, above_ = 0;
};

}  // namespace

CaseAnswer caseAnswer(const MachiningEvaluation& e, const MachinedCase& c) {
    CaseAnswer outcome;
    outcome.loadCase = c.loadCase();
    outcome.structure = c.structure;
    const StructureAnswer& s = *c.structure;
    const StockMaterial& m = e.material;
    const LoadCase& loadCase = c.loadCase();
    const double load = loadCase.loadSpread;
    const auto stiffnessSpread = [&](const Figure& computed) {
        Spread spread;
        spread.likeBandOf(computed).inverse(m.modulus).inverse(c.modulusFactor);
        return spread;
    };
    const Spread bare = stiffnessSpread(s.deflection);
    Spread spread = bare;
    spread.withFactors(1 / std::max(0.1, 1 - load), 1 + load);
    outcome.figures[Question::deflection] =
        spread.around(s.deflection.value, Unit::millimetre, "solid elements, isotropic stock");
    outcome.workings[Question::deflection] =
        "three-dimensional linear statics, grid " + shown(s.spacing_mm) + " mm; E = " + shown(m.modulus.value, 4) +
        " MPa x " + shown(c.modulusFactor.value) + " (heat, duration), nu = " + shown(m.poissonRatio.value) +
        "; band: modulus, load +/-" + shown(100 * load) + " %, grid [" + m.modulus.note + "]";
    Spread largest = stiffnessSpread(s.deflectionMax);
    largest.withFactors(1 / std::max(0.1, 1 - load), 1 + load);
    outcome.figures[Question::deflection_max] =
        largest.around(s.deflectionMax.value, Unit::millimetre, "largest displacement of the surface");
    outcome.workings[Question::deflection_max] = "largest displacement of the same answer; same band";

    addStiffness(c.force_N, s, bare.below(), bare.above(), outcome);

    Spread strength;
    strength.likeBandOf(s.strengthMargin);
    strength.likeBandOf(c.strength);
    strength.withFactors(1 + load, 1 / std::max(0.1, 1 - load));
    outcome.figures[Question::strength_margin] =
        strength.around(s.strengthMargin.value, Unit::none, "strength over averaged stress, worst place");
    outcome.workings[Question::strength_margin] = c.strengthReason + " " + shown(c.strength.value) +
                                                  " MPa over the averaged stress at " + placeText(s.weakestPlace) +
                                                  " [" + c.strength.note + "]";
    const double t = loadCase.temperature_celsius;
    outcome.figures[Question::temperature_margin] =
        Figure::bounded(m.serviceTemperature.value - t, m.serviceTemperature.low - t, m.serviceTemperature.high - t,
                        Unit::kelvin, Origin::computed, m.serviceTemperature.note);
    outcome.workings[Question::temperature_margin] = "service temperature under load " +
                                                     shown(m.serviceTemperature.value) + " degC - " + shown(t) +
                                                     " degC [" + m.serviceTemperature.note + "]";
    return outcome;
}

}  // namespace waybench::machined
