#include "core/route/setting.h"

#include <cmath>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {
namespace {

std::string place(const SettingDescription& d) {
    return "setting '" + d.key + "'";
}

std::string rangeText(const SettingDescription& d) {
    return plainNumber(d.minimum) + " to " + plainNumber(d.maximum) +
           (d.unit == Unit::none ? std::string() : " " + std::string(symbolOf(d.unit)));
}

}  // namespace

double readNumber(const SettingDescription& d, const std::string& value) {
    double number = 0;
    try {
        number = parseQuantity(value, d.unit);
    } catch (const InputFault& fault) {
        throw InputFault("setting_not_a_number", "", place(d),
                         "'" + value + "' is no value for " + d.label + ": " + fault.problem(),
                         "give a number from " + rangeText(d));
    }
    if (d.isWhole && number != std::floor(number))
        throw InputFault("setting_not_a_number", "", place(d), "'" + value + "' is not a whole number",
                         "give a whole number from " + rangeText(d));
    if (!(number >= d.minimum && number <= d.maximum))
        throw InputFault("setting_out_of_range", "", place(d), d.label + " of '" + value + "' is outside its range",
                         "give a value from " + rangeText(d));
    return number;
}

std::string readChoice(const SettingDescription& d, const std::string& value) {
    std::string known;
    for (const std::string& c : d.choices) {
        if (c == value) return value;
        known += (known.empty() ? "" : ", ") + c;
    }
    throw InputFault("setting_out_of_range", "", place(d), "'" + value + "' is no " + d.label, "use one of: " + known);
}

std::string readKey(const SettingDescription& d, const std::string& value) {
    if (value.empty())
        throw InputFault("setting_out_of_range", "", place(d), "no " + d.label + " is named",
                         "name one of the catalogue");
    return value;
}

bool readYesOrNo(const SettingDescription& d, const std::string& value) {
    if (value == "true") return true;
    if (value == "false") return false;
    return readChoice(d, value) == "yes";
}

void refuseSetting(const std::string& key, const std::string& of, const std::string& known) {
    throw InputFault("setting_unknown", "", of, "there is no setting '" + key + "'", "use one of: " + known);
}

}  // namespace waybench
