#include "core/material/stock_material.h"

namespace waybench {

const char* nameOf(StockGroup group) {
    switch (group) {
        case StockGroup::aluminium:
            return "aluminium";
        case StockGroup::brass:
            return "brass";
        case StockGroup::steel:
            return "steel";
        case StockGroup::stainless:
            return "stainless";
        case StockGroup::polymer:
            return "polymer";
        case StockGroup::panel:
            return "panel";
        case StockGroup::laminate:
            return "laminate";
    }
    return "";
}

bool isMetal(StockGroup group) {
    return group == StockGroup::aluminium || group == StockGroup::brass || group == StockGroup::steel ||
           group == StockGroup::stainless;
}

}  // namespace waybench
