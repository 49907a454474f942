#include "treat/exact_ratio.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "measure/input_error.hpp"

namespace ashtriage::treat {

namespace {

__extension__ using Wide = __int128;

[[noreturn]] void refuse_size() {
    throw measure::InputError("An amount is too large to be worked out", {},
                              "check the figures and their units");
}

Wide product_of(const std::vector<std::int64_t>& numbers) {
    Wide result = 1;
    for (const std::int64_t number : numbers) {
        if (__builtin_mul_overflow(result, static_cast<Wide>(number), &result)) refuse_size();
    }
    return result;
}

}  // namespace

std::int64_t exact_ratio(std::vector<std::int64_t> factors, std::vector<std::int64_t> divisors,
                         measure::Rounding rounding) {
    const auto below = [](std::int64_t least) {
        return [least](std::int64_t number) { return number < least; };
    };
    if (std::any_of(factors.begin(), factors.end(), below(0)) ||
        std::any_of(divisors.begin(), divisors.end(), below(1))) {
        throw measure::InputError(
            "An amount to be worked out is less than zero, or is to be divided "
            "by nothing");
    }
    for (std::int64_t& factor : factors) {
        for (std::int64_t& divisor : divisors) {
            const std::int64_t common = std::gcd(factor, divisor);
            factor /= common;
            divisor /= common;
        }
    }
    const Wide above = product_of(factors);
    const Wide under = product_of(divisors);
    Wide result = above / under;
    const Wide rest = above % under;
    const bool up = rounding == measure::Rounding::up ? rest > 0 : rest >= under - rest;
    if (rounding != measure::Rounding::down && rest > 0 && up) ++result;
    if (result > std::numeric_limits<std::int64_t>::max()) refuse_size();
    return static_cast<std::int64_t>(result);
}

}  // namespace ashtriage::treat
