#include "present/assessment.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>
#include <utility>

#include "measure/input_error.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

// Whether the last treatment is known or may turn out to have been this season: twice in a season
// is too soon by every label there is a card for.
bool may_be_treated_this_season(const packs::RuleSet& rules, const reason::Observation& values) {
    const auto fact = rules.model.find_fact(triage::fact::treatment_history);
    if (!fact) return false;
    const auto& levels = rules.model.facts[*fact].levels;
    const auto level = std::ranges::find(levels, triage::level::this_season);
    const reason::LevelSet* known = values[*fact].level_set();
    return level != levels.end() && known != nullptr &&
           reason::has_level(*known, static_cast<reason::LevelIndex>(level - levels.begin()));
}

measure::Date next_new_year(const measure::Date& date) {
    return (date.year() + std::chrono::years{1}) / std::chrono::January / 1;
}

// The latest walk-arounds that count on the day: not superseded, not later; latest last.
std::vector<observe::WalkAround> walked_until(const book::Book& book, observe::TreeId tree,
                                              const measure::Date& as_of) {
    std::vector<observe::WalkAround> walked;
    for (const book::FiledWalkAround& filed : book.walk_arounds(tree)) {
        if (!filed.superseded_by && filed.seen.date <= as_of) {
            walked.push_back(filed.seen);
        }
    }
    std::ranges::stable_sort(walked, {}, &observe::WalkAround::date);
    return walked;
}

std::optional<TreeAssessment> assess_if_walked(const book::Book& book, const Knowledge& knowledge,
                                               const observe::Site& site, const observe::Tree& tree,
                                               const measure::Date& as_of) {
    const auto walked = walked_until(book, tree.id, as_of);
    if (walked.empty()) return std::nullopt;
    const observe::WalkAround* previous = walked.size() > 1 ? &walked[walked.size() - 2] : nullptr;
    return assess_tree(knowledge, &site, tree, walked.back(), previous, as_of);
}

}  // namespace

std::optional<season::Location> location_of(const observe::Site* site, const observe::Tree& tree) {
    const auto& position = tree.position || site == nullptr ? tree.position : site->position;
    if (!position) return std::nullopt;
    return season::Location{position->latitude, position->longitude, position->elevation};
}

bool TreeAssessment::no_method_fits() const {
    const auto& method = recommendation.method;
    return !method.empty() && method.front().outcome == triage::outcome::no_method_fits;
}

TreeAssessment assess_tree(const Knowledge& knowledge, const observe::Site* site,
                           const observe::Tree& tree, const observe::WalkAround& walk_around,
                           const observe::WalkAround* previous, const measure::Date& as_of) {
    const packs::RuleSet& rules = knowledge.judge.rules();
    TreeAssessment assessed;
    assessed.tree = tree;
    assessed.walk_around = walk_around;
    assessed.facts = triage::tree_facts(rules, site, walk_around);
    if (previous != nullptr) {
        const triage::TreeFacts before = triage::tree_facts(rules, site, *previous);
        assessed.doubts = triage::doubtful_entries(assessed.facts, &before);
    } else {
        assessed.doubts = triage::doubtful_entries(assessed.facts, nullptr);
    }
    assessed.recommendation = knowledge.judge.recommend(assessed.facts);

    if (may_be_treated_this_season(rules, assessed.facts.values)) {
        // The season that the walk-around speaks of, which may be long past.
        const measure::Date new_year = next_new_year(walk_around.date);
        if (new_year > as_of) assessed.not_before = new_year;
    }
    const triage::Recommendation& recommended = assessed.recommendation;
    if (recommended.decided() && recommended.possible.front() == triage::outcome::treat &&
        !recommended.method.empty() && !assessed.no_method_fits() && !recommended.treatment_waits) {
        assessed.treatment = plan::treatment_for(
            recommended.method.front().outcome, knowledge.cards, knowledge.seasons,
            assessed.facts.diameters, location_of(site, tree), assessed.not_before.value_or(as_of),
            knowledge.year);
    }
    return assessed;
}

PropertyAssessment assess_property(const book::Book& book, const Knowledge& knowledge,
                                   const observe::Site& site, const measure::Date& as_of) {
    PropertyAssessment property;
    property.site = site;
    property.as_of = as_of;
    if (const auto client = book.find_client(site.client)) property.client = *client;
    for (const observe::Tree& tree : book.trees(site.id)) {
        if (auto assessed = assess_if_walked(book, knowledge, site, tree, as_of)) {
            property.trees.push_back(std::move(*assessed));
        } else {
            property.not_walked.push_back(tree);
        }
    }
    return property;
}

TreeAssessment assess_stored_tree(const book::Book& book, const Knowledge& knowledge,
                                  const observe::Site& site, const observe::Tree& tree,
                                  const measure::Date& as_of) {
    auto assessed = assess_if_walked(book, knowledge, site, tree, as_of);
    if (!assessed) {
        throw measure::InputError(
            "The tree \"" + tree.label + "\" has no walk-around up to " + measure::text(as_of), {},
            "Walk round it first: ashtriage walk --site \"" + site.name + "\" --tree \"" +
                tree.label + "\"");
    }
    return std::move(*assessed);
}

std::vector<std::size_t> by_urgency(const std::vector<TreeAssessment>& trees,
                                    const packs::RuleSet& rules) {
    const auto& urgency = rules.model.tables[*rules.model.find_table(triage::table::hazard)].gives;
    const auto loss = rules.model.find_fact(triage::fact::canopy_loss);

    const auto rank = [&](std::size_t index) {
        const triage::Recommendation& recommended = trees[index].recommendation;
        std::size_t flag = urgency.size();
        if (!recommended.flags.empty()) {
            flag = static_cast<std::size_t>(
                std::ranges::find(urgency, recommended.flags.front().flag) - urgency.begin());
        }
        const bool keeps = std::ranges::find(recommended.possible, triage::outcome::remove) ==
                           recommended.possible.end();
        const reason::Interval* known = loss ? recommended.facts[*loss].interval() : nullptr;
        return std::tuple(flag, keeps, known == nullptr ? 0.0 : -known->high);
    };
    std::vector<std::size_t> order(trees.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, rank);
    return order;
}

}  // namespace ashtriage::present
