#include "present/stored_answer.hpp"

#include <gmock/gmock.h>

#include "demo_property.hpp"
#include "present/recommendation_json.hpp"

namespace ashtriage::present {
namespace {

book::StoredRecommendation stored(std::string_view label) {
    return to_be_stored(demo_tree(label), built_in_rules(), demo_day());
}

std::string& kept(book::StoredRecommendation& answer, std::string_view fact) {
    for (auto& [name, value] : answer.facts) {
        if (name == fact) return value;
    }
    ADD_FAILURE() << "the answer keeps no " << fact;
    return answer.facts.front().second;
}

bool same(const book::StoredRecommendation& answer) {
    return comes_out_the_same(built_in_knowledge().judge, answer);
}

TEST(StoredAnswer, ComesOutTheSameForEveryTree) {
    ASSERT_EQ(demo_property().trees.size(), 16U);
    for (const TreeAssessment& tree : demo_property().trees) {
        EXPECT_TRUE(same(stored(tree.tree.label))) << tree.tree.label;
    }
}

// Hanging limbs are a flag of their own, so to change that fact changes the flags of any tree.
TEST(StoredAnswer, ComesOutOtherwiseWhenAFactIsAltered) {
    for (const TreeAssessment& tree : demo_property().trees) {
        auto answer = stored(tree.tree.label);
        std::string& limbs = kept(answer, "hanging_limbs");
        limbs = limbs == "yes" ? "no" : "yes";
        EXPECT_FALSE(same(answer)) << tree.tree.label;
    }
}

TEST(StoredAnswer, ComesOutOtherwiseWhenTheCrownIsAltered) {
    auto answer = stored("L1");
    EXPECT_EQ(answer.possible, std::vector<std::string>{"treat"});
    kept(answer, "canopy_loss") = "70 %";
    EXPECT_FALSE(same(answer));
}

TEST(StoredAnswer, ComesOutOtherwiseWhenTheAnswerIsAltered) {
    auto answer = stored("L1");
    answer.possible = {"monitor"};
    EXPECT_FALSE(same(answer));
    answer = stored("L1");
    answer.firm = !answer.firm;
    EXPECT_FALSE(same(answer));
    answer = stored("L1");
    answer.reasons_json = "[]";
    EXPECT_FALSE(same(answer));
    answer = stored("L12");
    answer.flags_json = "[]";
    EXPECT_FALSE(same(answer));
}

TEST(StoredAnswer, WithAFactThatCannotBeReadDoesNotComeOutTheSame) {
    auto answer = stored("L1");
    kept(answer, "canopy_loss") = "701 %";
    EXPECT_FALSE(same(answer));
    answer = stored("L1");
    answer.facts.emplace_back("no_such_fact", "yes");
    EXPECT_FALSE(same(answer));
}

TEST(StoredAnswer, KeepsTheFactsTheRulesAndTheReasons) {
    const auto answer = stored("L6");
    EXPECT_EQ(answer.hash, built_in_rules().hash);
    EXPECT_EQ(answer.date, demo_day());
    EXPECT_THAT(answer.facts, testing::Contains(std::pair<std::string, std::string>(
                                  "canopy_thinning", "could not see")));
    EXPECT_THAT(answer.facts,
                testing::Contains(std::pair<std::string, std::string>("canopy_loss", "80 %")));
    EXPECT_FALSE(nlohmann::json::parse(answer.reasons_json).empty());
    EXPECT_FALSE(nlohmann::json::parse(answer.flags_json).empty());
}

TEST(SameAnswer, OverlooksOnlyTheIdAndTheDate) {
    const auto answer = stored("L1");
    auto other = answer;
    other.id = 7;
    other.date = measure::parse_date("2026-08-01");
    EXPECT_TRUE(same_answer(answer, other));
    other.hash = "another";
    EXPECT_FALSE(same_answer(answer, other));
    other = answer;
    other.facts.pop_back();
    EXPECT_FALSE(same_answer(answer, other));
}

}  // namespace
}  // namespace ashtriage::present
