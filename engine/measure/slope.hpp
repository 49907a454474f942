// Tape readings along a slope.
#pragma once

#include "measure/quantity.hpp"

namespace ashtriage::measure {

// The level distance under a tape laid along ground of the given slope (rise as a percentage of the
// level run, up or down hill): taped distance times the cosine of the slope's angle.
Length level_distance(Length taped, Percent slope);

}  // namespace ashtriage::measure
