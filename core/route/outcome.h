#pragma once
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/geometry/solid.h"
#include "core/loadcase/load_case.h"
#include "core/quantity/figure.h"
#include "core/structure/structure.h"

namespace waybench {

/// The questions both routes answer. A new row of the ledger is one entry here and one in question.cpp.
enum class Question {
    deflection,
    deflection_max,
    stiffness,
    strength_margin,
    temperature_margin,
    mass,
    machine_time,
    hands_on_time,
    elapsed_time,
    process_energy,
    embodied_energy,
    carbon,
    cost,
    stock,
    waste,
    accuracy,
    hole_accuracy,
    setups
};

struct QuestionText {
    Question question;
    std::string key;    ///< JSON key: "deflection"
    std::string title;  ///< ledger: "deflection"
    Unit unit;
    bool smallerIsBetter;
    bool isRanked;          ///< takes part in the ranking by weights
    double standardWeight;  ///< 0..1 default weight in the ranking
    std::string meaning;    ///< one sentence: what is counted
};
const std::vector<QuestionText>& questions();
const QuestionText& textOf(Question question);
const QuestionText* questionNamed(const std::string& key);  ///< nullptr when unknown

/// One step of making the part. seconds count once in the elapsed time; the machine and hands-on parts may overlap.
struct Step {
    std::string name;
    double seconds = 0;           ///< elapsed
    double machine_seconds = 0;   ///< machine occupied
    double hands_on_seconds = 0;  ///< a person bound
};

enum class Severity { note, caution, blocking };
const char* nameOf(Severity severity);

struct RouteWarning {
    std::string code;  ///< stable: "undercut", "overhang", "corner_radius"
    Severity severity = Severity::note;
    std::string text;  ///< what, where, remedy
};

/// An assumption somebody can dispute.
struct Assumption {
    std::string name;  ///< "modulus in the layer"
    Figure figure;
    std::string effectOn;  ///< what it moves most: "deflection"
};

enum class RouteKind { printed, machined };
const char* nameOf(RouteKind kind);

/// Whether the answer hangs on the load case: deflections, stiffness, margins.
bool hangsOnLoads(Question question);

/// "[emergency stop] ", or nothing where there is one load case only: what texts about one of several begin with.
std::string caseHeading(const LoadCase& loadCase, std::size_t count);

/// What one route answers about one of the part's load cases.
struct CaseAnswer {
    LoadCase loadCase;
    std::map<Question, Figure> figures;        ///< for every question that hangs on the loads
    std::map<Question, std::string> workings;  ///< of these
    std::shared_ptr<const StructureAnswer> structure;
};
/// Demand over capacity on the values, the greater of deflection over its limit and required over present strength
/// margin.
double demandOf(const CaseAnswer& answer);

/// Figures of the making under stable keys, by group: what a reader of the document may go on reckoning with. The route
/// says which there are.
struct SummaryGroup {
    std::string key;                                      ///< "path_time"
    std::vector<std::pair<std::string, Figure>> figures;  ///< "outer_contour"
};

/// Everything one route answers about one part. Invariants (checked by checkOutcome): figures for every Question;
/// step sums equal machine, hands-on and elapsed time within 0.1 s; stock = mass + waste within 0.1 g;
/// feasible == no blocking warning.
struct RouteOutcome {
    RouteKind kind = RouteKind::printed;
    bool feasible = true;
    std::string recipe;                        ///< one line: "PETG, 0.2 mm layers, 3 walls, 30 % gyroid, stands on -z"
    std::map<Question, Figure> figures;        ///< what hangs on the loads: of the load case shown
    std::map<Question, std::string> workings;  ///< formula with this part's numbers and its source, per question
    std::vector<CaseAnswer> cases;             ///< one per load case of the part, in its order
    std::size_t shownCase = 0;                 ///< whose figures, workings and structure stand here
    std::vector<Step> steps;
    std::vector<RouteWarning> warnings;
    std::vector<Assumption> assumptions;                  ///< most influential first
    std::vector<std::pair<std::string, Figure>> details;  ///< further breakdown: energy by phase, layers, support share
    std::shared_ptr<const Solid> solid;                   ///< the shape this route makes
    std::shared_ptr<const StructureAnswer> structure;     ///< of the load case shown
    std::vector<std::string> cautions;
    std::vector<SummaryGroup> summary;  ///< of the making, for the document

    const Figure& at(Question q) const { return figures.at(q); }
    /// The same for one load case; what does not hang on the loads is the same for all.
    const Figure& at(Question q, std::size_t loadCase) const;
    Figure& at(Question q, std::size_t loadCase);
    std::size_t caseCount() const { return cases.empty() ? 1 : cases.size(); }
    std::string workingOf(Question q, std::size_t loadCase) const;  ///< empty where there is none
};

/// The load case with the greatest demand over capacity; the first where there are no cases. The first of equal ones.
std::size_t worstCaseOf(const RouteOutcome& outcome);
/// First natural frequency under one load case's holds, with what is attached, where it is known: the solver's, with
/// the spread of the stiffness (modulus, heat, infill, seats), whose root it follows.
std::optional<Figure> naturalFrequency(const RouteOutcome& outcome, std::size_t loadCase);
/// Puts the figures, workings and structure of one load case in the outcome's own, its natural frequency first among
/// the details. No effect without cases.
void showCase(RouteOutcome& outcome, std::size_t loadCase);

/// Fills machine_time, hands_on_time, elapsed_time from the steps, with relative bands whose causes the steps share.
/// In the elapsed time the hands-on band applies where a person and not the machine sets the pace, the machine's band
/// to the rest (waiting included).
void setTimes(RouteOutcome& outcome, double below, double above, double handsOnBelow, double handsOnAbove);
/// Sets feasible from the warnings and verifies the invariants. @throws std::logic_error naming the broken one
void checkOutcome(RouteOutcome& outcome);

}  // namespace waybench
