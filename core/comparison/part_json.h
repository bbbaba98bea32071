#pragma once
#include "core/comparison/json_text.h"
#include "core/comparison/part.h"

namespace waybench {

/// How a part, its load case and its settings are written; project file and comparison document share this. Keys carry
/// the unit ("force_N", "deflection_limit_mm"), numbers are plain.
Json shapeJson(const Shape& shape);
Json selectorJson(const FaceSelector& selector);
Json loadCaseJson(const LoadCase& loadCase);
Json recipeJson(const printed::Recipe& recipe);
Json planJson(const machined::Plan& plan);
Json vectorJson(const Vec3& v);
Json dimensionsJson(const DimensionValues& values);

}  // namespace waybench
