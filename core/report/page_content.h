#pragma once
#include <string>
#include <vector>

#include "core/comparison/sweep.h"
#include "core/project/project.h"

namespace waybench {

/// One printed row of the page's ledger, already rounded.
struct PageRow {
    std::string title, printed, machined, limit, ahead;
    Figure printedFigure, machinedFigure;
    LedgerRow::Ahead aheadRoute = LedgerRow::Ahead::not_ranked;
};

/// What stands on the one page, as plain data; app/page paints it. No number here that is not in the comparison.
struct PageContent {
    std::string title, projectTitle, partName, shape, identification, author, date, documentType, sheet, programVersion,
        fileHash;
    std::string verdict;
    bool isDraft = false;
    std::vector<std::string> reasons, requirement, wouldChange, risks, cautions, sources;
    std::string printedRecipe, machinedRecipe;
    std::vector<PageRow> rows;
    std::vector<std::pair<std::string, std::string>> assumptions;  ///< name and value; most influential first
    std::string decisionRule, bandMeaning;
    /// what-if plot: deflection against a thickness
    std::string plotTitle, plotAxis, plotAxisY;
    std::vector<double> plotX;
    std::vector<Figure> plotPrinted, plotMachined;
    double plotLimit = 0, plotHere = 0;
    std::vector<std::string> plotCrossings;
    std::string plotMissing = "No thickness to vary: this shape has no editable dimension.";  ///< said without a plot
};

/// What the page's what-if varies: the first length both routes have alike, else the load. Precondition: not empty.
const Variable& pageVariable(const std::vector<Variable>& variables, const Part& part);

/// What the page's what-if covers: half to twice the present value, inside the variable's own range.
struct PageSweepRange {
    double from = 0, to = 0;
    int points = 7;
    bool isOpen() const { return from < to; }
};
PageSweepRange pageSweepRange(const Variable& variable);

PageContent pageContent(const Project& project, const Comparison& comparison, const Sweep* whatIf, const Shop& shop);

}  // namespace waybench
