// The yearly limit of active ingredient per acre, turned into inches of DBH that may be treated.
#pragma once

#include <cstdint>
#include <optional>

#include "measure/quantity.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::treat {

// The whole inches of DBH that may be treated on `site` in a year under a limit of `per_acre`,
// after `used` has been spent there already, by any use of the same active ingredient. Rounded
// down: a printed table rounded up goes over the limit. 0 when nothing is left. Throws InputError
// unless `active_per_inch` is more than zero.
std::int64_t whole_inches_allowed(measure::Mass per_acre, measure::Area site, measure::Mass used,
                                  measure::Mass active_per_inch);

// The same for a card at an amount of product for each inch or centimetre, as the card counts it:
// exact, since the strength is not turned into a rounded weight per inch first. Nothing when the
// card has no yearly limit per acre or does not count by DBH.
std::optional<std::int64_t> whole_inches_allowed(const LabelCard& card,
                                                 const StatedAmount& product_rate,
                                                 measure::Area site, measure::Mass used);

}  // namespace ashtriage::treat
