#include "app/window/unit_question.h"

#include <QButtonGroup>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <QVBoxLayout>

#include "app/document/file_units.h"
#include "app/style/theme.h"

namespace waybench {

UnitQuestion::UnitQuestion(const QString& fileName, const Vec3& size, QWidget* parent) : QDialog(parent) {
    setWindowTitle(tr("Unit of the file"));
    auto* question = new QLabel(tr("%1 does not say in which unit it is. How large is the part?").arg(fileName), this);
    question->setWordWrap(true);
    question->setMinimumWidth(space(110));
    choices_ = new QButtonGroup(this);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(space(6));
    grid->setVerticalSpacing(space(1));
    for (std::size_t k = 0; k < fileUnits().size(); ++k) {
        const FileUnit& unit = fileUnits()[k];
        const QString overall = shownSize(size * unit.size_mm);
        // A key each: the first letters of millimetre and metre are the same.
        auto* choice =
            new QRadioButton(QString(unit.name).insert(unit.size_mm == 1000 ? 1 : 0, QLatin1Char('&')), this);
        choice->setObjectName(QStringLiteral("unit ") + unit.name);
        choice->setAccessibleName(tr("%1: the part is %2").arg(unit.name, overall));
        choice->setMinimumHeight(24);
        auto* told = new QLabel(overall, this);
        told->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
        told->setBuddy(choice);
        choices_->addButton(choice, int(k));
        grid->addWidget(choice, int(k), 0);
        grid->addWidget(told, int(k), 1);
    }
    grid->setColumnStretch(1, 1);
    choices_->button(0)->setChecked(true);
    choices_->button(0)->setFocus();
    auto* later = new QLabel(tr("The part keeps the unit; it can be changed among its fields."), this);
    later->setFont(textFont(TextSize::small));
    later->setForegroundRole(QPalette::PlaceholderText);
    later->setWordWrap(true);
    auto* box = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, this);
    box->button(QDialogButtonBox::Ok)->setText(tr("&Take the part"));
    connect(box, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(box, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(space(4), space(4), space(4), space(4));
    column->setSpacing(space(3));
    column->addWidget(question);
    column->addLayout(grid);
    column->addWidget(later);
    column->addWidget(box);
}

double UnitQuestion::unit_mm() const {
    return fileUnits().at(std::size_t(choices_->checkedId())).size_mm;
}

}  // namespace waybench
