#pragma once
#include <initializer_list>
#include <span>
#include <string>

#include "core/quantity/unit.h"

namespace waybench {

/// Where a figure came from; shown to the user as a mark beside it.
enum class Origin { defaulted, table, computed, typed, measured };
std::string_view nameOf(Origin origin);

/// A quantity with bounds, unit and provenance. Invariant: all finite, low <= value <= high.
///
/// Bounds are what we would bet nine in ten on where data allow, otherwise plain bounds of the sources; they are not
/// promised to be statistical. Every maker and combiner below keeps the invariant or throws std::logic_error
/// (a NaN reaching a figure is a defect of ours; user input is checked before it gets here).
struct Figure {
    double value = 0, low = 0, high = 0;
    Unit unit = Unit::none;
    Origin origin = Origin::computed;
    std::string note;  ///< one line: source key, table, or how it was computed

    static Figure exact(double value, Unit unit, Origin origin = Origin::computed, std::string note = {});
    static Figure bounded(double value, double low, double high, Unit unit, Origin origin = Origin::computed,
                          std::string note = {});
    /// Bounds value*(1-below) .. value*(1+above); below, above >= 0; for values >= 0.
    static Figure relative(double value, double below, double above, Unit unit, Origin origin = Origin::computed,
                           std::string note = {});

    Figure named(std::string newNote) const;           ///< same figure, other note
    Figure times(double factor) const;                 ///< bounds scaled (swapped when negative), unit kept
    Figure in(Unit newUnit, double factor) const;      ///< scaled into another unit
    Figure widened(double below, double above) const;  ///< extra independent relative uncertainty, root-sum-square
    double relativeBelow() const;                      ///< (value-low)/|value|, 0 for value 0
    double relativeAbove() const;
};

/// Sum whose terms share their causes: bounds add. One unit throughout.
Figure sumShared(std::span<const Figure> terms);
Figure sumShared(std::initializer_list<Figure> terms);
/// Sum of independent terms: one-sided deviations add in quadrature (JCGM 100, 5.1.2, each side by itself).
Figure sumIndependent(std::span<const Figure> terms);
Figure sumIndependent(std::initializer_list<Figure> terms);
/// Product / quotient of independent positive figures: logarithmic deviations add in quadrature, each side by itself.
Figure product(const Figure& a, const Figure& b, Unit unit);
Figure quotient(const Figure& a, const Figure& b, Unit unit);
/// a - b, independent.
Figure difference(const Figure& a, const Figure& b);

}  // namespace waybench
