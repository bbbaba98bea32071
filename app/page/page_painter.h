#pragma once
#include <QSizeF>

#include "core/comparison/comparison.h"
#include "core/report/page_content.h"

class QPainter;

namespace waybench {

/// Paper the page is made for, mm.
enum class Paper { a4, letter };
QSizeF sizeOf(Paper paper);

/// Paints the one page. Everything with a number comes from `content`; `comparison` gives the pictures only.
/// What does not fit is cut from the lists' ends, never shrunk. @param devicePixelsPerMm of the painter's device
void paintPage(QPainter& painter, double devicePixelsPerMm, Paper paper, const PageContent& content,
               const Comparison& comparison);

}  // namespace waybench
