#include "core/project/object_reader.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/fault/input_fault.h"
#include "core/project/key_check.h"

namespace waybench {

namespace {

std::string kindOf(const Json& value) {
    switch (value.type()) {
        case Json::value_t::object:
            return "an object";
        case Json::value_t::array:
            return "a list";
        case Json::value_t::string:
            return "a text";
        case Json::value_t::boolean:
            return "true or false";
        case Json::value_t::null:
            return "null";
        default:
            return "a number";
    }
}

std::string joined(const std::string& place, const std::string& key) {
    return place.empty() ? key : place + "." + key;
}

std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names)
        text += (text.empty() ? "" : ", ") + name;
    return text;
}

/// One step of a place: ".key" or "[3]". False when the object does not have it.
Json* stepInto(Json* at, const std::string& step) {
    if (!step.empty() && step.front() == '[') {
        std::size_t index = 0;
        std::from_chars(step.data() + 1, step.data() + step.size(), index);
        return at->is_array() && index < at->size() ? &(*at)[index] : nullptr;
    }
    return at->is_object() && at->contains(step) ? &(*at)[step] : nullptr;
}

/// Steps of "loads[1].colour"; a dot or bracket inside an unknown key is written as the key's tail only.
std::vector<std::string> stepsOf(const std::string& place) {
    std::vector<std::string> steps;
    std::string step;
    for (const char c : place) {
        if (c == '.' || c == '[') {
            if (!step.empty()) steps.push_back(step);
            step.clear();
            if (c == '[') step = "[";
        } else {
            step += c;
        }
    }
    if (!step.empty()) steps.push_back(step);
    return steps;
}

}  // namespace

void refuseType(const Json& value, const std::string& place, const std::string& wanted) {
    throw InputFault("value_wrong_type", "", place, "here stands " + kindOf(value), "write " + wanted);
}

double numberAt(const Json& value, const std::string& place, double minimum, double maximum) {
    if (!value.is_number()) refuseType(value, place, "a number (without quotes, point as decimal sign)");
    const double number = value.get<double>();
    if (!std::isfinite(number) || number < minimum || number > maximum)
        throw InputFault("value_out_of_range", "", place,
                         (std::isfinite(number) ? numberText(number) : std::string("a number too large to write")) +
                             " is outside what can be meant",
                         "write a number from " + numberText(minimum) + " to " + numberText(maximum));
    return number;
}

std::string textAt(const Json& value, const std::string& place) {
    if (!value.is_string()) refuseType(value, place, "a text in quotes");
    return value.get<std::string>();
}

Vec3 vectorAt(const Json& value, const std::string& place, double largest) {
    if (!value.is_array() || value.size() != 3) refuseType(value, place, "three numbers [x, y, z]");
    Vec3 v;
    for (int i = 0; i < 3; ++i)
        v[i] = numberAt(value[i], place + "[" + std::to_string(i) + "]", -largest, largest);
    return v;
}

ObjectReader::ObjectReader(const Json& value, std::string place, std::string within, ReadingNotes& notes,
                           KeptKeys& kept)
    : value_(value), place_(std::move(place)), within_(std::move(within)), notes_(notes), kept_(kept) {
    if (!value.is_object()) refuseType(value, place_.empty() ? "top of the file" : place_, "an object { ... }");
}

std::string ObjectReader::placeOf(const std::string& key) const {
    return joined(place_, key);
}
std::string ObjectReader::withinOf(const std::string& key) const {
    return joined(within_, key);
}

const Json* ObjectReader::optional(const std::string& key) {
    known_.push_back(key);
    const auto it = value_.find(key);
    return it == value_.end() ? nullptr : &*it;
}

bool ObjectReader::has(const std::string& key) {
    return optional(key) != nullptr;
}

const Json& ObjectReader::required(const std::string& key) {
    if (const Json* found = optional(key)) return *found;
    std::vector<std::string> present;
    for (auto it = value_.begin(); it != value_.end(); ++it)
        present.push_back(it.key());
    const std::string nearest = nearestName(key, present);
    throw InputFault("key_missing", "", placeOf(key), "the key '" + key + "' is missing",
                     nearest.empty() || nearest == key ? "add it" : "add it (is '" + nearest + "' meant?)");
}

void ObjectReader::noteDefault(const std::string& key, const std::string& value) {
    notes_.defaults.push_back(placeOf(key) + ": not given, " + value + " taken");
}

std::string ObjectReader::text(const std::string& key) {
    return textAt(required(key), placeOf(key));
}

std::string ObjectReader::textOr(const std::string& key, const std::string& standard) {
    const Json* found = optional(key);
    if (!found && !standard.empty()) noteDefault(key, standard);
    return found ? textAt(*found, placeOf(key)) : standard;
}

double ObjectReader::number(const std::string& key, double minimum, double maximum) {
    return numberAt(required(key), placeOf(key), minimum, maximum);
}

double ObjectReader::numberOr(const std::string& key, double standard, double minimum, double maximum) {
    const Json* found = optional(key);
    if (!found) noteDefault(key, numberText(standard));
    return found ? numberAt(*found, placeOf(key), minimum, maximum) : standard;
}

int ObjectReader::wholeOr(const std::string& key, int standard, int minimum, int maximum) {
    const double number = numberOr(key, standard, minimum, maximum);
    if (number != std::floor(number))
        throw InputFault("value_wrong_type", "", placeOf(key), numberText(number) + " is not a whole number",
                         "write a whole number from " + std::to_string(minimum) + " to " + std::to_string(maximum));
    return static_cast<int>(number);
}

bool ObjectReader::truthOr(const std::string& key, bool standard) {
    const Json* found = optional(key);
    if (!found) {
        noteDefault(key, standard ? "true" : "false");
        return standard;
    }
    if (!found->is_boolean()) refuseType(*found, placeOf(key), "true or false (without quotes)");
    return found->get<bool>();
}

Vec3 ObjectReader::vector(const std::string& key, double largest) {
    return vectorAt(required(key), placeOf(key), largest);
}

std::size_t ObjectReader::choice(const std::string& key, const std::vector<std::string>& names) {
    const std::string word = text(key);
    const auto it = std::find(names.begin(), names.end(), word);
    if (it != names.end()) return static_cast<std::size_t>(it - names.begin());
    const std::string nearest = nearestName(word, names);
    throw InputFault("value_unknown", "", placeOf(key), "'" + word + "' is not known here",
                     "write one of " + listed(names) + (nearest.empty() ? "" : " (is '" + nearest + "' meant?)"));
}

std::size_t ObjectReader::choiceOr(const std::string& key, const std::vector<std::string>& names,
                                   std::size_t standard) {
    if (has(key)) return choice(key, names);
    noteDefault(key, names[standard]);
    return standard;
}

std::map<std::string, double> ObjectReader::numbersOr(const std::string& key, double minimum, double maximum) {
    std::map<std::string, double> numbers;
    const Json* found = optional(key);
    if (!found) return numbers;
    if (!found->is_object()) refuseType(*found, placeOf(key), "an object { \"name\": number, ... }");
    for (auto it = found->begin(); it != found->end(); ++it)
        numbers[it.key()] = numberAt(it.value(), joined(placeOf(key), it.key()), minimum, maximum);
    return numbers;
}

ObjectReader ObjectReader::object(const std::string& key) {
    return {required(key), placeOf(key), withinOf(key), notes_, kept_};
}

void ObjectReader::each(
    const std::string& key,
    const std::function<void(const Json&, const std::string& place, const std::string& within)>& read) {
    const Json& list = required(key);
    if (!list.is_array()) refuseType(list, placeOf(key), "a list [ ... ]");
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string index = "[" + std::to_string(i) + "]";
        read(list[i], placeOf(key) + index, withinOf(key) + index);
    }
}

void ObjectReader::finish() {
    for (auto it = value_.begin(); it != value_.end(); ++it) {
        if (std::find(known_.begin(), known_.end(), it.key()) != known_.end()) continue;
        const std::string nearest = nearestName(it.key(), known_);
        notes_.unknown.push_back(placeOf(it.key()) + ": the key '" + it.key() + "' is not known" +
                                 (nearest.empty() ? "" : " (is '" + nearest + "' meant?)") +
                                 "; it is kept, but has no effect");
        kept_[within_ + "\n" + it.key()] = it.value().dump();
    }
}

void restoreKept(Json& object, const KeptKeys& kept) {
    for (const auto& [place, text] : kept) {
        const std::size_t cut = place.find('\n');
        if (cut == std::string::npos) continue;
        Json* at = &object;
        for (const std::string& step : stepsOf(place.substr(0, cut)))
            if (at) at = stepInto(at, step);
        const std::string key = place.substr(cut + 1);
        if (!at || !at->is_object() || at->contains(key)) continue;
        Json value = Json::parse(text, nullptr, false);
        if (!value.is_discarded()) (*at)[key] = std::move(value);
    }
}

}  // namespace waybench
