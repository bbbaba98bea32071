#include <QTest>

#include "app/document/document.h"
#include "app/jobs/answers.h"
#include "tests/gui/quick_bar.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

/// What the window shows as the answer, driven through the document alone.
class AnswersTest : public QObject {
    Q_OBJECT
private:
    std::shared_ptr<const Shop> shop_;
    std::unique_ptr<Document> document_;
    std::unique_ptr<Answers> answers_;

    bool hasFinal() const {
        const Answer a = answers_->current();
        return a && a.comparison->fidelity == Fidelity::standard && answers_->isCurrent();
    }
    Part withWeights(double handsOn, double cost) const {
        Part part = *document_->currentPart();
        for (const QuestionText& q : questions())
            if (q.isRanked) part.weights[q.key] = 0;
        part.weights[textOf(Question::hands_on_time).key] = handsOn;
        part.weights[textOf(Question::cost).key] = cost;
        return part;
    }

private Q_SLOTS:
    void initTestCase() {
        qRegisterMetaType<Answer>();
        shop_ = shippedShop();
    }

    void init() {
        document_ = std::make_unique<Document>(shop_);
        answers_ = std::make_unique<Answers>(*document_);
        document_->startNew();
        Part bar = quickBar();
        bar.loadCase.deflectionLimit_mm = 5;
        document_->addPart(bar);
    }

    void cleanup() {
        answers_.reset();
        document_.reset();
    }

    void weightsMovedWhileTheFinalAnswerIsComputedJudgeThatAnswerToo() {
        QTRY_VERIFY_WITH_TIMEOUT(answers_->current(), 60000);
        const bool wasRefining = answers_->job().isRunning();
        document_->editCurrent(withWeights(1, 0), QStringLiteral("weights"));
        if (!wasRefining) QSKIP("the final answer came before the weights could be moved");
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
        QVERIFY(answers_->current().comparison->part.weights == document_->currentPart()->weights);
        Comparison fresh = *answers_->current().comparison;
        fresh.part = *document_->currentPart();
        judge(fresh);
        QCOMPARE(answers_->current().comparison->verdict.sentence, fresh.verdict.sentence);
        QCOMPARE(answers_->current().comparison->verdict.printedScore, fresh.verdict.printedScore);
    }

    void anotherAuthorIsNoReasonToComputeAgain() {
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
        const Answer before = answers_->current();
        TitleBlock block = document_->titleBlock();
        block.author = "somebody else";
        document_->editTitleBlock(block, QStringLiteral("author"));
        QCOMPARE(answers_->current().comparison, before.comparison);
        QVERIFY(!answers_->job().isRunning());
    }
};

QTEST_MAIN(AnswersTest)
#include "test_answers.moc"
