#include "present/rule_tables.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "../packs/small_pack.hpp"
#include "demo_property.hpp"
#include "measure/input_error.hpp"

namespace ashtriage::present {
namespace {

using packs::changed;
using packs::files_with;
using packs::small_pack;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

RuleTables shown(std::string_view pack = small_pack, std::string_view preset = {},
                 const std::vector<std::string>& names = {}) {
    return rule_tables(packs::read_rule_set(files_with(pack), preset), names);
}

// The condition of the rule `pecked` when it is written so.
WordedCondition condition(const std::string& when) {
    const std::string text = changed("when: {pecking: {at_least: light}}", "when: " + when);
    return shown(text).tables.at(0).rules.at(1).when;
}

std::vector<std::string> names_of(const RuleTables& tables) {
    std::vector<std::string> names;
    for (const WordedTable& table : tables.tables) names.push_back(table.name);
    return names;
}

TEST(RuleTables, SayWhatATableIsAboutAndWhichTablesItStandsBetween) {
    const RuleTables all = shown();
    ASSERT_THAT(names_of(all), ElementsAre("signs", "advice", "flags"));
    const WordedTable& advice = all.tables[1];
    EXPECT_EQ(advice.title, "Advice");
    EXPECT_EQ(advice.about, "What to do.");
    EXPECT_EQ(advice.file, "small.yaml");
    EXPECT_THAT(advice.gives, ElementsAre("remove", "treat"));
    EXPECT_THAT(advice.fed_by, ElementsAre("signs"));
    EXPECT_THAT(advice.feeds, IsEmpty());
    EXPECT_THAT(all.tables[0].feeds, ElementsAre("advice"));
}

TEST(RuleTables, ComeAfterTheTablesThatFeedThemWhateverTheOrderInTheFiles) {
    const RuleTables all = rule_tables(built_in_rules());
    std::vector<std::string> before;
    std::size_t feeding = 0;
    for (const WordedTable& table : all.tables) {
        for (const std::string& other : table.fed_by) {
            EXPECT_THAT(before, testing::Contains(other)) << table.name;
            ++feeding;
        }
        before.push_back(table.name);
    }
    EXPECT_EQ(before.size(), built_in_rules().model.tables.size());
    EXPECT_GT(feeding, 5U);
}

// What the policies mean is given by OMG's Decision Model and Notation, under "Hit policy".
TEST(RuleTables, SayInASentenceHowATableAnswers) {
    const RuleTables all = shown();
    EXPECT_EQ(all.tables[0].hit_policy, "priority");
    EXPECT_THAT(all.tables[0].how_it_answers, HasSubstr("wins: strong, weak and last none."));
    EXPECT_THAT(all.tables[2].how_it_answers, HasSubstr("Every row that holds counts"));
    EXPECT_THAT(all.tables[2].gives, ElementsAre("dead tree", "brittle"));
    const auto answers = [](const std::string& policy) {
        return shown(changed("gives: [remove, treat]\n    hit_policy: priority",
                             "gives: [remove, treat]\n    hit_policy: " + policy))
            .tables[1]
            .how_it_answers;
    };
    EXPECT_THAT(answers("first"), HasSubstr("The first one that holds gives the answer"));
    EXPECT_THAT(answers("unique"), HasSubstr("At most one row can hold"));
}

TEST(RuleTables, NameTheSettingAndItsValueInAConditionAndFillItIntoTheReason) {
    const WordedRule far_gone = shown().tables[1].rules[0];
    EXPECT_EQ(far_gone.when.text, "at least one of these:");
    ASSERT_EQ(far_gone.when.parts.size(), 2U);
    EXPECT_EQ(far_gone.when.parts[0].text, "loss above 50 % (setting stop_above)");
    EXPECT_EQ(far_gone.when.parts[1].text, "dead is yes");
    EXPECT_EQ(far_gone.because, "A loss of [loss] is above 50 %, with [signs] signs.");
    EXPECT_EQ(far_gone.gives, "remove");
    EXPECT_THAT(far_gone.sources, ElementsAre("invented", "handbook"));

    const WordedRule strict = shown(small_pack, "strict").tables[1].rules[0];
    EXPECT_EQ(strict.when.parts[0].text, "loss above 30 % (setting stop_above)");
    EXPECT_EQ(strict.because, "A loss of [loss] is above 30 %, with [signs] signs.");
}

TEST(RuleTables, SayOfASwitchWhetherItHolds) {
    const auto first_part = [](std::string_view preset) {
        return shown(small_pack, preset).tables[1].rules[1].when.parts.at(0).text;
    };
    EXPECT_EQ(first_part(""), "setting careful is yes, which does not hold");
    EXPECT_EQ(first_part("strict"), "setting careful is yes, which holds");
    EXPECT_EQ(shown().tables[1].rules[2].when.text, "always");
}

TEST(RuleTables, GiveEverySwitchOfANestedConditionItsOwnWords) {
    const WordedCondition nested = condition(
        "{all: [{setting: {careful: no}}, {any: [{dead: yes}, {setting: {careful: yes}}]}, "
        "{not: {setting: {careful: yes}}}]}");
    ASSERT_EQ(nested.parts.size(), 3U);
    EXPECT_EQ(nested.parts[0].text, "setting careful is no, which holds");
    ASSERT_EQ(nested.parts[1].parts.size(), 2U);
    EXPECT_EQ(nested.parts[1].parts[1].text, "setting careful is yes, which does not hold");
    EXPECT_EQ(nested.parts[2].text, "not: setting careful is yes, which does not hold");
}

TEST(RuleTables, PutWhatIsDeniedIntoPlainWords) {
    EXPECT_EQ(condition("{not: {dead: yes}}").text, "not: dead is yes");
    const WordedCondition none = condition("{not: {any: [{dead: yes}, {pecking: heavy}]}}");
    EXPECT_EQ(none.text, "none of these:");
    EXPECT_EQ(none.parts.size(), 2U);
    const WordedCondition not_all = condition("{not: {dead: yes, pecking: heavy}}");
    EXPECT_EQ(not_all.text, "not all of these:");
    EXPECT_EQ(not_all.parts.size(), 2U);
    const WordedCondition twice = condition("{not: {not: {any: [{dead: yes}, {pecking: heavy}]}}}");
    EXPECT_EQ(twice.text, "not:");
    ASSERT_EQ(twice.parts.size(), 1U);
    EXPECT_EQ(twice.parts[0].text, "none of these:");
}

TEST(RuleTables, SayWhatATableClaims) {
    const std::string claiming = changed(
        "gives: [dead_tree, brittle]\n",
        "gives: [dead_tree, brittle]\n    worse:\n      dead: up\n"
        "      loss: {direction: down, except: brittle, because: Invented.}\n"
        "      hole_shape: {direction: [round, d_shaped], unless: {dead: yes}, because: Too.}\n");
    const WordedTable flags = shown(claiming).tables.at(2);
    EXPECT_THAT(flags.claims, ElementsAre("dead rising", "loss falling",
                                          "hole shape going from round to d shaped"));
    EXPECT_THAT(flags.exceptions, ElementsAre("loss, leaving out brittle: Invented.",
                                              "hole shape, leaving out where dead is yes: Too."));
    EXPECT_EQ(claims_sentence(flags),
              "Never a milder answer with dead rising, loss falling or hole shape going from round "
              "to d shaped.");
    EXPECT_EQ(claims_sentence(shown().tables.at(2)), "");
}

TEST(RuleTables, AConditionFitsOneLineWithItsPartsInParentheses) {
    EXPECT_EQ(in_one_line(condition("{dead: yes, any: [{loss: {below: 5}}, {pecking: none}]}")),
              "all of these: (dead is yes; at least one of these: (loss below 5 %; pecking is "
              "none))");
    EXPECT_EQ(in_one_line({}), "");
}

TEST(RuleTables, OfSomeTablesHaveOnlyTheirSettingsAndSources) {
    const RuleTables flags = shown(small_pack, {}, {"flags"});
    EXPECT_THAT(names_of(flags), ElementsAre("flags"));
    EXPECT_THAT(flags.settings, IsEmpty());
    ASSERT_EQ(flags.sources.size(), 1U);
    EXPECT_EQ(flags.sources[0].citation, "Invented for the tests.");
    EXPECT_EQ(flags.sources[0].evidence, "example");

    const RuleTables advice = shown(small_pack, {}, {"advice", "flags"});
    ASSERT_EQ(advice.settings.size(), 2U);
    EXPECT_EQ(advice.settings[0].name, "stop_above");
    EXPECT_EQ(advice.settings[0].value, "50 %");
    EXPECT_EQ(advice.settings[1].name, "careful");
    EXPECT_EQ(advice.settings[1].value, "no");
    EXPECT_EQ(advice.sources.size(), 2U);
}

TEST(RuleTables, AreFoundByTheirNameWithBlanksToo) {
    EXPECT_THAT(names_of(rule_tables(built_in_rules(), {"Infestation stage"})),
                ElementsAre("infestation_stage"));
}

TEST(RuleTables, RefuseAnUnknownTableWithTheNearest) {
    try {
        shown(small_pack, {}, {"signs", "advise"});
        FAIL();
    } catch (const measure::InputError& error) {
        EXPECT_EQ(std::string(error.what()), "There is no table \"advise\" in the rules");
        EXPECT_EQ(error.hint(), "did you mean 'advice'?");
    }
}

}  // namespace
}  // namespace ashtriage::present
