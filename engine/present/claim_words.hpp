// The claims of tables, that a worse fact never leads to a milder answer, in words.
#pragma once

#include <cstddef>
#include <string>

#include "packs/rule_set.hpp"

namespace ashtriage::present {

// "canopy loss rising", "line distance falling", "cavity going from none to closed to open".
std::string direction_words(const packs::RuleSet& rules, const reason::WorseClaim& claim);

// "stem crack, leaving out defect to watch: A crack that ..."; empty for a claim that makes no
// exception. `claim` is an index into Table::worse.
std::string exception_words(const packs::RuleSet& rules, reason::TableIndex table,
                            std::size_t claim);

}  // namespace ashtriage::present
