#include "app/page/page_pdf.h"

#include "app/page/pdf_file.h"

namespace waybench {

QByteArray pagePdf(Paper paper, const PageContent& content, const Comparison& comparison) {
    return pdfOf(
        paper, content.title, content.programVersion, content.date,
        [&](QPainter& painter, QPdfWriter&, double perMm) { paintPage(painter, perMm, paper, content, comparison); });
}

void writePagePdf(const QString& file, Paper paper, const PageContent& content, const Comparison& comparison) {
    writePdf(file, pagePdf(paper, content, comparison));
}

}  // namespace waybench
