#include "core/comparison/lifted_curve.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace waybench {

namespace {

constexpr double kLeastDoubt = 0.015, kLeastDoubtStrength = 0.15;

constexpr Question kStructural[] = {Question::deflection, Question::deflection_max, Question::stiffness,
                                    Question::strength_margin};

bool isPositive(const Figure& f) {
    return f.low > 0;
}

}  // namespace

void LiftedCurve::addAnchor(double at, const RouteOutcome& coarse, const RouteOutcome& full) {
    Anchor& anchor = anchors_[at];
    for (std::size_t i = 0; i < full.caseCount(); ++i)
        for (const Question question : kStructural) {
            const Figure &c = coarse.at(question, i), &f = full.at(question, i);
            if (!isPositive(c) || !isPositive(f)) continue;
            anchor[{i, question}] = {std::log(f.value / c.value), std::log(f.low / f.value),
                                     std::log(f.high / f.value)};
        }
}

LiftedCurve::Logs LiftedCurve::between(double left, const Logs& a, double right, const Logs& b, double at) {
    const double share = right > left ? std::clamp((at - left) / (right - left), 0.0, 1.0) : 0.0;
    if (share == 0) return a;
    if (share == 1) return b;
    return {std::lerp(a.ratio, b.ratio, share), std::min(a.low, b.low), std::max(a.high, b.high)};
}

double LiftedCurve::foretold(const Key& key) const {
    double worst = 0;
    if (anchors_.size() < 3) return worst;
    for (auto here = std::next(anchors_.begin()); std::next(here) != anchors_.end(); ++here) {
        const auto left = std::prev(here), right = std::next(here);
        const auto a = left->second.find(key), b = right->second.find(key), x = here->second.find(key);
        if (a == left->second.end() || b == right->second.end() || x == here->second.end()) continue;
        const Logs expected = between(left->first, a->second, right->first, b->second, here->first);
        const Logs& seen = x->second;
        const double lower = expected.ratio + expected.low - seen.ratio - seen.low,
                     higher = seen.ratio + seen.high - expected.ratio - expected.high;
        worst = std::max({worst, std::abs(expected.ratio - seen.ratio), lower, higher});
    }
    return worst;
}

double LiftedCurve::deflectionForetold() const {
    double worst = 0;
    if (!anchors_.empty())
        for (const auto& [key, logs] : anchors_.begin()->second)
            if (key.second == Question::deflection) worst = std::max(worst, foretold(key));
    return worst;
}

void LiftedCurve::lift(double at, RouteOutcome& coarse) const {
    if (anchors_.empty()) throw std::logic_error("a curve without anchors");
    auto right = anchors_.lower_bound(at);
    const bool isAnchor = right != anchors_.end() && right->first == at;
    auto left = isAnchor || right == anchors_.begin() ? right : std::prev(right);
    if (right == anchors_.end()) right = left;
    if (left == anchors_.end()) left = right;
    for (std::size_t i = 0; i < coarse.caseCount(); ++i)
        for (const Question question : kStructural) {
            const Key key{i, question};
            const auto a = left->second.find(key), b = right->second.find(key);
            if (a == left->second.end() || b == right->second.end()) continue;
            const Logs logs = between(left->first, a->second, right->first, b->second, at);
            const double least = question == Question::strength_margin ? kLeastDoubtStrength : kLeastDoubt;
            const bool isFull = a->second.ratio == 0 && b->second.ratio == 0;  // the variable leaves this route alone
            const double doubt = isAnchor || isFull ? 0 : std::max(least, foretold(key));
            Figure& figure = coarse.at(question, i);
            const double value = figure.value * std::exp(logs.ratio);
            figure = Figure::bounded(value, value * std::exp(-std::hypot(logs.low, doubt)),
                                     value * std::exp(std::hypot(logs.high, doubt)), figure.unit, figure.origin,
                                     figure.note + (doubt > 0 ? ", coarse grid lifted by full answers nearby" : ""));
        }
    showCase(coarse, coarse.shownCase);
}

}  // namespace waybench
