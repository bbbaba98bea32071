#include "core/quantity/figure.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace waybench {

namespace {

Figure checked(Figure f) {
    if (!std::isfinite(f.value) || !std::isfinite(f.low) || !std::isfinite(f.high))
        throw std::logic_error("figure is not finite: " + f.note);
    if (f.low > f.value || f.high < f.value) throw std::logic_error("figure outside its bounds: " + f.note);
    return f;
}

/// Bounds that rounding pushed past the value are put back onto it.
Figure computed(double value, double low, double high, Unit unit) {
    return checked({value, std::min(low, value), std::max(high, value), unit, Origin::computed, {}});
}

void requireOneUnit(std::span<const Figure> terms) {
    for (const Figure& t : terms)
        if (t.unit != terms.front().unit)
            throw std::logic_error("sum of figures in different units: " + std::string(symbolOf(terms.front().unit)) +
                                   " and " + std::string(symbolOf(t.unit)));
}

void requirePositive(const Figure& f) {
    if (f.value < 0 || f.high < 0) throw std::logic_error("product or quotient of a negative figure: " + f.note);
}

}  // namespace

std::string_view nameOf(Origin origin) {
    switch (origin) {
        case Origin::defaulted:
            return "default";
        case Origin::table:
            return "table";
        case Origin::computed:
            return "computed";
        case Origin::typed:
            return "typed";
        case Origin::measured:
            return "measured";
    }
    return "computed";
}

Figure Figure::exact(double value, Unit unit, Origin origin, std::string note) {
    return checked({value, value, value, unit, origin, std::move(note)});
}

Figure Figure::bounded(double value, double low, double high, Unit unit, Origin origin, std::string note) {
    return checked({value, low, high, unit, origin, std::move(note)});
}

Figure Figure::relative(double value, double below, double above, Unit unit, Origin origin, std::string note) {
    if (!(value >= 0) || !(below >= 0) || !(above >= 0))
        throw std::logic_error("relative bounds of a negative figure: " + note);
    return checked({value, value * (1 - below), value * (1 + above), unit, origin, std::move(note)});
}

Figure Figure::named(std::string newNote) const {
    Figure f = *this;
    f.note = std::move(newNote);
    return f;
}

Figure Figure::times(double factor) const {
    return in(unit, factor);
}

Figure Figure::in(Unit newUnit, double factor) const {
    Figure f = *this;
    f.unit = newUnit;
    f.value = value * factor;
    f.low = (factor < 0 ? high : low) * factor;
    f.high = (factor < 0 ? low : high) * factor;
    return checked(f);
}

Figure Figure::widened(double below, double above) const {
    Figure f = *this;
    f.low = value - std::hypot(value - low, std::abs(value) * below);
    f.high = value + std::hypot(high - value, std::abs(value) * above);
    return checked(f);
}

double Figure::relativeBelow() const {
    return value == 0 ? 0 : (value - low) / std::abs(value);
}

double Figure::relativeAbove() const {
    return value == 0 ? 0 : (high - value) / std::abs(value);
}

Figure sumShared(std::span<const Figure> terms) {
    if (terms.empty()) return Figure::exact(0, Unit::none);
    requireOneUnit(terms);
    double value = 0, low = 0, high = 0;
    for (const Figure& t : terms) {
        value += t.value;
        low += t.low;
        high += t.high;
    }
    return computed(value, low, high, terms.front().unit);
}

Figure sumShared(std::initializer_list<Figure> terms) {
    return sumShared(std::span<const Figure>(terms.begin(), terms.size()));
}

Figure sumIndependent(std::span<const Figure> terms) {
    if (terms.empty()) return Figure::exact(0, Unit::none);
    requireOneUnit(terms);
    double value = 0, below = 0, above = 0;
    for (const Figure& t : terms) {
        value += t.value;
        below = std::hypot(below, t.value - t.low);
        above = std::hypot(above, t.high - t.value);
    }
    return computed(value, value - below, value + above, terms.front().unit);
}

Figure sumIndependent(std::initializer_list<Figure> terms) {
    return sumIndependent(std::span<const Figure>(terms.begin(), terms.size()));
}

Figure product(const Figure& a, const Figure& b, Unit unit) {
    requirePositive(a);
    requirePositive(b);
    const double value = a.value * b.value;
    double low = 0, high = 0;
    if (a.low > 0 && b.low > 0) {
        low = value * std::exp(-std::hypot(std::log(a.value / a.low), std::log(b.value / b.low)));
    } else {
        low = std::min({a.low * b.low, a.low * b.high, a.high * b.low});
    }
    if (a.value > 0 && b.value > 0) {
        high = value * std::exp(std::hypot(std::log(a.high / a.value), std::log(b.high / b.value)));
    } else {
        high = a.high * b.high;
    }
    return computed(value, low, high, unit);
}

Figure quotient(const Figure& a, const Figure& b, Unit unit) {
    requirePositive(a);
    if (!(b.low > 0)) throw std::logic_error("quotient by a figure that may be zero: " + b.note);
    const Figure inverse = computed(1 / b.value, 1 / b.high, 1 / b.low, Unit::none);
    return product(a, inverse, unit);
}

Figure difference(const Figure& a, const Figure& b) {
    return sumIndependent({a, b.times(-1)});
}

}  // namespace waybench
