#include "triage/interview.hpp"

#include <gmock/gmock.h>

#include <functional>
#include <set>

#include "measure/parse.hpp"
#include "random_trees.hpp"
#include "triage/tables.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

const std::string& name_of(reason::FactIndex fact) {
    return built_in_rules().model.facts[fact].name;
}

bool bears_on_danger(std::string_view fact) {
    return built_in_rules().facts[fact_named(built_in_rules(), fact)].safety;
}

Interview start(bool with_assessor = false, std::string_view stems = "12 in") {
    return {built_in_rules(), built_in_judge().engine(), facts_of({}, stems).values, with_assessor};
}

using Answers = std::function<std::string(reason::FactIndex)>;

// Answers from the entries; what they do not say could not be seen.
Answers from(const Entries& entries) {
    return [entries](reason::FactIndex fact) -> std::string {
        const auto found = std::ranges::find(entries, name_of(fact), &observe::Finding::fact);
        return found == entries.end() ? "could not see" : found->value;
    };
}

// Runs an interview to its end; the names of the facts asked, in their order.
std::vector<std::string> run(Interview& interview, const Answers& answers) {
    std::vector<std::string> asked;
    while (const auto fact = interview.next()) {
        if (asked.size() > built_in_rules().facts.size()) {
            ADD_FAILURE() << "the interview does not end";
            break;
        }
        asked.push_back(name_of(*fact));
        interview.answer(*fact, answers(*fact));
    }
    return asked;
}

std::vector<std::string> asked_of(const Entries& entries, bool with_assessor = false) {
    Interview interview = start(with_assessor);
    return run(interview, from(entries));
}

void expect_danger_first(const std::vector<std::string>& asked) {
    EXPECT_TRUE(std::ranges::is_partitioned(asked, bears_on_danger))
        << testing::PrintToString(asked);
}

TEST(Interview, AsksWhatBearsOnDangerFirst) {
    const auto asked = asked_of({});
    expect_danger_first(asked);
    std::set<std::string> dangers;
    for (const packs::FactText& text : built_in_rules().facts) {
        if (text.safety) dangers.insert(text.ask);
    }
    EXPECT_GE(asked.size(), dangers.size());
    EXPECT_TRUE(bears_on_danger(asked.front()));
}

TEST(Interview, AsksEveryQuestionOnceAtMost) {
    const auto asked = asked_of({});
    EXPECT_EQ(std::set<std::string>(asked.begin(), asked.end()).size(), asked.size());
}

TEST(Interview, AsksOnlyWhatPeopleCanAnswer) {
    for (const std::string& fact : asked_of({}, true)) {
        EXPECT_TRUE(built_in_rules().facts[fact_named(built_in_rules(), fact)].asked) << fact;
    }
}

TEST(Interview, AsksNobodyButAnAssessorForARating) {
    EXPECT_THAT(asked_of({}), Not(Contains("likelihood_of_failure")));
    EXPECT_THAT(asked_of({}, true), Contains("likelihood_of_failure"));
    EXPECT_THAT(asked_of({}, true), Contains("consequences"));
}

// A dead tree is removed whatever its value, its history, its site or the distance of the borer.
TEST(Interview, OfADeadTreeDoesNotAskWhatNoLongerMatters) {
    const auto asked = asked_of({{"standing_dead", "yes"}, {"species", "green_ash"}});
    for (const char* idle :
         {"owner_value", "treatment_history", "infestation_distance", "site_quality",
          "in_quarantined_county", "botanical_only", "soil", "owner_applies", "distance_to_water",
          "wounds_unwanted", "canopy_dieback", "canopy_thinning", "canopy_class"}) {
        EXPECT_THAT(asked, Not(Contains(idle)));
    }
    EXPECT_THAT(asked, Contains("hanging_limbs"));
    EXPECT_THAT(asked, Contains("target_distance"));
}

// 80 % of dieback is past every published stop; no thinning can make that better.
TEST(Interview, StopsAskingForThinningWhenDiebackHasDecided) {
    const auto asked = asked_of({{"standing_dead", "no"},
                                 {"leaves", "in_leaf"},
                                 {"species", "green_ash"},
                                 {"canopy_dieback", "80 %"}});
    EXPECT_THAT(asked, Contains("canopy_dieback"));
    EXPECT_THAT(asked, Not(Contains("canopy_thinning")));
    EXPECT_THAT(asked, Not(Contains("owner_value")));
}

TEST(Interview, AsksForThinningWhenLittleHasDiedBack) {
    const auto asked = asked_of({{"standing_dead", "no"},
                                 {"leaves", "in_leaf"},
                                 {"species", "green_ash"},
                                 {"canopy_dieback", "5 %"}});
    EXPECT_THAT(asked, Contains("canopy_thinning"));
}

TEST(Interview, AsksForAClassOnlyForWantOfPercentages) {
    EXPECT_THAT(asked_of({{"canopy_dieback", "20 %"}, {"canopy_thinning", "20 %"}}),
                Not(Contains("canopy_class")));
    const auto asked = asked_of({});
    EXPECT_THAT(asked, Contains("canopy_class"));
    const auto place = [&](const char* fact) { return std::ranges::find(asked, fact); };
    EXPECT_LT(place("canopy_dieback"), place("canopy_class"));
    EXPECT_LT(place("canopy_thinning"), place("canopy_class"));
}

TEST(Interview, DoesNotAskForTheShapeOfHolesThatAreNotThere) {
    EXPECT_THAT(asked_of({{"exit_holes", "0"}}), Not(Contains("exit_hole_shape")));
    EXPECT_THAT(asked_of({{"exit_holes", "3"}}), Contains("exit_hole_shape"));
}

// These rules are for ash: what is wanted of another tree is only whether it is dangerous.
TEST(Interview, OfAnotherKindOfTreeEndsEarly) {
    const auto ash = asked_of({{"species", "green_ash"}, {"standing_dead", "no"}});
    const auto other = asked_of({{"species", "not_ash"}, {"standing_dead", "no"}});
    EXPECT_LT(other.size(), ash.size());
    for (const char* idle : {"owner_value", "treatment_history", "infestation_distance",
                             "site_quality", "botanical_only", "soil"}) {
        EXPECT_THAT(other, Not(Contains(idle)));
    }
    EXPECT_THAT(other, Contains("hanging_limbs"));
}

TEST(Interview, DoesNotAskWhatIsKnownBeforehand) {
    observe::Site site;
    site.infestation_distance = measure::parse_length("5 miles");
    site.soil = "loam";
    const TreeFacts known = tree_facts(built_in_rules(), &site, walked({}, "12 in"));
    Interview interview(built_in_rules(), built_in_judge().engine(), known.values, false);
    const auto asked = run(interview, from({}));
    EXPECT_THAT(asked, Not(Contains("infestation_distance")));
    EXPECT_THAT(asked, Not(Contains("soil")));
}

TEST(Interview, TakesTheLastAnswerBack) {
    Interview interview = start();
    EXPECT_FALSE(interview.back());
    const auto first = *interview.next();
    interview.answer(first, "could not see");
    const auto second = *interview.next();
    EXPECT_NE(first, second);
    EXPECT_EQ(interview.answered(), 1U);
    EXPECT_TRUE(interview.back());
    EXPECT_EQ(interview.answered(), 0U);
    EXPECT_EQ(interview.next(), first);
    EXPECT_FALSE(interview.back());
}

// What an answer closed is open again when it is taken back.
TEST(Interview, AsksAgainWhatAnAnswerTakenBackHadSettled) {
    const auto dead = fact_named(built_in_rules(), "standing_dead");
    Interview interview = start();
    const auto before = interview.next();
    interview.answer(dead, "yes");
    interview.back();
    EXPECT_EQ(interview.next(), before);
    EXPECT_THAT(run(interview, from({{"standing_dead", "no"}, {"species", "green_ash"}})),
                Contains("owner_value"));
}

TEST(Interview, RefusesAnAnswerThatCannotBeAndStaysAsItWas) {
    Interview interview = start();
    const auto lean = fact_named(built_in_rules(), "lean");
    interview.answer(*interview.next(), "could not see");
    const auto now = interview.next();
    for (const char* text : {"", "91", "-1", "nan", "a little", "30 %"}) {
        EXPECT_THAT(refusal_of([&] { interview.answer(lean, text); }).what, HasSubstr("lean"))
            << text;
        EXPECT_EQ(interview.answered(), 1U);
        EXPECT_EQ(interview.next(), now);
    }
}

TEST(Interview, KeepsTheAnswersAsTheyWereWritten) {
    Interview interview = start();
    interview.answer(fact_named(built_in_rules(), "lean"), "2 to 5");
    interview.answer(fact_named(built_in_rules(), "tree_height"), "13 m");
    EXPECT_THAT(interview.findings(),
                testing::ElementsAre(observe::Finding{"lean", "2 to 5"},
                                     observe::Finding{"tree_height", "13 m"}));
}

// Nobody judges the crown of a tree that has died, or that has been bare since July.
Entries as_it_is_told(const Entries& entries) {
    const auto says = [&](const char* fact, const char* value) {
        return std::ranges::find(entries, observe::Finding{fact, value}) != entries.end();
    };
    if (!says("standing_dead", "yes") && !says("leaves", "bare_since_july")) return entries;
    return with(entries, {{"canopy_dieback", "could not see"},
                          {"canopy_thinning", "could not see"},
                          {"canopy_class", "could not see"}});
}

// Whoever answers everything that is asked has an answer at the end, and the questions that were
// left out would not have changed it.
TEST(Interview, ThatIsAnsweredLeadsToTheAnswerOfTheWholeTree) {
    RandomTrees random(built_in_rules(), 1);
    const auto table = *built_in_rules().model.find_table(table::recommendation);
    const auto hazard = *built_in_rules().model.find_table(table::hazard);
    const reason::Engine& engine = built_in_judge().engine();
    for (int tree = 0; tree < 200; ++tree) {
        const Entries truth = as_it_is_told(random.findings());
        const std::string stems = random.stems();
        Interview interview = start(true, stems);
        const auto asked = run(interview, from(truth));
        expect_danger_first(asked);

        const auto whole = facts_of(truth, stems);
        const auto told = facts_of(interview.findings(), stems);
        const auto answer = engine.decide(table, told.values);
        ASSERT_TRUE(answer.decided()) << "tree " << tree;
        EXPECT_EQ(answer.outcome(), engine.decide(table, whole.values).outcome())
            << "tree " << tree;
        EXPECT_EQ(engine.collect(hazard, told.values).certain,
                  engine.collect(hazard, whole.values).certain)
            << "tree " << tree;
    }
}

// The facts that can still matter to a table that the interview is about, as the engine finds them:
// that it finds them exactly is held against enumeration elsewhere.
std::set<reason::FactIndex> that_can_matter(const Interview& interview) {
    const packs::RuleSet& rules = built_in_rules();
    const reason::Engine& engine = built_in_judge().engine();
    reason::Observation now = facts_of(interview.findings(), "12 in").values;
    if (PartlyKnownCrown(rules).missing(now)) now = PartlyKnownCrown(rules).left_open(now);
    std::set<reason::FactIndex> matter;
    for (const auto table :
         {table::hazard, table::recommendation, table::evidence, table::method}) {
        for (const auto fact : engine.can_matter(*rules.model.find_table(table), now)) {
            matter.insert(fact);
            const auto& from = rules.facts[fact].worked_out_from;
            matter.insert(from.begin(), from.end());
        }
    }
    return matter;
}

TEST(Interview, AsksNothingThatCannotMatterOnHundredsOfRandomTrees) {
    RandomTrees random(built_in_rules(), 20260524);
    std::size_t asked = 0;
    for (int round = 0; round < 200; ++round) {
        const Answers answers = from(random.findings());
        Interview interview = start();
        while (const auto fact = interview.next()) {
            ASSERT_TRUE(that_can_matter(interview).contains(*fact)) << name_of(*fact);
            interview.answer(*fact, answers(*fact));
            ++asked;
        }
    }
    EXPECT_GT(asked, 2000U);
}

TEST(Interview, DoesNotAskTheHeightWhereNoHeightChangesAFlag) {
    const auto asked =
        asked_of({{"standing_dead", "no"}, {"target_distance", "0 ft"}, {"line_distance", "0 ft"}});
    EXPECT_THAT(asked, Not(Contains("tree_height")));
    EXPECT_THAT(asked_of({{"target_distance", "30 ft"}, {"line_distance", "30 ft"}}),
                Contains("tree_height"));
}

TEST(Interview, AsksTheKindOfTreeBeforeAnythingIsDugUp) {
    const auto asked = asked_of({{"species", "green_ash"}});
    const auto at = [&](std::string_view fact) { return std::ranges::find(asked, fact); };
    EXPECT_LT(at("species"), at("larvae_seen"));
    EXPECT_LT(at("species"), at("galleries_seen"));
}

}  // namespace
}  // namespace ashtriage::triage
