// Stems as a person writes them: "14 in", "girth 44 in", "10 in + 8 in + girth 25 in".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "observe/records.hpp"

namespace ashtriage::observe {

// Reads one or more stems, joined by "+" or ";". Each is a diameter unless "girth" stands before or
// behind it. A number without a unit is in inches. Throws measure::InputError for anything that
// parse_length refuses, and for a stem of no size.
std::vector<Stem> parse_stems(std::string_view text);

// The same form back, with every digit kept: "10 in + girth 25 in".
std::string stems_text(const std::vector<Stem>& stems);

}  // namespace ashtriage::observe
