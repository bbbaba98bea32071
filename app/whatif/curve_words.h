#pragma once
#include <QString>

namespace waybench {

struct CurveContent;

/// What the curves say, for a reader who does not see them: finding, limit, and every figure with its band.
QString inWords(const CurveContent& content);

}  // namespace waybench
