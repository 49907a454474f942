// Values of facts as people write and read them, in rule cases, sheets, CSV files and answers.
//
//     numbers      35   35 %   36 cm   14 1/2 in   20-30   20 to 30 %   over 50   at most 10 ft
//     levels       light   D-shaped   light or heavy          (case, blanks, '_' and '-' are alike)
//     yes/no       yes   no   y   n   yes or no
//     no value     unknown   not asked   could not see   does not apply
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_set.hpp"
#include "reason/fact.hpp"
#include "reason/value.hpp"

namespace ashtriage::packs {

// A bare number is in the fact's own unit; another length unit is converted. Throws
// measure::InputError, with the fact's name, what is expected and a remedy, for anything else: a
// value outside the fact's range, a unit that measures something else, a girth (never taken for a
// diameter), a fraction of a count, an unknown level.
reason::Value parse_value(const reason::Fact& fact, const FactText& fact_text,
                          std::string_view text);

// The value in the form that parse_value reads back as the same value.
std::string value_text(const reason::Fact& fact, const FactText& fact_text,
                       const reason::Value& value);

// What parse_value expects for this fact: "a number from 0 to 100 %", "none, light or heavy".
std::string expected_text(const reason::Fact& fact, const FactText& fact_text);

// Whether the words are taken by the ways to say that a value is not known, so that no level may
// be called so.
bool means_no_value(std::string_view words);

}  // namespace ashtriage::packs
