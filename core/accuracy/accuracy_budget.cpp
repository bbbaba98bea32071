#include "core/accuracy/accuracy_budget.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "core/quantity/quantity_text.h"

namespace waybench {

Figure rootSumSquare(std::span<const AccuracyTerm> terms) {
    double value = 0, low = 0, high = 0;
    for (const AccuracyTerm& term : terms) {
        if (term.deviation.unit != Unit::millimetre || term.deviation.low < 0)
            throw std::logic_error("accuracy term is not a length: " + term.name);
        value += term.deviation.value * term.deviation.value;
        low += term.deviation.low * term.deviation.low;
        high += term.deviation.high * term.deviation.high;
    }
    std::vector<const AccuracyTerm*> order;
    for (const AccuracyTerm& term : terms)
        order.push_back(&term);
    std::stable_sort(order.begin(), order.end(), [](const AccuracyTerm* a, const AccuracyTerm* b) {
        return a->deviation.value > b->deviation.value;
    });
    std::string note = "root sum square of";
    for (size_t i = 0; i < order.size(); ++i)
        note +=
            (i ? ", " : " ") + order[i]->name + " " + plainNumber(std::round(order[i]->deviation.value * 1e4) / 1e4);
    return Figure::bounded(std::sqrt(value), std::sqrt(low), std::sqrt(high), Unit::millimetre, Origin::computed, note);
}

Figure thermalGrowth(const Figure& expansion_per_K, double length_mm, double difference_K) {
    return expansion_per_K.in(Unit::millimetre, length_mm * difference_K)
        .named("thermal growth of " + plainNumber(length_mm) + " mm over " + plainNumber(difference_K) + " K");
}

Figure squarenessDeviation(const Figure& squareness_mm_per_m, double length_mm) {
    return squareness_mm_per_m.in(Unit::millimetre, length_mm / 1000)
        .named("squareness over " + plainNumber(length_mm) + " mm");
}

}  // namespace waybench
