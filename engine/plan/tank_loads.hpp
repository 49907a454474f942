// The mix for several trees, divided into the loads of a sprayer.
//
// A load is never stronger than the label card asks for any of its trees, and trees whose mixes
// differ in strength by a mark of a measure do not share one: so each tree gets its share of all
// that is in the tank, no more than its dose, and less by no more than rounding. A tree that fits
// into the tank is not divided; one that does not gets parts of one strength. Nothing of a load is
// meant to be left over.
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
    measure::Volume finished;  // of the load, for this tree; of a load for one tree all of it
};

struct TankLoad {
    std::vector<LoadShare> shares;
    std::vector<treat::MeasuredAmount> amounts;  // product, surfactant, carrier
    measure::Volume finished;                    // all that goes into the tank
};

// In the order of the trees. Empty for a card whose product is applied as it is. Throws
// measure::InputError unless the capacity is more than zero.
std::vector<TankLoad> tank_loads(const treat::LabelCard& card, const std::vector<DosedTree>& trees,
                                 measure::Volume capacity);

}  // namespace ashtriage::plan
