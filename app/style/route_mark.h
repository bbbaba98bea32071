#pragma once
#include <QString>

#include "core/comparison/comparison.h"

class QPainter;
class QRectF;
class QColor;

namespace waybench {

/// What a part's entry or the verdict says about the way it is made.
enum class RouteMark { pending, printed, machined, neither };
RouteMark markOf(Choice choice);
QString wordOf(RouteMark mark);
QColor textColourOf(RouteMark mark);
QColor colourOf(RouteKind kind);
QColor textColourOf(RouteKind kind);

/// Shapes of our own that differ without colour: printed = filled courses laid one on another, machined = open block
/// with a step cut out, neither = a struck ring, pending = a dotted ring.
void paintRouteMark(QPainter& painter, const QRectF& box, RouteMark mark);
/// The same shape in a colour of the caller: the printed page is always on white.
void paintRouteMark(QPainter& painter, const QRectF& box, RouteMark mark, const QColor& colour);

}  // namespace waybench
