// When and where a photograph was taken, as its camera wrote it down (Exif, CIPA DC-008).
//
// A photograph shows what a tree looked like only together with its date and place. What the camera
// did not write, or wrote so that it cannot be trusted, stays unknown; nothing is guessed. The
// picture itself is not looked at.
#pragma once

#include <chrono>
#include <filesystem>
#include <istream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"

namespace ashtriage::photo {

// The clock of the camera when the picture was taken: local time where it was set to.
struct TimeTaken {
    measure::Date date{};
    std::chrono::seconds since_midnight{0};
    // Local time minus UTC. Cameras older than Exif 2.31 (2016) do not write it.
    std::optional<std::chrono::minutes> offset_from_utc;

    friend bool operator==(const TimeTaken&, const TimeTaken&) = default;
};

// Decimal degrees, WGS 84; south and west negative.
struct PhotoPosition {
    double latitude = 0.0;
    double longitude = 0.0;

    friend bool operator==(const PhotoPosition&, const PhotoPosition&) = default;
};

struct PhotoFacts {
    std::optional<TimeTaken> taken;
    std::optional<PhotoPosition> position;
    std::optional<measure::Length> altitude;  // against sea level; negative below it
    // What the file states but was not believed, and why; one sentence each.
    std::vector<std::string> left_out;

    friend bool operator==(const PhotoFacts&, const PhotoFacts&) = default;
};

// Throws measure::InputError when the file cannot be read, is not a JPEG photograph, or ends before
// its header does. A sound photograph without Exif gives empty facts.
PhotoFacts read_photo_facts(const std::filesystem::path& file);

// The same from a stream opened in binary mode; `name` stands for the file in messages.
PhotoFacts read_photo_facts(std::istream& jpeg, std::string_view name);

}  // namespace ashtriage::photo
