// Flags never wait for other answers, and no other answer takes one away.
#include <gmock/gmock.h>

#include <set>

#include "packs/cases.hpp"
#include "random_trees.hpp"
#include "triage/tables.hpp"

namespace ashtriage::triage {
namespace {

using reason::LevelSet;

struct FlaggedCase {
    std::string id;
    Entries given;
    LevelSet flags = 0;
};

const reason::Table& hazard_table() {
    const packs::RuleSet& rules = built_in_rules();
    return rules.model.tables[*rules.model.find_table(table::hazard)];
}

// The cases of the rule files that raise a flag: each says only what the flag hangs on.
std::vector<FlaggedCase> read_flagged_cases() {
    const packs::RuleSet& rules = built_in_rules();
    const auto hazard = *rules.model.find_table(table::hazard);
    std::vector<FlaggedCase> cases;
    for (const packs::CaseResult& result : packs::run_cases(packs::built_in_rule_files())) {
        const packs::Case& tested = result.tested;
        FlaggedCase flagged{tested.id, {}, 0};
        for (const packs::Expectation& expected : tested.expected) {
            if (expected.table == hazard) flagged.flags |= expected.includes;
        }
        if (flagged.flags == 0 || !tested.preset.empty()) continue;
        for (reason::FactIndex fact = 0; fact < tested.given.size(); ++fact) {
            if (tested.given[fact].is_unknown()) continue;
            flagged.given.push_back({rules.model.facts[fact].name,
                                     packs::value_text(rules.model.facts[fact], rules.facts[fact],
                                                       tested.given[fact])});
        }
        cases.push_back(std::move(flagged));
    }
    return cases;
}

const std::vector<FlaggedCase>& flagged_cases() {
    static const auto cases = read_flagged_cases();
    return cases;
}

LevelSet certain_flags(const reason::Observation& values) {
    const auto hazard = *built_in_rules().model.find_table(table::hazard);
    return built_in_judge().engine().collect(hazard, values).certain;
}

std::set<std::string> names_of(LevelSet flags) {
    std::set<std::string> names;
    for (reason::OutcomeIndex flag = 0; flag < hazard_table().gives.size(); ++flag) {
        if (reason::has_level(flags, flag)) names.insert(hazard_table().gives[flag]);
    }
    return names;
}

TEST(HazardFlags, AreAllRaisedByACaseOfTheRules) {
    LevelSet raised = 0;
    for (const FlaggedCase& flagged : flagged_cases()) raised |= flagged.flags;
    EXPECT_EQ(raised, reason::all_levels(hazard_table().gives.size()));
}

TEST(HazardFlags, AreShownWithoutAnyOtherAnswer) {
    LevelSet done = 0;
    for (const FlaggedCase& flagged : flagged_cases()) {
        if ((flagged.flags & ~done) == 0) continue;  // one case for each flag
        done |= flagged.flags;
        const Recommendation answer = built_in_judge().recommend(facts_of(flagged.given));
        std::set<std::string> shown;
        for (const HazardFlag& flag : answer.flags) {
            shown.insert(flag.flag);
            EXPECT_FALSE(flag.reason.because.empty()) << flag.flag;
            EXPECT_FALSE(flag.reason.todo.empty()) << flag.flag;
            EXPECT_FALSE(flag.reason.who.empty()) << flag.flag;
            EXPECT_FALSE(flag.reason.sources.empty()) << flag.flag;
        }
        EXPECT_EQ(shown, names_of(certain_flags(answer.facts))) << flagged.id;
        for (const std::string& flag : names_of(flagged.flags)) {
            EXPECT_EQ(shown.count(flag), 1U) << flagged.id << " " << flag;
        }
    }
}

TEST(HazardFlags, StayWhateverElseIsAnswered) {
    RandomTrees random(built_in_rules(), 20260706);
    for (const FlaggedCase& flagged : flagged_cases()) {
        for (int round = 0; round < 60; ++round) {
            const Entries all = random.findings(flagged.given);
            const LevelSet raised = certain_flags(facts_of(all, random.stems()).values);
            ASSERT_EQ(raised & flagged.flags, flagged.flags) << flagged.id << " in round " << round;
        }
    }
}

// The best that can be said of a tree: no fault anywhere, far from everything, a full crown.
Entries nothing_wrong() {
    return {{"species", "green_ash"},
            {"standing_dead", "no"},
            {"leaves", "in_leaf"},
            {"canopy_dieback", "0 %"},
            {"canopy_thinning", "0 %"},
            {"epicormic_shoots", "none"},
            {"branch_breaks_at_union", "no"},
            {"hanging_limbs", "no"},
            {"woodpecker_damage", "none"},
            {"bark_splits", "none"},
            {"exit_holes", "0"},
            {"galleries_seen", "no"},
            {"larvae_seen", "no"},
            {"bark_falling", "no"},
            {"structure", "sound"},
            {"stem_crack", "none"},
            {"cavity", "none"},
            {"defect_around_stem", "0 %"},
            {"root_damage", "0 %"},
            {"base_decay", "no"},
            {"conks", "no"},
            {"lean", "0"},
            {"soil_mounding", "no"},
            {"tree_height", "40 ft"},
            {"line_distance", "does not apply"},
            {"target_use", "none"},
            {"target_distance", "does not apply"}};
}

TEST(HazardFlags, AreNotRaisedByATreeWithNothingWrong) {
    const Recommendation answer = built_in_judge().recommend(facts_of(nothing_wrong(), "12 in"));
    EXPECT_THAT(answer.flags, testing::IsEmpty());
    EXPECT_THAT(answer.hazards_not_looked_at, testing::IsEmpty());
}

// Each fault of the cases, put into a tree with nothing else wrong, is flagged there too.
TEST(HazardFlags, ShowThroughEveryGoodAnswer) {
    for (const FlaggedCase& flagged : flagged_cases()) {
        const LevelSet raised =
            certain_flags(facts_of(with(nothing_wrong(), flagged.given), "12 in").values);
        EXPECT_EQ(raised & flagged.flags, flagged.flags) << flagged.id;
    }
}

TEST(HazardFlags, ComeInTheOrderOfUrgency) {
    const Recommendation answer = built_in_judge().recommend(
        facts_of({{"cavity", "open"}, {"hanging_limbs", "yes"}, {"standing_dead", "yes"}}));
    std::vector<std::size_t> ranks;
    for (const HazardFlag& flag : answer.flags) {
        ranks.push_back(static_cast<std::size_t>(
            std::ranges::find(hazard_table().gives, flag.flag) - hazard_table().gives.begin()));
    }
    EXPECT_GE(ranks.size(), 4U);  // dead with defects, hanging limbs, dead, hollow
    EXPECT_TRUE(std::ranges::is_sorted(ranks));
}

// How far a dead tree reaches when it falls is no matter of species.
TEST(HazardFlags, AreRaisedForTreesThatAreNoAsh) {
    const Recommendation answer = built_in_judge().recommend(
        facts_of({{"species", "not_ash"}, {"standing_dead", "yes"}, {"hanging_limbs", "yes"}}));
    EXPECT_THAT(answer.possible, testing::ElementsAre("out_of_scope"));
    EXPECT_FALSE(answer.flags.empty());
}

TEST(HazardFlags, NameWhatWasNotLookedAt) {
    const auto not_seen = [](const Entries& entries) {
        return built_in_judge().recommend(facts_of(entries, "12 in")).hazards_not_looked_at;
    };
    EXPECT_THAT(not_seen(with(nothing_wrong(), {{"conks", "could not see"}})),
                testing::ElementsAre("conks"));
    EXPECT_THAT(not_seen({}), testing::Contains("hanging limbs"));
    // What only a qualified assessor enters was not overlooked.
    EXPECT_THAT(not_seen({}), testing::Not(testing::Contains("likelihood of failure")));
}

}  // namespace
}  // namespace ashtriage::triage
