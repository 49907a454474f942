#include "packs/read_rule_set.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/input_error.hpp"
#include "reason/engine.hpp"
#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

using reason::Condition;
using reason::Interval;
using testing::ElementsAre;

RuleSet small_set(std::string_view preset = {}) {
    return read_rule_set(files_with(small_pack), preset);
}

TEST(ReadRuleSet, ReadsFactsWithEverythingThatIsSaidAboutThem) {
    const RuleSet set = small_set();
    ASSERT_EQ(set.model.facts.size(), 5U);
    const reason::Fact& loss = set.model.facts[0];
    EXPECT_EQ(loss.name, "loss");
    EXPECT_EQ(loss.kind, reason::FactKind::number);
    EXPECT_EQ(loss.range, Interval::closed(0, 100));
    EXPECT_EQ(loss.eye_error, 10.0);
    EXPECT_TRUE(loss.changeable);
    EXPECT_EQ(set.facts[0].unit, "percent");
    EXPECT_EQ(set.facts[0].group, "crown");
    EXPECT_TRUE(set.facts[0].asked);
    EXPECT_THAT(set.facts[0].sources, ElementsAre("invented"));

    const reason::Fact& shape = set.model.facts[2];
    EXPECT_EQ(shape.kind, reason::FactKind::choice);
    EXPECT_THAT(shape.levels, ElementsAre("round", "d_shaped"));
    EXPECT_THAT(set.facts[2].level_help, ElementsAre("A circle.", "Flat on one side."));
    ASSERT_TRUE(set.model.condition_to_apply(2) != nullptr);

    EXPECT_EQ(set.facts[3].effort, Effort::climb);
    EXPECT_TRUE(set.facts[3].safety);
    EXPECT_EQ(set.facts[3].help, "Look high up.");
    EXPECT_THAT(set.model.facts[4].levels, ElementsAre("no", "yes"));
    EXPECT_FALSE(set.model.facts[4].changeable);
}

TEST(ReadRuleSet, ReadsTablesWithTheirTexts) {
    const RuleSet set = small_set();
    ASSERT_EQ(set.model.tables.size(), 3U);
    EXPECT_EQ(set.model.tables[2].hit_policy, reason::HitPolicy::collect);
    const reason::Table& advice = set.model.tables[1];
    EXPECT_THAT(advice.gives, ElementsAre("remove", "treat"));
    ASSERT_EQ(advice.rules.size(), 3U);
    EXPECT_EQ(advice.rules[0].id, "too-far-gone");
    EXPECT_EQ(advice.rules[2].gives, 1U);
    EXPECT_EQ(set.tables[1].pack, "small");
    const RuleText& text = set.tables[1].rules[0];
    EXPECT_EQ(text.because, "A loss of {loss} is above {stop_above}, with {signs} signs.");
    EXPECT_EQ(text.client, "Too little is left.");
    EXPECT_EQ(text.todo, "Book the removal.");
    EXPECT_EQ(text.who, "A tree crew.");
    EXPECT_THAT(text.sources, ElementsAre("invented", "handbook"));
}

TEST(ReadRuleSet, AThresholdKeepsTheNameOfItsSetting) {
    const RuleSet set = small_set();
    const Condition& any = set.model.tables[1].rules[0].when;
    ASSERT_EQ(any.kind, Condition::Kind::any);
    const auto& test = std::get<reason::NumberTest>(any.parts[0].test);
    EXPECT_EQ(test.setting, "stop_above");
    EXPECT_EQ(test.accepted, (Interval{50, 100, true, false}));
    EXPECT_EQ(std::get<reason::LevelTest>(any.parts[1].test).accepted, reason::only_level(1));
}

TEST(ReadRuleSet, APresetChangesThresholdsAndSwitches) {
    const RuleSet usual = small_set();
    const RuleSet strict = small_set("strict");
    EXPECT_EQ(strict.preset, "strict");
    EXPECT_EQ(strict.find_setting("stop_above")->value, 30.0);
    const auto& threshold =
        std::get<reason::NumberTest>(strict.model.tables[1].rules[0].when.parts[0].test);
    EXPECT_EQ(threshold.accepted, (Interval{30, 100, true, false}));

    const reason::Engine before(usual.model);
    const reason::Engine after(strict.model);
    reason::Observation pecked = before.nothing_known();
    pecked[0] = reason::Value::number(20);
    pecked[3] = reason::Value::level(1);
    pecked[4] = reason::Value::no();
    EXPECT_EQ(before.decide(1, pecked).outcome(), 1U);
    EXPECT_EQ(after.decide(1, pecked).outcome(), 0U);
}

// What the condition itself no longer tells: which switch made it hold always or never.
TEST(ReadRuleSet, KeepsWhatWasWrittenForWhatASettingSettles) {
    for (const char* preset : {"", "strict"}) {
        const RuleSet set = small_set(preset);
        const std::vector<RuleText>& advice = set.tables[1].rules;
        EXPECT_TRUE(advice[0].settled.empty());
        ASSERT_EQ(advice[1].settled.size(), 1U);
        EXPECT_EQ(advice[1].settled[0].setting, "careful");
        EXPECT_EQ(advice[1].settled[0].said, "setting careful is yes");
        const Condition& first = set.model.tables[1].rules[1].when.parts[0];
        EXPECT_TRUE(first.parts.empty());
        EXPECT_EQ(first.kind, set.preset.empty() ? Condition::Kind::any : Condition::Kind::all);
        ASSERT_EQ(advice[2].settled.size(), 1U);
        EXPECT_EQ(advice[2].settled[0].setting, "");
        EXPECT_EQ(advice[2].settled[0].said, "always");
    }
}

TEST(ReadRuleSet, KeepsWhatWasWrittenForAThresholdAtTheEndOfTheRange) {
    const RuleSet set =
        read_rule_set(files_with(changed("stop_above: {value: 50", "stop_above: {value: 100")));
    const RuleText& far_gone = set.tables[1].rules[0];
    ASSERT_EQ(far_gone.settled.size(), 1U);
    EXPECT_EQ(far_gone.settled[0].setting, "stop_above");
    EXPECT_EQ(far_gone.settled[0].said, "loss above 100 % (setting stop_above)");
    const Condition& above = set.model.tables[1].rules[0].when.parts[0];
    EXPECT_EQ(above.kind, Condition::Kind::any);
    EXPECT_TRUE(above.parts.empty());
}

TEST(ReadRuleSet, RefusesAnUnknownPresetWithTheNearest) {
    try {
        small_set("strikt");
        FAIL();
    } catch (const measure::InputError& error) {
        EXPECT_EQ(std::string(error.what()), "there is no preset 'strikt' in the rules");
        EXPECT_EQ(error.hint(), "did you mean 'strict'?");
    }
}

TEST(ReadRuleSet, ReadsSettingsSourcesEditionsAndCases) {
    const RuleSet set = small_set();
    ASSERT_EQ(set.settings.size(), 2U);
    EXPECT_EQ(set.settings[0].unit, "percent");
    EXPECT_TRUE(set.settings[1].is_switch);
    EXPECT_EQ(set.settings[1].value, 0.0);
    EXPECT_EQ(set.find_setting("nothing"), nullptr);
    ASSERT_NE(set.find_source("handbook"), nullptr);
    EXPECT_EQ(set.find_source("handbook")->evidence, Evidence::common_practice);
    EXPECT_EQ(set.find_source("handbok"), nullptr);
    ASSERT_EQ(set.editions.size(), 1U);
    EXPECT_EQ(set.editions[0].edition, "2026.1");

    ASSERT_EQ(set.cases.size(), 3U);
    EXPECT_EQ(set.cases[0].given[0], reason::Value::number(60));
    EXPECT_EQ(set.cases[0].expected[1].includes, reason::only_level(1));
    EXPECT_EQ(set.cases[1].preset, "strict");
    EXPECT_EQ(set.cases[2].expected[0].exactly, 0b11U);
    EXPECT_EQ(set.cases[2].expected[1].excludes, reason::only_level(0));
    EXPECT_EQ(set.cases[2].file, "small.yaml");
    EXPECT_GT(set.cases[2].line, set.cases[1].line);
}

// The first value of the pack's own test for a number or a level.
template <class Test>
Test test_of(std::string_view when) {
    const RuleSet set = read_rule_set(files_with(changed("when: {loss: {at_least: 50}}", when)));
    return std::get<Test>(set.model.tables[2].rules[1].when.test);
}

TEST(ReadRuleSet, UnderstandsEveryComparisonOfNumbers) {
    const auto stretch = [](std::string_view test) {
        return test_of<reason::NumberTest>("when: {loss: " + std::string(test) + "}").accepted;
    };
    EXPECT_EQ(stretch("{above: 20}"), (Interval{20, 100, true, false}));
    EXPECT_EQ(stretch("{at_least: 20}"), (Interval{20, 100, false, false}));
    EXPECT_EQ(stretch("{below: 20}"), (Interval{0, 20, false, true}));
    EXPECT_EQ(stretch("{at_most: 20}"), (Interval{0, 20, false, false}));
    EXPECT_EQ(stretch("{between: [20, 30]}"), Interval::closed(20, 30));
    EXPECT_EQ(stretch("{is: 20}"), Interval::point(20));
    EXPECT_EQ(stretch("{at_least: 20, below: 30}"), (Interval{20, 30, false, true}));
}

TEST(ReadRuleSet, UnderstandsEveryComparisonOfLevels) {
    const auto levels = [](std::string_view test) {
        return test_of<reason::LevelTest>("when: {pecking: " + std::string(test) + "}").accepted;
    };
    EXPECT_EQ(levels("light"), 0b010U);
    EXPECT_EQ(levels("{is: light}"), 0b010U);
    EXPECT_EQ(levels("{one_of: [none, heavy]}"), 0b101U);
    EXPECT_EQ(levels("{at_least: light}"), 0b110U);
    EXPECT_EQ(levels("{above: light}"), 0b100U);
    EXPECT_EQ(levels("{at_most: light}"), 0b011U);
    EXPECT_EQ(levels("{below: light}"), 0b001U);
    EXPECT_EQ(levels("{at_least: light, below: heavy}"), 0b010U);
}

TEST(ReadRuleSet, UnderstandsTestsOfOtherTables) {
    const auto outcomes = [](std::string_view test) {
        return test_of<reason::OutcomeTest>("when: {signs: " + std::string(test) + "}").accepted;
    };
    EXPECT_EQ(outcomes("weak"), 0b010U);
    EXPECT_EQ(outcomes("{is: weak}"), 0b010U);
    EXPECT_EQ(outcomes("{one_of: [strong, weak]}"), 0b011U);

    const RuleSet set =
        read_rule_set(files_with(changed("when: {pecking: {at_least: light}}",
                                         "when: {flags: {includes_any: [dead_tree, brittle]}}")));
    const auto& test = std::get<reason::OutcomeTest>(set.model.tables[0].rules[1].when.test);
    EXPECT_EQ(test.table, 2U);
    EXPECT_EQ(test.accepted, 0b11U);
}

TEST(ReadRuleSet, TwoSettingsInOneTestStayTwoTests) {
    std::string pack =
        changed("when: {loss: {at_least: 50}}",
                "when: {loss: {at_least: {setting: from}, below: {setting: stop_above}}}");
    const std::string_view settings = "settings:\n";
    pack.replace(
        pack.find(settings), settings.size(),
        "settings:\n  from: {value: 10, unit: percent, source: invented, about: Start.}\n");
    const Condition when = read_rule_set(files_with(pack)).model.tables[2].rules[1].when;
    ASSERT_EQ(when.kind, Condition::Kind::all);
    ASSERT_EQ(when.parts.size(), 2U);
    EXPECT_EQ(std::get<reason::NumberTest>(when.parts[0].test).setting, "from");
    EXPECT_EQ(std::get<reason::NumberTest>(when.parts[1].test).setting, "stop_above");
}

TEST(ReadRuleSet, FilesMayReferToEachOtherInAnyOrder) {
    const std::string text(small_pack);
    const std::size_t facts = text.find("facts:\n");
    const std::size_t tables = text.find("tables:\n");
    std::string rules = text.substr(0, facts) + text.substr(tables);
    rules.replace(rules.find("pack: small"), 11, "pack: a_rules");
    const std::string seen =
        "pack: b_facts\nedition: 1\nabout: Facts.\n" + text.substr(facts, tables - facts);
    const RuleSet set = read_rule_set({{"a_rules.yaml", rules, {}},
                                       {"b_facts.yaml", seen, {}},
                                       {"sources.yaml", std::string(small_sources), {}}});
    EXPECT_EQ(set.model.facts.size(), 5U);
    EXPECT_EQ(set.model.tables.size(), 3U);
    EXPECT_EQ(set.editions.size(), 2U);
}

TEST(RuleSetHash, ChangesWithTextNamePresetAndNothingElse) {
    const std::string hash = small_set().hash;
    EXPECT_EQ(hash.size(), 64U);
    EXPECT_EQ(small_set().hash, hash);
    EXPECT_NE(small_set("strict").hash, hash);
    EXPECT_NE(read_rule_set(files_with(changed("tests.", "tests!"))).hash, hash);
    auto files = files_with(small_pack);
    files[0].shown = "somewhere/else.yaml";
    EXPECT_EQ(read_rule_set(files).hash, hash);
    files.push_back({"labels/a.yaml", "x", {}});
    EXPECT_NE(read_rule_set(files).hash, hash);
}

// FIPS 180-4. With no files only the preset is hashed, here none: "0:". The value was computed
// apart, by: printf '0:' | sha256sum
TEST(RuleSetHash, IsSha256) {
    EXPECT_EQ(read_rule_set({}).hash,
              "ba768b331fd86cec803be04e56ab2b3d4c0e98ef4ee4fcd4e72ad7cce61a1d1f");
}

}  // namespace
}  // namespace ashtriage::packs
