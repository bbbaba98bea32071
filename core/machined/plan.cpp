#include "core/machined/plan.h"

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench::machined {
namespace {

/// One setting: its description and where it lives in the plan. Exactly one of the members is set.
struct Setting {
    SettingDescription description;
    double Plan::*number = nullptr;
    bool Plan::*flag = nullptr;
    std::string Plan::*key = nullptr;
    int Plan::*count = nullptr;
};

const std::vector<Setting>& settings() {
    static const std::vector<Setting> all = [] {
        const Plan p;
        std::vector<Setting> s;
        const auto key = [&](std::string name, std::string label, std::string help, std::string Plan::*member) {
            s.push_back({{std::move(name), std::move(label), Unit::none, 0, 0, 0, false, {}, std::move(help)},
                         nullptr,
                         nullptr,
                         member});
        };
        const auto number = [&](std::string name, std::string label, double minimum, double maximum, double standard,
                                std::string help, double Plan::*member) {
            s.push_back({{std::move(name),
                          std::move(label),
                          Unit::millimetre,
                          minimum,
                          maximum,
                          standard,
                          false,
                          {},
                          std::move(help)},
                         member,
                         nullptr,
                         nullptr});
        };
        const auto flag = [&](std::string name, std::string label, std::string help, bool Plan::*member) {
            s.push_back(
                {{std::move(name), std::move(label), Unit::none, 0, 0, 0, false, {"no", "yes"}, std::move(help)},
                 nullptr,
                 member,
                 nullptr});
        };
        key("material", "material", "Stock the part is cut from.", &Plan::material);
        key("mill", "mill", "Machine it is cut on.", &Plan::mill);
        number("stock_margin", "stock margin", 0, 50, p.stockMargin_mm,
               "Left around the outline when the part is cut from a plate.", &Plan::stockMargin_mm);
        number("finish_allowance", "finishing allowance", 0, 1, p.finishAllowance_mm,
               "Left on walls for the last pass; 0 leaves the last pass out.", &Plan::finishAllowance_mm);
        number("smallest_tool", "smallest end mill", 0, 20, p.smallestTool_mm,
               "End mills thinner than this stay on the rack; 0 allows all.", &Plan::smallestTool_mm);
        flag("tabs", "tabs", "Hold the part in its plate by tabs; else by clamps inside, tape or vacuum.", &Plan::tabs);
        key("holding", "holding", "How the blank is held in the first set-up.", &Plan::holding);
        key("holding_turned", "holding, turned", "How the part is held in later set-ups.", &Plan::holdingTurned);
        Setting clamps{{"clamps",
                        "clamps",
                        Unit::none,
                        1,
                        8,
                        double(p.clamps),
                        true,
                        {},
                        "How many clamps hold the blank, evenly around its border."}};
        clamps.count = &Plan::clamps;
        s.push_back(clamps);
        flag("surface_levelling", "surface levelling", "Probe a map of the surface before cutting.",
             &Plan::surfaceLevelling);
        return s;
    }();
    return all;
}

}  // namespace

std::vector<SettingDescription> settingDescriptions(const Shop& shop) {
    std::vector<SettingDescription> descriptions;
    for (const Setting& s : settings()) {
        descriptions.push_back(s.description);
        SettingDescription& d = descriptions.back();
        if (d.key == "material")
            for (const StockMaterial& m : shop.stockMaterials)
                d.choices.push_back(m.key);
        if (d.key == "mill")
            for (const Mill& m : shop.mills)
                d.choices.push_back(m.key);
        if (d.key == "holding" || d.key == "holding_turned")
            for (const Workholding& w : shop.workholdings)
                if (d.key == "holding" || w.kind != WorkholdingKind::clamps) d.choices.push_back(w.key);
    }
    return descriptions;
}

void checkKeys(const Plan& plan, const Shop& shop) {
    shop.stockMaterial(plan.material);
    shop.mill(plan.mill);
    shop.workholding(plan.holding);
    if (shop.workholding(plan.holdingTurned).kind == WorkholdingKind::clamps)
        throw InputFault("workholding_unfit", "", "holding_turned",
                         "clamps hold a blank's margin, and a turned part has none",
                         "take a vice, tape or vacuum for later set-ups");
}

void set(Plan& plan, const std::string& key, const std::string& value) {
    const Setting& s = settingNamed(settings(), key, "plan");
    if (s.number)
        plan.*s.number = readNumber(s.description, value);
    else if (s.count)
        plan.*s.count = static_cast<int>(readNumber(s.description, value));
    else if (s.flag)
        plan.*s.flag = readYesOrNo(s.description, value);
    else
        plan.*s.key = readKey(s.description, value);
}

std::string get(const Plan& plan, const std::string& key) {
    const Setting& s = settingNamed(settings(), key, "plan");
    if (s.number) return plainNumber(plan.*s.number);
    if (s.count) return std::to_string(plan.*s.count);
    if (s.flag) return plan.*s.flag ? "yes" : "no";
    return plan.*s.key;
}

}  // namespace waybench::machined
