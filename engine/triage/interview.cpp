#include "triage/interview.hpp"

#include <algorithm>
#include <utility>

#include "packs/applicability.hpp"
#include "packs/value_text.hpp"
#include "reason/three_valued.hpp"
#include "triage/best_questions.hpp"
#include "triage/tables.hpp"
#include "triage/tree_facts.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {

namespace {

// One of the entries from which the canopy loss is worked out.
bool is_behind_canopy_loss(const packs::RuleSet& rules, reason::FactIndex fact) {
    const auto loss = rules.model.find_fact(fact::canopy_loss);
    if (!loss) return false;
    const auto& crown = rules.facts[*loss].worked_out_from;
    return std::ranges::find(crown, fact) != crown.end();
}

bool is_known_as(const packs::RuleSet& rules, const reason::Observation& values,
                 std::string_view fact, std::string_view level) {
    const auto index = rules.model.find_fact(fact);
    if (!index) return false;
    const auto& levels = rules.model.facts[*index].levels;
    const auto found = std::ranges::find(levels, level);
    return found != levels.end() &&
           values[*index] ==
               reason::Value::level(static_cast<reason::LevelIndex>(found - levels.begin()));
}

// Dead, or to be taken for dead.
bool is_dead(const packs::RuleSet& rules, const reason::Observation& values) {
    return is_known_as(rules, values, fact::standing_dead, level::yes) ||
           is_known_as(rules, values, fact::leaves, level::bare_since_july);
}

}  // namespace

Interview::Interview(const packs::RuleSet& rules, const reason::Engine& engine,
                     reason::Observation known, bool with_assessor)
    : rules_(rules), engine_(engine), known_(std::move(known)), with_assessor_(with_assessor) {}

bool Interview::is_answered(std::string_view fact) const {
    return std::ranges::find(answers_, fact, &observe::Finding::fact) != answers_.end();
}

reason::Observation Interview::values() const {
    reason::Observation values = known_;
    for (const observe::Finding& finding : answers_) {
        const auto fact = *rules_.model.find_fact(finding.fact);
        values[fact] =
            packs::parse_value(rules_.model.facts[fact], rules_.facts[fact], finding.value);
    }
    work_out(rules_, values);
    if (!is_answered(fact::canopy_dieback) || !is_answered(fact::canopy_thinning)) {
        values = PartlyKnownCrown(rules_).left_open(std::move(values));
    }
    return packs::with_applicability(rules_, std::move(values));
}

std::vector<std::string_view> Interview::tables_to_settle(const reason::Observation& values) const {
    std::vector<std::string_view> tables{table::recommendation, table::hazard};
    const auto may_be = [&](std::string_view outcome) {
        return may_come_to(rules_, engine_, values, outcome);
    };
    // Signs of the borer on a tree that it does not attack tell nothing.
    if (may_be(outcome::remove) || may_be(outcome::treat) || may_be(outcome::monitor)) {
        tables.push_back(table::evidence);
    }
    if (may_be(outcome::treat)) tables.push_back(table::method);
    if (with_assessor_) tables.push_back(table::risk_rating);
    return tables;
}

bool Interview::may_be_asked(reason::FactIndex fact, const reason::Observation& now) const {
    const packs::FactText& text = rules_.facts[fact];
    const std::string& name = rules_.model.facts[fact].name;
    if (!text.asked || !now[fact].is_unknown() || is_answered(name)) return false;
    if (text.group == assessor_group && !with_assessor_) return false;
    if (is_behind_canopy_loss(rules_, fact)) {
        // How much of its crown a dead tree has lost would be asked in vain.
        if (is_dead(rules_, now)) return false;
        // The class says less than the percentages: only for want of them.
        const bool measured =
            is_answered(fact::canopy_dieback) && is_answered(fact::canopy_thinning);
        if (name == fact::canopy_class && !measured) return false;
    }
    return reason::applies(fact, rules_.model, now) == reason::Truth::yes;
}

std::optional<reason::FactIndex> Interview::next() const {
    const reason::Observation now = values();

    std::vector<reason::FactIndex> best_first;
    for (const std::string_view name : tables_to_settle(now)) {
        const auto table = rules_.model.find_table(name);
        if (!table) continue;
        for (const reason::FactIndex fact : best_questions(rules_, engine_, *table, now)) {
            // What is worked out is never asked; what it follows from is asked in its place.
            for (const reason::FactIndex entered : rules_.facts[fact].worked_out_from) {
                if (may_be_asked(entered, now)) best_first.push_back(entered);
            }
            if (may_be_asked(fact, now)) best_first.push_back(fact);
        }
    }
    if (best_first.empty()) return std::nullopt;

    // What bears on danger comes before everything else, in the order in which one walks up to a
    // tree, which is that of the rule set.
    std::optional<reason::FactIndex> danger;
    for (const reason::FactIndex fact : best_first) {
        if (rules_.facts[fact].safety && (!danger || fact < *danger)) danger = fact;
    }
    return danger ? danger : best_first.front();
}

void Interview::answer(reason::FactIndex fact, std::string_view text) {
    const reason::Value value =
        packs::parse_value(rules_.model.facts[fact], rules_.facts[fact], text);
    answers_.push_back({rules_.model.facts[fact].name, std::string(text)});
    // Kept as written; parsed here only so that a slip is refused at once.
    static_cast<void>(value);
}

bool Interview::back() {
    if (answers_.empty()) return false;
    answers_.pop_back();
    return true;
}

}  // namespace ashtriage::triage
