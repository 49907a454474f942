// Recommendations as the book keeps them, made again from the facts that were kept with them.
#pragma once

#include "book/recommendations.hpp"
#include "triage/recommend.hpp"

namespace ashtriage::present {

// Whether the facts kept with a recommendation lead the judge to the same possible outcomes, the
// same firmness, the same reasons and the same flags. Only meaningful for the rule set it was made
// by.
bool comes_out_the_same(const triage::Judge& judge, const book::StoredRecommendation& stored);

}  // namespace ashtriage::present
