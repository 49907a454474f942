// "Did you mean": the known name most like a misspelt one.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace ashtriage::measure {

// The candidate that takes the fewest slips of the pen (a letter left out, added, changed, or two
// swapped) to turn into `name`, whatever the case; the first of several equals. Nothing when even
// the nearest differs in more than a third of its letters (always at least one slip is allowed).
std::optional<std::string_view> nearest_name(std::string_view name,
                                             std::span<const std::string_view> candidates);

}  // namespace ashtriage::measure
