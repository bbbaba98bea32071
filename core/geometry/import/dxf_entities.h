#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/geometry/import/dxf_curve.h"
#include "core/geometry/import/dxf_tokens.h"

namespace waybench::dxf {

/// One entity with its groups in file order.
struct Entity {
    std::string type;
    std::size_t line = 0;
    std::vector<Group> groups;
    std::vector<Entity> vertices;  ///< POLYLINE only

    bool has(int code) const;
    double number(int code, double standard) const;
    int wholeNumber(int code, int standard) const;
    std::string text(int code) const;
    /// Groups code and code + 10. @throws InputFault "number_unreadable" when one is missing
    Vec2 point(int code) const;
    std::string place() const;  ///< "line 12, ARC"
};

/// Where the entity's own coordinates lie in the drawing plane, from its extrusion direction (groups 210, 220, 230) by
/// the arbitrary axis algorithm of the DXF reference; nullopt when the entity is tilted out of the plane.
std::optional<Affine> planeOf(const Entity& entity);

/// The curves of one entity in drawing units, in the drawing plane. Nullopt for entities that are no contour (text,
/// dimensions, hatches ...). @throws InputFault with the line for values that cannot be used, "entity_not_flat"
std::optional<Path> pathOf(const Entity& entity);

struct Block {
    Vec2 base = Vec2::Zero();
    std::vector<Entity> entities;
};

/// A drawing as read, before blocks are inserted.
struct Drawing {
    std::map<std::string, Group> header;  ///< variable, first value
    std::map<std::string, Block> blocks;
    std::vector<Entity> entities;
};

/// @throws InputFault "file_not_dxf", "file_truncated", "number_unreadable"
Drawing readDrawing(Groups& groups);

/// All contours with blocks inserted (nested, scaled, rotated, in arrays), still in drawing units.
/// @param notes receives what was left out, e.g. "left out: 3 DIMENSION, 1 TEXT"
/// @throws InputFault "block_missing", "block_recursive", "drawing_too_complex"
std::vector<Path> placedPaths(const Drawing& drawing, std::vector<std::string>& notes);

}  // namespace waybench::dxf
