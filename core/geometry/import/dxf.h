#pragma once
#include <istream>
#include <string>

#include "core/geometry/polygon.h"
#include "core/geometry/solid.h"

namespace waybench {

/// A stretch of a contour that is one line, one circular arc or one free curve of the drawing: one face when extruded.
struct ContourRun {
    std::size_t first = 0;  ///< index of its first point in the ring; it ends at the first point of the next run
    SurfaceKind kind = SurfaceKind::plane;  ///< plane for a line, cylinder for an arc, other for a free curve
    Vec2 centre = Vec2::Zero();             ///< arc only
    double radius_mm = 0;                   ///< arc only
    bool isHollow = false;                  ///< arc with material outside: a hole or an inner fillet
    bool isFullTurn = false;                ///< arc that is the whole ring
};

/// Closed profile read from a DXF drawing (ASCII, R12 to R2018): LINE, ARC, CIRCLE, LWPOLYLINE and POLYLINE with
/// bulges, ELLIPSE, SPLINE, INSERT of blocks. Group codes after the published DXF reference.
struct Profile {
    Region region;  ///< one body: outer ring, then holes ordered by position (x, then y), mm
    std::vector<std::vector<ContourRun>> runs;  ///< per ring; empty: every straight stretch of a ring is a run
    double unit_mm = 1;                         ///< mm per drawing unit that was applied
    std::string unitOrigin;                     ///< "header $INSUNITS", "chosen", "assumed mm: the file does not say"
    bool isUnitAssumed = false;                 ///< neither chosen nor said by the file
    std::vector<std::string> notes;             ///< entities left out (text, dimensions), small gaps closed
};

/// @param fileName for messages. @param unit_mm 0 = from the header. @param tolerance_mm largest gap that is closed
/// @param chord_mm largest distance of a facet chord from its arc
/// All layers count: construction lines are not guessed. Arcs, splines and ellipses become chords that lie inside
/// chord_mm; polylines drawn as chords stay as they are.
/// @throws InputFault "file_not_dxf", "file_truncated", "file_too_large", "number_unreadable" (with line),
///         "drawing_empty", "drawing_too_complex", "block_missing", "block_recursive", "entity_not_flat",
///         "spline_unusable", "contour_open" (with the place of the largest gap), "contour_branches",
///         "contour_crosses_itself" (also two contours that cross or touch), "several_bodies", "size_absurd"
Profile readDxf(std::istream& in, const std::string& fileName, double unit_mm = 0, double tolerance_mm = 0.02,
                double chord_mm = 0.005);

/// How large everything drawn is together, in drawing units, and whether the header says what those are.
struct DrawingMeasure {
    bool statesUnit = false;
    Vec2 size = Vec2::Zero();
};
/// @throws InputFault as readDxf about the text, "drawing_empty", "drawing_too_complex", "block_missing" ...
DrawingMeasure measuredDxf(std::istream& in, const std::string& fileName);

/// Profile extruded from z = 0 to thickness: faces "bottom", "top", and "side n" / "hole n" per run of the contour,
/// Full circles inside are "hole 1", "hole 2" ... by position (x, then y); sides are counted from the corner of the
/// outline with the smallest x (then y), counter-clockwise, then on through the openings that are no circles, so that
/// names survive a re-export with another order of entities. @throws InputFault "dimension_out_of_range"
Solid extruded(const Profile& profile, double thickness_mm);

}  // namespace waybench
