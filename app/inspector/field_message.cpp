#include "app/inspector/field_message.h"

#include "app/style/theme.h"

namespace waybench {

FieldMessage::FieldMessage(QWidget* parent) : QLabel(parent) {
    setWordWrap(true);
    setFont(textFont(TextSize::small));
    setTextInteractionFlags(Qt::TextSelectableByMouse);
    setFocusPolicy(Qt::NoFocus);
    connect(&Theme::instance(), &Theme::changed, this, &FieldMessage::colour);
    colour();
    hide();
}

void FieldMessage::say(const QString& problem) {
    setText(problem);
    setVisible(!problem.isEmpty());
}

void FieldMessage::colour() {
    QPalette p = palette();
    p.setColor(QPalette::WindowText, colours().fault);
    setPalette(p);
}

}  // namespace waybench
