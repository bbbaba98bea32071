#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/bench/mill.h"
#include "core/bench/printer.h"
#include "core/bench/workholding.h"
#include "core/material/printing_material.h"
#include "core/material/stock_material.h"

namespace waybench {

/// A plate or block on the shelf. From resources/stock/shelf.json.
struct StockPiece {
    std::string key, title;
    std::string material;         ///< key of a StockMaterial
    Vec3 size_mm = Vec3::Zero();  ///< length, width, thickness as bought
    bool isOffcut = false;        ///< used whole; else the needed rectangle is sawn from it
    std::string source;
};

/// Rates of the workshop. From resources/tariffs/*.json.
struct Tariff {
    std::string key, title, currency;
    Figure electricity_per_kWh, labour_per_h, carbon_kg_per_kWh;
    Figure primaryEnergyFactor;  ///< primary energy over the electricity metered
    std::string date;            ///< of the table, ISO
};

/// A published source a figure's note can point to.
struct SourceEntry {
    std::string key, text;
};

/// All that stands in the workshop: read once, then constant.
struct Shop {
    std::filesystem::path folder;  ///< the tables were read here; standards/ with the tolerance tables lies in it
    std::vector<PrintingMaterial> printingMaterials;
    std::vector<StockMaterial> stockMaterials;
    std::vector<Printer> printers;
    std::vector<Mill> mills;
    std::vector<Tool> tools;
    std::vector<Workholding> workholdings;
    std::vector<StockPiece> shelf;
    std::vector<Tariff> tariffs;
    std::map<std::string, SourceEntry> sources;

    const PrintingMaterial& printingMaterial(const std::string& key) const;  ///< throws InputFault "material_unknown"
    const StockMaterial& stockMaterial(const std::string& key) const;
    const Printer& printer(const std::string& key) const;  ///< throws InputFault "printer_unknown"
    const Mill& mill(const std::string& key) const;
    const Workholding& workholding(const std::string& key) const;
    const Tariff& tariff(const std::string& key) const;
    /// The published sources whose keys stand in a figure's note, in the order of the note.
    std::vector<SourceEntry> sourcesNamedIn(const std::string& note) const;
};

/// Reads resources/. @throws InputFault with file and key for anything missing, unknown, non-finite, unordered bounds
/// or a source key that resources/sources.json does not have. Codes begin with "resource_"; the file is named
/// relative to the folder.
Shop readShop(const std::filesystem::path& resources);

/// Folder of the shipped resources: $WAYBENCH_RESOURCES, else the install prefix, else the source tree the build knows.
std::filesystem::path resourceFolder();

}  // namespace waybench
