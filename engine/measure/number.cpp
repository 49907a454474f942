#include "measure/number.hpp"

#include <algorithm>
#include <charconv>

#include "measure/input_error.hpp"
#include "measure/letters.hpp"

namespace ashtriage::measure {
namespace {

bool all_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_digit);
}

// The minus, whole part and decimals of a plainly written number.
struct Parts {
    bool negative = false;
    std::string_view whole;
    std::string_view decimals;
};

std::optional<Parts> parts_of(std::string_view text) {
    Parts parts;
    if (text.starts_with('-')) {
        parts.negative = true;
        text.remove_prefix(1);
    }
    const std::size_t point = text.find('.');
    parts.whole = text.substr(0, point);
    if (point != std::string_view::npos) {
        parts.decimals = text.substr(point + 1);
        if (parts.decimals.empty()) return std::nullopt;
    } else if (parts.whole.empty()) {
        return std::nullopt;
    }
    if (!all_digits(parts.whole) || !all_digits(parts.decimals)) return std::nullopt;
    if (parts.whole.size() > 1 && parts.whole.front() == '0') return std::nullopt;
    return parts;
}

std::string remedy_for(std::string_view text) {
    if (text.find(',') != std::string_view::npos) {
        return "Write the number without commas, with a point before decimals, such as 1250.5.";
    }
    const std::string_view unsigned_text = text.starts_with('-') ? text.substr(1) : text;
    if (unsigned_text.size() > 1 && unsigned_text.front() == '0' && is_digit(unsigned_text[1])) {
        return "Leave out the leading zero.";
    }
    return "Write digits and at most one point, such as 14 or 14.5.";
}

[[noreturn]] void refuse(std::string_view text) {
    if (text.empty()) {
        throw InputError("A number is missing", {},
                         "Write digits and at most one point, such as 14 or 14.5.");
    }
    throw InputError("'" + std::string(text) + "' is not a plainly written number", {},
                     remedy_for(text));
}

}  // namespace

std::optional<double> parse_number(std::string_view text) {
    if (!parts_of(text)) return std::nullopt;
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stop, problem] = std::from_chars(text.data(), end, value);
    if (problem != std::errc{} || stop != end) return std::nullopt;
    return value == 0.0 ? 0.0 : value;  // no minus zero
}

double require_number(std::string_view text) {
    const std::optional<double> value = parse_number(text);
    if (!value) refuse(text);
    return *value;
}

Decimal require_decimal(std::string_view text) {
    const std::optional<Parts> parts = parts_of(text);
    if (!parts) refuse(text);
    std::string digits = std::string(parts->whole) + std::string(parts->decimals);
    digits.erase(0, std::min(digits.find_first_not_of('0'), digits.size() - 1));
    if (digits.size() > 18 || parts->decimals.size() > 18) {
        throw InputError("'" + std::string(text) + "' has more than 18 digits", {},
                         "Round it to what was measured.");
    }
    Decimal decimal;
    decimal.places = static_cast<int>(parts->decimals.size());
    std::from_chars(digits.data(), digits.data() + digits.size(), decimal.digits);
    if (parts->negative) decimal.digits = -decimal.digits;
    return decimal;
}

}  // namespace ashtriage::measure
