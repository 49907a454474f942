// A label card in words, as it was typed in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "treat/application_record.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::present {

// Every entry of the card, mandatory and advisory statements apart. Text wrapped to the page.
std::string label_text(const treat::LabelCard& card);

// When and where the label allows it, a line each: "wind to: 10.0 mph".
std::vector<std::string> condition_words(const treat::LabelCard& card);

// "0.43 fl oz for each inch DBH", with the low and the high rate where they differ.
std::string rate_words(const treat::Rate& rate, const treat::Basis& per);

// The card's rate for a tree of this DBH, in the label's own figures; nothing where the card has
// none for it.
std::optional<treat::LabelledRate> labelled_rate(const treat::LabelCard& card, measure::Length dbh,
                                                 treat::RateLevel level);

}  // namespace ashtriage::present
