// The verdict of a tree against its whole recommendation: two ways to the same answer.
#include "triage/verdict.hpp"

#include <gtest/gtest.h>

#include "random_trees.hpp"

namespace ashtriage::triage {
namespace {

std::vector<std::string> names(std::string_view table, reason::LevelSet outcomes) {
    const reason::Model& model = built_in_rules().model;
    std::vector<std::string> names;
    const auto& gives = model.tables[*model.find_table(table)].gives;
    for (std::size_t i = 0; i < gives.size(); ++i) {
        if (reason::has_level(outcomes, i)) names.push_back(gives[i]);
    }
    return names;
}

void expect_the_same(const Verdict& verdict, const Recommendation& whole) {
    const reason::Model& model = built_in_rules().model;
    EXPECT_EQ(names(table::recommendation, verdict.possible), whole.possible);
    EXPECT_EQ(names(table::recommendation, verdict.within_error), whole.within_error);
    EXPECT_EQ(verdict.firm, whole.firm);
    const auto& evidence = model.tables[*model.find_table(table::evidence)];
    EXPECT_EQ(verdict.evidence ? evidence.gives[*verdict.evidence] : "", whole.evidence);
    std::vector<std::string> flags;
    for (const HazardFlag& flag : whole.flags) flags.push_back(flag.flag);
    EXPECT_EQ(names(table::hazard, verdict.flags), flags);
    const auto& rules = model.tables[*model.find_table(table::recommendation)].rules;
    EXPECT_EQ(verdict.deciding_rule ? rules[*verdict.deciding_rule].id : "",
              whole.reasons.empty() ? "" : whole.reasons.front().rule);
}

// Twice over, so that the second time each verdict may be a remembered one.
TEST(Verdicts, AreThoseOfTheWholeRecommendation) {
    Verdicts verdicts(built_in_judge());
    for (int times = 0; times < 2; ++times) {
        RandomTrees trees(built_in_rules(), 1847);
        for (int i = 0; i < 400; ++i) {
            Entries findings = trees.findings();
            std::erase_if(findings, [&](const auto&) { return trees.below(4) == 0; });
            for (observe::Finding& finding : findings) {
                if (trees.below(8) == 0) finding.value = "could not see";
            }
            TreeFacts facts;
            try {
                facts = facts_of(findings, trees.stems());
            } catch (const measure::InputError&) {
                continue;  // what was taken out left another entry without sense
            }
            expect_the_same(verdicts.on(facts.values), built_in_judge().recommend(facts));
        }
    }
}

// Within ten points of a threshold the answer is no longer firm (the eye error of the fact), so
// that trees of one cell must be told apart.
TEST(Verdicts, TellApartTreesOfOneCellThatTheErrorOfTheEyeTellsApart) {
    Verdicts verdicts(built_in_judge());
    for (int percent = 0; percent <= 100; ++percent) {
        const TreeFacts facts = facts_of(sound_ash_losing(std::to_string(percent)), "14 in");
        expect_the_same(verdicts.on(facts.values), built_in_judge().recommend(facts));
    }
    const auto firm = [&](const char* percent) {
        return verdicts.on(facts_of(sound_ash_losing(percent), "14 in").values).firm;
    };
    EXPECT_TRUE(firm("5"));
    EXPECT_FALSE(firm("29"));
}

}  // namespace
}  // namespace ashtriage::triage
