// The mix for several trees, divided into the loads of a sprayer.
//
// A load is never stronger than the label card asks for any of its trees, so that each tree may get
// its share of the finished mix and no more than its dose. A tree that fits into the tank is not
// divided; one that does not gets parts of one strength.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "measure/quantity.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::plan {

// A tree that is to be treated by one card. The dose must not be stopped.
struct DosedTree {
    std::string site;
    std::string label;
    treat::Dose dose;
};

struct LoadShare {
    std::size_t tree = 0;  // index into the trees
    int part = 1;          // of `parts`, where a tree takes more than a tank
    int parts = 1;
    measure::Volume finished;  // of the mix, for this tree
};

struct TankLoad {
    std::vector<LoadShare> shares;
    std::vector<treat::MeasuredAmount> amounts;  // product, surfactant, carrier
    measure::Volume finished;                    // all that goes into the tank
    measure::Volume left_over;                   // beyond the shares: from rounding up the carrier
};

// In the order of the trees. Empty for a card whose product is applied as it is. Throws
// measure::InputError unless the capacity is more than zero.
std::vector<TankLoad> tank_loads(const treat::LabelCard& card, const std::vector<DosedTree>& trees,
                                 measure::Volume capacity);

}  // namespace ashtriage::plan
