// The time of day of the work, as a watch on the spot showed it, and how far that was from UTC.
#pragma once

#include <string>
#include <string_view>

namespace ashtriage::treat {

struct LocalTime {
    int minutes = 0;  // after midnight, 0 to 1439

    friend bool operator==(const LocalTime&, const LocalTime&) = default;
    friend bool operator<(const LocalTime& a, const LocalTime& b) { return a.minutes < b.minutes; }
    friend bool operator<=(const LocalTime& a, const LocalTime& b) { return !(b < a); }
};

struct UtcOffset {
    int minutes = 0;  // east of Greenwich; west negative

    friend bool operator==(const UtcOffset&, const UtcOffset&) = default;
};

// Reads "07:30" and nothing else; throws InputError.
LocalTime parse_local_time(std::string_view text);
std::string text(LocalTime time);

// Reads "-05:00" and nothing else, from -12:00 to +14:00; throws InputError.
UtcOffset parse_utc_offset(std::string_view text);
std::string text(UtcOffset offset);

}  // namespace ashtriage::treat
