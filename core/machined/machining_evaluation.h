#pragma once
#include <memory>
#include <optional>
#include <string>

#include "core/bench/shop.h"
#include "core/machined/access_grid.h"
#include "core/machined/holding.h"
#include "core/machined/operations.h"
#include "core/machined/removal.h"
#include "core/machined/stock_choice.h"
#include "core/route/case_evaluation.h"
#include "core/route/route.h"
#include "core/route/workings.h"

namespace waybench::machined {

/// One load case of the part, as the machined part carries it.
struct MachinedCase : CaseEvaluation {
    Figure strength;  ///< MPa
    std::string strengthReason;
};

/// Everything the figures of a machined part are made from. The parts of the outcome below only read it.
struct MachiningEvaluation {
    /// @throws InputFault "tariff_unknown" and what checkKeys says
    MachiningEvaluation(const RouteTask& task, const Shop& workshopTables, const Plan& chosen,
                        const std::string& tariffKey);

    const RouteTask& part;
    const Shop& shop;
    const Plan& plan;
    const StockMaterial& material;
    const Mill& mill;
    const Tariff& tariff;
    Workshop workshop;

    AccessPlan access;
    std::vector<SetUp> setUps;
    StockChoice stock;
    OperationPlan work;
    std::vector<HoldingCheck> holding;  ///< one per set-up
    TabCheck tabs;
    std::optional<RemovalProof> proof;  ///< not in drafts
    int clampings = 1;                  ///< set-ups, the turn for a deep outline included
    double part_mm3 = 0;
    Vec3 size_mm = Vec3::Zero();  ///< of the part, part coordinates
    /// Blank around the part, where it is narrowest. Precondition: set-ups and stock stand.
    double margin_mm() const {
        return 0.5 * (stock.size_mm - boundsOf(setUps.front().mesh).size()).head<2>().minCoeff();
    }
    /// The part is cut out of its blank in the first set-up.
    bool cutsOut() const;
    double mostRemoved_mm3() const { return stock.volume_mm3() - part_mm3; }

    std::vector<MachinedCase> cases{};  ///< one per load case
};

/// Access, set-ups, blank, operations, holding and, in standard fidelity, the proof by simulation.
void planWork(MachiningEvaluation& e, Fidelity fidelity, const Task& task);

double runSeconds(const OperationPlan& work);      ///< all operations
double cuttingSeconds(const OperationPlan& work);  ///< of these, at feed

/// Steps in the order of work; they are the times. Programming is not among them.
std::vector<Step> stepsOf(const MachiningEvaluation& e);
void addTimes(const MachiningEvaluation& e, RouteOutcome& outcome);
/// Deflection, stiffness, strength, temperature of one load case. Bands: the structure's own, modulus, heat and creep,
/// load spread.
CaseAnswer caseAnswer(const MachiningEvaluation& e, const MachinedCase& c);
/// Mass, stock, waste, energy, carbon, cost. Precondition: times are set.
void addResourceFigures(const MachiningEvaluation& e, RouteOutcome& outcome);
/// Accuracy of sizes and holes, set-ups.
void addAccuracyFigures(const MachiningEvaluation& e, RouteOutcome& outcome);
void addWarnings(const MachiningEvaluation& e, RouteOutcome& outcome);
/// Assumptions, most influential first. Precondition: figures are there.
void addAssumptions(const MachiningEvaluation& e, RouteOutcome& outcome);
void addDetails(const MachiningEvaluation& e, RouteOutcome& outcome);
void addCautions(const MachiningEvaluation& e, RouteOutcome& outcome);

}  // namespace waybench::machined
