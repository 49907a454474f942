// In which order a diagram looks at the facts. The order decides whether a diagram is small or
// hopeless, so it is chosen: facts that stand in the same rules are brought close together.
#pragma once

#include <vector>

#include "reason/model.hpp"

namespace ashtriage::reason {

// All facts that some rule or claim names, each once. Facts behind the same rule attract each other
// until the total distance no longer falls (the FORCE method of Aloul, Markov and Sakallah 2003).
// The same model always gives the same order.
std::vector<FactIndex> variable_order(const Model& model);

}  // namespace ashtriage::reason
