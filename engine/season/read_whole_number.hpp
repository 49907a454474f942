// A field of a rule file that counts days.
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>

#include "packs/yaml_fields.hpp"

namespace ashtriage::season {

// The whole number in the field; 0 after a problem ("not-a-whole-number").
inline int read_whole_number(packs::Fields& fields, std::string_view key,
                             const packs::Bounds& bounds) {
    const double number = fields.number(key, bounds);
    const int whole = static_cast<int>(number);
    if (static_cast<double>(whole) == number) return whole;
    fields.refuse(key, "not-a-whole-number",
                  fmt::format("'{}' is {}; expected a whole number", key, number));
    return 0;
}

}  // namespace ashtriage::season
