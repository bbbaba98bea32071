#pragma once
#include <QString>
#include <initializer_list>

#include "app/inspector/quantity_field.h"

class QHBoxLayout;
class QLabel;
class QPushButton;
class QToolButton;
class QVBoxLayout;

namespace waybench {

// What rows of the inspector are made of.

QLabel* subheading(const QString& words, QWidget* parent);
/// "+ hold a face", with its access key.
QPushButton* addButton(const QString& words, const QString& name, QWidget* parent);
/// A cross. @param words what goes; read out and shown as the tip
QToolButton* removeButton(const QString& words, const QString& name, QWidget* parent);
QHBoxLayout* addFieldRow(QVBoxLayout* column, std::initializer_list<QWidget*> widgets);
FieldDescription described(const QString& key, const QString& label, const QString& help, Unit unit, double minimum,
                           double maximum, std::optional<double> standard = std::nullopt);

}  // namespace waybench
