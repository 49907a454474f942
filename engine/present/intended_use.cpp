#include "present/intended_use.hpp"

#include <algorithm>

#include "present/card_remarks.hpp"
#include "present/planned_work.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

std::optional<bool> certified(const TreeAssessment& tree, const packs::RuleSet& rules) {
    const auto fact = rules.model.find_fact(triage::fact::restricted_use_certified);
    if (!fact) return std::nullopt;
    const reason::Value& told = tree.recommendation.facts[*fact];
    if (told.level_set() == nullptr || !told.is_exact()) return std::nullopt;
    const auto& levels = rules.model.facts[*fact].levels;
    const auto yes = std::ranges::find(levels, triage::level::yes) - levels.begin();
    return reason::has_level(*told.level_set(), static_cast<reason::LevelIndex>(yes));
}

}  // namespace

treat::IntendedUse intended_use(const TreeAssessment& tree, const treat::LabelCard& card,
                                const treat::SiteHistory& before, const packs::RuleSet& rules,
                                const measure::Date& on) {
    treat::IntendedUse use;
    use.on = on;
    use.others = treat::days_on_tree(before, tree.tree.id, card);
    use.certified = certified(tree, rules);
    use.distance_to_water = distance_to_water(tree, rules);
    return use;
}

void hold_against_the_label(TreeAssessment& tree, const Knowledge& knowledge,
                            const treat::SiteHistory& before, const measure::Date& as_of) {
    if (!tree.treatment || !tree.treatment->card) return;
    const treat::LabelCard& card = *tree.treatment->card;
    const auto& window = tree.treatment->window.window;
    const measure::Date on = window ? std::max(window->opens, as_of) : as_of;
    std::vector<treat::Finding> findings = treat::findings_about(
        card, *tree.treatment->dose, intended_use(tree, card, before, knowledge.judge.rules(), on));
    std::ranges::move(stops_by_method(card, knowledge), std::back_inserter(findings));
    std::erase_if(findings, [](const treat::Finding& finding) {
        return finding.severity != treat::Severity::stop || finding.id == treat::example_finding;
    });
    if (findings.empty()) return;
    treat::Dose stopped;
    stopped.dbh = tree.treatment->dose->dbh;
    stopped.findings = std::move(tree.treatment->dose->findings);
    std::ranges::move(findings, std::back_inserter(stopped.findings));
    tree.treatment->dose = std::move(stopped);
}

}  // namespace ashtriage::present
