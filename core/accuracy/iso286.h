#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <vector>

#include "core/accuracy/size_steps.h"

namespace waybench {

/// Standard tolerance grades IT5 to IT18 of ISO 286-1, sizes over 0 up to 500 mm.
///
/// The table is the authority (resources/standards/iso286.json, with a source beside each grade); the formula of the
/// tolerance unit only checks it. Grades 15 to 18 are from memory.
class Iso286 {
public:
    /// @throws InputFault "standard_unreadable"
    static Iso286 read(const std::filesystem::path& file);

    /// Width of the tolerance zone, mm.
    /// @throws InputFault "size_out_of_range", "grade_unknown"
    double tolerance_mm(int grade, double size_mm) const;
    /// The finest grade whose zone holds the whole band (upper minus lower deviation); nothing when even the coarsest
    /// grade is narrower. A process of deviation +-d has the band 2 d.
    /// @throws InputFault "size_out_of_range"
    std::optional<int> gradeOfBand(double band_mm, double size_mm) const;
    int finestGrade() const { return rows_um_.begin()->first; }
    int coarsestGrade() const { return rows_um_.rbegin()->first; }
    const SizeSteps& steps() const { return steps_; }

    /// i = 0.45 D^(1/3) + 0.001 D in um, D = geometric mean of the step's limits in mm (ISO 286-1, basis of IT5 to
    /// IT18 up to 500 mm). The first step uses 1 to 3 mm.
    static double toleranceUnit_um(double lower_mm, double upper_mm);

private:
    SizeSteps steps_;
    std::map<int, std::vector<double>> rows_um_;
};

}  // namespace waybench
