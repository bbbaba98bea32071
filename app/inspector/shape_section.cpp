#include "app/inspector/shape_section.h"

#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>
#include <cmath>

#include "app/document/document.h"
#include "app/document/file_units.h"
#include "app/inspector/choice_field.h"
#include "app/inspector/quantity_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "core/geometry/import/step.h"

namespace waybench {

namespace {
/// 0 = both, 1 = printed only, 2 = machined only
DimensionValues& valuesFor(Part& part, int route) {
    return route == 1 ? part.printedDimensions : route == 2 ? part.machinedDimensions : part.shape.dimensions;
}
double valueOf(const Part& part, const Dimension& d, int route) {
    if (route == 0) return dimensionValue(part.shape, d);
    return dimensionValue(part.shape, d, route == 1 ? part.printedDimensions : part.machinedDimensions);
}
}  // namespace

struct ShapeSection::Row : public QWidget {
    Dimension dimension;
    QuantityField* fields[3] = {};
    QToolButton* differs = nullptr;
    using QWidget::QWidget;
};

ShapeSection::ShapeSection(Document& document, QWidget* parent) : Section(tr("Shape"), document, parent) {
    origin_ = new QLabel(this);
    origin_->setWordWrap(true);
    origin_->setForegroundRole(QPalette::PlaceholderText);
    origin_->setContentsMargins(fieldIndent(), 0, 0, 0);
    body()->addWidget(origin_);
    size_ = new QLabel(this);
    size_->setWordWrap(true);
    size_->setContentsMargins(fieldIndent(), 0, 0, 0);
    size_->setObjectName(QStringLiteral("overall size"));
    size_->hide();
    body()->addWidget(size_);
    makeUnitRow();
}

void ShapeSection::showSolids(const PartSolids& solids) {
    const auto sizeOf = [](const std::shared_ptr<const DrawnSolid>& drawn) {
        if (!drawn) return QString();
        return shownSize(boundsOf(drawn->solid->mesh).size());
    };
    const QString printed = sizeOf(solids.printed), machined = sizeOf(solids.machined);
    size_->setText(printed == machined || machined.isEmpty()
                       ? tr("overall %1").arg(printed)
                       : tr("overall, printed %1, machined %2").arg(printed, machined));
    size_->setVisible(!printed.isEmpty());
}

void ShapeSection::makeUnitRow() {
    unitRow_ = new QWidget(this);
    unit_ = new ChoiceBox(unitRow_);
    unit_->setObjectName(QStringLiteral("choice file unit"));
    unit_->setAccessibleName(tr("unit of the file"));
    unit_->setDescription(tr("Unit the drawing or body was made in; the overall size follows it."));
    unit_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    unit_->addItem(tr("as the file says"), 0.0);
    for (const FileUnit& unit : fileUnits())
        unit_->addItem(unit.name, unit.size_mm);
    adopt(unit_);
    auto* label = new QLabel(tr("unit of the file"), unitRow_);
    label->setBuddy(unit_);
    auto* line = new QHBoxLayout(unitRow_);
    line->setContentsMargins(fieldIndent(), 0, 0, 0);
    line->addWidget(label, 1);
    line->addWidget(unit_);
    body()->addWidget(unitRow_);
    connect(unit_, &QComboBox::activated, this, [this](int k) {
        const Part* part = document().currentPart();
        if (!part) return;
        Part next = *part;
        next.shape.fileUnit_mm = unit_->itemData(k).toDouble();
        document().editCurrent(next, tr("unit of the file: %1").arg(unit_->itemText(k)));
    });
}

void ShapeSection::showUnit(const Shape& shape) {
    const bool isOpenToChoice = shape.kind != ShapeKind::family && !isStepName(shape.file);
    unitRow_->setVisible(isOpenToChoice);
    if (!isOpenToChoice) return;
    unit_->setItemText(0, shape.kind == ShapeKind::drawing ? tr("as the file says") : tr("not chosen: mm"));
    int at = unit_->findData(shape.fileUnit_mm);
    if (at < 0) {  // written into the file by hand
        unit_->addItem(shownQuantity(shape.fileUnit_mm, Unit::millimetre), shape.fileUnit_mm);
        at = unit_->count() - 1;
    }
    unit_->setCurrentIndex(at);
}

void ShapeSection::build(const Part& part) {
    if (rowsHost_) {
        rowsHost_->blockSignals(true);
        for (auto& [key, row] : rows_)
            for (QuantityField* field : row->fields)
                field->blockSignals(true);
        rowsHost_->hide();
        rowsHost_->deleteLater();
    }
    rows_.clear();
    rowsHost_ = new QWidget(this);
    auto* column = new QVBoxLayout(rowsHost_);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(space(1));
    for (const Dimension& d : dimensionsOf(part.shape)) {
        auto* row = new Row(rowsHost_);
        row->dimension = d;
        auto* rowColumn = new QVBoxLayout(row);
        rowColumn->setContentsMargins(0, 0, 0, 0);
        rowColumn->setSpacing(0);
        auto* line = new QHBoxLayout;
        line->setSpacing(0);
        rowColumn->addLayout(line);
        for (int route = 0; route < 3; ++route) {
            FieldDescription f;
            f.key = text(d.key) + (route == 1   ? QStringLiteral(" printed")
                                   : route == 2 ? QStringLiteral(" machined")
                                                : QString());
            f.label = route == 0 ? text(d.label) : route == 1 ? tr("    printed") : tr("    machined");
            f.help = text(d.help);
            f.unit = d.unit;
            f.minimum = d.minimum;
            f.maximum = d.maximum;
            if (route == 0) f.standard = d.standard;
            f.isWhole = d.unit == Unit::none && d.standard == double(int(d.standard)) && d.maximum > 2;
            auto* field = adopt(new QuantityField(f, row));
            if (route) field->entry()->setAccessibleName(tr("%1, %2").arg(text(d.label), f.label.trimmed()));
            field->setCheck([this, key = d.key, route](double v) { return check(key, v, route); });
            connect(field, &QuantityField::edited, this,
                    [this, key = d.key, route](double v, const QString& word) { take(key, v, route, word); });
            row->fields[route] = field;
            if (route == 0) {
                line->addWidget(field, 1);
                row->differs = new QToolButton(row);
                row->differs->setCheckable(true);
                row->differs->setAutoRaise(true);
                row->differs->setText(QStringLiteral("⇿"));
                row->differs->setToolTip(tr("Let the routes differ in this dimension"));
                row->differs->setAccessibleName(tr("%1 differs between the routes").arg(text(d.label)));
                line->addWidget(row->differs);
            } else {
                rowColumn->addWidget(field);
                field->hide();
            }
        }
        connect(row->differs, &QToolButton::clicked, this, [this, row](bool on) {
            for (int route = 1; route < 3; ++route)
                row->fields[route]->setVisible(on);
            if (!on) removeOverrides(row->dimension.key);
        });
        rows_[d.key] = row;
        column->addWidget(row);
    }
    body()->addWidget(rowsHost_);
    rowsHost_->show();
    Q_EMIT rebuilt();
}

void ShapeSection::showPart(const Part& part) {
    const std::string kind = part.name + "/" + std::to_string(int(part.shape.kind)) + part.shape.family;
    if (kind != builtFor_) {
        builtFor_ = kind;
        build(part);
    }
    switch (part.shape.kind) {
        case ShapeKind::family: {
            QString title = text(part.shape.family);
            for (const Family* f : families())
                if (f->key() == part.shape.family) title = text(f->title());
            origin_->setText(title);
            break;
        }
        case ShapeKind::drawing:
            origin_->setText(tr("drawing %1").arg(text(part.shape.file.filename().string())));
            break;
        case ShapeKind::surface:
            origin_->setText(tr("surface %1; its dimensions are fixed").arg(text(part.shape.file.filename().string())));
            break;
    }
    showUnit(part.shape);
    for (const auto& [key, row] : rows_) {
        const bool differs = part.printedDimensions.count(key) || part.machinedDimensions.count(key);
        for (int route = 0; route < 3; ++route)
            row->fields[route]->setValue(valueOf(part, row->dimension, route));
        const bool open = differs || row->differs->isChecked();
        row->differs->setChecked(open);
        for (int route = 1; route < 3; ++route)
            row->fields[route]->setVisible(open);
    }
}

bool ShapeSection::showFault(const QString& place, const QString& words) {
    for (const auto& [key, row] : rows_)
        if (place == QStringLiteral("dimension '%1'").arg(text(key)) ||
            place.startsWith(QStringLiteral("'%1' and '").arg(text(row->dimension.label)))) {
            row->fields[0]->setProblem(words);
            return true;
        }
    return false;
}

void ShapeSection::clearFault() {
    for (auto& [key, row] : rows_)
        for (QuantityField* field : row->fields)
            field->setProblem({});
}

QString ShapeSection::check(const std::string& key, double value, int route) const {
    const Part* part = document().currentPart();
    if (!part) return {};
    Part next = *part;
    valuesFor(next, route)[key] = value;
    try {
        if (next.shape.kind != ShapeKind::family) return {};
        const Family& family = familyNamed(next.shape.family);
        for (const DimensionValues* own : {&next.printedDimensions, &next.machinedDimensions}) {
            DimensionValues all;
            for (const Dimension& d : family.dimensions())
                all[d.key] = d.standard;
            for (const auto& [k, v] : next.shape.dimensions)
                all[k] = v;
            for (const auto& [k, v] : *own)
                all[k] = v;
            family.check(all);
        }
    } catch (const InputFault& fault) {
        QString said = text(fault.problem());
        if (!fault.remedy().empty()) said += QStringLiteral("; ") + text(fault.remedy());
        return said;
    }
    return {};
}

void ShapeSection::take(const std::string& key, double value, int route, const QString& mergeWord) {
    const Part* part = document().currentPart();
    if (!part) return;
    Part next = *part;
    const Dimension& d = rows_.at(key)->dimension;
    const double before = valueOf(*part, d, route);
    valuesFor(next, route)[key] = value;
    const QString who = route == 1 ? tr(" (printed)") : route == 2 ? tr(" (machined)") : QString();
    document().editCurrent(
        next, tr("%1%2 %3 → %4").arg(text(d.label), who, shownQuantity(before, d.unit), shownQuantity(value, d.unit)),
        mergeWord);
}

void ShapeSection::removeOverrides(const std::string& key) {
    const Part* part = document().currentPart();
    if (!part) return;
    Part next = *part;
    next.printedDimensions.erase(key);
    next.machinedDimensions.erase(key);
    document().editCurrent(next, tr("one %1 for both routes").arg(text(rows_.at(key)->dimension.label)));
}

}  // namespace waybench
