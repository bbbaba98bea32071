#pragma once
#include "app/page/page_canvas.h"
#include "core/comparison/comparison.h"
#include "core/report/page_content.h"

namespace waybench {

/// Both routes' parts side by side with their recipes, deformed to one common scale with one colour scale, loads and
/// supports drawn.
void paintPagePictures(PageCanvas& canvas, const QRectF& box_mm, const Comparison& comparison,
                       const PageContent& content);

}  // namespace waybench
