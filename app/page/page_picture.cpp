#include "app/page/page_picture.h"

#include <algorithm>
#include <cmath>

#include "app/twinview/colour_scale.h"
#include "app/twinview/load_symbols.h"
#include "app/twinview/mesh_painter.h"
#include "core/quantity/quantity_text.h"
#include "core/report/drawn_bending.h"

namespace waybench {

namespace {

void paintOne(PageCanvas& canvas, const QRectF& box, const RouteOutcome& outcome, const Comparison& comparison,
              double scale, double fieldMaximum, const Camera& camera) {
    if (!outcome.solid) return;
    constexpr double kDotsPerMm = 12;
    const QSize size(int(box.width() * kDotsPerMm), int(box.height() * kDotsPerMm));
    const PaintableSolid mesh(*outcome.solid);
    PaintStyle style;
    style.ground = Qt::white;
    style.edge = QColor(0x40, 0x46, 0x4d);
    std::vector<double> field;
    if (outcome.structure) {
        for (const Vec3& u : outcome.structure->displacement_mm)
            field.push_back(u.norm());
        style.displacement = outcome.structure->displacement_mm;
        style.displacementScale = scale;
        style.field = field;
        style.fieldMaximum = fieldMaximum;
    }
    QImage image = MeshPainter::paint(mesh, camera, size, 1.0, style).image;
    canvas.painter().drawImage(canvas.px(box), image);

    SymbolStyle symbols;
    symbols.size_px = canvas.px(6.5);
    symbols.pen_px = canvas.px(0.35);
    QPainter& painter = canvas.painter();
    painter.save();
    painter.translate(canvas.px(box).topLeft());
    painter.setClipRect(QRectF(QPointF(0, 0), canvas.px(box).size()));
    canvas.setFont(7.5);
    paintLoadSymbols(painter, camera, canvas.px(box).size(), *outcome.solid,
                     comparison.part.loadCaseAt(comparison.worstCase), symbols, style.displacement, scale);
    painter.restore();
}

}  // namespace

void paintPagePictures(PageCanvas& canvas, const QRectF& box, const Comparison& comparison,
                       const PageContent& content) {
    const double half = box.width() / 2 - 1, title = 4.4, foot = 5.0;
    double recipePoints = 7.5;
    canvas.setFont(recipePoints);
    const QString recipes[] = {QString::fromStdString(content.printedRecipe),
                               QString::fromStdString(content.machinedRecipe)};
    const double mostRecipe = 4 * canvas.lineHeight_mm() + 0.1;
    for (const QString& recipe : recipes)
        if (canvas.textHeight_mm(half - 3, recipe) > mostRecipe) canvas.setFont(recipePoints = 6.5);
    double recipeHeight = 0;
    for (const QString& recipe : recipes)
        recipeHeight = std::max(recipeHeight, std::min(mostRecipe, canvas.textHeight_mm(half - 3, recipe) + 0.1));
    const double head = title + recipeHeight;
    const double scale = commonBendingFactor(comparison), maximum = commonFieldMaximum(comparison);
    Camera camera;
    Box3 bounds;
    for (const RouteOutcome* outcome : {&comparison.printed, &comparison.machined})
        if (outcome->solid) {
            const Box3 b = boundsOf(outcome->solid->mesh);
            bounds.include(b.low);
            bounds.include(b.high);
        }
    const QSizeF size(half, box.height() - head - foot);
    camera.fit(bounds, size, 1.3);

    canvas.setFont(9, true);
    for (const RouteOutcome* outcome : {&comparison.printed, &comparison.machined}) {
        const bool isPrinted = outcome->kind == RouteKind::printed;
        const double x = isPrinted ? box.left() : box.left() + half + 2;
        canvas.setInk(isPrinted ? canvas.ink.printed : canvas.ink.machined);
        paintMark(canvas, QRectF(x, box.top() + 0.7, 2.6, 2.6), isPrinted ? RouteMark::printed : RouteMark::machined);
        canvas.setFont(9, true);
        canvas.line(QRectF(x + 4, box.top(), half - 4, title),
                    isPrinted ? QStringLiteral("printed") : QStringLiteral("machined"));
        canvas.setFont(recipePoints);
        canvas.setInk(canvas.ink.soft);
        canvas.text(QRectF(x, box.top() + title, half - 3, recipeHeight), recipes[isPrinted ? 0 : 1]);
        paintOne(canvas, QRectF(QPointF(x, box.top() + head), size), *outcome, comparison, scale, maximum, camera);
    }
    const double y = box.bottom() - foot + 1;
    for (int i = 0; i < 40; ++i)
        canvas.fill(QRectF(box.left() + i * 0.5, y + 0.6, 0.55, 2.2), fieldColour(i / 39.0));
    canvas.setFont(8);
    canvas.setInk(canvas.ink.soft);
    canvas.line(QRectF(box.left() + 21.5, y, box.width() - 21, 3.6),
                QStringLiteral("displacement 0 to %1; bending drawn %2 times")
                    .arg(QString::fromStdString(fieldEndText(maximum, Unit::millimetre)))
                    .arg(scale, 0, 'g', 6));
}

}  // namespace waybench
