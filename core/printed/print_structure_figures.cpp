#include <algorithm>
#include <cmath>

#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

/// One-sided deviations as factors, collected as logarithms in quadrature.
class Spread {
public:
    /// @param value, low, high of a positive figure the answer is proportional to
    Spread& with(double value, double low, double high) { return withFactors(low > 0 ? value / low : 2, high / value); }
    Spread& with(const Figure& f) { return with(f.value, f.low, f.high); }
    /// The answer goes as one over the figure.
    Spread& inverse(const Figure& f) { return withFactors(f.high / f.value, f.low > 0 ? f.value / f.low : 2); }
    Spread& withFactors(double below, double above) {
        below_ += square(std::log(std::max(1.0, below)));
        above_ += square(std::log(std::max(1.0, above)));
        return *this;
    }
    double below() const { return std::exp(-std::sqrt(below_)); }
    double above() const { return std::exp(std::sqrt(above_)); }

private:
    static double square(double x) { return x * x; }
    double below_ = 0, above_ = 0;
};

/// Relative band of a figure of either sign, as factors on its size.
Spread& withBandOf(Spread& spread, const Figure& f) {
    const double size = std::abs(f.value);
    if (size <= 0) return spread;
    const double towardsZero = (f.value > 0 ? f.value - f.low : f.high - f.value) / size;
    const double away = (f.value > 0 ? f.high - f.value : f.value - f.low) / size;
    return spread.withFactors(1 / std::max(0.1, 1 - towardsZero), 1 + away);
}

Figure spreadOut(double value, const Spread& spread, Unit unit, const std::string& note) {
    const double a = value * spread.below(), b = value * spread.above();
    return Figure::bounded(value, std::min({a, b, value}), std::max({a, b, value}), unit, Origin::computed, note);
}

Spread complianceSpread(const PrintEvaluation& e, const PrintedCase& c, const Figure& computed, bool withLoad = true) {
    Spread spread;
    withBandOf(spread, computed);
    spread.inverse(e.material.modulusInLayer).inverse(c.modulusFactor);
    const double load = withLoad ? c.loadCase().loadSpread : 0;
    spread.withFactors(1 / std::max(0.1, 1 - load), 1 + load);
    // stiffer infill, less deflection
    spread.withFactors(1 + e.infillSpread.above, 1 / std::max(0.1, 1 - e.infillSpread.below));
    return spread;
}

}  // namespace

CaseAnswer caseAnswer(const PrintEvaluation& e, const PrintedCase& c) {
    CaseAnswer outcome;
    outcome.loadCase = c.loadCase();
    outcome.structure = c.structure;
    const StructureAnswer& s = *c.structure;
    const PrintingMaterial& m = e.material;
    const LoadCase& loadCase = c.loadCase();
    const std::string modulus = shown(m.modulusInLayer.value, 4) + " MPa x " + shown(c.modulusFactor.value);

    const Spread spread = complianceSpread(e, c, s.deflection);
    const Figure deflection =
        spreadOut(s.deflection.value, spread, Unit::millimetre, "solid elements, walls and infill");
    outcome.figures[Question::deflection] = deflection;
    outcome.workings[Question::deflection] =
        "three-dimensional linear statics of contours, solid fill and infill, grid " + shown(s.spacing_mm) +
        " mm; E in layer " + modulus + " (heat, duration), E across " + shown(m.modulusRatioAcross.value) +
        " of it; band: modulus, load +/-" + shown(100 * loadCase.loadSpread) + " %, infill law, grid [" +
        m.modulusInLayer.note + "]";

    const Spread spreadMax = complianceSpread(e, c, s.deflectionMax);
    outcome.figures[Question::deflection_max] =
        spreadOut(s.deflectionMax.value, spreadMax, Unit::millimetre, "largest displacement of the surface");
    outcome.workings[Question::deflection_max] = "largest displacement of the same answer; same band";

    addStiffness(c.force_N, s, complianceSpread(e, c, s.deflection, false).below(),
                 complianceSpread(e, c, s.deflection, false).above(), outcome);

    Spread strengthSpread;
    withBandOf(strengthSpread, s.strengthMargin);
    strengthSpread.with(m.strengthInLayer).with(e.acrossRatio).with(c.strength.figure);
    const double load = loadCase.loadSpread;
    strengthSpread.withFactors(1 + load, 1 / std::max(0.1, 1 - load));
    outcome.figures[Question::strength_margin] =
        spreadOut(s.strengthMargin.value, strengthSpread, Unit::none, "strength over averaged stress, worst place");
    outcome.workings[Question::strength_margin] =
        "strength over averaged stress at the worst place; in layer " + shown(m.strengthInLayer.value) +
        " MPa, across " + shown(e.acrossRatio.value) + " of it" +
        (c.strength.reason.empty() ? std::string() : ", times " + c.strength.reason) + " [" + m.strengthInLayer.note +
        "]";

    outcome.figures[Question::temperature_margin] =
        Figure::bounded(m.serviceTemperature.value - loadCase.temperature_celsius,
                        m.serviceTemperature.low - loadCase.temperature_celsius,
                        m.serviceTemperature.high - loadCase.temperature_celsius, Unit::kelvin, Origin::computed,
                        m.serviceTemperature.note);
    outcome.workings[Question::temperature_margin] =
        "service temperature under load " + shown(m.serviceTemperature.value) + " degC - " +
        shown(loadCase.temperature_celsius) + " degC [" + m.serviceTemperature.note + "]";
    return outcome;
}

}  // namespace waybench::printed
