#include "app/inspector/field_rows.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>

#include "app/inspector/field_section.h"
#include "app/style/theme.h"

namespace waybench {

QLabel* subheading(const QString& words, QWidget* parent) {
    auto* label = new QLabel(words, parent);
    label->setFont(textFont(TextSize::small, QFont::DemiBold));
    label->setForegroundRole(QPalette::PlaceholderText);
    label->setContentsMargins(fieldIndent(), space(2), 0, 0);
    return label;
}

QPushButton* addButton(const QString& words, const QString& name, QWidget* parent) {
    auto* button = new QPushButton(words, parent);
    button->setObjectName(name);
    button->setFlat(true);
    button->setFont(textFont(TextSize::small));
    return button;
}

QToolButton* removeButton(const QString& words, const QString& name, QWidget* parent) {
    auto* button = new QToolButton(parent);
    button->setObjectName(name);
    button->setText(QStringLiteral("✕"));
    button->setAutoRaise(true);
    button->setAccessibleName(words);
    button->setToolTip(words);
    button->setFocusPolicy(Qt::StrongFocus);
    button->setMinimumSize(24, 24);
    return button;
}

QHBoxLayout* addFieldRow(QVBoxLayout* column, std::initializer_list<QWidget*> widgets) {
    auto* line = new QHBoxLayout;
    line->setContentsMargins(fieldIndent(), 0, 0, 0);
    line->setSpacing(space(1));
    for (QWidget* w : widgets)
        line->addWidget(w);
    column->addLayout(line);
    return line;
}

FieldDescription described(const QString& key, const QString& label, const QString& help, Unit unit, double minimum,
                           double maximum, std::optional<double> standard) {
    FieldDescription f;
    f.key = key;
    f.label = label;
    f.help = help;
    f.unit = unit;
    f.minimum = minimum;
    f.maximum = maximum;
    f.standard = standard;
    return f;
}

}  // namespace waybench
