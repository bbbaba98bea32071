#pragma once
#include "core/bench/catalogue_json.h"

namespace waybench {

/// One reader for each kind of entry; each asks for every key its kind has and refuses the rest.
PrintingMaterial readPrintingMaterial(CatalogueEntry entry);
StockMaterial readStockMaterial(CatalogueEntry entry);
Printer readPrinter(CatalogueEntry entry);
Mill readMill(CatalogueEntry entry);
Tool readTool(CatalogueEntry entry);
Workholding readWorkholding(CatalogueEntry entry);
StockPiece readStockPiece(CatalogueEntry entry);
Tariff readTariff(CatalogueEntry entry);

namespace catalogue {
// Units as written in the files. Those without a Unit of their own carry it in the name of the field.
inline constexpr CatalogueUnit kRatio{"-", Unit::none};
inline constexpr CatalogueUnit kMillimetre{"mm", Unit::millimetre};
inline constexpr CatalogueUnit kNewton{"N", Unit::newton};
inline constexpr CatalogueUnit kKilopascal{"kPa", Unit::none};
inline constexpr CatalogueUnit kMegapascal{"MPa", Unit::megapascal};
inline constexpr CatalogueUnit kNewtonPerMillimetre{"N/mm", Unit::newton_per_millimetre};
inline constexpr CatalogueUnit kSecond{"s", Unit::second};
inline constexpr CatalogueUnit kHour{"h", Unit::hour};
inline constexpr CatalogueUnit kCelsius{"degC", Unit::celsius};
inline constexpr CatalogueUnit kWatt{"W", Unit::watt};
inline constexpr CatalogueUnit kMillimetrePerSecond{"mm/s", Unit::millimetre_per_second};
inline constexpr CatalogueUnit kPerMinute{"1/min", Unit::revolutions_per_minute};
inline constexpr CatalogueUnit kMillimetrePerSecond2{"mm/s2", Unit::none};
inline constexpr CatalogueUnit kGram{"g", Unit::gram};
inline constexpr CatalogueUnit kGramPerCm3{"g/cm3", Unit::none};
inline constexpr CatalogueUnit kPerKelvin{"1/K", Unit::none};
inline constexpr CatalogueUnit kMegajoulePerKg{"MJ/kg", Unit::none};
inline constexpr CatalogueUnit kKgPerKg{"kg/kg", Unit::none};
inline constexpr CatalogueUnit kMoney{"EUR", Unit::money};
inline constexpr CatalogueUnit kMoneyPerKg{"EUR/kg", Unit::money};
inline constexpr CatalogueUnit kMoneyPerHour{"EUR/h", Unit::money};
}  // namespace catalogue

}  // namespace waybench
