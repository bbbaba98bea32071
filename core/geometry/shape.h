#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/geometry/solid.h"
#include "core/quantity/unit.h"

namespace waybench {

/// One dimension a shape has, described once: field, file, command line, tooltip and help read this.
struct Dimension {
    std::string key;               ///< stable, snake_case: "thickness"
    std::string label;             ///< for people: "thickness"
    Unit unit = Unit::millimetre;  ///< Unit::none for counts
    double minimum = 0, maximum = 0, standard = 0;
    std::string help;
};

using DimensionValues = std::map<std::string, double>;

/// A parametric family of fixture parts. One file per family; all are listed by families().
class Family {
public:
    virtual ~Family() = default;
    virtual std::string key() const = 0;    ///< "plate", "bracket", "channel", "box", "bar", "arm", "block", "guide"
    virtual std::string title() const = 0;  ///< "Plate with holes and slots"
    virtual const std::vector<Dimension>& dimensions() const = 0;
    /// Cross-checks of values in range; throws InputFault "dimension_conflict" naming the two dimensions and what would
    /// fit, and "dimension_out_of_range" for a size that is neither 0 (none) nor large enough to be made.
    virtual void check(const DimensionValues& values) const = 0;
    /// Closed surface with named faces. Precondition: complete, checked values.
    virtual Solid build(const DimensionValues& values) const = 0;
};
const std::vector<const Family*>& families();
const Family& familyNamed(const std::string& key);  ///< throws InputFault "family_unknown"

enum class ShapeKind { family, drawing, surface };

/// Where a part's geometry comes from, and its editable dimensions.
struct Shape {
    ShapeKind kind = ShapeKind::family;
    std::string family;          ///< family only
    std::filesystem::path file;  ///< drawing: DXF, surface: STL or STEP; relative to the project
    double fileUnit_mm = 0;      ///< mm per drawing unit; 0 = as the file says (STL: mm; STEP: always)
    DimensionValues dimensions;  ///< family: its dimensions; drawing: "thickness"; missing keys take the standard
    bool operator==(const Shape&) const = default;
};

/// Dimensions that can be edited: family's own; {"thickness"} for a drawing; none for a surface.
std::vector<Dimension> dimensionsOf(const Shape& shape);
/// What a dimension is: the route's own value, else the shape's, else the standard.
double dimensionValue(const Shape& shape, const Dimension& dimension, const DimensionValues& own = {});
/// Shape with some dimensions replaced. @throws InputFault "dimension_unknown", "dimension_out_of_range"
Shape withDimensions(const Shape& shape, const DimensionValues& overrides);
/// The solid. @param folder base of relative file paths.
/// @throws InputFault from the readers ("file_missing", "contour_open", "surface_leaks", "dimension_conflict" ...)
Solid buildSolid(const Shape& shape, const std::filesystem::path& folder);

}  // namespace waybench
