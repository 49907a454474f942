#include "measure/exact.hpp"

#include <cmath>
#include <limits>

#include "measure/input_error.hpp"
#include "measure/number.hpp"

namespace ashtriage::measure {
namespace {

__extension__ using Wide = __int128;  // GCC and Clang; the product of two 64-bit numbers fits

[[noreturn]] void refuse_size(const std::string& what) {
    throw InputError(what + " is too large to be held exactly", {},
                     "Check the number and its unit.");
}

bool fits(Wide value) {
    return value <= std::numeric_limits<std::int64_t>::max() &&
           value >= std::numeric_limits<std::int64_t>::min();
}

std::int64_t narrow(Wide value) {
    if (!fits(value)) refuse_size("A result");
    return static_cast<std::int64_t>(value);
}

std::int64_t power_of_ten(int exponent) {
    std::int64_t power = 1;
    for (int i = 0; i < exponent; ++i) power *= 10;
    return power;
}

Wide divided(std::int64_t value, std::int64_t numerator, std::int64_t denominator,
             Rounding rounding) {
    if (denominator == 0) throw InputError("An amount cannot be divided by zero");
    Wide product = Wide{value} * numerator;
    Wide divisor = denominator;
    if (divisor < 0) {
        product = -product;
        divisor = -divisor;
    }
    Wide quotient = product / divisor;  // toward zero
    const Wide remainder = product % divisor;
    const int away = product < 0 ? -1 : 1;
    switch (rounding) {
        case Rounding::nearest:
            if (2 * (remainder * away) >= divisor) quotient += away;
            break;
        case Rounding::down:
            if (remainder < 0) quotient -= 1;
            break;
        case Rounding::up:
            if (remainder > 0) quotient += 1;
            break;
    }
    return quotient;
}

}  // namespace

std::int64_t multiply_divide(std::int64_t value, std::int64_t numerator, std::int64_t denominator,
                             Rounding rounding) {
    return narrow(divided(value, numerator, denominator, rounding));
}

std::int64_t checked_add(std::int64_t a, std::int64_t b) {
    return narrow(Wide{a} + b);
}
std::int64_t checked_subtract(std::int64_t a, std::int64_t b) {
    return narrow(Wide{a} - b);
}
std::int64_t checked_multiply(std::int64_t a, std::int64_t b) {
    return narrow(Wide{a} * b);
}

std::int64_t ticks_of(std::string_view number, std::int64_t ticks_per_unit) {
    const Decimal decimal = require_decimal(number);
    const Wide ticks =
        divided(decimal.digits, ticks_per_unit, power_of_ten(decimal.places), Rounding::nearest);
    if (!fits(ticks)) refuse_size("'" + std::string(number) + "'");
    return static_cast<std::int64_t>(ticks);
}

std::int64_t ticks_of(double number, std::int64_t ticks_per_unit) {
    if (!std::isfinite(number)) {
        throw InputError("A value is not a finite number", {}, "Give an ordinary number.");
    }
    const long double ticks =
        static_cast<long double>(number) * static_cast<long double>(ticks_per_unit);
    constexpr long double limit = 9.2e18L;  // a little inside what 64 bits hold
    if (std::fabs(ticks) > limit) refuse_size("A value");
    return std::llround(ticks);
}

std::string decimal_text(std::int64_t ticks, std::int64_t ticks_per_unit, int places,
                         Rounding rounding) {
    if (places < 0 || places > 12) {
        throw InputError("'" + std::to_string(places) + "' is not a number of decimal places", {},
                         "Give a whole number from 0 to 12.");
    }
    const std::int64_t scaled =
        multiply_divide(ticks, power_of_ten(places), ticks_per_unit, rounding);
    std::string text = std::to_string(scaled);
    const bool negative = scaled < 0;
    if (negative) text.erase(0, 1);
    const auto behind_point = static_cast<std::size_t>(places);
    if (text.size() <= behind_point) text.insert(0, behind_point + 1 - text.size(), '0');
    if (places > 0) text.insert(text.size() - behind_point, 1, '.');
    return negative ? "-" + text : text;
}

}  // namespace ashtriage::measure
