#include "core/printed/print_body.h"

#include <algorithm>
#include <cmath>

#include "core/printed/layers.h"
#include "core/quantity/quantity_text.h"

namespace waybench::printed {
namespace {

constexpr double kShearRatio = 0.8;            // G_xz over E_xy/(2(1+nu)); printed-route.md 1.3, common practice
constexpr double kEmpty = 1e-4;                // share of the solid's moduli an empty inside is given
constexpr double kSparse = 0.02;               // infill below this share is no member whose breaking counts
constexpr double kRuptureSpread = 0.3;         // creep rupture line, common practice, no source
constexpr double kVonMisesShear = 0.57735027;  // 1/sqrt(3)

ElasticLaw solidLaw(const PrintingMaterial& m, double factor) {
    const double E = m.modulusInLayer.value * factor, nu = m.poissonRatio.value;
    return transverselyIsotropicLaw(E, E * m.modulusRatioAcross.value, nu, nu, kShearRatio * E / (2 * (1 + nu)));
}

/// Walls of the pattern carry along the build axis, so a pull along it contracts the layer by the solid's Poisson
/// ratio; the other way round the ratio falls with the moduli (symmetry of the compliance).
ElasticLaw infillLaw(const Recipe& recipe, const PrintingMaterial& m, double factor) {
    const InfillModuli moduli = infillModuli(recipe.infill, recipe.infillShare);
    const double E = m.modulusInLayer.value * factor, nu = m.poissonRatio.value;
    const double inLayer = std::max(kEmpty, moduli.inLayer), across = std::max(kEmpty, moduli.across);
    return transverselyIsotropicLaw(E * inLayer, E * m.modulusRatioAcross.value * across, nu,
                                    nu * std::min(1.0, inLayer / across),
                                    kShearRatio * E / (2 * (1 + nu)) * std::max(kEmpty, moduli.shear));
}

}  // namespace

Body bodyOf(const Recipe& recipe, const PrintingMaterial& material, const Solid& solid, double factor) {
    const Mat3 toPart = standingRotation(recipe).transpose();
    Body body;
    body.solid = &solid;
    body.law = rotated(solidLaw(material, factor), toPart);
    body.layerNormal = upwardOf(recipe);
    body.density_g_per_mm3 = material.density_g_per_cm3.value / 1000;
    if (recipe.infillShare >= 1) return body;
    ShellAndInfill inside;
    inside.wallThickness_mm = recipe.walls * beadSpacing_mm(recipe);
    inside.skinBelow_mm =
        recipe.skinsBelow > 0 ? recipe.firstLayerThickness_mm + (recipe.skinsBelow - 1) * recipe.layerThickness_mm : 0;
    inside.skinAbove_mm = recipe.skinsAbove * recipe.layerThickness_mm;
    inside.buildDirection = upwardOf(recipe);
    inside.infillLaw = rotated(infillLaw(recipe, material, factor), toPart);
    inside.infillDensity_g_per_mm3 = body.density_g_per_mm3 * recipe.infillShare;
    body.inside = inside;
    return body;
}

StrengthFactor strengthFactor(const PrintingMaterial& material, const LoadCase& loadCase, const Figure& heat) {
    StrengthFactor factor;
    const double heatFactor = heat.value;
    factor.value = heatFactor;
    factor.figure = heat;
    if (heatFactor < 0.999) factor.reason = plainNumber(std::round(heatFactor * 100) / 100) + " for heat";
    const auto mention = [&](const Figure& bounds, const std::string& why) {
        const double share = bounds.value;
        factor.value *= share;
        factor.figure = product(factor.figure, bounds, Unit::none);
        factor.reason +=
            (factor.reason.empty() ? "" : ", ") + plainNumber(std::round(share * 100) / 100) + " for " + why;
    };
    if (loadCase.duration == Duration::hours && loadCase.duration_h > 0.1)
        mention(Figure::relative(1 - 0.75 * std::min(1.0, std::log10(loadCase.duration_h / 0.1) / 4), kRuptureSpread,
                                 kRuptureSpread, Unit::none),
                plainNumber(loadCase.duration_h) + " h under load");
    if (loadCase.duration == Duration::cyclic && loadCase.cycles > 1e3) {
        const auto tired = [&](double ratio) { return std::pow(ratio, std::log10(loadCase.cycles / 1e3) / 3); };
        factor.hasFatigueFigure = material.fatigueRatio1e6.has_value();
        if (factor.hasFatigueFigure)
            mention(Figure::bounded(tired(material.fatigueRatio1e6->value), tired(material.fatigueRatio1e6->low),
                                    tired(material.fatigueRatio1e6->high), Unit::none),
                    plainNumber(loadCase.cycles) + " cycles");
    }
    return factor;
}

StrengthLaw strengthOf(const Recipe& recipe, const PrintingMaterial& material, const Figure& acrossRatio,
                       const StrengthFactor& factor) {
    StrengthLaw law;
    law.inLayer_MPa = material.strengthInLayer.value * factor.value;
    law.across_MPa = law.inLayer_MPa * acrossRatio.value;
    law.shearAcross_MPa = std::min(*law.across_MPa, kVonMisesShear * law.inLayer_MPa);
    if (recipe.infillShare < 1 && recipe.infillShare >= kSparse)
        law.infillFactor = infillModuli(recipe.infill, recipe.infillShare).inLayer;
    return law;
}

double infillStiffnessShare(const Recipe& recipe, double shell_mm3, double infillSpace_mm3) {
    if (recipe.infillShare <= 0 || recipe.infillShare >= 1 || infillSpace_mm3 <= 0) return 0;
    const double carried = infillModuli(recipe.infill, recipe.infillShare).inLayer * infillSpace_mm3;
    return carried / (shell_mm3 + carried);
}

}  // namespace waybench::printed
