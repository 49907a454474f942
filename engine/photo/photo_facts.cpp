#include "photo/photo_facts.hpp"

#include <algorithm>
#include <cstddef>
#include <fstream>
#include <system_error>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "photo/exif_tags.hpp"
#include "photo/jpeg_header.hpp"

namespace ashtriage::photo {
namespace {

constexpr ExifTag gps_tag(int id) {
    return static_cast<ExifTag>(id);
}

// Two digits at `at`; -1 when either is not a digit.
int two_digits(std::string_view text, std::size_t at) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    if (!is_digit(text[at]) || !is_digit(text[at + 1])) return -1;
    return (text[at] - '0') * 10 + (text[at + 1] - '0');
}

// Whether `text` has the length of `pattern` and the same characters wherever that has no digit.
bool shaped_like(std::string_view pattern, std::string_view text) {
    if (text.size() != pattern.size()) return false;
    for (std::size_t i = 0; i < pattern.size(); ++i) {
        if (pattern[i] == '0') continue;
        if (pattern[i] != text[i]) return false;
    }
    return true;
}

// A camera whose clock was never set leaves the digits blank or zero.
bool never_set(std::string_view date_time) {
    return date_time.find_first_of("123456789") == std::string_view::npos;
}

// "2026:06:14"; nothing for a day that is not in the calendar.
std::optional<measure::Date> parse_colon_date(std::string_view text) {
    std::string iso(text);
    std::ranges::replace(iso, ':', '-');
    try {
        return measure::parse_date(iso);
    } catch (const measure::InputError&) {
        return std::nullopt;
    }
}

std::optional<TimeTaken> parse_date_time(std::string_view text) {
    if (!shaped_like("0000:00:00 00:00:00", text)) return std::nullopt;
    const std::optional<measure::Date> date = parse_colon_date(text.substr(0, 10));
    const int hour = two_digits(text, 11);
    const int minute = two_digits(text, 14);
    const int second = two_digits(text, 17);
    if (!date || hour < 0 || minute < 0 || second < 0) return std::nullopt;
    if (hour > 23 || minute > 59 || second > 59) return std::nullopt;
    return TimeTaken{
        *date,
        std::chrono::hours{hour} + std::chrono::minutes{minute} + std::chrono::seconds{second},
        std::nullopt};
}

// "-05:00". No place on earth is more than 14 hours from UTC.
std::optional<std::chrono::minutes> parse_offset(std::string_view text) {
    if (text.empty() || (text[0] != '+' && text[0] != '-')) return std::nullopt;
    const std::string_view digits = text.substr(1);
    if (!shaped_like("00:00", digits)) return std::nullopt;
    const int hours = two_digits(digits, 0);
    const int minutes = two_digits(digits, 3);
    if (hours < 0 || minutes < 0 || minutes > 59) return std::nullopt;
    const std::chrono::minutes offset = std::chrono::hours{hours} + std::chrono::minutes{minutes};
    if (offset > std::chrono::hours{14}) return std::nullopt;
    return text[0] == '-' ? -offset : offset;
}

void read_time(const ExifTags& tags, PhotoFacts& facts) {
    const ExifTag taken = EXIF_TAG_DATE_TIME_ORIGINAL;
    if (!tags.has(EXIF_IFD_EXIF, taken)) return;
    const std::string written = tags.text(EXIF_IFD_EXIF, taken).value_or("");
    facts.taken = parse_date_time(written);
    if (!facts.taken) {
        facts.left_out.push_back(never_set(written)
                                     ? "The date: the clock of the camera was not set."
                                     : "The date: \"" + written +
                                           "\" is not a day and time of the calendar.");
        return;
    }
    const ExifTag offset = EXIF_TAG_OFFSET_TIME_ORIGINAL;
    if (!tags.has(EXIF_IFD_EXIF, offset)) return;
    const std::string zone = tags.text(EXIF_IFD_EXIF, offset).value_or("");
    facts.taken->offset_from_utc = parse_offset(zone);
    if (!facts.taken->offset_from_utc && zone.find_first_of("0123456789") != std::string::npos) {
        facts.left_out.push_back("The offset from UTC: \"" + zone + "\" is not one.");
    }
}

// One axis of the position, and how its tags are called.
struct Axis {
    std::string_view name;
    ExifTag degrees;
    ExifTag reference;
    std::string_view positive;
    std::string_view negative;
    double most;
};

constexpr Axis latitude_axis{
    "latitude", gps_tag(EXIF_TAG_GPS_LATITUDE), gps_tag(EXIF_TAG_GPS_LATITUDE_REF), "N", "S", 90.0};
constexpr Axis longitude_axis{
    "longitude", gps_tag(EXIF_TAG_GPS_LONGITUDE), gps_tag(EXIF_TAG_GPS_LONGITUDE_REF), "E", "W",
    180.0};

// Decimal degrees; nothing, with the reason in `left_out`, when the tags cannot be trusted. Exif
// writes degrees, minutes and seconds without a sign: which side of the equator or of Greenwich
// they are on stands in the reference tag alone, and is never assumed.
std::optional<double> read_axis(const ExifTags& tags, const Axis& axis,
                                std::vector<std::string>& left_out) {
    const auto leave_out = [&](std::string_view why) {
        left_out.push_back("The position: its " + std::string(axis.name) + " " + std::string(why) +
                           ".");
        return std::nullopt;
    };
    if (!tags.has(EXIF_IFD_GPS, axis.degrees)) return leave_out("is missing");
    const std::optional<std::vector<double>> parts = tags.rationals(EXIF_IFD_GPS, axis.degrees, 3);
    if (!parts) return leave_out("is not written as degrees, minutes and seconds");
    const std::string reference = tags.text(EXIF_IFD_GPS, axis.reference).value_or("");
    if (reference != axis.positive && reference != axis.negative) {
        return leave_out("does not say whether it is " + std::string(axis.positive) + " or " +
                         std::string(axis.negative));
    }
    const double minutes = (*parts)[1];
    const double seconds = (*parts)[2];
    // 60 itself comes from cameras that round 59.99 up, and means what it says.
    if (minutes > 60.0 || seconds > 60.0) return leave_out("has more than 60 minutes or seconds");
    const double degrees = (*parts)[0] + minutes / 60.0 + seconds / 3600.0;
    if (degrees > axis.most) return leave_out("is beyond the globe");
    return reference == axis.negative ? -degrees : degrees;
}

bool is_wgs_84(std::string_view datum) {
    return datum.empty() || datum == "WGS-84" || datum == "WGS84" || datum == "WGS 84";
}

void read_position(const ExifTags& tags, PhotoFacts& facts) {
    bool any_written = false;
    for (const Axis& axis : {latitude_axis, longitude_axis}) {
        any_written = any_written || tags.has(EXIF_IFD_GPS, axis.degrees) ||
                      tags.has(EXIF_IFD_GPS, axis.reference);
    }
    if (!any_written) return;
    const std::optional<double> latitude = read_axis(tags, latitude_axis, facts.left_out);
    const std::optional<double> longitude = read_axis(tags, longitude_axis, facts.left_out);
    if (!latitude || !longitude) return;
    if (*latitude == 0.0 && *longitude == 0.0) {
        facts.left_out.emplace_back(
            "The position: 0, 0 is what a camera writes that has not found its place yet.");
        return;
    }
    const std::string datum = tags.text(EXIF_IFD_GPS, gps_tag(EXIF_TAG_GPS_MAP_DATUM)).value_or("");
    if (!is_wgs_84(datum)) {
        facts.left_out.push_back("The position: it is given on the map datum \"" + datum +
                                 "\", not on WGS 84.");
        return;
    }
    facts.position = PhotoPosition{*latitude, *longitude};
}

// The dry ground of the earth, with a margin: the Dead Sea shore lies near -430 m, the highest peak
// near 8,850 m.
constexpr double lowest_altitude_metres = -500.0;
constexpr double highest_altitude_metres = 9000.0;

void read_altitude(const ExifTags& tags, PhotoFacts& facts) {
    const ExifTag altitude = gps_tag(EXIF_TAG_GPS_ALTITUDE);
    if (!tags.has(EXIF_IFD_GPS, altitude)) return;
    const std::optional<std::vector<double>> metres = tags.rationals(EXIF_IFD_GPS, altitude, 1);
    if (!metres) {
        facts.left_out.emplace_back("The altitude: it is not written as a number of metres.");
        return;
    }
    constexpr unsigned below = 1;  // 0: above
    const std::optional<unsigned> reference =
        tags.byte(EXIF_IFD_GPS, gps_tag(EXIF_TAG_GPS_ALTITUDE_REF));
    if (!reference || *reference > below) {
        facts.left_out.emplace_back(
            "The altitude: it does not say whether it is above or below the sea.");
        return;
    }
    const double against_sea = reference == below ? -metres->front() : metres->front();
    if (against_sea < lowest_altitude_metres || against_sea > highest_altitude_metres) {
        facts.left_out.emplace_back("The altitude: no ground lies there.");
        return;
    }
    facts.altitude = measure::Length::of(against_sea, measure::units::metre);
}

}  // namespace

PhotoFacts read_photo_facts(std::istream& jpeg, std::string_view name) {
    PhotoFacts facts;
    const std::optional<std::vector<unsigned char>> block = find_exif_block(jpeg, name);
    if (!block) return facts;
    const ExifTags tags(*block);
    read_time(tags, facts);
    read_position(tags, facts);
    read_altitude(tags, facts);
    return facts;
}

PhotoFacts read_photo_facts(const std::filesystem::path& file) {
    const std::string name = file.string();
    std::error_code error;
    const std::filesystem::file_status status = std::filesystem::status(file, error);
    if (status.type() == std::filesystem::file_type::not_found) {
        throw measure::InputError("There is no file \"" + name + "\"", name,
                                  "Check the name and the folder.");
    }
    if (!std::filesystem::is_regular_file(status)) {
        throw measure::InputError("\"" + name + "\" is not a file", name,
                                  "Name one photograph, such as a .jpg file.");
    }
    std::ifstream jpeg(file, std::ios::binary);
    if (!jpeg) {
        throw measure::InputError("\"" + name + "\" cannot be opened", name,
                                  "Check that you may read it.");
    }
    return read_photo_facts(jpeg, name);
}

}  // namespace ashtriage::photo
