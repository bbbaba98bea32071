#pragma once
#include <QByteArray>

#include "app/page/page_painter.h"
#include "core/report/sheet.h"

namespace waybench {

/// A sheet for the one at the machine, as a PDF of as many pages as it needs.
QByteArray sheetPdf(Paper paper, const Sheet& sheet);

}  // namespace waybench
