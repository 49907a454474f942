// Whether the season so far can be of the same place, and in the same unit, as the past ones that
// it is to be projected by.
#pragma once

#include <string>
#include <vector>

#include "weather/degree_days.hpp"

namespace ashtriage::weather {

// What speaks against it, in words: the total so far and those of the past seasons on the same day
// of the year. Empty when nothing does, or when there are fewer than fewest_past_seasons to go by.
//
// The total is doubted when it is less than a third of the lowest past one, or more than three
// times the highest, on a day by which so much had come that chance cannot do it: 60 degree days F
// in the lowest, 100 in the highest. These limits come from no source. Tried on Chicago, 2002 to
// 2016, each year against all others: the farthest out beyond these amounts were 0.57 of the lowest
// (April 2013) and 2.5 times the highest (March 2012).
std::string past_speaks_against(const HeatTotals& so_far, const std::vector<HeatTotals>& past);

}  // namespace ashtriage::weather
