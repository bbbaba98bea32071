#include "app/page/pdf_file.h"

#include <QBuffer>
#include <QPainter>
#include <QPdfWriter>
#include <QSaveFile>

#include "core/fault/input_fault.h"
#include "core/project/atomic_save.h"

namespace waybench {

namespace {

/// Replaces the clock in /CreationDate by the project's date, digit for digit so that no offset moves.
void fixCreationDate(QByteArray& pdf, const std::string& isoDate) {
    const QByteArray key = "/CreationDate (D:";
    const qsizetype at = pdf.indexOf(key);
    if (at < 0) return;
    QByteArray digits;
    for (const char c : isoDate)
        if (c >= '0' && c <= '9') digits += c;
    digits = digits.left(8);
    if (digits.size() < 8) digits = "20000101";
    digits += "000000";
    for (qsizetype i = 0, d = 0; at + key.size() + i < pdf.size(); ++i) {
        char& c = pdf[at + key.size() + i];
        if (c == ')') break;
        if (c >= '0' && c <= '9') c = d < digits.size() ? digits[d++] : '0';
    }
}

}  // namespace

QByteArray pdfOf(Paper paper, const std::string& title, const std::string& programVersion, const std::string& isoDate,
                 const std::function<void(QPainter&, QPdfWriter&, double)>& paint) {
    constexpr int kDotsPerInch = 600;
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setPdfVersion(QPagedPaintDevice::PdfVersion_1_6);
        writer.setPageSize(QPageSize(paper == Paper::a4 ? QPageSize::A4 : QPageSize::Letter));
        writer.setPageMargins(QMarginsF(0, 0, 0, 0));
        writer.setResolution(kDotsPerInch);
        writer.setTitle(QString::fromStdString(title));
        writer.setCreator(QStringLiteral("Waybench ") + QString::fromStdString(programVersion));
        QPainter painter(&writer);
        paint(painter, writer, kDotsPerInch / 25.4);
    }
    fixCreationDate(bytes, isoDate);
    return bytes;
}

void writePdf(const QString& file, const QByteArray& bytes) {
    requireOrdinaryTarget(file.toStdString());
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly) || out.write(bytes) != bytes.size() || !out.commit())
        throw InputFault("cannot_write", file.toStdString(), "",
                         "cannot be written: " + out.errorString().toStdString(), "choose a folder you may write to");
}

}  // namespace waybench
