#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

constexpr int kMostDecimals = 12;
constexpr int kExactDigits = 6;
constexpr int kInputDigits = 3;
constexpr int kMostExtraDigits = 3;
constexpr double kTwoDigitBand = 25;  // leading two digits of the band below which both are kept

int magnitudeOf(double positive) {
    return static_cast<int>(std::floor(std::log10(positive)));
}

/// Fixed notation; a negative number of decimals rounds to tens, hundreds ...
std::string fixedText(double value, int decimals) {
    std::array<char, 400> buffer{};
    if (decimals < 0) {
        const double step = std::pow(10.0, -decimals);
        value = std::round(value / step) * step;
        decimals = 0;
    }
    const auto [end, error] =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
    std::string text(buffer.data(), error == std::errc() ? end : buffer.data());
    if (!text.empty() && text[0] == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
    return text;
}

std::string withoutTrailingZeros(std::string text) {
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

int decimalsByBand(const Figure& f, double deviation) {
    int magnitude = magnitudeOf(deviation);
    double leading = std::round(deviation / std::pow(10.0, magnitude - 1));
    if (leading >= 100) {
        ++magnitude;
        leading = 10;
    }
    int decimals = leading < kTwoDigitBand ? 1 - magnitude : -magnitude;
    // A band far wider than the value must not round a value that is surely not zero to zero.
    // Some times wider than the value, it leaves two digits: 1.03 from 0.1 to 9.9 must not read as "1 (0 to 10)".
    if (f.value != 0 && (f.low > 0 || f.high < 0)) {
        const double times = deviation / std::abs(f.value);
        const int kept = times > 3 && times < 30 ? 1 : 0;
        decimals = std::max(decimals, kept - magnitudeOf(std::abs(f.value)));
    }
    return std::min(decimals, kMostDecimals);
}

/// Whether rounding carries the value or a bound over or onto the limit.
bool changesSide(const Figure& f, int decimals, double limit) {
    const double step = std::pow(10.0, -decimals);
    for (const double x : {f.value, f.low, f.high}) {
        const double rounded = std::round(x / step) * step;
        if (std::abs(x - limit) < 1e-9 * std::abs(limit)) continue;
        if (std::abs(rounded - limit) < 1e-9 * std::max(step, std::abs(limit)) || (rounded < limit) != (x < limit))
            return true;
    }
    return false;
}

bool isExact(const Figure& f) {
    return std::max(f.value - f.low, f.high - f.value) <= 1e-12 * std::abs(f.value);
}

Figure forDisplay(const Figure& figure, const DisplayUnit& unit) {
    Figure f = figure;
    f.value *= unit.scale;
    f.low *= unit.scale;
    f.high *= unit.scale;
    return f;
}

double typicalOf(const Figure& f) {
    return f.value != 0 ? std::abs(f.value) : std::max(std::abs(f.low), std::abs(f.high));
}

}  // namespace

RoundedFigure roundByBand(const Figure& f, std::optional<double> against) {
    RoundedFigure rounded;
    if (isExact(f)) {
        const int decimals = f.value == 0 ? 0 : kExactDigits - 1 - magnitudeOf(std::abs(f.value));
        rounded.value = withoutTrailingZeros(fixedText(f.value, std::min(decimals, 2 * kMostDecimals)));
        const std::size_t point = rounded.value.find('.');
        rounded.decimals = point == std::string::npos ? 0 : static_cast<int>(rounded.value.size() - point - 1);
        rounded.low = rounded.high = rounded.value;
        return rounded;
    }
    int decimals = decimalsByBand(f, std::max(f.value - f.low, f.high - f.value));
    if (against)
        for (int extra = 0; extra < kMostExtraDigits && changesSide(f, decimals, *against); ++extra)
            ++decimals;
    rounded.value = fixedText(f.value, decimals);
    rounded.low = fixedText(f.low, decimals);
    rounded.high = fixedText(f.high, decimals);
    rounded.decimals = std::max(decimals, 0);
    return rounded;
}

DisplayUnit displayUnitFor(Unit unit, double typicalValue) {
    const double size = std::abs(typicalValue);
    switch (unit) {
        case Unit::none:
            return {"", 1};
        case Unit::second:
            if (size < 120) return {"s", 1};
            if (size < 7200) return {"min", 1.0 / 60};
            return {"h", 1.0 / 3600};
        case Unit::gram:
            return size < 10000 ? DisplayUnit{"g", 1} : DisplayUnit{"kg", 1e-3};
        case Unit::newton:
            return size < 10000 ? DisplayUnit{"N", 1} : DisplayUnit{"kN", 1e-3};
        case Unit::newton_millimetre:
            return size < 10000 ? DisplayUnit{"N mm", 1} : DisplayUnit{"N m", 1e-3};
        case Unit::watt_hour:
            return size < 10000 ? DisplayUnit{"Wh", 1} : DisplayUnit{"kWh", 1e-3};
        case Unit::square_millimetre:
            return {"mm\u00b2", 1};
        case Unit::cubic_millimetre:
            return size < 1e5 ? DisplayUnit{"mm\u00b3", 1} : DisplayUnit{"cm\u00b3", 1e-3};
        case Unit::celsius:
            return {"\u00b0C", 1};
        case Unit::degree:
            return {"\u00b0", 1};
        default:
            return {std::string(symbolOf(unit)), 1};
    }
}

DisplayUnit displayUnitForPair(Unit unit, double a, double b) {
    a = std::abs(a);
    b = std::abs(b);
    const double smaller = std::min(a, b), larger = std::max(a, b);
    return displayUnitFor(unit, unit == Unit::second ? std::max(smaller, larger / 30) : larger);
}

namespace {

/// SI brochure, 5.4.3: a space before the unit, except the signs of plane angle.
std::string joined(const std::string& number, const std::string& symbol) {
    if (symbol.empty()) return number;
    return number + (symbol == "\u00b0" ? "" : " ") + symbol;
}

}  // namespace

std::string describe(const Figure& figure, std::optional<double> against) {
    const DisplayUnit unit = displayUnitFor(figure.unit, typicalOf(figure));
    if (against) *against *= unit.scale;
    const RoundedFigure rounded = roundByBand(forDisplay(figure, unit), against);
    const std::string text = joined(rounded.value, unit.symbol);
    if (isExact(figure)) return text;
    return text + " (" + rounded.low + " to " + rounded.high + ")";
}

std::string describeInput(const Figure& figure) {
    const DisplayUnit unit = displayUnitFor(figure.unit, typicalOf(figure));
    const auto digits = [&](double x) {
        x *= unit.scale;
        const int decimals = x == 0 ? 0 : std::max(0, kInputDigits - 1 - magnitudeOf(std::abs(x)));
        return withoutTrailingZeros(fixedText(x, decimals));
    };
    const std::string text = joined(digits(figure.value), unit.symbol);
    return isExact(figure) ? text : text + " (" + digits(figure.low) + " to " + digits(figure.high) + ")";
}

std::string describeValue(const Figure& figure) {
    const DisplayUnit unit = displayUnitFor(figure.unit, typicalOf(figure));
    return joined(roundByBand(forDisplay(figure, unit)).value, unit.symbol);
}

std::string plainNumber(double value) {
    std::array<char, 64> buffer{};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value == 0 ? 0.0 : value);
    return std::string(buffer.data(), error == std::errc() ? end : buffer.data());
}

}  // namespace waybench
