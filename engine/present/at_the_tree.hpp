// The card that the applicator has beside one tree: which product, what its label asks of the place
// and the weather, and what to do, step by step.
#pragma once

#include <string>
#include <vector>

#include "present/planned_work.hpp"

namespace ashtriage::present {

// "Invented Product, registration number 00000-0 (inventine, basal trunk spray). Signal word:
// CAUTION." Of an example card, which has no product, its title.
std::string product_words(const treat::LabelCard& card);

// Which tree it is, where it stands, and for which day the card was made: "By the gate. Green ash,
// DBH 14 in (35.6 cm). Invented Court, 1 Invented Road, May 10, 2026."
std::string identity_words(const PlannedTree& planned, const measure::Date& on);

// A heading and what the label card says under it, as it was typed in.
struct LabelSays {
    std::string heading;
    std::vector<std::string> lines;
};

// What has to be known beside the tree: when and where the label allows it, what binds, bees and
// bloom, cautions, re-entry.
std::vector<LabelSays> label_at_the_tree(const treat::LabelCard& card);
// What is read once, before the day: the advice, first aid, storage and disposal.
std::vector<LabelSays> label_for_the_day(const treat::LabelCard& card);

// How it is done, step by step.
std::vector<std::string> steps_at_the_tree(const PlannedTree& planned);

}  // namespace ashtriage::present
