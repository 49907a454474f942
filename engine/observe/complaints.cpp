#include "observe/complaints.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "measure/input_error.hpp"

namespace ashtriage::observe {

namespace {

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string text;
    for (const std::string& part : parts) {
        if (!text.empty()) text += between;
        text += part;
    }
    return text;
}

bool is_space(char character) {
    return character == ' ' || character == '\t';
}

bool is_control(char character) {
    const auto byte = static_cast<unsigned char>(character);
    return byte < 0x20 || byte == 0x7f;
}

}  // namespace

void Complaints::add(std::string what, std::string_view hint) {
    whats_.push_back(std::move(what));
    const bool known = std::find(hints_.begin(), hints_.end(), hint) != hints_.end();
    if (!hint.empty() && !known) hints_.emplace_back(hint);
}

void Complaints::throw_if_any(const std::string& record) const {
    if (whats_.empty()) return;
    throw measure::InputError(record + " cannot be recorded: " + joined(whats_, "; "), {},
                              joined(hints_, " "));
}

bool is_blank(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_space);
}

void check_line(std::string_view text, const std::string& called, Complaints& complaints) {
    if (text.empty()) return;
    if (is_space(text.front()) || is_space(text.back())) {
        complaints.add(called + " begins or ends with a space", "Remove the spaces at the ends.");
    }
    if (std::any_of(text.begin(), text.end(), is_control)) {
        complaints.add(called + " holds a tab, a line break or another control character",
                       "Write it on one line.");
    }
}

void check_needed_line(std::string_view text, const std::string& called, Complaints& complaints) {
    if (is_blank(text)) {
        complaints.add(called + " is missing");
    } else {
        check_line(text, called, complaints);
    }
}

void check_position(const std::optional<Position>& position, Complaints& complaints) {
    if (!position) return;
    constexpr std::string_view degrees =
        "Give latitude and longitude in decimal degrees, south and west negative.";
    // Written so that a value that is not a number fails too.
    if (!(std::fabs(position->latitude) <= 90.0)) {
        complaints.add("its latitude is not between -90 and 90 degrees", degrees);
    }
    if (!(std::fabs(position->longitude) <= 180.0)) {
        complaints.add("its longitude is not between -180 and 180 degrees", degrees);
    }
    if (position->latitude == 0.0 && position->longitude == 0.0) {
        complaints.add("its position is latitude 0, longitude 0, in the sea off Africa",
                       "Leave the position out when it is not known.");
    }
}

}  // namespace ashtriage::observe
