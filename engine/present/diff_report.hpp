// What another edition of the rules changes, for people and for other programs.
#pragma once

#include <string>
#include <vector>

#include "packs/compare_rules.hpp"
#include "present/assessment.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::present {

// A tree of the book that another edition answers otherwise.
struct AffectedTree {
    std::string site;
    std::string tree;
    std::vector<std::string> changes;  // "recommendation: treat becomes remove"
};

// How the two assessments of the same trees, in the same order, differ: recommendation, flags,
// method. Trees that are answered alike are left out.
std::vector<AffectedTree> affected_trees(const PropertyAssessment& before,
                                         const PropertyAssessment& after);

// The trees of the book, as far as there is a book.
struct BookComparison {
    std::size_t trees = 0;  // that somebody has walked round
    std::vector<AffectedTree> affected;
};

// `book` is null when there is none. Whether anything differs at all is differs().
std::string diff_text(const packs::RuleComparison& comparison, const BookComparison* book);
// A line for each kind of trees, then one for each tree of the book.
std::string diff_csv(const packs::RuleComparison& comparison, const BookComparison* book);
Json diff_json(const packs::RuleComparison& comparison, const BookComparison* book);

// Some tree gets another answer, or some table could not be compared.
bool differs(const packs::RuleComparison& comparison);

}  // namespace ashtriage::present
