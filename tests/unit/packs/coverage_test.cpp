// What the cases of a pack exercise. The expected answers are read off the packs written out here.
#include "packs/coverage.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// Settings have to be used, so a table that no case looks at uses them.
constexpr std::string_view head = R"(pack: small
edition: 2026.1
about: A rule pack for tests.
settings:
  stop_above: {value: 50, unit: percent, source: handbook, about: No treatment above this loss.}
  careful: {value: no, source: invented, about: Whether any sign counts.}
presets:
  strict:
    about: Stricter than usual.
    source: invented
    settings: {careful: yes}
facts:
  loss: {kind: number, unit: percent, range: [0, 100], group: crown, ask: "How much?", source: invented}
  holes: {kind: number, unit: count, range: [0, 1000], group: bark, ask: "How many?", source: invented}
  hole_shape:
    kind: choice
    levels: [round, d_shaped]
    only_if: {holes: {at_least: 1}}
    group: bark
    ask: What shape?
    source: invented
  pecking: {kind: ordered, levels: [none, light, heavy], group: bark, ask: "Pecked?", source: invented}
  dead: {kind: yes_no, group: tree, ask: "Is it dead?", source: invented}
tables:
  uses_settings:
    about: No case expects anything of this.
    gives: [nothing]
    hit_policy: first
    rules:
      - id: uses-both
        when: {setting: {careful: yes}, loss: {above: {setting: stop_above}}}
        gives: nothing
        because: Both.
        source: invented
)";

constexpr std::string_view advice = R"(
  advice:
    about: What to do.
    gives: [remove, treat]
    hit_policy: priority
    rules:
      - {id: far-gone, when: {loss: {above: {setting: stop_above}}}, gives: remove, because: Gone., source: invented}
      - {id: not-gone, when: {loss: {at_most: {setting: stop_above}}}, gives: treat, because: There., source: invented}
)";

constexpr std::string_view signs = R"(
  signs:
    about: How strong the signs are.
    gives: [strong, none]
    hit_policy: priority
    rules:
      - {id: d-holes, when: {hole_shape: d_shaped}, gives: strong, because: Holes., source: invented}
      - {id: no-sign, when: always, gives: none, because: Nothing., source: invented}
)";

constexpr std::string_view care_on_signs = R"(
  care:
    about: What care to take.
    gives: [much, little]
    hit_policy: priority
    rules:
      - {id: signs-count, when: {signs: strong}, gives: much, because: Signs., source: invented}
      - {id: they-do-not, when: {signs: none}, gives: little, because: None., source: invented}
)";

constexpr std::string_view careful_care = R"(
  care:
    about: What care to take.
    gives: [much, little]
    hit_policy: priority
    rules:
      - {id: careful-and-pecked, when: {setting: {careful: yes}, pecking: {at_least: light}}, gives: much, because: Pecked., source: invented}
      - id: nothing-counts
        when: {not: {any: [{setting: {careful: yes}, pecking: {at_least: light}}, {dead: yes}]}}
        gives: little
        because: Nothing.
        source: invented
      - {id: dead-tree, when: {dead: yes}, gives: much, because: Dead., source: invented}
)";

std::string pack_with(const std::vector<std::string_view>& tables,
                      const std::vector<std::string>& cases) {
    std::string pack(head);
    for (const std::string_view table : tables) pack += table.substr(1);
    if (!cases.empty()) pack += "cases:\n";
    for (const std::string& tested : cases) pack += "  - {" + tested + ", source: invented}\n";
    return pack;
}

TableCoverage coverage_in(const std::string& pack, std::string_view name) {
    for (TableCoverage& table : case_coverage(files_with(pack))) {
        if (table.table == name) return std::move(table);
    }
    throw std::out_of_range(std::string(name));
}

// Of one table, by cases each written as a mapping without braces and source.
TableCoverage coverage_of(std::string_view name, const std::vector<std::string_view>& tables,
                          const std::vector<std::string>& cases) {
    return coverage_in(pack_with(tables, cases), name);
}

std::string named(const CoverageItem& item) {
    switch (item.aim) {
        case Aim::held:
            return item.rule + " held";
        case Aim::decided:
            return item.rule + " decided";
        case Aim::met:
            return item.rule + " met: " + item.test;
        case Aim::not_met:
            return item.rule + " not met: " + item.test;
    }
    return {};
}

std::vector<std::string> missing(const TableCoverage& table) {
    std::vector<std::string> names;
    for (const CoverageItem& item : table.items) {
        EXPECT_EQ(item.reached(), item.case_needed.empty()) << named(item);
        if (!item.reached()) names.push_back(named(item));
    }
    return names;
}

const CoverageItem& item_named(const TableCoverage& table, std::string_view name) {
    for (const CoverageItem& item : table.items) {
        if (named(item) == name) return item;
    }
    throw std::out_of_range(std::string(name));
}

void expect_share(const Share& share, std::size_t reached, std::size_t all) {
    EXPECT_EQ(share.reached, reached);
    EXPECT_EQ(share.all, all);
}

const std::string far_gone = "id: far-gone-case, given: {loss: 50.1}, expect: {advice: remove}";
const std::string not_gone = "id: not-gone-case, given: {loss: 50}, expect: {advice: treat}";

TEST(CaseCoverage, IsCompleteWhenEveryRuleDecidesACaseAndEveryTestComesOutBothWays) {
    const TableCoverage table = coverage_of("advice", {advice}, {far_gone, not_gone});
    EXPECT_THAT(missing(table), IsEmpty());
    EXPECT_TRUE(table.complete());
    expect_share(table.rules(), 2, 2);
    expect_share(table.sides(), 4, 4);
    EXPECT_EQ(table.file, "small.yaml");
}

TEST(CaseCoverage, NamesTheFirstCaseThatBringsSomethingAbout) {
    const TableCoverage table =
        coverage_of("advice", {advice},
                    {far_gone, not_gone, "id: worse, given: {loss: 90}, expect: {advice: remove}"});
    EXPECT_EQ(item_named(table, "far-gone decided").reached_by, "far-gone-case");
    EXPECT_EQ(
        item_named(table, "far-gone not met: loss above 50 % (setting stop_above)").reached_by,
        "not-gone-case");
}

TEST(CaseCoverage, NamesWhatNoCaseBringsAbout) {
    const TableCoverage table = coverage_of("advice", {advice}, {far_gone});
    EXPECT_THAT(
        missing(table),
        ElementsAre("far-gone not met: loss above 50 % (setting stop_above)", "not-gone held",
                    "not-gone decided", "not-gone met: loss at most 50 % (setting stop_above)"));
    EXPECT_FALSE(table.complete());
    expect_share(table.rules(), 1, 2);
    expect_share(table.sides(), 2, 4);
}

TEST(CaseCoverage, SaysWhatACaseWouldHaveToGiveAndWhereTheRuleStands) {
    const TableCoverage table = coverage_of("advice", {advice}, {far_gone});
    const CoverageItem& side =
        item_named(table, "far-gone not met: loss above 50 % (setting stop_above)");
    EXPECT_EQ(side.case_needed,
              "a case that gives {loss: 50}, and that expects something of advice");
    const std::string pack = pack_with({advice}, {});
    const auto before = pack.substr(0, pack.find("id: far-gone"));
    EXPECT_EQ(side.line,
              1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')));
    EXPECT_EQ(item_named(table, "not-gone decided").case_needed,
              "a case in which the rule holds and advice comes out as treat, and that expects "
              "something of advice");
}

// A loss somewhere on both sides of the threshold shows neither.
TEST(CaseCoverage, WhatIsOpenIsReachedByNoCase) {
    const TableCoverage table = coverage_of(
        "advice", {advice}, {"id: open, given: {loss: 45-55}, expect: {advice: [remove, treat]}"});
    expect_share(table.rules(), 0, 2);
    expect_share(table.sides(), 0, 4);
}

TEST(CaseCoverage, ARuleThatHoldsAndIsOutrankedHasNotDecided) {
    const TableCoverage table = coverage_of(
        "signs", {signs},
        {"id: holes, given: {holes: 3, hole_shape: d_shaped}, expect: {signs: strong}"});
    EXPECT_TRUE(item_named(table, "no-sign held").reached());
    EXPECT_THAT(missing(table),
                ElementsAre("d-holes not met: hole shape is d shaped", "no-sign decided"));
    expect_share(table.rules(), 1, 2);
}

TEST(CaseCoverage, OfRulesInTurnOnlyTheFirstThatHoldsDecides) {
    std::string in_turn(signs);
    in_turn.replace(in_turn.find("priority"), 8, "first");
    in_turn.replace(in_turn.find("gives: none"), 11, "gives: strong");
    const TableCoverage table = coverage_of(
        "signs", {in_turn},
        {"id: holes, given: {holes: 3, hole_shape: d_shaped}, expect: {signs: strong}"});
    EXPECT_FALSE(item_named(table, "no-sign decided").reached());
    EXPECT_THAT(item_named(table, "no-sign decided").case_needed, HasSubstr("none before it does"));
}

// No test of a fact that does not apply is met.
TEST(CaseCoverage, AFactThatDoesNotApplyFailsItsTest) {
    const TableCoverage table =
        coverage_of("signs", {signs},
                    {"id: holes, given: {holes: 3, hole_shape: d_shaped}, expect: {signs: strong}",
                     "id: no-holes, given: {holes: 0}, expect: {signs: none}"});
    EXPECT_EQ(item_named(table, "d-holes not met: hole shape is d shaped").reached_by, "no-holes");
    EXPECT_TRUE(table.complete());
}

TEST(CaseCoverage, TheExampleOfAFactThatMayNotApplyMakesItApply) {
    const TableCoverage table = coverage_of("signs", {signs}, {});
    EXPECT_THAT(item_named(table, "d-holes met: hole shape is d shaped").case_needed,
                HasSubstr("{holes: 1, hole_shape: d_shaped}"));
}

// --- tables ---

TEST(CaseCoverage, ACaseDoesNotExerciseATableThatItExpectsNothingOf) {
    const std::vector<std::string> cases = {
        "id: holes, given: {loss: 60, holes: 3, hole_shape: d_shaped}, expect: {signs: strong}",
        "id: none, given: {loss: 20, holes: 0}, expect: {signs: none}"};
    EXPECT_TRUE(coverage_of("signs", {signs, advice}, cases).complete());
    const TableCoverage table = coverage_of("advice", {signs, advice}, cases);
    expect_share(table.rules(), 0, 2);
    expect_share(table.sides(), 0, 4);
}

TEST(CaseCoverage, ACaseExercisesTheTablesThatTheExpectedOneRestsOn) {
    const std::vector<std::string> cases = {
        "id: holes, given: {holes: 3, hole_shape: d_shaped}, expect: {care: much}",
        "id: none, given: {holes: 0}, expect: {care: little}"};
    EXPECT_TRUE(coverage_of("care", {signs, care_on_signs}, cases).complete());
    EXPECT_TRUE(coverage_of("signs", {signs, care_on_signs}, cases).complete());
}

TEST(CaseCoverage, ACaseDoesNotExerciseTheTablesThatRestOnTheExpectedOne) {
    const std::vector<std::string> cases = {
        "id: holes, given: {holes: 3, hole_shape: d_shaped}, expect: {signs: strong}"};
    const TableCoverage table = coverage_of("care", {signs, care_on_signs}, cases);
    expect_share(table.rules(), 0, 2);
    expect_share(table.sides(), 0, 4);
    EXPECT_EQ(item_named(table, "signs-count met: signs is strong").case_needed,
              "a case in which signs comes out as strong, and that expects something of care");
}

TEST(CaseCoverage, ATableIsNotRestedOnThroughAPartThatIsSwitchedOff) {
    std::string switched(care_on_signs);
    switched.replace(switched.find("{signs: strong}"), 15,
                     "{setting: {careful: yes}, signs: strong}");
    switched.replace(switched.find("{signs: none}"), 13, "always");
    const std::string tree = "given: {holes: 3, hole_shape: d_shaped}, expect: ";
    const auto signs_by = [&](const std::string& tested) {
        return coverage_of("signs", {signs, switched}, {tested}).rules().reached;
    };
    EXPECT_EQ(signs_by("id: usual, " + tree + "{care: little}"), 0U);
    EXPECT_EQ(signs_by("id: strict, preset: strict, " + tree + "{care: much}"), 1U);
}

TEST(CaseCoverage, InACollectTableARuleThatHoldsContributes) {
    constexpr std::string_view flags = R"(
  flags:
    about: What is dangerous.
    gives: [dead_tree, brittle]
    hit_policy: collect
    rules:
      - {id: is-dead, when: {dead: yes}, gives: dead_tree, because: Dead., source: invented}
      - {id: is-brittle, when: {loss: {at_least: 50}}, gives: brittle, because: Brittle., source: invented}
)";
    const TableCoverage table = coverage_of(
        "flags", {flags}, {"id: brittle, given: {loss: 50, dead: no}, expect: {flags: [brittle]}"});
    EXPECT_THAT(missing(table), ElementsAre("is-dead held", "is-dead met: dead is yes",
                                            "is-brittle not met: loss at least 50 %"));
    expect_share(table.rules(), 1, 2);
    EXPECT_THAT(item_named(table, "is-dead held").case_needed, HasSubstr("{dead: yes}"));
}

// --- switches ---

TEST(CaseCoverage, ASwitchIsNoTestWithSides) {
    const TableCoverage table = coverage_of("care", {careful_care}, {});
    expect_share(table.sides(), 0, 8);  // pecking twice, dead twice
}

TEST(CaseCoverage, ARuleThatIsSwitchedOffCountsOnlyWhereItIsOn) {
    const std::string tree = "given: {pecking: heavy, dead: no}, expect: ";
    const TableCoverage usual =
        coverage_of("care", {careful_care}, {"id: usual, " + tree + "{care: little}"});
    EXPECT_FALSE(item_named(usual, "careful-and-pecked held").reached());
    EXPECT_FALSE(item_named(usual, "careful-and-pecked met: pecking is light or heavy").reached());
    EXPECT_EQ(item_named(usual, "careful-and-pecked held").case_needed,
              "a case that gives {pecking: light}, under the preset strict, and that expects "
              "something of care");

    const TableCoverage strict = coverage_of(
        "care", {careful_care}, {"id: careful, preset: strict, " + tree + "{care: much}"});
    EXPECT_TRUE(item_named(strict, "careful-and-pecked decided").reached());
    EXPECT_TRUE(item_named(strict, "careful-and-pecked met: pecking is light or heavy").reached());
}

// The part of the second rule that is switched off says nothing about pecking, the other part does.
TEST(CaseCoverage, APartThatIsSwitchedOffCountsOnlyWhereItIsOn) {
    const TableCoverage table =
        coverage_of("care", {careful_care},
                    {"id: usual, given: {pecking: none, dead: no}, expect: {care: little}"});
    EXPECT_TRUE(item_named(table, "nothing-counts decided").reached());
    EXPECT_TRUE(item_named(table, "nothing-counts not met: dead is yes").reached());
    EXPECT_FALSE(item_named(table, "nothing-counts not met: pecking is light or heavy").reached());
}

TEST(CaseCoverage, TheSidesThatCasesOfSeveralPresetsShowAreTakenTogether) {
    const TableCoverage table = coverage_of(
        "care", {careful_care},
        {"id: pecked, preset: strict, given: {pecking: heavy, dead: no}, expect: {care: much}",
         "id: not-pecked, preset: strict, given: {pecking: none, dead: no}, expect: {care: little}",
         "id: dead, given: {dead: yes}, expect: {care: much}"});
    EXPECT_THAT(missing(table), IsEmpty());
}

TEST(CaseCoverage, ARuleThatNoPresetSwitchesOnIsOneFinding) {
    std::string pack = pack_with({careful_care}, {});
    pack.replace(pack.find("settings: {careful: yes}"), 24, "settings: {stop_above: 30}");
    const TableCoverage table = coverage_in(pack, "care");
    EXPECT_EQ(missing(table).front(), "careful-and-pecked held");
    EXPECT_EQ(missing(table)[1], "nothing-counts held");
    EXPECT_THAT(item_named(table, "careful-and-pecked held").case_needed,
                HasSubstr("a preset that switches it on"));
    expect_share(table.rules(), 0, 3);
}

TEST(CaseCoverage, AThresholdOfAnotherPresetIsTheSameTest) {
    std::string pack = pack_with(
        {advice}, {"id: usual, given: {loss: 40}, expect: {advice: treat}",
                   "id: stricter, preset: strict, given: {loss: 40}, expect: {advice: remove}"});
    pack.replace(pack.find("settings: {careful: yes}"), 24,
                 "settings: {careful: yes, stop_above: 30}");
    EXPECT_TRUE(coverage_in(pack, "advice").complete());
}

}  // namespace
}  // namespace ashtriage::packs
