// The way of a crew through the sites of a day. For the files of this folder.
#pragma once

#include <cstddef>
#include <vector>

#include "plan/crew_problem.hpp"

namespace ashtriage::plan {

struct Route {
    std::vector<int> sites;  // in the order in which they are visited
    int travel = 0;          // from the start and back to it
};

// Up to so many sites the shortest way is found by going through all of them.
inline constexpr std::size_t most_exact_stops = 12;

// The shortest way, or beyond most_exact_stops a good one made from the order given. Sites without
// a place come last. No site twice.
Route route_for(const Problem& problem, int crew, std::vector<int> sites);

// The travel of the shortest way through every subset of the sites (bit i: sites[i]), at most
// most_exact_stops of them, after Held and Karp (1962). Sites without a place add nothing.
std::vector<int> shortest_ways(const Problem& problem, int crew, const std::vector<int>& sites);

// A way as short as this one at least that keeps as much as it can of an earlier order: this one,
// it turned round, or the earlier one itself where that goes through all its sites.
std::vector<int> like_earlier(const Problem& problem, int crew, const std::vector<int>& sites,
                              const std::vector<int>& earlier);

// The travel of a way through sites in the order given.
int travel_of(const Problem& problem, int crew, const std::vector<int>& sites);

}  // namespace ashtriage::plan
