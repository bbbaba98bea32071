#pragma once
#include <QStringList>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace waybench {

/// The call itself is off: printed with a hint to --help, status 2.
class UsageFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Arguments of one command: positional ones and "--name value" options ("--name=value" too; flags have no value).
class CommandOptions {
public:
    /// @param valued names that take a value, @param flags names that do not
    /// @throws UsageFault for an unknown option or a missing value
    CommandOptions(const QStringList& arguments, const std::vector<std::string>& valued,
                   const std::vector<std::string>& flags);

    const std::vector<std::string>& positional() const { return positional_; }
    bool has(const std::string& name) const { return values_.count(name) > 0; }
    std::optional<std::string> value(const std::string& name) const;
    std::vector<std::string> all(const std::string& name) const;
    /// @throws UsageFault when missing
    std::string required(const std::string& name, const std::string& example) const;
    /// Number with decimal point. @throws UsageFault
    double number(const std::string& name, const std::string& example) const;

private:
    std::vector<std::string> positional_;
    std::multimap<std::string, std::string> values_;
};

}  // namespace waybench
