#pragma once
#include <QString>
#include <QWidget>

namespace waybench {

/// The shared colour scale with its ends in words; as wide as it needs, one line high.
class FieldBar : public QWidget {
    Q_OBJECT
public:
    explicit FieldBar(QWidget* parent = nullptr);
    void setEnds(const QString& low, const QString& high);
    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString low_, high_;
};

}  // namespace waybench
