// The tables of fit never contradict the table `method`: shown of every case there can be, and
// again on random trees through the whole comparison.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "built_in_methods.hpp"
#include "triage/tables.hpp"

namespace ashtriage::plan {
namespace {

using reason::Condition;
using reason::LevelSet;
using reason::TableIndex;
using test::built_in;

LevelSet outcome_in(const reason::Model& model, TableIndex table, std::string_view name) {
    const auto& gives = model.tables[table].gives;
    const auto found = std::ranges::find(gives, name);
    return found == gives.end()
               ? 0
               : reason::only_level(static_cast<reason::LevelIndex>(found - gives.begin()));
}

// The outcomes of a table of fit that are at least, or not even, as good as this.
LevelSet at_least(const reason::Model& model, TableIndex table, std::size_t goodness) {
    constexpr std::array scale{fit::excluded, fit::doubtful, fit::fair, fit::good};
    LevelSet set = 0;
    for (std::size_t i = goodness; i < scale.size(); ++i) set |= outcome_in(model, table, scale[i]);
    return set;
}

// Whether any case that agrees with what is known meets the condition. Exact: the condition becomes
// a table of its own, compiled like every other.
bool can_happen(reason::Model model, Condition condition, const reason::Observation& known) {
    reason::Table asked;
    asked.name = "can_happen";
    asked.gives = {"yes", "no"};
    asked.hit_policy = reason::HitPolicy::priority;
    asked.rules = {{"yes", std::move(condition), 0}, {"no", Condition::always(), 1}};
    model.tables.push_back(std::move(asked));
    const reason::Engine engine(std::move(model));
    const TableIndex table = engine.model().tables.size() - 1;
    const reason::Outcomes outcomes = engine.decide(table, known);
    EXPECT_TRUE(outcomes.exact && engine.has_diagram(table));
    return reason::has_level(outcomes.possible, 0);
}

struct UnderAPreset {
    packs::RuleSet rules;
    std::vector<MethodFacts> methods;
    TableIndex method_table = 0;

    reason::Observation nothing_known() const {
        return reason::Observation(rules.model.facts.size());
    }
    Condition chosen(std::string_view method) const {
        return Condition::outcome(method_table, outcome_in(rules.model, method_table, method));
    }
};

UnderAPreset under(const std::string& preset) {
    const auto files = packs::built_in_rule_files();
    UnderAPreset read{packs::read_rule_set(files, preset), {}, 0};
    read.methods =
        read_method_facts(files, read.rules, season::read_seasons(files, read.rules.sources));
    read.method_table = *read.rules.model.find_table(triage::table::method);
    return read;
}

class EveryPreset : public testing::TestWithParam<std::string> {};

TEST_P(EveryPreset, NeverRulesOutItsFirstChoice) {
    const UnderAPreset set = under(GetParam());
    for (const MethodFacts& method : set.methods) {
        const LevelSet chosen = outcome_in(set.rules.model, set.method_table, method.method);
        if (chosen == 0) continue;  // never a first choice
        // The first choice does come about, so that the proof is not about nothing.
        EXPECT_TRUE(can_happen(set.rules.model, set.chosen(method.method), set.nothing_known()))
            << method.method;
        const auto excluded =
            Condition::outcome(method.fit, outcome_in(set.rules.model, method.fit, fit::excluded));
        EXPECT_FALSE(can_happen(set.rules.model,
                                Condition::all({set.chosen(method.method), excluded}),
                                set.nothing_known()))
            << method.method;
    }
}

TEST_P(EveryPreset, LeavesNoMethodWhereNoneFits) {
    const UnderAPreset set = under(GetParam());
    for (const MethodFacts& method : set.methods) {
        const auto not_excluded =
            Condition::outcome(method.fit, at_least(set.rules.model, method.fit, 1));
        EXPECT_FALSE(
            can_happen(set.rules.model,
                       Condition::all({set.chosen(triage::outcome::no_method_fits), not_excluded}),
                       set.nothing_known()))
            << method.method;
    }
}

INSTANTIATE_TEST_SUITE_P(AndNone, EveryPreset, testing::ValuesIn([] {
                             std::vector<std::string> presets{""};
                             const auto rules = packs::read_rule_set(packs::built_in_rule_files());
                             for (const auto& preset : rules.presets)
                                 presets.push_back(preset.name);
                             return presets;
                         }()));

// What a walk-around does not ask stands against nothing: then the first choice is also the best.
TEST(TheFirstChoice, FitsAsWellAsAnyOtherUnlessSomethingBeyondTheWalkAroundIsAgainstIt) {
    const UnderAPreset set = under("");
    reason::Observation known = set.nothing_known();
    const std::vector<std::pair<std::string_view, std::string_view>> beyond{
        {"borer_pressure", "low"},  {"ground_water_shallow", "no"},
        {"edibles_near", "no"},     {"thick_bark", "no"},
        {"drift_exposure", "none"}, {"restricted_use_certified", "yes"}};
    for (const auto& [name, value] : beyond) {
        const reason::FactIndex fact = triage::fact_named(set.rules, name);
        known[fact] = packs::parse_value(set.rules.model.facts[fact], set.rules.facts[fact], value);
    }
    for (const MethodFacts& first : set.methods) {
        if (outcome_in(set.rules.model, set.method_table, first.method) == 0) continue;
        for (const MethodFacts& other : set.methods) {
            for (const std::size_t goodness : {2U, 3U}) {
                const auto other_is =
                    Condition::outcome(other.fit, at_least(set.rules.model, other.fit, goodness));
                const auto first_is =
                    Condition::outcome(first.fit, at_least(set.rules.model, first.fit, goodness));
                EXPECT_FALSE(can_happen(set.rules.model,
                                        Condition::all({set.chosen(first.method), other_is,
                                                        Condition::negation(first_is)}),
                                        known))
                    << other.method << " beside " << first.method;
            }
        }
    }
}

// Any value the fact can have, or none.
reason::Value random_value(const reason::Fact& fact, std::mt19937& random) {
    if (random() % 4 == 0) return {};
    if (fact.kind == reason::FactKind::number) {
        std::uniform_real_distribution<double> number(fact.range.low, fact.range.high);
        // Most thresholds lie low in the range of the fact.
        const double drawn = number(random);
        return reason::Value::number(
            random() % 2 == 0 ? drawn : fact.range.low + (drawn - fact.range.low) / 20);
    }
    return reason::Value::level(static_cast<reason::LevelIndex>(random() % fact.levels.size()));
}

TEST(RandomTrees, AreNeverOfferedAMethodThatTheRulesExclude) {
    constexpr int trees = 20'000;
    const packs::RuleSet& rules = built_in().rules;
    const TableIndex method_table = *rules.model.find_table(triage::table::method);
    std::vector<reason::FactIndex> facts = reason::facts_behind(rules.model, method_table);
    for (const MethodFacts& method : built_in().methods) {
        for (const TableIndex table : {method.fit, method.ready}) {
            for (const reason::FactIndex fact : reason::facts_behind(rules.model, table)) {
                if (std::ranges::find(facts, fact) == facts.end()) facts.push_back(fact);
            }
        }
    }
    std::mt19937 random(20261125);
    int with_first_choice = 0;
    for (int i = 0; i < trees; ++i) {
        triage::TreeFacts tree;
        tree.values.resize(rules.model.facts.size());
        for (const reason::FactIndex fact : facts) {
            tree.values[fact] = random_value(rules.model.facts[fact], random);
        }
        const measure::Date as_of{std::chrono::year{2026},
                                  std::chrono::month{static_cast<unsigned>(random() % 12 + 1)},
                                  std::chrono::day{15}};
        const MethodComparison comparison = test::compared(tree, as_of);

        EXPECT_EQ(comparison.contradiction, "");
        EXPECT_EQ(comparison.ranked.size() + comparison.open.size() + comparison.ruled_out.size(),
                  built_in().methods.size());
        for (const MethodAnswer& answer : comparison.ranked) {
            const auto outcomes = built_in().engine.decide(answer.facts->fit, tree.values);
            EXPECT_EQ(outcomes.possible & outcome_in(rules.model, answer.facts->fit, fit::excluded),
                      0U);
        }
        for (const MethodAnswer& answer : comparison.ruled_out) {
            EXPECT_FALSE(answer.ruled_out_by.empty()) << answer.facts->method;
        }
        for (const MethodAnswer& answer : comparison.open) {
            EXPECT_FALSE(answer.questions.empty()) << answer.facts->method;
        }
        const auto chosen = built_in().engine.decide(method_table, tree.values).outcome();
        if (!chosen) continue;
        const std::string& name = rules.model.tables[method_table].gives[*chosen];
        if (name == triage::outcome::no_method_fits) {
            EXPECT_TRUE(comparison.ranked.empty() && comparison.open.empty());
            continue;
        }
        ++with_first_choice;
        ASSERT_FALSE(comparison.ranked.empty());
        EXPECT_EQ(comparison.ranked.front().facts->method, name);
    }
    // Otherwise the trees would have tried next to nothing.
    EXPECT_GT(with_first_choice, trees / 20);
}

}  // namespace
}  // namespace ashtriage::plan
