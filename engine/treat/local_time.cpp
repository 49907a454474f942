#include "treat/local_time.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <optional>

#include "measure/input_error.hpp"

namespace ashtriage::treat {

namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// The minutes in "hh:mm", with no upper limit to the hours that two digits can write.
std::optional<int> minutes_in(std::string_view text) {
    if (text.size() != 5 || text[2] != ':' || !is_digit(text[0]) || !is_digit(text[1]) ||
        !is_digit(text[3]) || !is_digit(text[4])) {
        return std::nullopt;
    }
    const int hours = (text[0] - '0') * 10 + (text[1] - '0');
    const int minutes = (text[3] - '0') * 10 + (text[4] - '0');
    if (minutes > 59) return std::nullopt;
    return hours * 60 + minutes;
}

}  // namespace

LocalTime parse_local_time(std::string_view text) {
    const std::optional<int> minutes = minutes_in(text);
    if (!minutes || *minutes >= 24 * 60) {
        throw measure::InputError(fmt::format("'{}' is not a time of day", text), {},
                                  "Write hours from 00 to 23 and minutes, such as 07:30 or 16:05.");
    }
    return {*minutes};
}

std::string text(LocalTime time) {
    return fmt::format("{:02}:{:02}", time.minutes / 60, time.minutes % 60);
}

UtcOffset parse_utc_offset(std::string_view text) {
    const bool signed_ = !text.empty() && (text.front() == '+' || text.front() == '-');
    const std::optional<int> minutes = signed_ ? minutes_in(text.substr(1)) : std::nullopt;
    const bool west = signed_ && text.front() == '-';
    if (!minutes || *minutes > (west ? 12 : 14) * 60) {
        throw measure::InputError(
            fmt::format("'{}' is not a distance from UTC", text), {},
            "Write a sign, hours and minutes, from -12:00 to +14:00, such as -05:00.");
    }
    return {west ? -*minutes : *minutes};
}

std::string text(UtcOffset offset) {
    const int minutes = std::abs(offset.minutes);
    return fmt::format("{}{:02}:{:02}", offset.minutes < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

}  // namespace ashtriage::treat
