#include "triage/interview.hpp"

#include <algorithm>
#include <utility>

#include "packs/applicability.hpp"
#include "packs/value_text.hpp"
#include "triage/tables.hpp"
#include "triage/tree_facts.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {

namespace {

// Dieback and thinning both stand behind the canopy loss, which is the worse of the two: while one
// of them is still to be asked, the loss is only known not to be less than the other.
void leave_canopy_loss_open(const packs::RuleSet& rules, reason::Observation& values) {
    const auto loss = rules.model.find_fact(fact::canopy_loss);
    if (!loss) return;
    const reason::Interval* known = values[*loss].interval();
    if (known == nullptr) return;
    values[*loss] = reason::Value::range(
        {known->low, rules.model.facts[*loss].range.high, known->low_open, false});
}

bool is_dead(const packs::RuleSet& rules, const reason::Observation& values) {
    const auto dead = rules.model.find_fact(fact::standing_dead);
    return dead && values[*dead] == reason::Value::yes();
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
        leave_canopy_loss_open(rules_, values);
    }
    return packs::with_applicability(rules_, std::move(values));
}

std::vector<bool> Interview::open_facts(const reason::Observation& values) const {
    std::vector<bool> open(rules_.model.facts.size(), false);
    const auto open_behind = [&](std::string_view name) {
        const auto table = rules_.model.find_table(name);
        if (!table) return;
        for (const reason::FactIndex fact : engine_.still_open(*table, values)) open[fact] = true;
    };
    open_behind(table::hazard);
    open_behind(table::evidence);
    open_behind(table::recommendation);
    if (with_assessor_) open_behind(table::risk_rating);
    if (may_come_to(rules_, engine_, values, outcome::treat)) open_behind(table::method);

    // What is worked out is never asked; what it follows from is asked in its place.
    for (reason::FactIndex fact = 0; fact < open.size(); ++fact) {
        if (!open[fact]) continue;
        for (const std::string_view entered : entered_for(rules_.model.facts[fact].name)) {
            if (const auto index = rules_.model.find_fact(entered)) open[*index] = true;
        }
    }
    // How much of its crown a dead tree has lost would be asked in vain.
    if (is_dead(rules_, values)) {
        for (const std::string_view measure : entered_for(fact::canopy_loss)) {
            if (const auto index = rules_.model.find_fact(measure)) open[*index] = false;
        }
    }
    return open;
}

std::optional<reason::FactIndex> Interview::next() const {
    const reason::Observation now = values();
    const std::vector<bool> open = open_facts(now);
    const bool canopy_measured =
        is_answered(fact::canopy_dieback) && is_answered(fact::canopy_thinning);

    const auto to_be_asked = [&](reason::FactIndex index) {
        const packs::FactText& text = rules_.facts[index];
        const std::string& name = rules_.model.facts[index].name;
        if (!open[index] || !text.asked || !now[index].is_unknown() || is_answered(name)) {
            return false;
        }
        if (text.group == assessor_group && !with_assessor_) return false;
        // The class says less than the percentages: only for want of them.
        if (name == fact::canopy_class && !canopy_measured) return false;
        return !text.only_if || applies(rules_, *text.only_if, now);
    };

    std::optional<reason::FactIndex> first;
    for (reason::FactIndex index = 0; index < now.size(); ++index) {
        if (!to_be_asked(index)) continue;
        if (rules_.facts[index].safety) return index;
        if (!first) first = index;
    }
    return first;
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
