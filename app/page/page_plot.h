#pragma once
#include "app/page/page_canvas.h"
#include "core/report/page_content.h"

namespace waybench {

/// The what-if curve of the page: both routes with their bands, the limit with its failing side hatched, the present
/// design marked. Drawn only where content.plotX has points.
void paintPagePlot(PageCanvas& canvas, const QRectF& box_mm, const PageContent& content);

}  // namespace waybench
