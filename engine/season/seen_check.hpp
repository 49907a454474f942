// Whether what is said to have been seen on a day can have been: most often a slip of the month.
#pragma once

#include <string>
#include <vector>

#include "season/hopkins.hpp"
#include "season/known_year.hpp"

namespace ashtriage::season {

// Something seen on a day on which nobody can have seen it, and why.
struct SeenDoubt {
    std::string of;  // "leaf_out", or the name of the cue
    std::string why;
};

// So many days before the earliest date that it stands for in the calendar, or after the latest, is
// not believed. It comes from no source; a leaf-out in July, of ash hurt by winter, is still
// within.
inline constexpr int most_days_from_calendar = 40;
// A plant is not believed in bloom below this share of the lower figure that is published of it,
// nor above this multiple of the upper one. They come from no source.
inline constexpr double lowest_share_of_band = 0.5;
inline constexpr double highest_multiple_of_band = 2.0;
// Ash is in full leaf at about 250 to 300 degree days F (from memory, and of low confidence). Fewer
// than this are not believed; this limit comes from no source.
inline constexpr double fewest_at_leaf_out = 100.0;

// What cannot be, by the calendar moved to the places (by that of the anchor where there are none;
// what one of them allows is believed), and by the degree days of the weather on that day, where
// they are known.
std::vector<SeenDoubt> doubts_of_seen(const Seasons& seasons, const std::vector<Location>& places,
                                      const KnownYear& known);

}  // namespace ashtriage::season
