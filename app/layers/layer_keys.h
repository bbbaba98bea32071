#pragma once
#include <QKeyEvent>
#include <optional>

namespace waybench {

/// Layers a key steps by: Up or Right and Down or Left one, Page Up and Page Down ten. None for other keys.
inline std::optional<int> layerStepOf(const QKeyEvent& event) {
    switch (event.key()) {
        case Qt::Key_Up:
        case Qt::Key_Right:
            return 1;
        case Qt::Key_Down:
        case Qt::Key_Left:
            return -1;
        case Qt::Key_PageUp:
            return 10;
        case Qt::Key_PageDown:
            return -10;
        default:
            return std::nullopt;
    }
}

}  // namespace waybench
