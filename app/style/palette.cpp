#include "app/style/palette.h"

#include <QPalette>
#include <algorithm>
#include <cmath>

namespace waybench {

const Palette& lightPalette() {
    static const Palette palette{
        .ground = QColor(0xf3, 0xf1, 0xea),
        .sheet = QColor(0xfc, 0xfb, 0xf8),
        .sunken = QColor(0xe9, 0xe6, 0xdc),
        .rule = QColor(0xd3, 0xce, 0xc1),
        .mark = QColor(0x7d, 0x78, 0x6b),
        .text = QColor(0x22, 0x26, 0x2a),
        .muted = QColor(0x59, 0x5b, 0x59),
        .accent = QColor(0x23, 0x5a, 0x62),
        .accentText = QColor(0xff, 0xff, 0xff),
        .printed = QColor(0x00, 0x72, 0xb2),
        .machined = QColor(0xd5, 0x5e, 0x00),
        .printedText = QColor(0x00, 0x5d, 0x92),
        .machinedText = QColor(0x9c, 0x43, 0x00),
        .fault = QColor(0x93, 0x1d, 0x3c),
        .caution = QColor(0x6e, 0x50, 0x00),
        .body = QColor(0xc9, 0xcc, 0xcb),
        .edge = QColor(0x3a, 0x40, 0x44),
        .highlight = QColor(0xf0, 0xa2, 0x02),
    };
    return palette;
}

const Palette& darkPalette() {
    static const Palette palette{
        .ground = QColor(0x1b, 0x1f, 0x22),
        .sheet = QColor(0x22, 0x27, 0x2b),
        .sunken = QColor(0x2c, 0x32, 0x37),
        .rule = QColor(0x3b, 0x42, 0x48),
        .mark = QColor(0x8b, 0x94, 0x9a),
        .text = QColor(0xe9, 0xe6, 0xdf),
        .muted = QColor(0xae, 0xb2, 0xb1),
        .accent = QColor(0x7f, 0xc4, 0xc8),
        .accentText = QColor(0x12, 0x1a, 0x1c),
        .printed = QColor(0x4a, 0xa5, 0xdf),
        .machined = QColor(0xee, 0x80, 0x36),
        .printedText = QColor(0x74, 0xbf, 0xee),
        .machinedText = QColor(0xf5, 0x9c, 0x60),
        .fault = QColor(0xf3, 0x93, 0xa6),
        .caution = QColor(0xdc, 0xb8, 0x55),
        .body = QColor(0x8f, 0x98, 0x9d),
        .edge = QColor(0x0e, 0x11, 0x13),
        .highlight = QColor(0xf2, 0xb3, 0x3c),
    };
    return palette;
}

namespace {
double linear(double channel) {
    return channel <= 0.03928 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}
double luminance(const QColor& c) {
    return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF());
}
QColor mixed(const QColor& a, const QColor& b, double share) {
    return QColor::fromRgbF(float(a.redF() * (1 - share) + b.redF() * share),
                            float(a.greenF() * (1 - share) + b.greenF() * share),
                            float(a.blueF() * (1 - share) + b.blueF() * share));
}
}  // namespace

double contrastRatio(const QColor& a, const QColor& b) {
    const double la = luminance(a), lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

std::vector<ColourPair> legiblePairs(const Palette& p) {
    std::vector<ColourPair> pairs;
    for (const QColor& back : {p.ground, p.sheet, p.sunken}) {
        pairs.push_back({"text", p.text, back, 4.5});
        pairs.push_back({"muted text", p.muted, back, 4.5});
        pairs.push_back({"printed, text", p.printedText, back, 4.5});
        pairs.push_back({"machined, text", p.machinedText, back, 4.5});
        pairs.push_back({"fault", p.fault, back, 4.5});
        pairs.push_back({"caution", p.caution, back, 4.5});
        pairs.push_back({"accent", p.accent, back, 4.5});
        pairs.push_back({"mark", p.mark, back, 3.0});
        pairs.push_back({"printed, bar", p.printed, back, 3.0});
        pairs.push_back({"machined, bar", p.machined, back, 3.0});
    }
    pairs.push_back({"text on accent", p.accentText, p.accent, 4.5});
    return pairs;
}

QPalette widgetPalette(const Palette& p) {
    QPalette q;
    q.setColor(QPalette::Window, p.ground);
    q.setColor(QPalette::WindowText, p.text);
    q.setColor(QPalette::Base, p.sheet);
    q.setColor(QPalette::AlternateBase, p.sunken);
    q.setColor(QPalette::Text, p.text);
    q.setColor(QPalette::PlaceholderText, p.muted);
    q.setColor(QPalette::Button, p.ground);
    q.setColor(QPalette::ButtonText, p.text);
    q.setColor(QPalette::BrightText, p.fault);
    q.setColor(QPalette::Highlight, p.accent);
    q.setColor(QPalette::HighlightedText, p.accentText);
    q.setColor(QPalette::ToolTipBase, p.sheet);
    q.setColor(QPalette::ToolTipText, p.text);
    q.setColor(QPalette::Link, p.accent);
    q.setColor(QPalette::LinkVisited, p.accent);
    q.setColor(QPalette::Light, mixed(p.ground, Qt::white, 0.5));
    q.setColor(QPalette::Midlight, p.sunken);
    q.setColor(QPalette::Mid, p.rule);
    q.setColor(QPalette::Dark, p.mark);
    q.setColor(QPalette::Shadow, p.text);
    const QColor faded = mixed(p.text, p.ground, 0.55);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        q.setColor(QPalette::Disabled, role, faded);
    q.setColor(QPalette::Disabled, QPalette::Highlight, p.rule);
    q.setColor(QPalette::Disabled, QPalette::HighlightedText, faded);
    return q;
}

}  // namespace waybench
