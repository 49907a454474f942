// Sets of cases as people can read them: a diagram that says yes or no, taken apart into a few
// regions, each as wide as it can be.
#pragma once

#include <cstddef>
#include <vector>

#include "reason/compiler.hpp"
#include "reason/value.hpp"

namespace ashtriage::prove {

// All cases in which each fact has one of the values given; an unknown fact may be anything.
struct Region {
    reason::Observation values;
    // One case of the region: every fact that the region restricts with one value.
    reason::Observation example;
};

struct Regions {
    std::vector<Region> found;
    bool more = false;  // there are further cases that no region found covers
};

// One case of those that a region's values allow; what may be anything stays unknown.
reason::Observation example_of(const reason::Observation& values);

// Regions that together cover the cases for which `set` says yes, at most `most` of them. They may
// overlap; none reaches outside `set`. A number fact's part of a region is one unbroken stretch.
// Throws reason::DiagramTooLarge when the store's allowance ends.
Regions regions(reason::Compiler& compiler, const reason::Model& model,
                const std::vector<reason::Branches>& branches, reason::Node set, std::size_t most);

}  // namespace ashtriage::prove
