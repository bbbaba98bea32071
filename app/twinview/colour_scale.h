#pragma once
#include <QColor>

namespace waybench {

/// The one scale for fields on the part, shared by both routes, light and dark: lightness falls evenly (OKLab) from
/// pale sand through teal to deep ink, so that it also reads in a grey copy. Argument 0..1, clamped.
QColor fieldColour(double share);

}  // namespace waybench
