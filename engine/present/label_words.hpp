// A label card in words, as it was typed in.
#pragma once

#include <string>

#include "treat/label_card.hpp"

namespace ashtriage::present {

// Every entry of the card, mandatory and advisory statements apart. Text wrapped to the page.
std::string label_text(const treat::LabelCard& card);

// "0.43 fl oz for each inch DBH", with the low and the high rate where they differ.
std::string rate_words(const treat::Rate& rate, const treat::Basis& per);

}  // namespace ashtriage::present
