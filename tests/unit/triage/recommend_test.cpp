// The recommendation by the built-in rules. The figures are the published ones that the rules cite:
// 50 % as the stop (multistate bulletin 2009, Minnesota 2011), 30 % as the end of good candidates
// (Iowa State 2021), 15 mi as the distance at which to start (Wisconsin, Minnesota), ten points as
// the error of a crown rated by eye (forest-health crown rating, from memory).
#include "triage/recommend.hpp"

#include <gmock/gmock.h>

#include "trees.hpp"

namespace ashtriage::triage {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

Recommendation judged(const Entries& entries, std::string_view stems = "12 in") {
    return built_in_judge().recommend(facts_of(entries, stems));
}

Recommendation losing(const std::string& dieback, const std::string& value = "middle") {
    return judged(with(sound_ash_losing(dieback), {{"owner_value", value}}));
}

TEST(Recommend, TreatsAGoodCandidateWithTheBorerNear) {
    const Recommendation treat = losing("10 %");
    EXPECT_THAT(treat.possible, ElementsAre("treat"));
    EXPECT_TRUE(treat.firm);
    ASSERT_FALSE(treat.reasons.empty());
    EXPECT_EQ(treat.reasons.front().rule, "good-candidate-at-risk");
}

TEST(Recommend, RemovesATreePastTheStop) {
    const Recommendation remove = losing("70 %");
    EXPECT_THAT(remove.possible, ElementsAre("remove"));
    EXPECT_TRUE(remove.firm);
    EXPECT_EQ(remove.reasons.front().rule, "past-saving");
}

TEST(Recommend, MonitorsATreeFarFromTheBorer) {
    const Recommendation monitor =
        judged(with(sound_ash_losing("5 %"), {{"infestation_distance", "62 miles"},
                                              {"in_quarantined_county", "no"},
                                              {"galleries_seen", "no"},
                                              {"larvae_seen", "no"},
                                              {"woodpecker_damage", "none"},
                                              {"exit_holes", "0"}}));
    EXPECT_THAT(monitor.possible, ElementsAre("monitor"));
    EXPECT_TRUE(monitor.firm);
}

TEST(Recommend, LeavesOtherKindsOfTreesToOthers) {
    const Recommendation other = judged({{"species", "mountain_ash"}});
    EXPECT_THAT(other.possible, ElementsAre("out_of_scope"));
    EXPECT_TRUE(other.firm);
    EXPECT_THAT(other.open_questions, IsEmpty());
    EXPECT_THAT(other.method, IsEmpty());
}

// 19 + 10 stays below 30; 20 + 10 is 30, from which on a tree of ordinary value is not treated.
TEST(Recommend, CallsItCloseWhenTenPointsCouldMakeItMarginal) {
    EXPECT_TRUE(losing("19 %").firm);
    for (const char* loss : {"20 %", "21 %", "29 %"}) {
        const Recommendation close = losing(loss);
        EXPECT_THAT(close.possible, ElementsAre("treat")) << loss;
        EXPECT_FALSE(close.firm) << loss;
        EXPECT_THAT(close.within_error, ElementsAre("remove", "treat")) << loss;
        EXPECT_THAT(close.measure_again, ElementsAre("canopy loss")) << loss;
    }
}

TEST(Recommend, CallsItCloseWhenTenPointsCouldMakeItGoodAgain) {
    EXPECT_THAT(losing("30 %").possible, ElementsAre("remove"));
    EXPECT_FALSE(losing("30 %").firm);
    EXPECT_FALSE(losing("39 %").firm);
    EXPECT_TRUE(losing("40 %").firm);  // 40 - 10 is 30, which is marginal like 40
}

// A prized tree is treated up to 50: 40 + 10 is not above it, 41 + 10 is.
TEST(Recommend, CallsItCloseWhenTenPointsCouldPassTheStop) {
    EXPECT_TRUE(losing("40 %", "high").firm);
    EXPECT_FALSE(losing("41 %", "high").firm);
    EXPECT_THAT(losing("41 %", "high").possible, ElementsAre("treat"));
    EXPECT_THAT(losing("50 %", "high").possible, ElementsAre("treat"));
    EXPECT_THAT(losing("50.1 %", "high").possible, ElementsAre("remove"));
    EXPECT_FALSE(losing("60 %", "high").firm);  // 60 - 10 is 50, not yet above the stop
    EXPECT_TRUE(losing("61 %", "high").firm);
}

// A thinning by eye has the same error as a dieback by eye.
TEST(Recommend, WeighsThinningAsItWeighsDieback) {
    const auto thinned = [](const std::string& thinning) {
        return judged(with(sound_ash_losing("0 %"), {{"canopy_thinning", thinning}}));
    };
    EXPECT_TRUE(thinned("19 %").firm);
    EXPECT_FALSE(thinned("20 %").firm);
}

TEST(Recommend, AsksForTheUnknownThatMatters) {
    const Recommendation open =
        judged(with(sound_ash_losing("10 %"), {{"treatment_history", "unknown"}}));
    EXPECT_FALSE(open.decided());
    EXPECT_FALSE(open.firm);
    EXPECT_THAT(open.possible, ElementsAre("treat", "monitor"));
    ASSERT_THAT(open.open_questions, SizeIs(1));
    EXPECT_EQ(open.open_questions.front().fact, "treatment_history");
    EXPECT_EQ(open.open_questions.front().why_unknown, "not asked");
    EXPECT_FALSE(open.open_questions.front().ask.empty());
    EXPECT_THAT(open.changes, IsEmpty());
}

TEST(Recommend, KeepsNotAskedAndNotSeenApart) {
    const auto why = [](const std::string& value) {
        return judged(with(sound_ash_losing("10 %"), {{"treatment_history", value}}))
            .open_questions.front()
            .why_unknown;
    };
    EXPECT_NE(why("not asked"), why("could not see"));
}

TEST(Recommend, AsksForARangeThatCrossesAThreshold) {
    const Recommendation open = losing("20-60 %", "high");
    EXPECT_THAT(open.possible, ElementsAre("remove", "treat"));
    ASSERT_THAT(open.open_questions, SizeIs(1));
    EXPECT_THAT(open.open_questions.front().why_unknown, HasSubstr("20 to 60 %"));
}

TEST(Recommend, SaysWhichUnknownsCannotChangeTheAnswer) {
    const Recommendation gone =
        judged({{"species", "green_ash"}, {"leaves", "in_leaf"}, {"canopy_dieback", "75 %"}});
    EXPECT_THAT(gone.possible, ElementsAre("remove"));
    EXPECT_TRUE(gone.firm);
    EXPECT_THAT(gone.open_questions, IsEmpty());
    EXPECT_THAT(gone.unknown_but_idle, Contains("owner value"));
    EXPECT_THAT(gone.unknown_but_idle, Contains("infestation distance"));
    EXPECT_THAT(gone.unknown_but_idle, Not(Contains("canopy dieback")));
}

TEST(Recommend, OfATreeOfWhichNothingIsKnownLeavesAllOpen) {
    const Recommendation open = judged({}, {});
    EXPECT_THAT(open.possible,
                testing::UnorderedElementsAre("out_of_scope", "remove", "treat", "monitor"));
    EXPECT_THAT(open.flags, IsEmpty());
    EXPECT_FALSE(open.hazards_not_looked_at.empty());
    EXPECT_FALSE(open.open_questions.empty());
    EXPECT_TRUE(open.evidence.empty());
}

// A question that is worked out from others is put as the questions that a person can answer.
TEST(Recommend, AsksForWhatPeopleCanEnter) {
    const Recommendation open = judged(sound_ash());  // thinning 0, dieback not looked at
    const Recommendation bare = judged({{"species", "green_ash"}, {"leaves", "in_leaf"}});
    for (const auto* answer : {&open, &bare}) {
        for (const OpenQuestion& question : answer->open_questions) {
            const auto fact = fact_named(built_in_rules(), question.fact);
            EXPECT_TRUE(built_in_rules().facts[fact].asked) << question.fact;
        }
    }
    EXPECT_THAT(bare.open_questions, Contains(Field(&OpenQuestion::fact, "canopy_dieback")));
    EXPECT_THAT(bare.open_questions, Contains(Field(&OpenQuestion::fact, "canopy_thinning")));
}

TEST(Recommend, ShowsWhatWasSeenBesideTheThreshold) {
    const Recommendation treat = losing("10 %");
    EXPECT_THAT(treat.reasons.front().because, HasSubstr("10 %"));
    EXPECT_THAT(treat.reasons.front().because, HasSubstr("30 %"));
    EXPECT_THAT(treat.reasons.front().comparisons,
                Contains(AllOf(Field(&Comparison::subject, "canopy loss"),
                               Field(&Comparison::observed, "10 %"),
                               Field(&Comparison::condition, HasSubstr("30 %")),
                               Field(&Comparison::met, reason::Truth::yes))));
}

TEST(Recommend, ShowsTheThresholdThatKeptAnotherAnswerAway) {
    const Recommendation treat = losing("10 %");
    const auto past_saving =
        std::ranges::find(treat.not_met, std::string("past-saving"), &Reason::rule);
    ASSERT_NE(past_saving, treat.not_met.end());
    EXPECT_THAT(past_saving->comparisons,
                ElementsAre(AllOf(Field(&Comparison::met, reason::Truth::no),
                                  Field(&Comparison::condition, HasSubstr("50 %")))));
}

// Each change as "outcome: fact value; ...".
std::vector<std::string> changes_of(const Recommendation& recommended) {
    std::vector<std::string> changes;
    for (const WhatWouldChange& change : recommended.changes) {
        std::string text = change.outcome + ":";
        for (const FactAndValue& fact : change.needed)
            text += " " + fact.fact + " " + fact.value + ";";
        changes.push_back(text);
    }
    return changes;
}

// A value one step lower (middle) would keep the tree, two steps (low) would not; of the crown, 10
// % is 40 points, four errors of the eye, from the stop at 50 %. One change of either kind will do,
// and the nearer is named.
TEST(Recommend, SaysWhatWouldChangeIt) {
    EXPECT_THAT(changes_of(losing("10 %")), Contains(HasSubstr("remove: ")));
    EXPECT_THAT(changes_of(losing("25 %")),
                Contains(AllOf(HasSubstr("remove: canopy loss"), HasSubstr("30"))));
    EXPECT_THAT(changes_of(losing("25 %")), Not(Contains(HasSubstr("species"))));
}

// Nobody can make an ash that died come alive; two faults have to be mended before the other
// answer.
TEST(Recommend, NamesAllThatWouldHaveToBeOtherwiseTogether) {
    const auto changes = changes_of(judged(
        with(sound_ash_losing("60 %"), {{"structure", "major_defect"}, {"owner_value", "high"}})));
    EXPECT_THAT(changes, Contains(AllOf(HasSubstr("treat: "), HasSubstr("canopy loss"),
                                        HasSubstr("structure"))));
}

// What forces the answer is among what was observed, and does not name what plays no part.
TEST(Recommend, SaysWhichObservationsAloneForceTheAnswer) {
    const auto forced_by = [](const Recommendation& recommended) {
        std::vector<std::string> facts;
        for (const FactAndValue& fact : recommended.forced_by) facts.push_back(fact.fact);
        return facts;
    };
    EXPECT_THAT(forced_by(judged(with(sound_ash_losing("60 %"), {}))),
                testing::UnorderedElementsAre("species", "leaves", "canopy loss"));
    EXPECT_THAT(forced_by(judged(with(sound_ash_losing("60 %"), {{"species", "not_ash"}}))),
                ElementsAre("species"));
    const Recommendation open =
        judged(with(sound_ash_losing("10 %"), {{"treatment_history", "unknown"}}));
    EXPECT_THAT(open.forced_by, IsEmpty());
}

TEST(Recommend, ChoosesAMethodOnlyWhereTreatingIsPossible) {
    const Entries owner_wants{{"botanical_only", "no"},  {"owner_applies", "no"},
                              {"wounds_unwanted", "no"}, {"distance_to_water", "100 ft"},
                              {"soil", "loam"},          {"flowers_in_root_zone", "no"}};
    const Recommendation treat = judged(with(sound_ash_losing("10 %"), owner_wants));
    ASSERT_FALSE(treat.method.empty());
    EXPECT_EQ(treat.method.front().outcome, "trunk_injection_emamectin");
    EXPECT_EQ(treat.who_applies, "professional");
    EXPECT_THAT(judged(with(sound_ash_losing("70 %"), owner_wants)).method, IsEmpty());
}

TEST(Recommend, AsksWhatKeepsTheMethodOpen) {
    const Recommendation treat = judged(
        with(sound_ash_losing("10 %"),
             {{"owner_value", "middle"}, {"botanical_only", "no"}, {"owner_applies", "no"}}));
    ASSERT_THAT(treat.possible, ElementsAre("treat"));
    EXPECT_THAT(treat.method, IsEmpty());
    EXPECT_THAT(treat.method_questions, Contains(Field(&OpenQuestion::fact, "wounds_unwanted")));
}

// Wisconsin DNR 2024 and the multistate bulletin of 2009: soil products for owners are meant for
// stems up to 15 in. 38.1 cm are exactly 15 in.
TEST(Recommend, LetsTheOwnerDrenchUpToFifteenInches) {
    const Entries owner{{"botanical_only", "no"},  {"owner_applies", "yes"},
                        {"wounds_unwanted", "no"}, {"distance_to_water", "100 ft"},
                        {"soil", "loam"},          {"flowers_in_root_zone", "no"}};
    const auto who = [&](std::string_view stems) {
        return judged(with(sound_ash_losing("10 %"), owner), stems).who_applies;
    };
    EXPECT_EQ(who("15 in"), "owner_possible");
    EXPECT_EQ(who("38.1 cm"), "owner_possible");
    EXPECT_EQ(who("15.01 in"), "professional");
    // Nebraska 2021 prints 45 in of girth for 15 in; divided by pi it is 14.3 in.
    EXPECT_EQ(who("girth 45 in"), "owner_possible");
    EXPECT_EQ(who("girth 47.2 in"), "professional");
}

TEST(Recommend, GivesTheRiskRatingOfTheAssessorsEntries) {
    const Entries rated = with(sound_ash_losing("10 %"), {{"likelihood_of_failure", "probable"},
                                                          {"likelihood_of_impact", "high"},
                                                          {"consequences", "significant"}});
    EXPECT_EQ(judged(rated).risk_rating, "high");
    EXPECT_EQ(losing("10 %").risk_rating, "");
}

TEST(Recommend, CarriesNotesFactsAndTheRulesItWasMadeBy) {
    const TreeFacts facts = facts_of(sound_ash_losing("10 %"), "girth 40 in");
    const Recommendation treat = built_in_judge().recommend(facts);
    EXPECT_EQ(treat.notes, facts.notes);
    EXPECT_EQ(treat.facts, facts.values);
    EXPECT_EQ(treat.rules_hash, built_in_rules().hash);
    for (const packs::Edition& edition : built_in_rules().editions) {
        EXPECT_THAT(treat.rules_edition, HasSubstr(edition.pack + " " + edition.edition));
    }
    EXPECT_EQ(treat.preset, "");
    EXPECT_EQ(judge_with("strict").recommend(facts).preset, "strict");
    EXPECT_NE(judge_with("strict").recommend(facts).rules_hash, treat.rules_hash);
}

TEST(Recommend, GivesEveryReasonASourceThatIsListed) {
    for (const char* loss : {"10 %", "35 %", "75 %"}) {
        const Recommendation answer = losing(loss);
        for (const Reason& reason : answer.reasons) {
            EXPECT_FALSE(reason.sources.empty()) << reason.rule;
            for (const std::string& key : reason.sources) {
                EXPECT_NE(built_in_rules().find_source(key), nullptr) << key;
            }
        }
    }
}

TEST(Judge, RefusesRulesWithoutATableItNeeds) {
    for (const std::string name : {"recommendation", "evidence", "hazard", "method"}) {
        packs::RuleSet rules = built_in_rules();
        rules.model.tables[*rules.model.find_table(name)].name = "something_else";
        EXPECT_THAT(refusal_of([&] { Judge{rules}; }).what, HasSubstr(name));
    }
    packs::RuleSet rules = built_in_rules();
    auto& gives = rules.model.tables[*rules.model.find_table("recommendation")].gives;
    *std::ranges::find(gives, "monitor") = "wait";
    EXPECT_THAT(refusal_of([&] { Judge{rules}; }).what, HasSubstr("monitor"));
}

// A treatment mends no torn root and no crack: what a qualified assessor, or the utility, has to
// judge goes before it (NA-FR-01-96 calls for action on each; 29 CFR 1910.269 keeps crews from
// lines).
TEST(Recommend, LetsTreatmentWaitForAHazardThatHasToBeJudged) {
    const Entries good = with(sound_ash_losing("10 %"), {{"owner_value", "high"}});
    EXPECT_FALSE(judged(good).treatment_waits.has_value());
    for (const Entries& hazard :
         {Entries{{"soil_mounding", "yes"}}, Entries{{"stem_crack", "deep"}},
          Entries{{"hanging_limbs", "yes"}}, Entries{{"conks", "yes"}},
          Entries{{"line_distance", "8 ft"}}}) {
        const Recommendation answer = judged(with(good, hazard));
        ASSERT_THAT(answer.possible, ElementsAre("treat")) << hazard.front().fact;
        ASSERT_TRUE(answer.treatment_waits.has_value()) << hazard.front().fact;
        EXPECT_FALSE(answer.treatment_waits->todo.empty());
    }
    EXPECT_FALSE(judged(with(good, {{"stem_crack", "shallow"}})).treatment_waits.has_value());
}

std::vector<std::string> flags_of(const Recommendation& recommended) {
    std::vector<std::string> flags;
    for (const HazardFlag& flag : recommended.flags) flags.push_back(flag.flag);
    return flags;
}

// A dead tree that stands at a line reaches it whatever its height is, so the flag waits for nobody
// to measure it.
TEST(HazardFlags, ThatEveryHeightRaisesAreRaisedWithoutTheHeight) {
    const Entries dead{
        {"standing_dead", "yes"}, {"line_distance", "0 ft"}, {"target_distance", "0 ft"}};
    const auto without = flags_of(judged(dead));
    for (const char* height : {"3 ft", "40 ft", "200 ft"}) {
        EXPECT_EQ(without, flags_of(judged(with(dead, {{"tree_height", height}})))) << height;
    }
    EXPECT_THAT(without, Contains("dead_tree_reaches_line"));
}

// The loss that counts is the worse of dieback and thinning: where one was not looked at it may be
// past the stop.
TEST(Recommend, IsNeverFirmAboutACrownOfWhichOnlyOneMeasureIsKnown) {
    Entries both = sound_ash_losing("10 %");
    std::erase_if(both, [](const observe::Finding& finding) {
        return finding.fact == "canopy_dieback" || finding.fact == "canopy_thinning";
    });
    const Recommendation one = judged(with(both, {{"canopy_dieback", "10 %"}}));
    EXPECT_THAT(one.possible, ElementsAre("treat"));
    EXPECT_FALSE(one.firm);
    EXPECT_THAT(one.within_error, Contains("remove"));
    EXPECT_THAT(one.measure_again, Contains("canopy thinning"));
    const Recommendation other = judged(with(both, {{"canopy_thinning", "10 %"}}));
    EXPECT_THAT(other.measure_again, Contains("canopy dieback"));
    const Recommendation known =
        judged(with(both, {{"canopy_dieback", "10 %"}, {"canopy_thinning", "5 %"}}));
    EXPECT_TRUE(known.firm);
    // Past the stop by one of them, the other can make it no better.
    EXPECT_TRUE(judged(with(both, {{"canopy_dieback", "80 %"}})).firm);
}

// Under the preset "strict" any sign is against treatment; the rule that would have treated the
// tree holds all the same, and is told.
TEST(Recommend, TellsTheRulesThatHoldAndGiveWay) {
    const Judge strict = judge_with("strict");
    const auto facts =
        tree_facts(strict.rules(), nullptr,
                   walked(with(sound_ash_losing("10 %"), {{"galleries_seen", "yes"}}), "12 in"));
    const Recommendation vetoed = strict.recommend(facts);
    EXPECT_THAT(vetoed.possible, ElementsAre("remove"));
    EXPECT_THAT(vetoed.outranked, Contains(Field(&Reason::rule, "good-candidate-at-risk")));
}

}  // namespace
}  // namespace ashtriage::triage
