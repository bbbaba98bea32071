#include "app/cli/command_options.h"

#include <algorithm>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

CommandOptions::CommandOptions(const QStringList& arguments, const std::vector<std::string>& valued,
                               const std::vector<std::string>& flags) {
    auto knows = [](const std::vector<std::string>& names, const std::string& name) {
        return std::find(names.begin(), names.end(), name) != names.end();
    };
    bool onlyPositional = false;
    for (qsizetype i = 0; i < arguments.size(); ++i) {
        const std::string word = arguments[i].toStdString();
        if (onlyPositional || word.rfind("--", 0) != 0) {
            if (!onlyPositional && word.size() > 1 && word[0] == '-') throw UsageFault("unknown option '" + word + "'");
            positional_.push_back(word);
            continue;
        }
        if (word == "--") {
            onlyPositional = true;
            continue;
        }
        const auto equals = word.find('=');
        const std::string name = word.substr(2, equals == std::string::npos ? equals : equals - 2);
        if (knows(flags, name)) {
            values_.emplace(name, "");
            continue;
        }
        if (!knows(valued, name)) {
            throw UsageFault("unknown option '--" + name + "'");
        } else if (equals != std::string::npos) {
            values_.emplace(name, word.substr(equals + 1));
        } else if (++i < arguments.size()) {
            values_.emplace(name, arguments[i].toStdString());
        } else {
            throw UsageFault("option '--" + name + "' needs a value");
        }
        if (name != "set" && values_.count(name) > 1) throw UsageFault("option '--" + name + "' is given twice");
    }
}

std::optional<std::string> CommandOptions::value(const std::string& name) const {
    const auto it = values_.find(name);
    return it == values_.end() ? std::nullopt : std::optional(it->second);
}

std::vector<std::string> CommandOptions::all(const std::string& name) const {
    std::vector<std::string> found;
    for (auto [it, end] = values_.equal_range(name); it != end; ++it)
        found.push_back(it->second);
    return found;
}

std::string CommandOptions::required(const std::string& name, const std::string& example) const {
    if (const auto v = value(name); v && !v->empty()) return *v;
    throw UsageFault("option '--" + name + "' is missing, for example --" + name + " " + example);
}

double CommandOptions::number(const std::string& name, const std::string& example) const {
    const std::string text = required(name, example);
    try {
        return parseQuantity(text, Unit::none);  // decimal comma or point
    } catch (const InputFault&) {
        throw UsageFault("'" + text + "' is not a number; write it plainly, for example --" + name + " " + example);
    }
}

}  // namespace waybench
