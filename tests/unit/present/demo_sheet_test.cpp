// The demonstration shows everything that the program can say about a tree.
#include <gmock/gmock.h>

#include <set>

#include "demo_property.hpp"
#include "present/listing.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {
namespace {

std::vector<std::string> gives(std::string_view table) {
    const auto& model = built_in_rules().model;
    return model.tables[*model.find_table(table)].gives;
}

TEST(DemoSheet, HasATreeForEveryRecommendation) {
    std::set<std::string> met;
    for (const TreeAssessment& tree : demo_property().trees) {
        if (tree.recommendation.decided()) met.insert(tree.recommendation.possible.front());
    }
    for (const std::string& outcome : gives(triage::table::recommendation)) {
        EXPECT_EQ(met.count(outcome), 1U) << outcome;
    }
}

TEST(DemoSheet, HasATreeForEveryStanding) {
    std::set<std::string> met;
    for (const TreeAssessment& tree : demo_property().trees) {
        met.insert(standing(tree.recommendation));
    }
    EXPECT_THAT(met, testing::IsSupersetOf({"firm", "close call", "open"}));
}

TEST(DemoSheet, HasATreeForEveryHazardFlag) {
    std::set<std::string> met;
    for (const TreeAssessment& tree : demo_property().trees) {
        for (const auto& flag : tree.recommendation.flags) met.insert(flag.flag);
    }
    for (const std::string& flag : gives(triage::table::hazard)) {
        EXPECT_EQ(met.count(flag), 1U) << flag;
    }
}

TEST(DemoSheet, HasNoEntryThatLooksLikeASlip) {
    for (const TreeAssessment& tree : demo_property().trees) {
        EXPECT_THAT(tree.doubts, testing::IsEmpty()) << tree.tree.label;
    }
}

// Every amount is worked out from an example card, and says so.
TEST(DemoSheet, TreatsByExampleCardsOnly) {
    std::size_t treated = 0;
    for (const TreeAssessment& tree : demo_property().trees) {
        const bool treat = tree.recommendation.decided() &&
                           tree.recommendation.possible.front() == triage::outcome::treat;
        EXPECT_EQ(tree.treatment.has_value(), treat && !tree.recommendation.method.empty());
        if (!tree.treatment || !tree.treatment->card) continue;
        EXPECT_TRUE(tree.treatment->card->example);
        EXPECT_THAT(tree.treatment->dose->findings,
                    testing::Contains(testing::Field(&treat::Finding::id, treat::example_finding)));
        ++treated;
    }
    EXPECT_GE(treated, 2U);
}

}  // namespace
}  // namespace ashtriage::present
