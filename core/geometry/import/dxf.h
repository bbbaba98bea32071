#pragma once
#include <istream>
#include <string>

#include "core/geometry/polygon.h"
#include "core/geometry/solid.h"

namespace waybench {

/// Closed profile read from a DXF drawing (ASCII, R12 to R2018): LINE, ARC, CIRCLE, LWPOLYLINE and POLYLINE with
/// bulges, ELLIPSE, SPLINE, INSERT of blocks. Group codes after the published DXF reference.
struct Profile {
    Region region;             ///< islands and holes told apart by nesting, mm
    double unit_mm = 1;        ///< mm per drawing unit that was applied
    std::string unitOrigin;    ///< "header $INSUNITS", "chosen", "assumed mm: the file does not say"
    std::vector<std::string> notes;  ///< entities left out (text, dimensions), small gaps closed
};

/// @param fileName for messages. @param unit_mm 0 = from the header. @param tolerance_mm largest gap that is closed
/// @param chord_mm largest distance of a facet chord from its arc
/// @throws InputFault "file_not_dxf", "contour_open" (with the place of the gap), "contour_crosses_itself",
///         "drawing_empty", "number_unreadable" (with line), "file_too_large", "size_absurd", "nesting_ambiguous"
Profile readDxf(std::istream& in, const std::string& fileName, double unit_mm = 0, double tolerance_mm = 0.02,
                double chord_mm = 0.005);

/// Profile extruded from z = 0 to thickness: faces "bottom", "top", and "side n" / "hole n" per run of the contour,
/// holes numbered by position (x, then y) so that names survive a re-export. Cylindrical where points lie on a circle.
Solid extruded(const Profile& profile, double thickness_mm);

}  // namespace waybench
