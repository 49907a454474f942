// Recommendations as JSON, for other programs and for keeping in the book.
#pragma once

#include <nlohmann/json.hpp>

#include "book/recommendations.hpp"
#include "packs/rule_set.hpp"
#include "present/assessment.hpp"
#include "triage/recommendation.hpp"

namespace ashtriage::present {

using Json = nlohmann::ordered_json;

// {"rule", "table", "outcome", "because", "client", "todo", "who", "sources": [...],
//  "comparisons": [{"condition", "observed", "met": true | false | null}]}; null: not known.
Json reason_json(const triage::Reason& reason);

// One tree: "tree", "date", "dbh_inches", "recommendation" (outcome, or null while open),
// "possible", "standing" (firm, close call, open, no rule), "evidence", "flags", "reasons",
// "would_change", "open_questions", "treatment" and "rules".
Json assessment_json(const TreeAssessment& tree, const packs::RuleSet& rules);

// What the book keeps of a recommendation: the facts used, the edition and hash of the rules, the
// outcome, the reasons and the flags.
book::StoredRecommendation to_be_stored(const TreeAssessment& tree, const packs::RuleSet& rules,
                                        const measure::Date& date);

// Whether the book's newest recommendation for the tree already says all this.
bool same_answer(const book::StoredRecommendation& a, const book::StoredRecommendation& b);

}  // namespace ashtriage::present
