#pragma once
#include <QWidget>

#include "core/comparison/part.h"

class QToolButton;
class QVBoxLayout;

namespace waybench {

class Document;
class ChoiceBox;
class QuantityField;

/// Where labels begin: room for the origin mark, a target of at least 24 pixels, and the gap behind it.
int fieldIndent();

/// A heading that opens and closes, with fields under it. Subclasses fill body() and show the current part.
class Section : public QWidget {
    Q_OBJECT
public:
    Section(const QString& title, Document& document, QWidget* parent = nullptr);
    /// Brings every field in line with the part; fields being typed in are left alone.
    virtual void showPart(const Part& part) = 0;
    /// Puts the words beside the field the place names. Returns false when the place is none of this section's.
    virtual bool showFault(const QString& place, const QString& words);
    /// Takes those words away.
    virtual void clearFault() {}
    void setOpen(bool open);
    bool isOpen() const;
    QString title() const;

Q_SIGNALS:
    void describeAsked(const QString& text);
    void rebuilt();  ///< other fields than before: the tab order has to be set anew

protected:
    QVBoxLayout* body() const { return body_; }
    Document& document() const { return document_; }
    /// Forwards describeAsked; returns the field for chaining.
    QuantityField* adopt(QuantityField* field);
    ChoiceBox* adopt(ChoiceBox* box);

private:
    Document& document_;
    QToolButton* heading_;
    QWidget* content_;
    QVBoxLayout* body_;
};

}  // namespace waybench
