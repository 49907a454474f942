#include "present/treated_trees.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

std::optional<treat::Finding> finding_about_treated(const TreeAssessment& tree) {
    const auto& possible = tree.recommendation.possible;
    if (std::ranges::find(possible, triage::outcome::treat) != possible.end()) return std::nullopt;
    return treat::Finding{
        treat::Severity::warning, "not-to-be-treated",
        fmt::format("{}: by the walk-around of {} it is none to be treated: {}. Make sure that the "
                    "record names the tree that was treated.",
                    tree.tree.label, measure::long_text(tree.walk_around.date),
                    verdict(tree.recommendation))};
}

treat::Finding treated_without_walk(const std::string& label) {
    return {treat::Severity::warning, "not-walked-round",
            fmt::format("{}: nobody had walked round it by the day of the treatment.", label)};
}

}  // namespace ashtriage::present
