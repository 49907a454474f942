// Amounts and windows in words.
#pragma once

#include <string>
#include <string_view>

#include "season/window.hpp"
#include "treat/dose.hpp"
#include "treat/label_card.hpp"
#include "triage/recommendation.hpp"

namespace ashtriage::present {

// What stands before a finding: "STOP: ", "WARNING: ", "- ".
std::string_view prefix_of(treat::Severity severity);

// "The window is from 9 May 2027 to 20 June 2027, best until 5 June 2027 (estimate, give or take 10
// days)." and where the day asked about stands to it.
std::string window_words(const season::NextWindow& window);

// The amounts of one dose, each on its own line in the unit it is measured in, with its twin; the
// findings; the protective equipment and the cautions of the card. Text wrapped to the page.
std::string dose_text(const treat::LabelCard& card, const treat::Dose& dose);

// "We recommend treating this tree." and the like, with how sure that is.
std::string advice_for_client(const triage::Recommendation& recommendation);

}  // namespace ashtriage::present
