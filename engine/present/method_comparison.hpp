// The methods of treatment for trees, side by side: for the practitioner, for the owner, and as
// tables and JSON for other programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "packs/rule_set.hpp"
#include "plan/method_choice.hpp"
#include "present/assessment.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::present {

struct ComparedTree {
    TreeAssessment tree;
    // None where nothing can come of it: the tree is to be removed, or is outside what the rules
    // judge.
    std::optional<plan::MethodComparison> methods;
};

// `site` may be null. `knowledge` must outlive the answer.
ComparedTree compare_methods_for(const Knowledge& knowledge, const observe::Site* site,
                                 TreeAssessment tree, const measure::Date& as_of);

// Whether at least one method of the tree is neither ruled out nor open.
bool has_ranked_method(const ComparedTree& tree);

// A method at a glance.
struct MethodRow {
    std::string mark;    // its place among the ranked, "?" while it is open, "-" when ruled out
    std::string method;  // "basal spray dinotefuran"
    std::string fits;    // "good to doubtful"
    std::string every;   // "2-3 yr"
    std::string active;  // "14.4-28.8 g", "by the label"
    std::string wound;   // "yes" or "no"
    std::string found;   // what has been found for stems of this size; empty without a DBH
    std::vector<std::string> sources;  // keys of all of it
};

// Every method of the tree: the ranked, the open, the ruled out. Empty where none was compared.
std::vector<MethodRow> method_rows(const ComparedTree& tree);

// For the practitioner: a table of all methods, then each with what speaks for and against it, the
// rules and sources behind that, and what to find out.
std::string methods_text(const std::vector<ComparedTree>& trees, const packs::RuleSet& rules);

// The same for the owner: no codes, no rule names, no conditions.
std::string methods_for_owner(const std::vector<ComparedTree>& trees);

// A row a method; a tree whose methods were not compared has one row that says so.
std::string methods_csv(const std::vector<ComparedTree>& trees);
Json methods_json(const std::vector<ComparedTree>& trees, const packs::RuleSet& rules);

// Shared by all forms.

// "ranked", "open", "ruled out".
std::string_view standing_words(plan::Standing standing);

// Why the methods of a tree were not compared.
std::string why_not_compared(const ComparedTree& tree);

}  // namespace ashtriage::present
