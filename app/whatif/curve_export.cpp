#include <qcustomplot.h>

#include <QFileInfo>
#include <QImage>
#include <QSvgGenerator>

#include "app/style/theme.h"
#include "app/whatif/curve_drawing.h"
#include "app/whatif/curve_plot.h"

namespace waybench {

bool CurvePlot::exportTo(const QString& file, const QString& source) {
    const QString ending = QFileInfo(file).suffix().toLower();
    if (ending != QLatin1String("svg") && ending != QLatin1String("pdf") && ending != QLatin1String("png"))
        return false;
    QCustomPlot* plot = drawing_->plot();
    plot->plotLayout()->insertRow(0);
    auto* title = new QCPTextElement(plot, content_.title, textFont(TextSize::lead, QFont::DemiBold));
    title->setTextColor(lightPalette().text);
    plot->plotLayout()->addElement(0, 0, title);
    // Names at the curves' ends are laid out in pixels: of the export's size, with its title in place.
    const int width = 900, height = 560;
    const QRect before = plot->viewport();
    plot->setViewport(QRect(0, 0, width, height));
    draw(true);
    plot->replot(QCustomPlot::rpImmediateRefresh);
    draw(true);
    bool done = false;
    if (ending == QLatin1String("pdf")) {
        done = plot->savePdf(file, width, height, QCP::epNoCosmetic,
                             QStringLiteral("Waybench ") + QStringLiteral(WAYBENCH_VERSION),
                             content_.title + QStringLiteral(" · ") + source);
    } else if (ending == QLatin1String("svg")) {
        QSvgGenerator generator;
        generator.setFileName(file);
        generator.setResolution(96);
        generator.setSize(QSize(width, height));
        generator.setViewBox(QRect(0, 0, width, height));
        generator.setTitle(content_.title);
        generator.setDescription(source);
        QCPPainter painter;
        if (painter.begin(&generator)) {
            painter.setMode(QCPPainter::pmVectorized);
            painter.setMode(QCPPainter::pmNoCaching);
            painter.setMode(QCPPainter::pmNonCosmetic);
            plot->toPainter(&painter, width, height);
            done = painter.end();
        }
    } else {
        done = plot->savePng(file, width, height, 300.0 / 96.0, -1, 300);
        QImage image(file);
        if (done && !image.isNull()) {
            image.setText(QStringLiteral("Title"), content_.title);
            image.setText(QStringLiteral("Source"), source);
            done = image.save(file);
        }
    }
    plot->plotLayout()->remove(title);
    plot->plotLayout()->simplify();
    plot->setViewport(before);
    draw(false);
    return done;
}

}  // namespace waybench
