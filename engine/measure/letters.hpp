// Plain ASCII letters and digits, whatever the locale is.
#pragma once

namespace ashtriage::measure {

constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

constexpr char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace ashtriage::measure
