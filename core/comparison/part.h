#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/geometry/shape.h"
#include "core/loadcase/load_case.h"
#include "core/machined/plan.h"
#include "core/printed/recipe.h"

namespace waybench {

/// One fixture part as the user describes it; what a project file holds per part.
struct Part {
    std::string name;
    std::string note;
    Shape shape;
    DimensionValues printedDimensions, machinedDimensions;  ///< where a route differs from the shape
    LoadCase loadCase;
    std::vector<LoadCase> furtherLoadCases;  ///< each must hold as well; held, loaded and measured as it says itself
    printed::Recipe recipe;
    machined::Plan plan;
    std::map<std::string, double> weights;           ///< question key -> weight 0..1 in the ranking; missing = standard
    std::string chosenRoute;                         ///< "", "printed" or "machined": what the user settled on
    std::map<std::string, std::string> unknownKeys;  ///< of the project file: kept and written back, no effect
    bool operator==(const Part&) const = default;

    /// loadCase and furtherLoadCases in one row; an index names a load case everywhere.
    std::size_t loadCaseCount() const { return 1 + furtherLoadCases.size(); }
    const LoadCase& loadCaseAt(std::size_t index) const {
        return index == 0 ? loadCase : furtherLoadCases.at(index - 1);
    }
    LoadCase& loadCaseAt(std::size_t index) { return index == 0 ? loadCase : furtherLoadCases.at(index - 1); }
    std::vector<LoadCase> loadCases() const { return inOneRow(loadCase, furtherLoadCases); }
};

}  // namespace waybench
