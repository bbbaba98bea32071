#pragma once
#include <QByteArray>
#include <QString>

#include "app/page/page_painter.h"

namespace waybench {

/// The page as a PDF of exactly one page: text searchable, fonts embedded, creation time taken from content.date so
/// that the same input gives the same bytes. Needs a QGuiApplication (any platform, offscreen too).
QByteArray pagePdf(Paper paper, const PageContent& content, const Comparison& comparison);
/// Writes it beside the name and renames. @throws InputFault "cannot_write"
void writePagePdf(const QString& file, Paper paper, const PageContent& content, const Comparison& comparison);

}  // namespace waybench
