#pragma once
#include <QRectF>

#include "core/report/sheet.h"

namespace waybench {

class PageCanvas;

/// Draws to scale, as large as the box allows, in its middle; overall sizes of what is clamped along two sides.
/// @return the height used, mm
double paintSheetDrawing(PageCanvas& canvas, const QRectF& box_mm, const SheetDrawing& drawing);

}  // namespace waybench
