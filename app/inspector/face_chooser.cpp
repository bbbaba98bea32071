#include "app/inspector/face_chooser.h"

#include <algorithm>

#include "app/style/shown_figure.h"

namespace waybench {

QString wordOf(const FaceSelector& selector) {
    return selector.kind == FaceSelector::Kind::name ? text(selector.name) : text(selector.text());
}

FaceChooser::FaceChooser(const QString& name, QWidget* parent) : ChoiceBox(parent) {
    setAccessibleName(name);
    setObjectName(QStringLiteral("choice ") + name);
    setMinimumContentsLength(10);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(this, &QComboBox::activated, this, [this](int k) {
        if (k >= 0 && k < int(offered_.size())) Q_EMIT chosen(offered_[std::size_t(k)]);
    });
}

void FaceChooser::show(const FaceSelector& now, const QStringList& faces, const std::vector<FaceSelector>& kept) {
    std::vector<FaceSelector> offered;
    for (const QString& face : faces)
        offered.push_back(FaceSelector::byName(face.toStdString()));
    offered.insert(offered.end(), kept.begin(), kept.end());
    auto at = std::find(offered.begin(), offered.end(), now);
    if (at == offered.end()) at = offered.insert(offered.begin(), now);
    const int index = int(at - offered.begin());
    if (offered != offered_) {
        offered_ = offered;
        clear();
        for (const FaceSelector& selector : offered_) {
            const QString word = wordOf(selector);
            addItem(word.isEmpty() ? tr("choose a face") : word);
        }
    }
    setCurrentIndex(index);
    setDescription(tr("%1: %2. A face can also be picked in the views.").arg(accessibleName(), currentText()));
}

}  // namespace waybench
