#pragma once
#include <QColor>
#include <QPointF>
#include <QSizeF>
#include <QString>

#include "app/twinview/load_symbols.h"

class QPainter;

namespace waybench {

// The single symbols drawn over a part, at points of the screen. Each is drawn twice, first as a wider halo, so that it
// stands out from any colour of the part.

/// Words beside a symbol, kept inside the picture.
void paintSymbolLabel(QPainter& painter, QPointF at, const QString& words, const QColor& colour, const QColor& halo,
                      const QSizeF& size);
/// Arrow whose head ends at `tip`, seen along `direction` on the screen.
/// @param hollow outlined only: the weight, as against a load
void paintArrow(QPainter& painter, QPointF tip, QPointF direction, double length, const QColor& colour,
                const QColor& halo, double pen, bool hollow = false);
/// fixed: hatched ground. sliding: a plate on three rollers. bolted: a hexagon head with the screw's core.
void paintHoldSymbol(QPainter& painter, const QPointF& at, HoldKind kind, const SymbolStyle& style);
/// A weight with its ring, and the mass it has.
void paintMassSymbol(QPainter& painter, const QPointF& at, const QString& words, const QSizeF& size,
                     const SymbolStyle& style);
/// Quartered disc at the centre of the part's volume.
void paintCentreSymbol(QPainter& painter, const QPointF& at, const SymbolStyle& style);

}  // namespace waybench
