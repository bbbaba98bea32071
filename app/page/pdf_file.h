#pragma once
#include <QByteArray>
#include <QString>
#include <functional>
#include <string>

#include "app/page/page_painter.h"

class QPdfWriter;

namespace waybench {

/// A PDF of one or more pages painted by `paint`: text searchable, fonts embedded, creation time taken from the ISO
/// date so that the same input gives the same bytes. Needs a QGuiApplication (any platform, offscreen too).
QByteArray pdfOf(Paper paper, const std::string& title, const std::string& programVersion, const std::string& isoDate,
                 const std::function<void(QPainter&, QPdfWriter&, double devicePixelsPerMm)>& paint);
/// Writes bytes beside the name and renames. @throws InputFault "cannot_write"
void writePdf(const QString& file, const QByteArray& bytes);

}  // namespace waybench
