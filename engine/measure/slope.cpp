#include "measure/slope.hpp"

#include <cmath>

#include "measure/units.hpp"

namespace ashtriage::measure {

Length level_distance(Length taped, Percent slope) {
    const double rise_per_run = slope.in(units::percent) / 100.0;
    return Length::of(taped.in(units::metre) / std::hypot(1.0, rise_per_run), units::metre);
}

}  // namespace ashtriage::measure
