// Reading label cards: rules/labels/*.yaml, one card a file.
//
// A card is refused, with every problem named at its line, rather than read with a figure missing
// or in doubt: an amount without a unit, a rate that does not say what it is per, a lowest rate
// above the highest, a strength stated in two ways that contradict each other.
#pragma once

#include <string_view>
#include <vector>

#include "packs/problem.hpp"
#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::treat {

// The source that a card of one's own may name without an entry in sources.yaml: the label itself.
inline constexpr std::string_view label_source = "label";

// Reads one card. What is wrong goes to `problems`; a card that has any must not be used. `sources`
// are those a card may name, as packs::read_sources gives them.
LabelCard read_label_card(const packs::RuleFile& file, const std::vector<packs::Source>& sources,
                          packs::Problems& problems);

// The cards among the rule files, in the order of the files. Throws packs::BadFile with the
// problems of all of them.
std::vector<LabelCard> read_label_cards(const std::vector<packs::RuleFile>& files,
                                        const std::vector<packs::Source>& sources);

}  // namespace ashtriage::treat
