#pragma once
#include <QMainWindow>
#include <memory>

#include "app/document/document.h"
#include "app/jobs/answers.h"

class QButtonGroup;
class QSplitter;
class QStackedWidget;

namespace waybench {

class Inspector;
class LayersPage;
class LedgerDetail;
class LedgerView;
class PageView;
class PartsPanel;
class ShapeImport;
class StatusNotes;
class TwinView;
class VerdictLine;
class WhatIfPage;

/// The bench: parts at the left, both views with verdict and ledger in the middle, fields at the right; beside it the
/// what-if, the layers of the print and the page. A start page while no project is open.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(std::shared_ptr<const Shop> shop);
    ~MainWindow() override;
    /// A shipped sample is opened as one: saving it asks for another place.
    bool openProject(const QString& file);

    enum class Page { bench, whatIf, layers, onePage };
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
    void showCurrent();
    /// How far the shown part's answer is; the job's own stage may be about another part.
    void showStage();
    void showDetail();
    void showFault(const Fault& fault);
    /// Takes what is being typed as if the field had been left; the focus stays.
    void commitTyping();
    bool mayDiscard();
    bool mayOverwrite(const QString& file);
    void openAsked();
    bool saveAsked();
    bool saveAsAsked();
    void importAsked();

    Document document_;
    Answers answers_;
    QStackedWidget* whole_;  ///< start page or project
    QStackedWidget* pages_;  ///< bench, what-if, layers, page
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
    LayersPage* layers_;
    PageView* page_;
    StatusNotes* notes_;
    ShapeImport* import_;
};

/// Samples shipped with the program; the demo rig is the first.
QString demoRigFile();
bool isShippedSample(const QString& file);

}  // namespace waybench
