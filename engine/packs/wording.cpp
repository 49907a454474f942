#include "packs/wording.hpp"

#include <fmt/format.h>

#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include "packs/fact_units.hpp"
#include "packs/placeholder.hpp"
#include "packs/value_text.hpp"

namespace ashtriage::packs {

namespace {

using reason::Condition;
using reason::HitPolicy;
using reason::Interval;
using reason::LevelSet;

constexpr int decimals_spoken = 2;

std::string spoken(double number, const std::string& unit) {
    return number_with_unit(number, unit, decimals_spoken);
}

std::string chosen(const std::vector<std::string>& names, LevelSet set, std::string_view last) {
    std::vector<std::string> words;
    for (reason::LevelIndex i = 0; i < names.size(); ++i) {
        if (reason::has_level(set, i)) words.push_back(plain_name(names[i]));
    }
    return joined(words, last);
}

std::string stretch_text(const Interval& stretch, const Interval& range, const std::string& unit) {
    const bool from_bottom = stretch.low == range.low && !stretch.low_open;
    const bool to_top = stretch.high == range.high && !stretch.high_open;
    std::string low =
        fmt::format("{} {}", stretch.low_open ? "above" : "at least", spoken(stretch.low, unit));
    std::string high =
        fmt::format("{} {}", stretch.high_open ? "below" : "at most", spoken(stretch.high, unit));
    if (stretch.single_point()) return "is " + spoken(stretch.low, unit);
    if (from_bottom && to_top) return "is any number";
    if (to_top) return low;
    if (from_bottom) return high;
    return fmt::format("{} and {}", low, high);
}

// Puts a test into words.
class TestText {
 public:
    explicit TestText(const RuleSet& rule_set) : rule_set_(rule_set) {}

    std::string operator()(std::monostate) const { return {}; }

    std::string operator()(const reason::NumberTest& test) const {
        const reason::Fact& fact = rule_set_.model.facts[test.fact];
        std::string text =
            fmt::format("{} {}", plain_name(fact.name),
                        stretch_text(test.accepted, fact.range, rule_set_.facts[test.fact].unit));
        if (!test.setting.empty()) text += fmt::format(" (setting {})", test.setting);
        return text;
    }

    std::string operator()(const reason::LevelTest& test) const {
        const reason::Fact& fact = rule_set_.model.facts[test.fact];
        return fmt::format("{} is {}", plain_name(fact.name),
                           chosen(fact.levels, test.accepted, "or"));
    }

    std::string operator()(const reason::OutcomeTest& test) const {
        const reason::Table& table = rule_set_.model.tables[test.table];
        return fmt::format("{} {} {}", plain_name(table.name),
                           table.hit_policy == HitPolicy::collect ? "includes" : "is",
                           outcomes_text(table, test.accepted));
    }

 private:
    const RuleSet& rule_set_;
};

bool is_single_test(const Condition& condition) {
    return !std::holds_alternative<std::monostate>(condition.test);
}

std::string parts_text(const Condition& condition, const RuleSet& rule_set,
                       std::string_view between) {
    std::string text;
    for (const Condition& part : condition.parts) {
        if (!text.empty()) text += between;
        const std::string words = condition_text(part, rule_set);
        const bool grouped = !is_single_test(part) && part.parts.size() > 1;
        text += grouped ? fmt::format("({})", words) : words;
    }
    return text;
}

}  // namespace

std::string table_words(const RuleSet& rule_set, const reason::Engine& engine,
                        reason::TableIndex index, const reason::Observation& observation) {
    const reason::Table& table = rule_set.model.tables[index];
    if (table.hit_policy == HitPolicy::collect) {
        const LevelSet certain = engine.collect(index, observation).certain;
        return certain == 0 ? "none" : outcomes_text(table, certain, "and");
    }
    const reason::Outcomes outcomes = engine.decide(index, observation);
    std::vector<std::string> words;
    for (reason::OutcomeIndex i = 0; i < table.gives.size(); ++i) {
        if (reason::has_level(outcomes.possible, i)) words.push_back(plain_name(table.gives[i]));
    }
    if (outcomes.none_possible || outcomes.conflict_possible) words.emplace_back("undecided");
    return joined(words);
}

std::vector<WordedPiece> worded_pieces(std::string_view text, const RuleSet& rule_set) {
    std::vector<WordedPiece> pieces;
    for (const TextPiece& piece : text_pieces(text).pieces) {
        WordedPiece worded{std::string(piece.text), std::nullopt, std::nullopt};
        if (piece.is_name) {
            const Setting* setting = rule_set.find_setting(piece.text);
            worded.fact = rule_set.model.find_fact(piece.text);
            if (!worded.fact && setting == nullptr) {
                worded.table = rule_set.model.find_table(piece.text);
            }
            if (worded.fact || worded.table) {
                worded.words.clear();
            } else {
                worded.words =
                    setting != nullptr ? setting_text(*setting) : fmt::format("{{{}}}", piece.text);
            }
        }
        pieces.push_back(std::move(worded));
    }
    return pieces;
}

std::string worded(std::string_view text, const RuleSet& rule_set, const reason::Engine& engine,
                   const reason::Observation& observation) {
    std::string result;
    for (const WordedPiece& piece : worded_pieces(text, rule_set)) {
        if (piece.fact) {
            result += spoken_value(rule_set, *piece.fact, observation[*piece.fact]);
        } else if (piece.table) {
            result += table_words(rule_set, engine, *piece.table, observation);
        } else {
            result += piece.words;
        }
    }
    return result;
}

std::string spoken_value(const RuleSet& rule_set, reason::FactIndex fact,
                         const reason::Value& value) {
    if (const reason::WhyUnknown* why = value.why_unknown()) {
        return *why == reason::WhyUnknown::not_asked ? "not known" : "could not be seen";
    }
    const Interval* exact = value.interval();
    if (exact == nullptr)
        return value_text(rule_set.model.facts[fact], rule_set.facts[fact], value);
    const std::string& unit = rule_set.facts[fact].unit;
    if (exact->single_point()) return spoken(exact->low, unit);
    const Interval& range = rule_set.model.facts[fact].range;
    const bool from_bottom = exact->low == range.low && !exact->low_open;
    const bool to_top = exact->high == range.high && !exact->high_open;
    if (to_top && !from_bottom) {
        const std::string low = spoken(exact->low, unit);
        return exact->low_open ? "over " + low : low + " or more";
    }
    if (from_bottom && !to_top) {
        const std::string high = spoken(exact->high, unit);
        return exact->high_open ? "under " + high : high + " or less";
    }
    const std::string low = number_text(exact->low, decimals_spoken);
    const std::string high = spoken(exact->high, unit);
    if (exact->low_open) {
        return fmt::format("over {} and {} {}", low, exact->high_open ? "under" : "up to", high);
    }
    return fmt::format("{} to {}{}", low, exact->high_open ? "under " : "", high);
}

std::string setting_text(const Setting& setting) {
    if (setting.is_switch) return setting.value != 0.0 ? "yes" : "no";
    return spoken(setting.value, setting.unit);
}

std::string condition_text(const Condition& condition, const RuleSet& rule_set) {
    if (is_single_test(condition)) return std::visit(TestText(rule_set), condition.test);
    switch (condition.kind) {
        case Condition::Kind::any:
            return condition.parts.empty() ? "never" : parts_text(condition, rule_set, " or ");
        case Condition::Kind::negation:
            return fmt::format("not ({})", condition_text(condition.parts.front(), rule_set));
        default:
            return condition.parts.empty() ? "always" : parts_text(condition, rule_set, " and ");
    }
}

std::string outcomes_text(const reason::Table& table, LevelSet outcomes, std::string_view last) {
    return chosen(table.gives, outcomes, last);
}

std::string unit_text(std::string_view unit_name) {
    const FactUnit* unit = find_fact_unit(unit_name);
    return unit == nullptr ? std::string() : std::string(unit->several);
}

}  // namespace ashtriage::packs
