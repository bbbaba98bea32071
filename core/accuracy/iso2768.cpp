#include "core/accuracy/iso2768.h"

#include <nlohmann/json.hpp>

#include "core/fault/input_fault.h"

namespace waybench {

namespace {

using Rows = std::vector<std::vector<std::optional<double>>>;

/// The rows of a table in the order of the class names, which must all be there and no other.
Rows readClasses(const nlohmann::json& table, const std::vector<std::string>& names, const std::string& rowKey,
                 size_t count, const std::filesystem::path& file) {
    const auto wrong = [&] {
        return InputFault("standard_unreadable", file.filename().string(), "key 'classes'",
                          "the classes are not those of the standard", "restore the table from the installed program");
    };
    if (!table.contains("classes") || !table["classes"].is_array() || table["classes"].size() != names.size())
        throw wrong();
    Rows rows;
    for (size_t i = 0; i < names.size(); ++i) {
        const nlohmann::json& row = table["classes"][i];
        if (!row.is_object() || !row.contains("key") || row["key"] != names[i]) throw wrong();
        rows.push_back(standards::readRow(row, rowKey, count, file));
    }
    return rows;
}

}  // namespace

const char* nameOf(LinearClass c) {
    switch (c) {
        case LinearClass::f:
            return "f";
        case LinearClass::m:
            return "m";
        case LinearClass::c:
            return "c";
        case LinearClass::v:
            return "v";
    }
    return "";
}

const char* nameOf(FlatnessClass c) {
    switch (c) {
        case FlatnessClass::H:
            return "H";
        case FlatnessClass::K:
            return "K";
        case FlatnessClass::L:
            return "L";
    }
    return "";
}

Iso2768 Iso2768::read(const std::filesystem::path& file) {
    const nlohmann::json table = standards::readTable(file);
    if (!table.contains("linear") || !table.contains("flatness"))
        throw InputFault("standard_unreadable", file.filename().string(), "", "linear or flatness table is missing",
                         "restore the table from the installed program");
    Iso2768 iso;
    iso.linearSteps_ = standards::readSteps(table["linear"], "size_steps", file);
    iso.linear_ = readClasses(table["linear"], {"f", "m", "c", "v"}, "deviations", iso.linearSteps_.count(), file);
    iso.flatnessSteps_ = standards::readSteps(table["flatness"], "length_steps", file);
    iso.flatness_ = readClasses(table["flatness"], {"H", "K", "L"}, "tolerances", iso.flatnessSteps_.count(), file);
    return iso;
}

std::optional<double> Iso2768::linearDeviation_mm(LinearClass c, double size_mm) const {
    const auto step = linearSteps_.stepOf(size_mm, true);
    if (!step) return std::nullopt;
    return linear_[static_cast<size_t>(c)][*step];
}

std::optional<LinearClass> Iso2768::classOfDeviation(double deviation_mm, double size_mm) const {
    for (LinearClass c : {LinearClass::f, LinearClass::m, LinearClass::c, LinearClass::v}) {
        const auto permitted = linearDeviation_mm(c, size_mm);
        if (permitted && *permitted >= deviation_mm - 1e-9) return c;
    }
    return std::nullopt;
}

std::optional<double> Iso2768::flatness_mm(FlatnessClass c, double length_mm) const {
    const auto step = flatnessSteps_.stepOf(length_mm);
    if (!step) return std::nullopt;
    return flatness_[static_cast<size_t>(c)][*step];
}

}  // namespace waybench
