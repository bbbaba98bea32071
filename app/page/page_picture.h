#pragma once
#include "app/page/page_canvas.h"
#include "core/comparison/comparison.h"

namespace waybench {

/// Both routes' parts side by side, deformed to one common scale with one colour scale, loads and supports drawn.
void paintPagePictures(PageCanvas& canvas, const QRectF& box_mm, const Comparison& comparison);

/// The factor both pictures exaggerate the deformation by: the largest displacement becomes about 8 % of the part,
/// rounded down to 1, 2 or 5 times a power of ten; at least 1.
double commonDeformationScale(const Comparison& comparison);
/// Largest displacement magnitude of both routes, mm: the end of the shared colour scale.
double commonFieldMaximum(const Comparison& comparison);

}  // namespace waybench
