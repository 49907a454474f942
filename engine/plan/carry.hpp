// What has to be carried to treat a number of trees by one card: totals with a reserve, and the
// containers to open.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "measure/quantity.hpp"
#include "plan/tank_loads.hpp"

namespace ashtriage::plan {

struct Containers {
    treat::StatedAmount size;
    int count = 0;
};

struct Carried {
    treat::Part part = treat::Part::product;
    std::string what;
    treat::Amount planned;
    treat::Amount with_reserve;                       // rounded up to the tick
    std::vector<Containers> containers;               // of product, where the card names sizes
    std::optional<treat::Amount> left_in_containers;  // of product, when all goes as planned
};

// Product, surfactant and carrier for all trees: enough of each for the tank loads, and for the
// trees one by one, which are rounded to the marks of the measures in other places. The reserve is
// a share of what is planned, for what is spilt or measured again; it is no licence to apply more.
std::vector<Carried> carried(const treat::LabelCard& card, const std::vector<DosedTree>& trees,
                             const std::vector<TankLoad>& loads, measure::Percent reserve);

// Containers that hold at least `needed`, with the least left in them; of those, the fewest.
// Empty where there are no sizes.
std::vector<Containers> containers_for(const treat::Amount& needed,
                                       const std::vector<treat::StatedAmount>& sizes);

}  // namespace ashtriage::plan
