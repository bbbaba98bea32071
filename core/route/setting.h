#pragma once
#include <string>
#include <vector>

#include "core/quantity/unit.h"

namespace waybench {

/// A setting of a recipe or plan, described once for field, file, command line and help.
struct SettingDescription {
    std::string key, label;
    Unit unit = Unit::none;
    double minimum = 0, maximum = 0, standard = 0;
    bool isWhole = false;              ///< counts
    std::vector<std::string> choices;  ///< for keys and enumerations; value is then text
    std::string help;
};

/// What a person typed for a numeric setting, in its unit and range.
/// @throws InputFault "setting_not_a_number", "setting_out_of_range"
double readNumber(const SettingDescription& description, const std::string& value);
/// One of the choices, as written there. @throws InputFault "setting_out_of_range" with all choices
std::string readChoice(const SettingDescription& description, const std::string& value);
/// A key of the catalogue; which keys there are is known where the setting meets the shop.
/// @throws InputFault "setting_out_of_range" when empty
std::string readKey(const SettingDescription& description, const std::string& value);
/// "yes" or "no", also "true" or "false". @throws InputFault "setting_out_of_range"
bool readYesOrNo(const SettingDescription& description, const std::string& value);

/// The first of `settings` whose description.key is key. @param of "recipe" or "plan", for the message.
/// @throws InputFault "setting_unknown" with all keys
template <class Settings>
const auto& settingNamed(const Settings& settings, const std::string& key, const std::string& of);

[[noreturn]] void refuseSetting(const std::string& key, const std::string& of, const std::string& known);

template <class Settings>
const auto& settingNamed(const Settings& settings, const std::string& key, const std::string& of) {
    std::string known;
    for (const auto& s : settings) {
        if (s.description.key == key) return s;
        known += (known.empty() ? "" : ", ") + s.description.key;
    }
    refuseSetting(key, of, known);
}

}  // namespace waybench
