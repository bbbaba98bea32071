#pragma once
#include <QWidget>

namespace waybench {

/// What stands in an empty window: the demo rig one click away, the way to an own part in three steps, recent projects.
class StartPage : public QWidget {
    Q_OBJECT
public:
    explicit StartPage(QWidget* parent = nullptr);

Q_SIGNALS:
    void demoAsked();
    void openAsked();
    void newAsked();
    void drawingAsked();
    void recentAsked(const QString& file);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString recentList() const;
};

}  // namespace waybench
