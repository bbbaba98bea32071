#include "core/printed/print_job.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <map>
#include <set>

#include "core/fault/input_fault.h"
#include "core/progress/thread_team.h"

namespace waybench::printed {
namespace {

constexpr std::size_t kDraftLayers = 16;  // evenly spread, besides the places where the section jumps
constexpr std::size_t kDraftJumps = 4;
constexpr std::size_t kExactUpTo = 30;  // a draft of so few different layers takes all of them
constexpr std::size_t kDraftSupportLevels = 30;
constexpr std::size_t kLayersInARow = 8;         // by one thread: each knows the layer below
constexpr double kPhases = 8, kDraftPhases = 4;  // in which an infill that changes with height is timed

using Key = std::vector<std::uint32_t>;

struct LayerResult {
    LayerContent content;  // regions emptied once timed
    std::optional<LayerPlace> missingAt;
    LayerTime time;
};

/// Which layers are equal: they share the sections that shape them, their support, their turn of the straight lines,
/// and, under a pattern that changes with height, the phase of it.
///
/// A layer that shares nothing but the phase is timed at its own height; layers that share everything are timed once,
/// at the middle of their eighth of half a period (a gyroid half a cell higher is the same gyroid, shifted), a draft's
/// at the middle of their quarter.
class LayerKinds {
public:
    LayerKinds(const SectionStack& stack, const SupportStack& supports, const Recipe& recipe, double spacing,
               bool isDraft) {
        const double period = 0.5 * infillPeriod_mm(recipe.infill, recipe.infillShare, spacing);
        std::map<Key, std::size_t> count;
        for (std::size_t k = 0; k < stack.layers.size(); ++k) {
            Key key = sectionsSeenBy(stack, k, recipe);
            key.push_back(supports.regionOfLayer[k]);
            key.push_back(k == 0 ? 2 : static_cast<std::uint32_t>(k % 2));
            ++count[key];
            keys_.push_back(std::move(key));
            places_.push_back(placeOf(stack, k));
        }
        if (period <= 0) return;
        const double bins = isDraft ? kDraftPhases : kPhases;
        for (std::size_t k = 0; k < keys_.size(); ++k) {
            if (count.at(keys_[k]) < 2) continue;
            const double bin = std::floor(std::fmod(places_[k].z_mm / period, 1.0) * bins);
            places_[k].z_mm = (bin + 0.5) / bins * period;
            keys_[k].push_back(static_cast<std::uint32_t>(bin));
        }
    }
    const Key& keyOf(std::size_t k) const { return keys_[k]; }
    const InfillPlace& placeOfLayer(std::size_t k) const { return places_[k]; }
    std::size_t countUpTo(std::size_t most) const {
        std::set<Key> seen;
        for (std::size_t k = 0; k < keys_.size() && seen.size() <= most; ++k)
            seen.insert(keys_[k]);
        return seen.size();
    }

private:
    std::vector<Key> keys_;
    std::vector<InfillPlace> places_;
};

class LayerShop {
public:
    LayerShop(const SectionStack& stack, const SupportStack& supports, const Recipe& recipe, const Printer& printer,
              const PrintingMaterial& material)
        : stack_(stack),
          supports_(supports),
          recipe_(recipe),
          spacing_(beadSpacing_mm(recipe)),
          first_(paceOf(printer, material, spacing_ * stack.layers.front().height_mm, true)),
          other_(paceOf(printer, material, spacing_ * stack.layers.back().height_mm, false)) {}

    /// @param below of the layer before, with its regions, or none; becomes this layer's
    LayerResult computed(std::size_t k, const InfillPlace& place, std::optional<LayerContent>& below) const {
        LayerResult result;
        result.content = layerContent(stack_, k, recipe_, spacing_, below ? &*below : nullptr);
        const Pace& pace = k == 0 ? first_ : other_;
        const Region& support = supports_.regions[supports_.regionOfLayer[k]];
        result.time = timeOf(tracksOf(result.content, support, recipe_, spacing_, place), pace);
        const std::size_t inner = static_cast<std::size_t>(PathKind::inner_contour);
        result.time.path_mm[inner] += result.content.gapFill_mm;
        result.time.path_s[inner] += result.content.gapFill_mm / pace.speed_mm_s[inner];
        closeLayer(result.time, pace);
        noteLargest(result.missingAt, result.content.missing, result.content.missing_mm2, k);
        below = result.content;
        result.content.dropRegions();
        return result;
    }
    const Pace& pace() const { return other_; }

private:
    const SectionStack& stack_;
    const SupportStack& supports_;
    const Recipe& recipe_;
    double spacing_;
    Pace first_, other_;
};

/// Layers a draft looks at: the ends, even steps between, and both sides of the largest jumps in area with the reach of
/// the skins around them.
std::vector<std::size_t> draftLayers(const SectionStack& stack, const Recipe& recipe) {
    const std::size_t n = stack.layers.size();
    std::set<std::size_t> chosen{0, std::min<std::size_t>(1, n - 1), n - 1};
    const auto add = [&](std::ptrdiff_t k) {
        if (k >= 0 && k < static_cast<std::ptrdiff_t>(n)) chosen.insert(static_cast<std::size_t>(k));
    };
    for (std::size_t i = 0; i <= kDraftLayers; ++i)
        chosen.insert(i * (n - 1) / kDraftLayers);
    std::vector<std::pair<double, std::size_t>> jumps;
    double largest = 0;
    for (const double area : stack.areas_mm2)
        largest = std::max(largest, area);
    for (std::size_t k = 0; k <= n; ++k) {
        const std::ptrdiff_t at = static_cast<std::ptrdiff_t>(k);
        const double jump = std::abs(stack.areas_mm2[stack.sectionOf(at)] - stack.areas_mm2[stack.sectionOf(at - 1)]);
        if (jump > 0.05 * largest) jumps.emplace_back(-jump, k);
    }
    std::sort(jumps.begin(), jumps.end());
    if (jumps.size() > kDraftJumps) jumps.resize(kDraftJumps);
    for (const auto& [size, layer] : jumps) {
        const std::ptrdiff_t k = static_cast<std::ptrdiff_t>(layer);
        for (const std::ptrdiff_t at : {k - recipe.skinsAbove - 1, k - recipe.skinsAbove, k - 1, k,
                                        k + recipe.skinsBelow - 1, k + recipe.skinsBelow})
            add(at);
    }
    return {chosen.begin(), chosen.end()};
}

/// How many layers each chosen one stands for: itself and, by the trapezoid rule, half of those up to its neighbours.
std::vector<double> weightsOf(const std::vector<std::size_t>& chosen) {
    std::vector<double> weights(chosen.size(), 1.0);
    for (std::size_t i = 1; i < chosen.size(); ++i) {
        const double between = 0.5 * (static_cast<double>(chosen[i] - chosen[i - 1]) - 1);
        weights[i - 1] += between;
        weights[i] += between;
    }
    return weights;
}

/// Times of every layer: those laid out as they are, those between two on a straight line from one to the other, which
/// adds up to the trapezoid rule of weightsOf.
std::vector<LayerTime> layerTimes(const std::vector<std::size_t>& chosen, const std::vector<LayerTime>& times) {
    std::vector<LayerTime> all;
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        for (std::size_t k = i == 0 ? 0 : chosen[i - 1] + 1; k < chosen[i]; ++k) {
            const double share =
                static_cast<double>(k - chosen[i - 1]) / static_cast<double>(chosen[i] - chosen[i - 1]);
            LayerTime between;
            between.add(times[i - 1], 1 - share);
            between.add(times[i], share);
            all.push_back(between);
        }
        all.push_back(times[i]);
    }
    return all;
}

void addLayer(PrintJob& job, const LayerContent& c, double height, double weight, double share) {
    const double volume = height * weight;
    job.wall_mm3 += volume * c.wall_mm2;
    job.skin_mm3 += volume * c.skin_mm2;
    job.infill_mm3 += volume * c.infill_mm2 * share;
    job.infillSpace_mm3 += volume * c.infill_mm2;
    job.missing_mm3 += volume * c.missing_mm2;
    job.brim_mm3 += volume * c.brim_mm2;
    job.bridge_mm2 += weight * c.bridge_mm2;
    job.gapFill_mm += weight * c.gapFill_mm;
}

}  // namespace

PrintJob printJob(const Mesh& mesh, const Recipe& recipe, const Printer& printer, const PrintingMaterial& material,
                  bool isDraft, const Task& task) {
    beadSpacing_mm(recipe);
    const SectionStack stack = sectionStack(mesh, recipe, task.part(0, 0.15));
    task.report(0.15);
    return printJob(stack, recipe, printer, material, isDraft, task);
}

PrintJob printJob(const SectionStack& stack, const Recipe& recipe, const Printer& printer,
                  const PrintingMaterial& material, bool isDraft, const Task& task) {
    PrintJob job;
    beadSpacing_mm(recipe);
    job.size_mm = stack.size_mm;
    job.layers = stack.layers.size();
    job.footprint_mm2 = stack.areas_mm2[stack.layers.front().section];
    for (const Layer& layer : stack.layers)
        job.section_mm3 += stack.areas_mm2[layer.section] * layer.height_mm;

    const std::size_t stride = isDraft ? 1 + job.layers / kDraftSupportLevels : 1;
    job.supports = supportStack(stack, recipe, stride, task);
    if (recipe.supports) job.trapped = trappedSupports(stack, job.supports, task);
    task.report(0.3);

    const LayerShop shop(stack, job.supports, recipe, printer, material);
    const LayerKinds kinds(stack, job.supports, recipe, beadSpacing_mm(recipe), isDraft);
    std::vector<std::size_t> chosen;
    if (isDraft && kinds.countUpTo(kExactUpTo) > kExactUpTo) chosen = draftLayers(stack, recipe);
    if (chosen.empty())
        for (std::size_t k = 0; k < job.layers; ++k)
            chosen.push_back(k);

    std::map<Key, std::size_t> resultOf;  // of each kind of layer, in the order of their first
    std::vector<std::size_t> firsts;
    for (const std::size_t k : chosen)
        if (resultOf.emplace(kinds.keyOf(k), firsts.size()).second) firsts.push_back(k);
    std::vector<LayerResult> results(firsts.size());
    std::atomic<std::size_t> done{0};
    inShares(firsts.size(), kLayersInARow, [&](std::size_t begin, std::size_t end) {
        std::optional<LayerContent> below;
        for (std::size_t i = begin; i < end; ++i) {
            task.check();
            if (i > begin && firsts[i] != firsts[i - 1] + 1) below.reset();
            results[i] = shop.computed(firsts[i], kinds.placeOfLayer(firsts[i]), below);
            task.report(0.3 + 0.7 * static_cast<double>(++done) / static_cast<double>(firsts.size()));
        }
    });

    const std::vector<double> weights = weightsOf(chosen);
    std::vector<LayerTime> times;
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        const LayerResult& layer = results[resultOf.at(kinds.keyOf(chosen[i]))];
        times.push_back(layer.time);
        addLayer(job, layer.content, stack.layers[chosen[i]].height_mm, weights[i], std::min(1.0, recipe.infillShare));
    }
    job.layerTimes = layerTimes(chosen, times);
    job.firstLayer = job.layerTimes.front();
    for (std::size_t k = 1; k < job.layerTimes.size(); ++k)
        job.others.add(job.layerTimes[k], 1);
    job.layersComputed = firsts.size();
    std::optional<LayerPlace> missingAt;
    for (const LayerResult& r : results)
        if (r.missingAt && r.missingAt->area_mm2 > (missingAt ? missingAt->area_mm2 : 0)) missingAt = r.missingAt;
    const auto inPart = [&](const std::optional<LayerPlace>& place) -> std::optional<Vec3> {
        if (!place) return {};
        return stack.inPart(place->at, place->layer);
    };
    job.missingAt_mm = inPart(missingAt);
    job.overhangAt_mm = inPart(job.supports.overhangAt);
    job.longBridgeAt_mm = inPart(job.supports.longBridgeAt);
    job.trappedAt_mm = inPart(job.trapped.at);
    job.isFlowLimited = shop.pace().isFlowLimited;
    if (recipe.supports) job.support_mm3 = job.supports.columns_mm3 * kSupportShare;
    if (!(job.part_mm3() > 0))
        throw InputFault("nothing_to_print", "", "part",
                         "no place of the part is as wide as one bead, so nothing would be printed",
                         "check the unit of the part's file, or choose a narrower bead");
    return job;
}

}  // namespace waybench::printed
