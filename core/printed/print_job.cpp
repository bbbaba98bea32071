#include "core/printed/print_job.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/fault/input_fault.h"

namespace waybench::printed {
namespace {

constexpr std::size_t kDraftLayers = 16;  // evenly spread, besides the places where the section jumps
constexpr std::size_t kDraftJumps = 4;
constexpr std::size_t kExactUpTo = 30;  // a draft of so few different layers takes all of them
constexpr std::size_t kDraftSupportLevels = 30;

struct LayerResult {
    LayerContent content;  // regions emptied once timed
    LayerTime time;
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

    std::vector<std::uint32_t> keyOf(std::size_t k) const {
        std::vector<std::uint32_t> key = sectionsSeenBy(stack_, k, recipe_);
        key.push_back(supports_.regionOfLayer[k]);
        key.push_back(k == 0 ? 2 : static_cast<std::uint32_t>(k % 2));
        return key;
    }

    const LayerResult& resultOf(std::size_t k) {
        const auto [place, isNew] = known_.try_emplace(keyOf(k));
        if (isNew) place->second = computed(k);
        return place->second;
    }
    std::size_t computedCount() const { return known_.size(); }
    double spacing() const { return spacing_; }
    const Pace& pace() const { return other_; }

private:
    LayerResult computed(std::size_t k) const {
        LayerResult result;
        result.content = layerContent(stack_, k, recipe_, spacing_);
        const Pace& pace = k == 0 ? first_ : other_;
        const Region& support = supports_.regions[supports_.regionOfLayer[k]];
        result.time = timeOf(tracksOf(result.content, support, recipe_, spacing_, k % 2 == 1), pace);
        const std::size_t inner = static_cast<std::size_t>(PathKind::inner_wall);
        result.time.path_mm[inner] += result.content.gapFill_mm;
        result.time.path_s[inner] += result.content.gapFill_mm / pace.speed_mm_s[inner];
        closeLayer(result.time, pace);
        result.content.walls.clear();
        result.content.skin.clear();
        result.content.infill.clear();
        return result;
    }

    const SectionStack& stack_;
    const SupportStack& supports_;
    const Recipe& recipe_;
    double spacing_;
    Pace first_, other_;
    std::map<std::vector<std::uint32_t>, LayerResult> known_;
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

void addLayer(PrintJob& job, const LayerResult& layer, double height, double weight, double share, bool isFirst) {
    const LayerContent& c = layer.content;
    const double volume = height * weight;
    job.wall_mm3 += volume * c.wall_mm2;
    job.skin_mm3 += volume * c.skin_mm2;
    job.infill_mm3 += volume * c.infill_mm2 * share;
    job.infillSpace_mm3 += volume * c.infill_mm2;
    job.missing_mm3 += volume * c.missing_mm2;
    job.gapFill_mm += weight * c.gapFill_mm;
    (isFirst ? job.firstLayer : job.others).add(layer.time, weight);
}

}  // namespace

PrintJob printJob(const Mesh& mesh, const Recipe& recipe, const Printer& printer, const PrintingMaterial& material,
                  bool isDraft, const Task& task) {
    PrintJob job;
    beadSpacing_mm(recipe);
    const SectionStack stack = sectionStack(mesh, recipe, task.part(0, 0.15));
    task.report(0.15);
    job.size_mm = stack.size_mm;
    job.layers = stack.layers.size();
    job.footprint_mm2 = stack.areas_mm2[stack.layers.front().section];
    for (const Layer& layer : stack.layers)
        job.section_mm3 += stack.areas_mm2[layer.section] * layer.height_mm;

    const std::size_t stride = isDraft ? 1 + job.layers / kDraftSupportLevels : 1;
    job.supports = supportStack(stack, recipe, stride, task);
    task.report(0.3);

    LayerShop shop(stack, job.supports, recipe, printer, material);
    std::vector<std::size_t> chosen;
    if (isDraft) {
        std::set<std::vector<std::uint32_t>> keys;
        for (std::size_t k = 0; k < job.layers && keys.size() <= kExactUpTo; ++k)
            keys.insert(shop.keyOf(k));
        if (keys.size() > kExactUpTo) chosen = draftLayers(stack, recipe);
    }
    if (chosen.empty())
        for (std::size_t k = 0; k < job.layers; ++k)
            chosen.push_back(k);
    const std::vector<double> weights = weightsOf(chosen);
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        task.check();
        const std::size_t k = chosen[i];
        addLayer(job, shop.resultOf(k), stack.layers[k].height_mm, weights[i], std::min(1.0, recipe.infillShare),
                 k == 0);
        task.report(0.3 + 0.7 * static_cast<double>(i + 1) / static_cast<double>(chosen.size()));
    }
    job.layersComputed = shop.computedCount();
    job.isFlowLimited = shop.pace().isFlowLimited;
    if (recipe.supports) job.support_mm3 = job.supports.columns_mm3 * kSupportShare;
    if (!(job.part_mm3() > 0))
        throw InputFault("nothing_to_print", "", "part",
                         "no place of the part is as wide as one bead, so nothing would be printed",
                         "check the unit of the part's file, or choose a narrower bead");
    return job;
}

}  // namespace waybench::printed
