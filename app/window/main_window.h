#pragma once
#include <QMainWindow>
#include <memory>

#include "app/document/document.h"
#include "app/jobs/answers.h"

class QButtonGroup;
class QLabel;
class QSplitter;
class QStackedWidget;

namespace waybench {

class Inspector;
class LedgerDetail;
class LedgerView;
class PageView;
class PartsPanel;
class TwinView;
class VerdictLine;
class WhatIfPage;

/// The bench: parts at the left, both views with verdict and ledger in the middle, fields at the right; beside it the
/// what-if and the page. A start page while no project is open.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(std::shared_ptr<const Shop> shop);
    bool openProject(const QString& file, bool asSample = false);

    enum class Page { bench, whatIf, onePage };
    void showPage(Page page);
    Document& document() { return document_; }
    Answers& answers() { return answers_; }

protected:
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    QWidget* makeBench();
    QWidget* makePageRow();
    void makeMenus();
    void fillRecent(QMenu* menu);
    void connectAnswers();
    void showStanding();
    void showFault(const Fault& fault);
    bool mayDiscard();
    void openAsked();
    bool saveAsked();
    bool saveAsAsked();
    void importAsked();
    void note(const QString& message);

    Document document_;
    Answers answers_;
    QStackedWidget* whole_;  ///< start page or project
    QStackedWidget* pages_;  ///< bench, what-if, page
    QButtonGroup* pageRow_;
    QSplitter* sideways_;
    QSplitter* upright_;
    PartsPanel* parts_;
    TwinView* views_;
    VerdictLine* verdict_;
    LedgerView* ledger_;
    LedgerDetail* detail_;
    Inspector* inspector_;
    WhatIfPage* whatIf_;
    PageView* page_;
    QLabel* note_;
};

/// Samples shipped with the program; the demo rig is the first.
QString demoRigFile();

}  // namespace waybench
