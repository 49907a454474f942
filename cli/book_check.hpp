// Running the book's recommendations again.
#pragma once

#include <string>
#include <vector>

#include "book/book.hpp"
#include "options.hpp"

namespace ashtriage::cli {

struct RecommendationCheck {
    int same = 0;
    int other_rules = 0;  // made by a rule set with another hash
    std::vector<std::string> problems;
};

// Takes the facts each stored recommendation was made from through the rules at hand; what was made
// by the same rules must come out the same.
RecommendationCheck check_recommendations(const Options& options, const book::Book& book);

}  // namespace ashtriage::cli
