#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/comparison/comparison.h"
#include "core/geometry/polygon.h"
#include "core/project/project.h"

namespace waybench {

/// A table of a sheet; numbers stand at the right of their columns.
struct SheetTable {
    struct Column {
        std::string title;
        double share = 1;  ///< of the width
        bool isNumber = false;
    };
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows;
};

/// What a line of a drawing shows; the painter chooses ink, weight and dash.
enum class SheetLine { part, material, blank, cut, hold, tab };

/// A drawing to scale, millimetres of the work, y up.
struct SheetDrawing {
    struct Stroke {
        SheetLine line = SheetLine::part;
        std::vector<Vec2> points;
        bool isClosed = false;
    };
    struct Label {
        Vec2 at = Vec2::Zero();
        std::string text;
    };
    std::string caption;
    std::vector<Region> material;  ///< filled
    std::vector<Stroke> strokes;
    std::vector<Label> labels;
    std::optional<Vec2> zero;  ///< where x and y are zero
};

/// A part of a sheet under a heading of its own.
struct SheetBlock {
    std::string heading;
    std::optional<SheetDrawing> drawing;
    std::optional<SheetTable> table;
    std::vector<std::string> lines;  ///< below drawing and table
    bool isChecklist = false;        ///< lines to be ticked off at the machine
};

/// A sheet for the one who makes the part, as plain data; app/page paints it. No number that is not in the answer.
struct Sheet {
    std::string documentType, partName, projectTitle, summary, identification, author, date, fileHash, programVersion;
    std::vector<SheetBlock> blocks;
};

/// Title block of a project's part.
Sheet sheetFor(const Project& project, const Part& part, const std::string& documentType);

/// What blocks the route and what it cautions of; no lines where there is nothing.
SheetBlock risksBlock(const RouteOutcome& outcome);
/// Steps with their minutes, added up.
SheetTable stepTable(const std::vector<Step>& steps);
std::string minutesText(double seconds);

/// For the mill: blank, zero point, every set-up with its picture, holding and operations, tools, times, what to check
/// before starting, cautions. Plans the work anew. @throws InputFault, Cancelled
Sheet setupSheet(const Project& project, const Comparison& comparison, const Shop& shop, const Task& task);

/// For the printer: material, how the part stands, settings, time and material, what to do after, cautions.
/// @throws InputFault, Cancelled
Sheet printSheet(const Project& project, const Comparison& comparison, const Shop& shop, const Task& task);

}  // namespace waybench
