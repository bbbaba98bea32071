#pragma once
#include <string>

#include "core/bench/shop.h"
#include "core/printed/heat.h"
#include "core/printed/print_body.h"
#include "core/printed/print_job.h"
#include "core/route/case_evaluation.h"
#include "core/route/route.h"
#include "core/route/workings.h"

namespace waybench::printed {

/// Relative uncertainty of the whole part's stiffness from the infill's law.
struct InfillSpread {
    double below = 0, above = 0;
};

/// One load case of the part, as the print carries it.
struct PrintedCase : CaseEvaluation {
    double heatFactor = 1;  ///< on every modulus, for a brief load
    StrengthFactor strength;
};

/// Everything the figures of a printed part are made from. The parts of the outcome below only read it.
struct PrintEvaluation {
    const RouteTask& part;
    const Recipe& recipe;
    const PrintingMaterial& material;
    const Printer& printer;
    const Tariff& tariff;
    bool isDraft = false;

    PrintJob job;
    PrintEnergy energy;
    Figure acrossRatio;  ///< strength across layers over in-layer, as this printer makes it
    InfillSpread infillSpread;
    std::vector<PrintedCase> cases{};  ///< one per load case
};

/// Lays the part out and solves every load case. @param part, recipe, shop outlive what is returned
/// @throws InputFault, Cancelled
PrintEvaluation evaluationOf(const RouteTask& part, const Recipe& recipe, const Shop& shop, const std::string& tariff,
                             Fidelity fidelity, const Task& task);

/// Whether the part, standing as it does with its brim, goes into the printer; it may be turned about the upward axis
/// by a quarter.
bool fitsPrinter(const PrintEvaluation& e);

/// Sets steps, times and their workings.
void addTimes(const PrintEvaluation& e, RouteOutcome& outcome);
/// Steps in the order of work. Everything that takes no time is left out.
std::vector<Step> stepsOf(const PrintEvaluation& e);
/// Deflection, stiffness, strength, temperature of one load case. Bands: the structure's own, modulus, heat and creep,
/// infill law and load spread, independent (printed-route.md 8).
CaseAnswer caseAnswer(const PrintEvaluation& e, const PrintedCase& c);
/// Mass, stock, waste, energy, carbon, cost. Precondition: times are set.
void addResourceFigures(const PrintEvaluation& e, RouteOutcome& outcome);
/// Accuracy of distances and holes, setups.
void addAccuracyFigures(const PrintEvaluation& e, RouteOutcome& outcome);
void addWarnings(const PrintEvaluation& e, RouteOutcome& outcome);
/// Assumptions, most influential first. Precondition: figures are there.
void addAssumptions(const PrintEvaluation& e, RouteOutcome& outcome);
void addDetails(const PrintEvaluation& e, RouteOutcome& outcome);
/// Layers, times by kind of path, energy by phase, material by use, for the document (RouteOutcome::summary).
void addSummary(const PrintEvaluation& e, RouteOutcome& outcome);
void addCautions(const PrintEvaluation& e, RouteOutcome& outcome);

}  // namespace waybench::printed
