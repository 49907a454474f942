#include "packs/check_rules.hpp"

#include <gmock/gmock.h>

#include "packs/compare_rules.hpp"
#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

RuleCheck check_of(const std::string& pack, const prove::CheckLimits& limits = {}) {
    return check_rules(files_with(pack), {}, limits);
}

const prove::TableCheck& table_of(const PresetCheck& preset, std::string_view name) {
    return preset.check.tables[*preset.rules.model.find_table(name)];
}

const prove::TableCheck& advice(const RuleCheck& check) {
    return table_of(check.presets.front(), "advice");
}

std::vector<std::string> never_firing(const RuleCheck& check) {
    std::vector<std::string> ids;
    for (const NeverFires& dead : check.never_fire) {
        ids.push_back(check.presets.front().rules.model.tables[dead.table].rules[dead.rule].id);
    }
    return ids;
}

TEST(CheckRules, PassesWhatIsCompleteUnderItsOwnSettingsAndEveryPreset) {
    const RuleCheck check = check_of(std::string(small_pack));
    ASSERT_THAT(check.presets, SizeIs(2));
    EXPECT_EQ(check.presets[0].rules.preset, "");
    EXPECT_EQ(check.presets[1].rules.preset, "strict");
    EXPECT_TRUE(check.passed());
}

// "any-sign" is off by the settings' own values and on under the preset "strict".
TEST(CheckRules, DoesNotHoldAgainstARuleThatOnePresetSwitchesItOff) {
    const RuleCheck check = check_of(std::string(small_pack));
    EXPECT_THAT(advice(check).dead_rules, SizeIs(1));
    EXPECT_THAT(table_of(check.presets[1], "advice").dead_rules, IsEmpty());
    EXPECT_THAT(never_firing(check), IsEmpty());
}

TEST(CheckRules, FindsARuleThatNeverFiresWhateverThePreset) {
    const RuleCheck check = check_of(changed("{id: worth-it, when: always,",
                                             "{id: late, when: {signs: strong, not: "
                                             "{signs: strong}}, gives: treat, because: "
                                             "Never., source: invented}\n      - {id: "
                                             "worth-it, when: always,"));
    EXPECT_THAT(never_firing(check), ElementsAre("late"));
    EXPECT_FALSE(check.passed());
}

TEST(CheckRules, FindsAGapWhereNoRuleIsLeft) {
    const RuleCheck check = check_of(
        changed("{id: worth-it, when: always,", "{id: worth-it, when: {loss: {below: 50}},"));
    ASSERT_THAT(advice(check).gaps, SizeIs(1));
    const reason::Observation& gap = advice(check).gaps.front().values;
    const reason::Model& model = check.presets.front().rules.model;
    EXPECT_EQ(gap[*model.find_fact("loss")], reason::Value::number(50));
    EXPECT_EQ(gap[*model.find_fact("dead")], reason::Value::no());
    EXPECT_FALSE(check.passed());
}

TEST(CheckRules, FindsAConflictOfATableThatAllowsOneRuleOnly) {
    const RuleCheck check = check_of(changed("gives: [remove, treat]\n    hit_policy: priority",
                                             "gives: [remove, treat]\n    hit_policy: unique"));
    EXPECT_GT(advice(check).conflict_count, 0U);
    EXPECT_FALSE(check.passed());
}

TEST(CheckRules, FindsAFactOnWhichNothingDepends) {
    const RuleCheck check = check_of(
        changed("  dead: {kind: yes_no,",
                "  lean: {kind: yes_no, group: tree, ask: \"Does it lean?\", source: invented}\n"
                "  dead: {kind: yes_no,"));
    const reason::Model& model = check.presets.front().rules.model;
    EXPECT_THAT(check.needless_facts, ElementsAre(*model.find_fact("lean")));
    EXPECT_FALSE(check.passed());
}

TEST(CheckRules, NeedsWhatANeededFactIsWorkedOutFrom) {
    const std::string pack =
        changed("  dead: {kind: yes_no,",
                "  lean: {kind: yes_no, group: tree, ask: \"Does it lean?\", source: invented}\n"
                "  dead: {kind: yes_no, asked: no, worked_out_from: [lean],");
    EXPECT_THAT(check_of(pack).needless_facts, IsEmpty());
}

std::string with_claims(const std::string& claims) {
    return changed("gives: [remove, treat]\n    hit_policy: priority\n",
                   "gives: [remove, treat]\n    hit_policy: priority\n    worse: " + claims + "\n");
}

TEST(CheckRules, ProvesAClaimUnderEveryPreset) {
    const RuleCheck check = check_of(with_claims("{loss: up, dead: up, pecking: up}"));
    for (const PresetCheck& preset : check.presets) {
        ASSERT_THAT(table_of(preset, "advice").claims, SizeIs(3));
        for (const auto& claim : table_of(preset, "advice").claims) {
            EXPECT_FALSE(claim.refuted_by.has_value());
        }
    }
    EXPECT_TRUE(check.passed());
}

TEST(CheckRules, RefutesAClaimByTwoTrees) {
    const RuleCheck check = check_of(with_claims("{loss: down}"));
    const auto& claim = advice(check).claims.front();
    ASSERT_TRUE(claim.refuted_by.has_value());
    const reason::FactIndex loss = *check.presets.front().rules.model.find_fact("loss");
    EXPECT_GT(prove::example_of(claim.refuted_by->better)[loss].interval()->low, 50);
    EXPECT_LE(prove::example_of(claim.refuted_by->worse)[loss].interval()->low, 50);
    EXPECT_FALSE(check.passed());
}

TEST(CheckRules, LeavesOutWhatAClaimExceptsWithAReason) {
    const RuleCheck check = check_of(
        with_claims("{loss: {direction: down, unless: {loss: {above: {setting: stop_above}}}, "
                    "because: More is never better.}}"));
    EXPECT_FALSE(advice(check).claims.front().refuted_by.has_value());
    const RuleSet& rules = check.presets.front().rules;
    EXPECT_EQ(rules.tables[*rules.model.find_table("advice")].claims.front().because,
              "More is never better.");
}

struct BadClaim {
    const char* claims;
    const char* id;
    const char* said;
};

TEST(CheckRules, RefusesClaimsThatMakeNoSense) {
    for (const BadClaim& bad :
         {BadClaim{"{lose: up}", "unknown-fact", "lose"},
          BadClaim{"{loss: sideways}", "unknown-value", "sideways"},
          BadClaim{"{hole_shape: up}", "wrong-kind", "no order"},
          BadClaim{"{hole_shape: [round, flat]}", "unknown-value", "flat"},
          BadClaim{"{loss: {direction: up}}", "missing-key", "unless"},
          BadClaim{"{loss: {direction: up, unless: {dead: yes}}}", "missing-key", "because"},
          BadClaim{"{loss: {direction: up, except: treat, because: So.}}", "not-for-this-kind",
                   "except"}}) {
        const auto problems = problems_of(with_claims(bad.claims));
        ASSERT_FALSE(problems.empty()) << bad.claims;
        EXPECT_EQ(problems.front().id, bad.id) << bad.claims;
        EXPECT_THAT(problems.front().message + problems.front().hint, HasSubstr(bad.said));
    }
}

TEST(CheckRules, DoesNotPassWhatWasNotAnalysed) {
    prove::CheckLimits none;
    none.diagram = 0;
    none.search_steps = 0;
    const RuleCheck check = check_of(std::string(small_pack), none);
    EXPECT_FALSE(advice(check).analysed());
    EXPECT_FALSE(check.passed());
}

// The proofs that the shipped rules stand on: complete, no dead rule, nothing needless, and never
// milder for a worse tree, under every preset.
TEST(TheShippedRules, PassTheirCheckUnderEveryPreset) {
    const RuleCheck check = check_rules(built_in_rule_files());
    ASSERT_GE(check.presets.size(), 9U);
    EXPECT_THAT(never_firing(check), IsEmpty());
    EXPECT_THAT(check.needless_facts, IsEmpty());
    std::size_t claims = 0;
    for (const PresetCheck& preset : check.presets) {
        for (const prove::TableCheck& table : preset.check.tables) {
            const std::string& name = preset.rules.model.tables[table.table].name;
            EXPECT_TRUE(table.analysed()) << preset.rules.preset << " " << name;
            EXPECT_THAT(table.gaps, IsEmpty()) << preset.rules.preset << " " << name;
            EXPECT_EQ(table.conflict_count, 0U) << preset.rules.preset << " " << name;
            for (const auto& claim : table.claims) {
                EXPECT_FALSE(claim.refuted_by.has_value()) << preset.rules.preset << " " << name;
                ++claims;
            }
        }
    }
    EXPECT_GT(claims, 500U);
    EXPECT_TRUE(check.passed());
}

// What advice agrees on everywhere must be claimed, or the proofs would say little.
TEST(TheShippedRules, ClaimThatLossEvidenceAndHazardNeverLeadToAMilderAnswer) {
    const RuleSet rules = read_rule_set(built_in_rule_files());
    const auto claimed = [&](std::string_view table) {
        std::vector<std::string> facts;
        for (const auto& claim : rules.model.tables[*rules.model.find_table(table)].worse) {
            facts.push_back(rules.model.facts[claim.fact].name);
        }
        return facts;
    };
    EXPECT_THAT(claimed("recommendation"),
                testing::IsSupersetOf({"canopy_loss", "standing_dead", "structure", "exit_holes",
                                       "woodpecker_damage", "galleries_seen", "larvae_seen",
                                       "bark_splits", "epicormic_shoots"}));
    EXPECT_THAT(claimed("evidence"),
                testing::IsSupersetOf(
                    {"canopy_loss", "exit_holes", "woodpecker_damage", "galleries_seen"}));
    EXPECT_THAT(claimed("hazard"),
                testing::IsSupersetOf({"standing_dead", "hanging_limbs", "stem_crack", "cavity",
                                       "root_damage", "lean", "line_distance", "target_use"}));
}

TEST(CompareRules, GivesTheFactsOfBothEditionsTheirWords) {
    const RuleSet before = read_rule_set(files_with(small_pack));
    const RuleSet after = read_rule_set(files_with(small_pack), "strict");
    const RuleComparison compared = compare_rules(before, after);
    EXPECT_FALSE(compared.comparison.changes.empty());
    ASSERT_EQ(compared.words.facts.size(), compared.words.model.facts.size());
    EXPECT_EQ(compared.words.facts[*compared.words.model.find_fact("loss")].unit, "percent");
}

std::string with_holes(const std::string& second) {
    return changed(
        "      - {id: no-sign, when: always, gives: none, because: Nothing seen., source: "
        "invented}\n",
        "      - {id: few, when: {holes: {at_most: 2}}, gives: none, because: Few., source: "
        "invented}\n"
        "      - {id: many, when: {holes: " +
            second + "}, gives: none, because: Many., source: invented}\n");
}

// Between 2 and 3 holes there is nothing, so rules for at most 2 and for at least 3 leave no gap.
TEST(CheckRules, KnowsThatACountHasNoFractions) {
    const RuleCheck whole = check_of(with_holes("{at_least: 3}"));
    EXPECT_THAT(table_of(whole.presets.front(), "signs").gaps, IsEmpty());
    const RuleCheck gap = check_of(with_holes("{at_least: 4}"));
    ASSERT_THAT(table_of(gap.presets.front(), "signs").gaps, SizeIs(1));
    const auto holes = *gap.presets.front().rules.model.find_fact("holes");
    EXPECT_EQ(table_of(gap.presets.front(), "signs").gaps[0].example[holes],
              reason::Value::number(3));
}

TEST(CheckRules, FindsARuleThatOnlyAFractionCouldMeet) {
    const RuleCheck check =
        check_of(changed("      - {id: no-sign,",
                         "      - {id: between, when: {holes: {above: 2, below: 3}}, gives: weak, "
                         "because: No., source: invented}\n      - {id: no-sign,"));
    EXPECT_THAT(never_firing(check), ElementsAre("between"));
}

TEST(CheckRules, FindsAnOutcomeThatNoRuleGives) {
    const RuleCheck check =
        check_of(changed("gives: [strong, weak, none]", "gives: [strong, weak, none, unheard_of]"));
    ASSERT_THAT(check.never_given, SizeIs(1));
    EXPECT_FALSE(check.passed());
}

TEST(CheckRules, FindsAClaimThatSaysNothing) {
    const auto claims = [](const std::string& worse) {
        return check_of(changed("    about: What to do.\n",
                                "    about: What to do.\n    worse: {" + worse + "}\n"));
    };
    const RuleCheck real = claims("loss: up");
    EXPECT_TRUE(real.passed());
    const RuleCheck excepted = claims(
        "loss: {direction: up, unless: {dead: {one_of: [no, yes]}}, because: None is left.}");
    ASSERT_THAT(advice(excepted).claims, SizeIs(1));
    EXPECT_TRUE(advice(excepted).claims[0].says_nothing);
    EXPECT_FALSE(excepted.passed());
}

TEST(CheckRules, NamesTheRulesThatAreTakenInstead) {
    const RuleCheck check =
        check_of(changed("      - {id: worth-it, when: always,",
                         "      - {id: beaten, when: {loss: {above: 60}}, gives: treat, because: "
                         "No., source: invented}\n      - {id: worth-it, when: always,"));
    ASSERT_THAT(check.never_fire, SizeIs(1));
    const auto& rules = check.presets.front().rules.model.tables[check.never_fire[0].table].rules;
    ASSERT_THAT(check.never_fire[0].outranked_by, SizeIs(1));
    EXPECT_EQ(rules[check.never_fire[0].outranked_by[0]].id, "too-far-gone");
}

}  // namespace
}  // namespace ashtriage::packs
