#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/comparison/json_text.h"
#include "core/comparison/sweep.h"
#include "core/fault/input_fault.h"

namespace waybench {

namespace {

const std::string kPrintedPrefix = "printed.";
const std::string kMachinedPrefix = "machined.";

bool isThickness(const std::string& key) {
    return key.find("thickness") != std::string::npos || key.find("wall") != std::string::npos;
}

Variable variableOf(const Dimension& d, const std::string& prefix, const std::string& labelTail, double current) {
    Variable v;
    v.name = prefix + d.key;
    v.label = d.label + labelTail;
    v.unit = d.unit;
    v.minimum = d.minimum;
    v.maximum = d.maximum;
    v.current = current;
    v.isWhole = d.unit == Unit::none;
    return v;
}

std::optional<double> numberIn(const std::string& text) {
    double value = 0;
    const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
    if (result.ec != std::errc() || result.ptr != text.data() + text.size() || !std::isfinite(value)) return {};
    return value;
}

template <typename Settings>
void addSettings(std::vector<Variable>& all, const std::vector<SettingDescription>& descriptions,
                 const Settings& settings, const std::string& prefix, const std::string& labelTail) {
    for (const SettingDescription& d : descriptions) {
        if (!d.choices.empty() || !(d.minimum < d.maximum)) continue;
        const std::optional<double> current = numberIn(get(settings, d.key));
        if (current)
            all.push_back({prefix + d.key, d.label + labelTail, d.unit, d.minimum, d.maximum, *current, d.isWhole});
    }
}

bool startsWith(const std::string& text, const std::string& prefix) {
    return text.compare(0, prefix.size(), prefix) == 0;
}

bool hasDimension(const Part& part, const std::string& key) {
    const std::vector<Dimension> dimensions = dimensionsOf(part.shape);
    return std::any_of(dimensions.begin(), dimensions.end(), [&](const Dimension& d) { return d.key == key; });
}

void checkRange(const Variable& variable, double value) {
    if (std::isfinite(value) && value >= variable.minimum && value <= variable.maximum) return;
    throw InputFault("value_out_of_range", "", variable.name,
                     (std::isfinite(value) ? numberText(value) : std::string("this")) + " is outside the range of '" +
                         variable.label + "'",
                     "choose a value from " + numberText(variable.minimum) + " to " + numberText(variable.maximum));
}

}  // namespace

std::vector<Variable> variablesOf(const Part& part, const Shop& shop) {
    const std::vector<Dimension> dimensions = dimensionsOf(part.shape);
    std::vector<Variable> all;
    for (const bool thick : {true, false}) {
        for (const Dimension& d : dimensions)
            if (isThickness(d.key) == thick) all.push_back(variableOf(d, "", "", dimensionValue(part.shape, d)));
        if (!thick) break;
        for (const Dimension& d : dimensions)
            if (isThickness(d.key)) {
                all.push_back(variableOf(d, kPrintedPrefix, ", print only",
                                         dimensionValue(part.shape, d, part.printedDimensions)));
                all.push_back(variableOf(d, kMachinedPrefix, ", machined part only",
                                         dimensionValue(part.shape, d, part.machinedDimensions)));
            }
    }
    const double limit = part.loadCase.deflectionLimit_mm > 0 ? part.loadCase.deflectionLimit_mm : 0.1;
    all.push_back({"load", "load, times the load case", Unit::none, 0.01, 100, 1, false});
    all.push_back({"temperature", "temperature", Unit::celsius, -40, 250, part.loadCase.temperature_celsius, false});
    all.push_back({"limit", "deflection limit", Unit::millimetre, limit / 100, limit * 100, limit, false});
    addSettings(all, printed::settingDescriptions(shop), part.recipe, kPrintedPrefix, " of the print");
    addSettings(all, machined::settingDescriptions(shop), part.plan, kMachinedPrefix, " of the machined part");
    for (const Dimension& d : dimensions)
        if (!isThickness(d.key)) {
            all.push_back(
                variableOf(d, kPrintedPrefix, ", print only", dimensionValue(part.shape, d, part.printedDimensions)));
            all.push_back(variableOf(d, kMachinedPrefix, ", machined part only",
                                     dimensionValue(part.shape, d, part.machinedDimensions)));
        }
    return all;
}

const Variable& variableNamed(const std::vector<Variable>& all, const std::string& name) {
    std::string known;
    for (const Variable& v : all) {
        if (v.name == name) return v;
        known += (known.empty() ? "" : ", ") + v.name;
    }
    throw InputFault("variable_unknown", "", name, "nothing called '" + name + "' can be varied on this part",
                     "vary one of " + known);
}

Part with(const Part& part, const Variable& variable, double value) {
    if (variable.isWhole) value = std::round(value);
    checkRange(variable, value);
    Part varied = part;
    LoadCase& loadCase = varied.loadCase;
    const std::string& name = variable.name;
    if (startsWith(name, kPrintedPrefix) || startsWith(name, kMachinedPrefix)) {
        const bool isPrinted = startsWith(name, kPrintedPrefix);
        const std::string key = name.substr((isPrinted ? kPrintedPrefix : kMachinedPrefix).size());
        if (hasDimension(part, key))
            (isPrinted ? varied.printedDimensions : varied.machinedDimensions)[key] = value;
        else if (isPrinted)
            printed::set(varied.recipe, key, numberText(value));
        else
            machined::set(varied.plan, key, numberText(value));
    } else if (name == "load") {
        for (std::size_t i = 0; i < varied.loadCaseCount(); ++i)
            for (Load& load : varied.loadCaseAt(i).loads) {
                load.vector *= value;
                load.pressure_MPa *= value;
            }
    } else if (name == "temperature") {
        const double step = value - loadCase.temperature_celsius;
        for (LoadCase& further : varied.furtherLoadCases)
            further.temperature_celsius += step;
        loadCase.temperature_celsius = value;
    } else if (name == "limit") {
        if (loadCase.deflectionLimit_mm > 0)
            for (LoadCase& further : varied.furtherLoadCases)
                further.deflectionLimit_mm *= value / loadCase.deflectionLimit_mm;
        loadCase.deflectionLimit_mm = value;
    } else if (hasDimension(part, name)) {
        varied.shape.dimensions[name] = value;
        varied.printedDimensions.erase(name);
        varied.machinedDimensions.erase(name);
    } else {
        throw InputFault("variable_unknown", "", name, "nothing called '" + name + "' can be varied on this part",
                         "choose one of the variables of the part");
    }
    return varied;
}

}  // namespace waybench
