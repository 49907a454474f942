// Made-up trees, every fact known: the same trees for the same seed on every machine.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::peers {

// Whole numbers for number facts, so that thresholds are met exactly now and then and every library
// compares the same numbers.
std::vector<reason::Observation> random_trees(const reason::Model& model, std::size_t count,
                                              std::uint64_t seed);

}  // namespace ashtriage::peers
