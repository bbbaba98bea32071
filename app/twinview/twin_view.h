#pragma once
#include <QWidget>
#include <memory>

#include "app/jobs/answer.h"
#include "app/twinview/camera.h"

class QComboBox;
class QLabel;

namespace waybench {

class PartPane;
class FieldBar;

/// The same part twice, printed left and machined right of the spine: one camera, one deformation scale (its factor is
/// written), one colour scale. A picked face offers to be held, loaded, weighed down or
/// measured.
class TwinView : public QWidget {
    Q_OBJECT
public:
    enum class Field { displacement, stress, utilisation, none };

    explicit TwinView(QWidget* parent = nullptr);

    void showAnswer(const Answer& answer);
    /// Bare shapes, for a part nothing could be computed on yet.
    void showSolids(const PartSolids& solids);
    /// The load case being edited: what is held, loaded and measured in the pictures, whatever was last computed, and
    /// whose colours and bending are shown once the answer has them; until then those of the worst, which is said.
    /// @param index as in Part::loadCaseAt
    void showLoadCase(const LoadCase& loadCase, std::size_t index);
    void clear();
    void setStale(bool stale);
    /// Whole part in view at the next showing (another part was chosen).
    void fitNext() { fitWanted_ = true; }
    void fit();

    Camera camera() const { return *camera_; }
    void setCamera(const Camera& camera);
    double deformationFactor() const { return factor_; }

Q_SIGNALS:
    void holdAsked(const QString& face, waybench::HoldKind kind);
    void loadAsked(const QString& face);
    void massAsked(const QString& face);
    void measureAsked(const QString& face);
    void releaseAsked(const QString& face);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void rebuild();
    /// The answer with the chosen load case's figures put forward; as it is where it does not know that case.
    std::shared_ptr<const Comparison> chosenAnswer() const;
    void offerFace(PartPane* pane, int face, const QPoint& global);
    const Solid* anySolid() const;

    std::shared_ptr<Camera> camera_;
    PartPane* printed_;
    PartPane* machined_;
    FieldBar* bar_;
    QComboBox* fieldChoice_;
    QComboBox* deformationChoice_;
    QLabel* factorLabel_;
    QLabel* hovered_;
    Answer answer_;
    PartSolids bare_;
    LoadCase loadCase_;
    std::size_t chosenCase_ = 0;
    double factor_ = 0;
    bool fitWanted_ = true;
    bool keepsFitted_ = true;  ///< until the user moves the camera
};

}  // namespace waybench
