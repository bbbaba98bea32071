#pragma once
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/comparison/json_text.h"
#include "core/geometry/vector.h"

namespace waybench {

/// Keys a reader did not know: place within the owner ("load_case.colour") to its JSON text.
using KeptKeys = std::map<std::string, std::string>;

/// What reading one file gathers on the way.
struct ReadingNotes {
    std::vector<std::string> unknown, defaults;
};

/// Reads one JSON object key by key, knowing its place in the file; every fault names that place and the remedy.
/// Keys asked for are the known keys: whatever was not asked for when finish() is called is unknown, is reported with
/// the nearest known name and kept.
class ObjectReader {
public:
    /// @param place  where the object stands in the file, "parts[2].load_case"; empty at the top
    /// @param within the same place seen from the owner of `kept`, "load_case"
    /// @throws InputFault "value_wrong_type" when the value is not an object
    ObjectReader(const Json& value, std::string place, std::string within, ReadingNotes& notes, KeptKeys& kept);

    bool has(const std::string& key);
    /// The value that must be there. @throws InputFault "key_missing"
    const Json& required(const std::string& key);
    /// The value, or nullptr.
    const Json* optional(const std::string& key);

    std::string text(const std::string& key);
    std::string textOr(const std::string& key, const std::string& standard);
    /// @throws InputFault "value_out_of_range" naming the bounds
    double number(const std::string& key, double minimum, double maximum);
    double numberOr(const std::string& key, double standard, double minimum, double maximum);
    int wholeOr(const std::string& key, int standard, int minimum, int maximum);
    bool truthOr(const std::string& key, bool standard);
    Vec3 vector(const std::string& key, double largest);
    /// One of the names. @throws InputFault "value_unknown" with the names and the nearest
    std::size_t choice(const std::string& key, const std::vector<std::string>& names);
    std::size_t choiceOr(const std::string& key, const std::vector<std::string>& names, std::size_t standard);
    /// Object whose keys are free and whose values are numbers; missing = empty.
    std::map<std::string, double> numbersOr(const std::string& key, double minimum, double maximum);
    ObjectReader object(const std::string& key);
    /// Calls once per entry of the list that must be there.
    void each(const std::string& key,
              const std::function<void(const Json&, const std::string& place, const std::string& within)>& read);
    /// The same for an array that may be missing.
    template <class Read>
    void eachOr(const std::string& key, const Read& read) {
        if (has(key)) each(key, read);
    }
    /// Reports and keeps what was not asked for.
    void finish();

    std::string placeOf(const std::string& key) const;
    std::string withinOf(const std::string& key) const;
    const std::string& place() const { return place_; }

private:
    void noteDefault(const std::string& key, const std::string& value);

    const Json& value_;
    std::string place_, within_;
    ReadingNotes& notes_;
    KeptKeys& kept_;
    std::vector<std::string> known_;
};

/// @throws InputFault "value_wrong_type", "value_out_of_range"
double numberAt(const Json& value, const std::string& place, double minimum, double maximum);
Vec3 vectorAt(const Json& value, const std::string& place, double largest);
std::string textAt(const Json& value, const std::string& place);
[[noreturn]] void refuseType(const Json& value, const std::string& place, const std::string& wanted);

/// Puts kept keys back to where they stood; those whose place is gone are left out.
void restoreKept(Json& object, const KeptKeys& kept);

}  // namespace waybench
