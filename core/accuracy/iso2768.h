#pragma once
#include <filesystem>
#include <optional>
#include <vector>

#include "core/accuracy/size_steps.h"

namespace waybench {

/// General tolerance classes for linear sizes, ISO 2768-1.
enum class LinearClass { f, m, c, v };
const char* nameOf(LinearClass c);
/// Classes for flatness and straightness, ISO 2768-2 (withdrawn 2021, from memory; for information).
enum class FlatnessClass { H, K, L };
const char* nameOf(FlatnessClass c);

/// General tolerances of a drawing without individual ones. Tables from resources/standards/iso2768.json.
class Iso2768 {
public:
    /// @throws InputFault "standard_unreadable"
    static Iso2768 read(const std::filesystem::path& file);

    /// Permissible deviation to each side, mm; nothing where the standard has none (below 0.5 mm, class f above
    /// 2000 mm, class v up to 3 mm, above 4000 mm).
    std::optional<double> linearDeviation_mm(LinearClass c, double size_mm) const;
    /// Finest class that permits a deviation of +-deviation; nothing when none does.
    std::optional<LinearClass> classOfDeviation(double deviation_mm, double size_mm) const;
    /// Permissible flatness, mm, by the longer side; nothing above 3000 mm.
    std::optional<double> flatness_mm(FlatnessClass c, double length_mm) const;

private:
    SizeSteps linearSteps_, flatnessSteps_;
    std::vector<std::vector<std::optional<double>>> linear_, flatness_;
};

}  // namespace waybench
