#pragma once
#include <string>
#include <vector>

#include "core/machined/cutting_choice.h"
#include "core/machined/plan.h"
#include "core/machined/reach.h"
#include "core/machined/tool_path.h"

namespace waybench::machined {

/// Order of work within a set-up.
enum class OperationKind {
    facing,
    pocket,
    rest,
    surface,
    drilling,
    boring,
    finishing,
    edge_break,
    outline,
    outline_finish
};
const char* nameOf(OperationKind kind);

/// One tool doing one kind of work in one set-up.
struct Operation {
    OperationKind kind = OperationKind::pocket;
    int setUp = 0;
    const Tool* tool = nullptr;
    CuttingData cutting;
    double seconds = 0, cutting_seconds = 0;
    double cut_mm = 0;  ///< way at feed, all levels
    double removed_mm3 = 0;
    double reach_mm = 0;  ///< how deep the tool goes below what stands around it
    int levels = 0;
    std::vector<std::vector<Pass>> passes;  ///< of one level of each place worked, in the set-up's frame
    std::vector<double> heights_mm;         ///< of the lowest level of each place
};

/// How far cuts that go through a part go beyond its underside, mm.
inline constexpr double kBreakThrough_mm = 0.3;

/// Lowest point of the tool at one of an operation's places, set-up's frame: through cuts and the points of drills go
/// beyond the part, no tool deeper below the top than it stands out.
/// @param isHalf the outline is cut half from either side
double lowestPoint(const Operation& operation, std::size_t place, const SetUp& setUp, bool isHalf);

/// Material that stays because no cutter of the rack fits in or reaches down.
struct Leftover {
    Vec3 place = Vec3::Zero();  ///< part coordinates
    double volume_mm3 = 0;
    double share = 0;            ///< of the pocket or hole it belongs to
    double cornerRadius_mm = 0;  ///< what the smallest fitting cutter leaves; 0 when none fits
    bool isSlice = false;        ///< of a curved space: shares of all slices together count
    bool tooDeep = false;        ///< a cutter would fit but none is long enough
    double depth_mm = 0;
};

/// What the operations of all set-ups are planned from.
struct Workshop {
    const StockMaterial* material = nullptr;
    const Mill* mill = nullptr;
    Plan plan;
    std::vector<const Tool*> endMills;  ///< largest first, those the plan allows and the material can be cut with
    std::vector<const Tool*> drills, chamfers;
};
Workshop workshopFor(const Shop& shop, const Plan& plan);
ToolReach reachOf(const Workshop& shop);

/// Everything cut, and what could not be.
struct OperationPlan {
    std::vector<Operation> operations;  ///< in the order of work
    std::vector<Leftover> leftovers;
    int tabs = 0;
    double tabEdge_mm = 0;             ///< not cut
    bool needsTurnForOutline = false;  ///< the outline is deeper than any cutter is long: half from either side
    int helicalHoles = 0, drilledHoles = 0;
    double edge_mm = 0;  ///< length of edges to be broken
};

/// Adds to the plan, joining work of the same kind, tool and set-up.
void addWork(OperationPlan& plan, OperationKind kind, int setUp, const Tool& tool, const CuttingData& cutting,
             const std::vector<Pass>& passes, const PathTime& oneLevel, int levels, double removed_mm3, double reach_mm,
             double height_mm);

/// Passes nearer than this are joined at feed, mm.
double linkFor(const Tool& tool);
CutMotion motionFor(const Workshop& shop, const CuttingData& cutting, const Tool& tool, double step_mm, double lift_mm);
int levelsFor(double depth_mm, double step_mm);

}  // namespace waybench::machined
