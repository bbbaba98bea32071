#pragma once
#include "core/machined/plan.h"
#include "core/route/route.h"

namespace waybench::machined {

/// The three-axis milled way. Holds references; the shop must outlive it.
class MachinedRoute : public Route {
public:
    MachinedRoute(const Shop& shop, Plan plan, std::string tariff);
    RouteKind kind() const override { return RouteKind::machined; }
    RouteOutcome evaluate(const RouteTask& part, Fidelity fidelity, const Task& task) const override;

private:
    const Shop& shop_;
    Plan plan_;
    std::string tariff_;
};

}  // namespace waybench::machined
