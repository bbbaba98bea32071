#pragma once
#include <QColor>
#include <QSizeF>
#include <span>

#include "app/twinview/camera.h"
#include "core/loadcase/load_case.h"

class QPainter;

namespace waybench {

/// Colours of what is drawn over a part; shape and letter tell the kinds apart as well.
struct SymbolStyle {
    QColor load = QColor(0x7a, 0x1f, 0x6b);
    QColor hold = QColor(0x2e, 0x4a, 0x3f);
    QColor measure = QColor(0x1a, 0x1a, 0x1a);
    QColor halo = QColor(255, 255, 255, 210);
    double size_px = 34;  ///< arrow length
    double pen_px = 2;
    bool withText = true;  ///< "40 N", "held", "measured"
};

/// Draws holds (hatched ground, rollers or a screw's head, by kind), loads (filled arrows with their size), attached
/// masses (weights with theirs) and the measured face (ringed cross with its direction) at their faces, and the weight
/// (hollow arrow from the centre of the part's volume, or beside it where that is crowded), over a picture made with
/// the same camera and size. Selectors that find no face are left out: the fields say so.
void paintLoadSymbols(QPainter& painter, const Camera& camera, const QSizeF& size, const Solid& solid,
                      const LoadCase& loadCase, const SymbolStyle& style, std::span<const Vec3> displacement = {},
                      double displacementScale = 1);

}  // namespace waybench
