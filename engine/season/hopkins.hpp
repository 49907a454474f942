// Hopkins' law: how much later or earlier spring comes at one place than at another.
//
// Spring is 4 days later for each degree of latitude north, for each 400 feet up, and for each 5
// degrees of longitude east (Hopkins 1918). It fits inland places of one region within some days,
// and fails beside large lakes and the ocean and far to the east or west.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/quantity.hpp"
#include "season/seasons.hpp"

namespace ashtriage::season {

// Where trees stand: decimal degrees, north positive, west negative.
struct Location {
    double latitude = 0.0;
    double longitude = 0.0;
    std::optional<measure::Length> elevation;  // above sea level; unknown: taken as the anchor's
    // Whether a large lake or the ocean is near enough to hold spring back; asked, never guessed.
    std::optional<bool> by_shore = std::nullopt;
};

// At this many degrees of longitude from the anchor and beyond, the estimate is not to be relied
// on.
inline constexpr double far_longitude = 10.0;

// Days by which spring at the location is later than at the anchor; negative when it is earlier.
// Throws InputError for a place outside the northern and western hemispheres, for which the dates
// here are not meant, or degrees or an elevation that no place has.
double hopkins_days(const Anchor& anchor, const Location& location);

// What a reader must know about an estimate for this place, or for a place that is not known.
std::vector<std::string> cautions_about(const Anchor& anchor,
                                        const std::optional<Location>& location);

}  // namespace ashtriage::season
