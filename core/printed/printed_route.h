#pragma once
#include "core/printed/recipe.h"
#include "core/route/route.h"

namespace waybench::printed {

/// The filament-printed way. Holds references; the shop must outlive it.
class PrintedRoute : public Route {
public:
    PrintedRoute(const Shop& shop, Recipe recipe, std::string tariff);
    RouteKind kind() const override { return RouteKind::printed; }
    RouteOutcome evaluate(const RouteTask& part, Fidelity fidelity, const Task& task) const override;

private:
    const Shop& shop_;
    Recipe recipe_;
    std::string tariff_;
};

}  // namespace waybench::printed
