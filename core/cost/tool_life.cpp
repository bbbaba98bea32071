#include "core/cost/tool_life.h"

#include <cmath>
#include <stdexcept>

namespace waybench {

double taylorLife_min(double speed_m_per_min, double exponent, double constant_m_per_min) {
    if (!(speed_m_per_min > 0) || !(exponent > 0) || !(constant_m_per_min > 0))
        throw std::logic_error("Taylor tool life: speed, exponent and constant must be positive");
    return std::pow(constant_m_per_min / speed_m_per_min, 1 / exponent);
}

double taylorSpeed_m_per_min(double life_min, double exponent, double constant_m_per_min) {
    if (!(life_min > 0) || !(exponent > 0) || !(constant_m_per_min > 0))
        throw std::logic_error("Taylor tool life: life, exponent and constant must be positive");
    return constant_m_per_min / std::pow(life_min, exponent);
}

}  // namespace waybench
