#include "packs/case_needed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>
#include <optional>
#include <variant>
#include <vector>

#include "packs/fact_units.hpp"
#include "packs/wording.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

using reason::Condition;
using reason::FactIndex;
using reason::Interval;
using reason::LevelSet;
using reason::TableIndex;

// A number of the stretch: at an end that is not one of the range, if that belongs to it, else from
// the inside. Nothing when it holds no number that the fact can have.
std::optional<double> number_inside(const Interval& stretch, const Interval& range, bool whole) {
    const double middle = stretch.low + (stretch.high - stretch.low) / 2;
    std::vector<double> candidates;
    if (stretch.low != range.low) candidates.push_back(stretch.low);
    if (stretch.high != range.high) candidates.push_back(stretch.high);
    if (whole) {
        candidates.push_back(std::ceil(stretch.low));
        candidates.push_back(std::floor(stretch.low) + 1);
    } else {
        candidates.push_back(std::round(middle));
        candidates.push_back(middle);
    }
    for (const double candidate : candidates) {
        if (stretch.contains(candidate) && (!whole || candidate == std::floor(candidate))) {
            return candidate;
        }
    }
    return std::nullopt;
}

// What facts and tables would have to come to. Built up want by want; a want that does not go with
// those before it is refused.
class Wanted {
 public:
    explicit Wanted(const RuleSet& rule_set) : rule_set_(&rule_set) {}

    bool want(const Condition& condition, bool met) {
        switch (condition.kind) {
            case Condition::Kind::all:
                return met ? want_every(condition.parts, met) : want_one(condition.parts, met);
            case Condition::Kind::any:
                return met ? want_one(condition.parts, met) : want_every(condition.parts, met);
            case Condition::Kind::negation:
                return want(condition.parts.front(), !met);
            case Condition::Kind::number:
                return want_number(std::get<reason::NumberTest>(condition.test), met);
            case Condition::Kind::level:
                return want_level(std::get<reason::LevelTest>(condition.test), met);
            case Condition::Kind::outcome:
                return want_outcome(std::get<reason::OutcomeTest>(condition.test), met);
        }
        return false;
    }

    std::string text() const {
        std::vector<std::string> values;
        for (const auto& [fact, stretch] : numbers_) {
            values.push_back(
                fmt::format("{}: {}", fact_of(fact).name, number_text(*number_of(fact, stretch))));
        }
        for (const auto& [fact, levels] : levels_) {
            const auto level = static_cast<std::size_t>(std::countr_zero(levels));
            values.push_back(
                fmt::format("{}: {}", fact_of(fact).name, fact_of(fact).levels[level]));
        }
        for (const FactIndex fact : not_applying_) {
            values.push_back(fmt::format("{}: does not apply", fact_of(fact).name));
        }
        std::vector<std::string> outcomes;
        for (const auto& [table, accepted] : outcomes_) {
            outcomes.push_back(fmt::format("{} comes out as {}", plain_name(table_of(table).name),
                                           outcomes_text(table_of(table), accepted)));
        }
        for (const auto& [table, collected] : collected_) {
            outcomes.push_back(fmt::format(
                "{} {} {}", plain_name(table_of(table).name),
                collected.met ? "includes" : "includes neither",
                outcomes_text(table_of(table), collected.outcomes, collected.met ? "or" : "nor")));
        }
        std::string text = "a case";
        if (!values.empty()) text += fmt::format(" that gives {{{}}}", fmt::join(values, ", "));
        if (!outcomes.empty()) {
            text += fmt::format("{} in which {}", values.empty() ? "" : " and",
                                joined(outcomes, "and"));
        }
        return text;
    }

 private:
    struct CollectedWant {
        LevelSet outcomes = 0;
        bool met = true;
    };

    const reason::Fact& fact_of(FactIndex fact) const { return rule_set_->model.facts[fact]; }
    const reason::Table& table_of(TableIndex table) const { return rule_set_->model.tables[table]; }

    bool want_every(const std::vector<Condition>& parts, bool met) {
        return std::all_of(parts.begin(), parts.end(),
                           [&](const Condition& part) { return want(part, met); });
    }

    bool want_one(const std::vector<Condition>& parts, bool met) {
        for (const Condition& part : parts) {
            Wanted with_part = *this;
            if (!with_part.want(part, met)) continue;
            *this = std::move(with_part);
            return true;
        }
        return false;
    }

    bool want_to_apply(FactIndex fact) {
        if (std::find(not_applying_.begin(), not_applying_.end(), fact) != not_applying_.end()) {
            return false;
        }
        const Condition* applies = rule_set_->model.condition_to_apply(fact);
        return applies == nullptr || want(*applies, true);
    }

    // Every value meets the test, so only a fact that does not apply fails it.
    bool want_not_to_apply(FactIndex fact) {
        if (numbers_.count(fact) != 0 || levels_.count(fact) != 0) return false;
        not_applying_.push_back(fact);
        return true;
    }

    std::optional<double> number_of(FactIndex fact, const Interval& stretch) const {
        const FactUnit* unit = find_fact_unit(rule_set_->facts[fact].unit);
        return number_inside(stretch, fact_of(fact).range, unit != nullptr && unit->whole_numbers);
    }

    bool want_stretch(FactIndex fact, const Interval& stretch) {
        const auto earlier = numbers_.find(fact);
        const auto both =
            earlier == numbers_.end() ? stretch : reason::intersection(earlier->second, stretch);
        if (!both || both->empty() || !number_of(fact, *both)) return false;
        numbers_[fact] = *both;
        return want_to_apply(fact);
    }

    bool want_number(const reason::NumberTest& test, bool met) {
        if (met) return want_stretch(test.fact, test.accepted);
        const Interval& range = fact_of(test.fact).range;
        const Interval below{range.low, test.accepted.low, false, !test.accepted.low_open};
        const Interval above{test.accepted.high, range.high, !test.accepted.high_open, false};
        if (below.empty() && above.empty()) return want_not_to_apply(test.fact);
        const Wanted before = *this;
        if (want_stretch(test.fact, below)) return true;
        *this = before;
        return want_stretch(test.fact, above);
    }

    bool want_level(const reason::LevelTest& test, bool met) {
        const LevelSet all = reason::all_levels(fact_of(test.fact).levels.size());
        const LevelSet wanted = met ? test.accepted : all & ~test.accepted;
        if (wanted == 0) return want_not_to_apply(test.fact);
        LevelSet& levels = levels_.try_emplace(test.fact, all).first->second;
        levels &= wanted;
        return levels != 0 && want_to_apply(test.fact);
    }

    bool want_outcome(const reason::OutcomeTest& test, bool met) {
        const reason::Table& table = table_of(test.table);
        if (table.hit_policy == reason::HitPolicy::collect) {
            collected_.emplace_back(test.table, CollectedWant{test.accepted, met});
            return true;
        }
        const LevelSet all = reason::all_levels(table.gives.size());
        LevelSet& outcomes = outcomes_.try_emplace(test.table, all).first->second;
        outcomes &= met ? test.accepted : ~test.accepted;
        return outcomes != 0;
    }

    const RuleSet* rule_set_;
    std::map<FactIndex, Interval> numbers_;
    std::map<FactIndex, LevelSet> levels_;
    std::vector<FactIndex> not_applying_;
    std::map<TableIndex, LevelSet> outcomes_;
    std::vector<std::pair<TableIndex, CollectedWant>> collected_;
};

}  // namespace

std::string case_needed(const Condition& condition, bool to_be_met, const RuleSet& rule_set) {
    Wanted wanted(rule_set);
    if (wanted.want(condition, to_be_met)) return wanted.text();
    return fmt::format("a case that makes this {}: {}", to_be_met ? "hold" : "fail",
                       condition_text(condition, rule_set));
}

}  // namespace ashtriage::packs
