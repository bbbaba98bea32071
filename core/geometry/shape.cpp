#include "core/geometry/shape.h"

#include <charconv>
#include <cmath>
#include <stdexcept>

#include "core/fault/input_fault.h"
#include "core/geometry/import/dxf.h"
#include "core/geometry/import/shape_file.h"
#include "core/geometry/import/step.h"
#include "core/geometry/import/stl.h"

namespace waybench {

namespace {

const Dimension kDrawingThickness{
    "thickness", "thickness", Unit::millimetre, 0.2, 300, 8, "of the plate the profile is cut from, along z"};

std::string numberText(double value) {
    if (!std::isfinite(value)) return "not a number";
    char buffer[40];
    return {buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr};
}

std::string withUnit(const Dimension& d, double value) {
    return numberText(value) +
           (d.unit == Unit::none || !std::isfinite(value) ? "" : " " + std::string(symbolOf(d.unit)));
}

const Dimension& dimensionNamed(const std::vector<Dimension>& there, const std::string& key) {
    std::string names;
    for (const Dimension& d : there) {
        if (d.key == key) return d;
        names += (names.empty() ? "" : ", ") + d.key;
    }
    throw InputFault("dimension_unknown", "", "dimension '" + key + "'", "this shape has no dimension '" + key + "'",
                     there.empty() ? "its dimensions cannot be edited" : "it has " + names);
}

void checkRange(const Dimension& d, double value) {
    const std::string place = "dimension '" + d.key + "'";
    if (!std::isfinite(value) || value < d.minimum || value > d.maximum)
        throw InputFault("dimension_out_of_range", "", place, d.label + " is " + withUnit(d, value),
                         "give a value from " + withUnit(d, d.minimum) + " to " + withUnit(d, d.maximum));
    if (d.unit == Unit::none && value != std::floor(value))
        throw InputFault("dimension_out_of_range", "", place, d.label + " is " + withUnit(d, value),
                         "give a whole number from " + withUnit(d, d.minimum) + " to " + withUnit(d, d.maximum));
}

/// Complete: the given values, checked, and the standard for the rest.
DimensionValues completeValues(const std::vector<Dimension>& dimensions, const DimensionValues& given) {
    DimensionValues values;
    for (const auto& [key, value] : given) {
        checkRange(dimensionNamed(dimensions, key), value);
        values[key] = value;
    }
    for (const Dimension& d : dimensions)
        values.try_emplace(d.key, d.standard);
    return values;
}

}  // namespace

std::vector<Dimension> dimensionsOf(const Shape& shape) {
    switch (shape.kind) {
        case ShapeKind::family:
            return familyNamed(shape.family).dimensions();
        case ShapeKind::drawing:
            return {kDrawingThickness};
        case ShapeKind::surface:
            return {};
    }
    throw std::logic_error("unknown kind of shape");
}

double dimensionValue(const Shape& shape, const Dimension& dimension, const DimensionValues& own) {
    for (const DimensionValues* values : {&own, &shape.dimensions})
        if (const auto it = values->find(dimension.key); it != values->end()) return it->second;
    return dimension.standard;
}

Shape withDimensions(const Shape& shape, const DimensionValues& overrides) {
    const std::vector<Dimension> dimensions = dimensionsOf(shape);
    Shape changed = shape;
    for (const auto& [key, value] : overrides) {
        checkRange(dimensionNamed(dimensions, key), value);
        changed.dimensions[key] = value;
    }
    return changed;
}

Solid buildSolid(const Shape& shape, const std::filesystem::path& folder) {
    const DimensionValues values = completeValues(dimensionsOf(shape), shape.dimensions);
    if (shape.kind == ShapeKind::family) {
        const Family& family = familyNamed(shape.family);
        family.check(values);
        return family.build(values);
    }
    if (!std::isfinite(shape.fileUnit_mm) || shape.fileUnit_mm < 0)
        throw InputFault("size_absurd", shape.file.string(), "unit", "the unit of the file is not a length",
                         "give the millimetres per unit, such as 1 or 25.4, or 0 for what the file says");
    const std::filesystem::path path = shape.file.is_absolute() ? shape.file : folder / shape.file;
    std::ifstream in = opened(path, shape.file);
    const std::string name = shape.file.string();
    const std::string unitAssumed = name + ": " + std::string(kUnitAssumed);
    if (shape.kind == ShapeKind::drawing) {
        const Profile profile = readDxf(in, name, shape.fileUnit_mm);
        Solid solid = extruded(profile, values.at("thickness"));
        if (profile.isUnitAssumed) solid.notes.push_back(unitAssumed);
        return solid;
    }
    if (isStepName(path)) {
        if (shape.fileUnit_mm > 0)
            throw InputFault("unit_not_wanted", name, "unit", "a STEP file states its own unit",
                             "leave the unit of the file at 0");
        return readStep(path, name);
    }
    Healed surface = readStl(in, name, shape.fileUnit_mm);
    Solid solid = segmented(std::move(surface.mesh));
    if (shape.fileUnit_mm == 0) solid.notes.push_back(unitAssumed);
    for (const std::string& note : surface.notes)
        solid.notes.push_back(name + ": " + note);
    return solid;
}

}  // namespace waybench
