#include <algorithm>
#include <cmath>
#include <string>

#include "core/fault/input_fault.h"
#include "core/material/printing_material.h"
#include "core/material/stock_material.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

constexpr double kRoom_celsius = 23, kColdest_celsius = -40;
constexpr double kModulusAtDeflectionTemperature_MPa = 900;  // 1.8 MPa over 0.2 % strain, ISO 75

struct Bounds {
    double value = 1, low = 1, high = 1;
};

void checkConditions(double temperature_celsius, double duration_h, const std::string& title) {
    if (!std::isfinite(temperature_celsius) || temperature_celsius < kColdest_celsius)
        throw InputFault("temperature_too_low", "", "temperature",
                         "the figures of " + title + " do not reach below " + plainNumber(kColdest_celsius) + " degC",
                         "give a temperature above that");
    if (!std::isfinite(duration_h) || duration_h < 0)
        throw InputFault("duration_negative", "", "duration", "the time under load must be a number from 0 h up",
                         "give 0 for a brief load");
}

[[noreturn]] void tooHot(const std::string& title, double temperature, double limit) {
    throw InputFault("temperature_too_high", "", "temperature",
                     title + " cannot carry a load at " + plainNumber(temperature) + " degC; it softens from " +
                         plainNumber(limit) + " degC",
                     "choose a material for higher temperature, or keep the part cooler");
}

Bounds softening(const PrintingMaterial& material, double temperature_celsius) {
    const double above = temperature_celsius - kRoom_celsius;
    if (above <= 0) return {};
    const double fall = std::log(std::max(1.0, material.modulusInLayer.value / kModulusAtDeflectionTemperature_MPa));
    const double exponent = fall * above / (material.deflectionTemperature.value - kRoom_celsius);
    return {std::exp(-exponent), std::exp(-1.3 * exponent), std::exp(-0.2 * exponent)};
}

Bounds creep(const PrintingMaterial& material, double temperature_celsius, double duration_h) {
    if (duration_h == 0) return {};
    const double warmth = std::exp2(std::max(0.0, temperature_celsius - kRoom_celsius) / 10);
    const double growth = warmth * std::pow(duration_h, material.creepExponent.value);
    return {1 / (1 + material.creepFactor.value * growth), 1 / (1 + material.creepFactor.high * growth),
            1 / (1 + material.creepFactor.low * growth)};
}

Bounds creep(const StockMaterial& material, double duration_h) {
    if (duration_h == 0 || !material.creepRatio1000h) return {};
    const double growth = std::cbrt(duration_h / 1000);
    const auto at = [&](double ratio) { return 1 / (1 + (1 / ratio - 1) * growth); };
    const Figure& ratio = *material.creepRatio1000h;
    return {at(ratio.value), at(ratio.low), at(ratio.high)};
}

Figure combined(const Bounds& soft, const Bounds& creeping, const std::string& note) {
    const auto figure = [](const Bounds& b) { return Figure::bounded(b.value, b.low, b.high, Unit::none); };
    Figure factor = product(figure(soft), figure(creeping), Unit::none).named(note);
    factor.high = std::min(factor.high, 1.0);
    return factor;
}

std::string conditions(double temperature_celsius, double duration_h) {
    return plainNumber(temperature_celsius) + " degC, " + plainNumber(duration_h) + " h under load";
}

}  // namespace

double temperatureLimit_celsius(const PrintingMaterial& material) {
    return material.isSemicrystalline ? material.serviceTemperature.value : material.glassTransition.value - 15;
}

Figure modulusFactor(const PrintingMaterial& material, double temperature_celsius, double duration_h) {
    checkConditions(temperature_celsius, duration_h, material.title);
    const double limit = temperatureLimit_celsius(material);
    if (temperature_celsius >= limit) tooHot(material.title, temperature_celsius, limit);
    return combined(softening(material, temperature_celsius), creep(material, temperature_celsius, duration_h),
                    conditions(temperature_celsius, duration_h) +
                        "; creep J = 1 + k t^n, k doubling per 10 K; log-linear softening to 900 MPa at " +
                        plainNumber(material.deflectionTemperature.value) + " degC");
}

Figure modulusFactor(const StockMaterial& material, double temperature_celsius, double duration_h) {
    checkConditions(temperature_celsius, duration_h, material.title);
    if (temperature_celsius > material.serviceTemperature.value)
        tooHot(material.title, temperature_celsius, material.serviceTemperature.value);
    const double above = std::max(0.0, temperature_celsius - kRoom_celsius);
    const auto left = [&](double fall_per_K) { return std::max(0.05, 1 - fall_per_K * above); };
    const Bounds soft = isMetal(material.group) ? Bounds{left(0.0005), left(0.001), left(0)}
                                                : Bounds{left(0.0075), left(0.01), left(0.005)};
    return combined(soft, creep(material, duration_h), conditions(temperature_celsius, duration_h));
}

}  // namespace waybench
