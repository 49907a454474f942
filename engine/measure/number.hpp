// The one way this program reads a number, from a rule file, a table or the command line alike.
//
// A number is written plainly: an optional minus, digits, and optionally a point with more digits
// ("14", "-3.5", ".5"). Refused, because each has been read as something else by some program:
// "010" (octal), "0x1F", "1e3", "1,000", "1.", "+1", "nan", "inf", any space.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace ashtriage::measure {

// The value, or nothing if the whole text is not a plainly written number.
std::optional<double> parse_number(std::string_view text);
// The same; throws InputError that says what is wrong with the text.
double require_number(std::string_view text);

// A number as written: digits / 10^places, exactly.
struct Decimal {
    std::int64_t digits = 0;
    int places = 0;
};

// Throws InputError if the text is not a plainly written number or has more than 18 digits.
Decimal require_decimal(std::string_view text);

}  // namespace ashtriage::measure
