#pragma once
#include <memory>
#include <string>
#include <vector>

#include "core/bench/shop.h"
#include "core/loadcase/load_case.h"
#include "core/progress/task.h"
#include "core/route/outcome.h"

namespace waybench {

/// The part as one route is asked to make it.
struct RouteTask {
    std::string partName;
    std::shared_ptr<const Solid> solid;
    LoadCase loadCase;
    std::vector<LoadCase> furtherLoadCases{};  ///< each must hold as well

    std::vector<LoadCase> loadCases() const { return inOneRow(loadCase, furtherLoadCases); }
};

/// Times the strength factor asked for, beyond which the stress need not be resolved to the averaging length.
inline constexpr double kComfortable = 3;

/// The small interface every way of making a part answers. A third route is one more implementation.
class Route {
public:
    virtual ~Route() = default;
    virtual RouteKind kind() const = 0;
    /// Full answer. Draft must come within about 0.1 s of the standard's order for parts of fixture size.
    /// @throws InputFault, Cancelled
    virtual RouteOutcome evaluate(const RouteTask& part, Fidelity fidelity, const Task& task) const = 0;
};

}  // namespace waybench
