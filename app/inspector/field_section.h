#pragma once
#include <QWidget>

#include "core/comparison/part.h"

class QToolButton;
class QVBoxLayout;

namespace waybench {

class Document;
class QuantityField;

/// A heading that opens and closes, with fields under it. Subclasses fill body() and show the current part.
class Section : public QWidget {
    Q_OBJECT
public:
    Section(const QString& title, Document& document, QWidget* parent = nullptr);
    /// Brings every field in line with the part; fields being typed in are left alone.
    virtual void showPart(const Part& part) = 0;
    void setOpen(bool open);
    bool isOpen() const;
    QString title() const;

Q_SIGNALS:
    void describeAsked(const QString& text);

protected:
    QVBoxLayout* body() const { return body_; }
    Document& document() const { return document_; }
    /// Forwards describeAsked; returns the field for chaining.
    QuantityField* adopt(QuantityField* field);

private:
    Document& document_;
    QToolButton* heading_;
    QWidget* content_;
    QVBoxLayout* body_;
};

}  // namespace waybench
