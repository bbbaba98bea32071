#pragma once
#include "core/report/page_content.h"

namespace waybench {

/// The what-if of the page: size of the deflection of both routes against the swept variable at the valid points, the
/// limit, where the part stands, and the crossings in words. The title states the finding.
void fillPlot(PageContent& page, const Sweep& whatIf, const Comparison& comparison);

}  // namespace waybench
