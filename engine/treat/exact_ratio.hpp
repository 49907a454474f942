// One multiplication and division of several whole numbers, rounded once at the end.
#pragma once

#include <cstdint>
#include <vector>

#include "measure/exact.hpp"

namespace ashtriage::treat {

// The product of `factors` over the product of `divisors`. Throws InputError when a factor is below
// zero, a divisor is not above it, or the result is too large to be held.
std::int64_t exact_ratio(std::vector<std::int64_t> factors, std::vector<std::int64_t> divisors,
                         measure::Rounding rounding);

}  // namespace ashtriage::treat
