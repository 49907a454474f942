// Whole-number arithmetic that is exact or refuses: what quantities are made of.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace ashtriage::measure {

// How a value between two steps is settled. `nearest` sends a half away from zero; `down` never
// gives more than the value (use it for every maximum), `up` never less (for required minimums).
enum class Rounding { nearest, down, up };

// value * numerator / denominator, with the product held in 128 bits and rounded once. Throws
// InputError for a denominator of zero or a result that does not fit 64 bits.
std::int64_t multiply_divide(std::int64_t value, std::int64_t numerator, std::int64_t denominator,
                             Rounding rounding);

// Sum, difference and product; throw InputError where the result does not fit 64 bits.
std::int64_t checked_add(std::int64_t a, std::int64_t b);
std::int64_t checked_subtract(std::int64_t a, std::int64_t b);
std::int64_t checked_multiply(std::int64_t a, std::int64_t b);

// Ticks of `number` units of `ticks_per_unit` ticks each, to the nearest tick. The text must be a
// plain decimal number (see number.hpp). Throws InputError if it is not, or does not fit.
std::int64_t ticks_of(std::string_view number, std::int64_t ticks_per_unit);
// The same for a floating number; throws InputError also if it is not finite.
std::int64_t ticks_of(double number, std::int64_t ticks_per_unit);

// `ticks` in units of `ticks_per_unit`, as decimal text with `places` digits (0 to 12) after the
// point; never "-0".
std::string decimal_text(std::int64_t ticks, std::int64_t ticks_per_unit, int places,
                         Rounding rounding);

}  // namespace ashtriage::measure
