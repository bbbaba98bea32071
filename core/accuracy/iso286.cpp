#include "core/accuracy/iso286.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

size_t stepFor(const SizeSteps& steps, double size_mm) {
    if (const auto step = steps.stepOf(size_mm)) return *step;
    throw InputFault("size_out_of_range", "", "size",
                     "ISO 286-1 has no tolerance for " +
                         (std::isfinite(size_mm) ? plainNumber(size_mm) + " mm" : std::string("this size")),
                     "give a size over 0 up to " + plainNumber(steps.limits_mm().back()) + " mm");
}

}  // namespace

Iso286 Iso286::read(const std::filesystem::path& file) {
    const nlohmann::json table = standards::readTable(file);
    Iso286 iso;
    iso.steps_ = standards::readSteps(table, "size_steps", file);
    if (!table.contains("grades") || !table["grades"].is_array() || table["grades"].empty())
        throw InputFault("standard_unreadable", file.filename().string(), "key 'grades'", "a list of grades is needed",
                         "restore the table from the installed program");
    for (const nlohmann::json& row : table["grades"]) {
        std::vector<double> tolerances;
        for (const auto& value : standards::readRow(row, "tolerances", iso.steps_.count(), file))
            if (value) tolerances.push_back(*value);
        if (!row.contains("grade") || !row["grade"].is_number_integer() || tolerances.size() != iso.steps_.count())
            throw InputFault("standard_unreadable", file.filename().string(), "key 'grades'",
                             "each grade needs its number and a tolerance for every step",
                             "restore the table from the installed program");
        iso.rows_um_[row["grade"].get<int>()] = std::move(tolerances);
    }
    return iso;
}

double Iso286::tolerance_mm(int grade, double size_mm) const {
    const size_t step = stepFor(steps_, size_mm);
    const auto row = rows_um_.find(grade);
    if (row == rows_um_.end())
        throw InputFault("grade_unknown", "", "grade", "grade IT" + std::to_string(grade) + " is not in the table",
                         "use IT" + std::to_string(finestGrade()) + " to IT" + std::to_string(coarsestGrade()));
    return row->second[step] / 1000;
}

std::optional<int> Iso286::gradeOfBand(double band_mm, double size_mm) const {
    const size_t step = stepFor(steps_, size_mm);
    for (const auto& [grade, row] : rows_um_)
        if (row[step] / 1000 >= band_mm - 1e-9) return grade;
    return std::nullopt;
}

double Iso286::toleranceUnit_um(double lower_mm, double upper_mm) {
    const double D = std::sqrt((lower_mm <= 0 ? 1.0 : lower_mm) * upper_mm);
    return 0.45 * std::cbrt(D) + 0.001 * D;
}

}  // namespace waybench
