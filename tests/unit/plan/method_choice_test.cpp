#include "plan/method_choice.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "built_in_methods.hpp"
#include "measure/units.hpp"

namespace ashtriage::plan {
namespace {

using measure::Length;
using measure::Mass;
using test::compared;
using test::names;
using test::tree_of;
using test::unhindered_tree;

// In northern Illinois, for which the dates are meant, injections are open then and drenches over.
constexpr measure::Date late_june{std::chrono::year{2026}, std::chrono::June, std::chrono::day{25}};
// Nothing has begun, so nothing is too late.
constexpr measure::Date march{std::chrono::year{2026}, std::chrono::March, std::chrono::day{1}};

const MethodAnswer& answer_of(const std::vector<MethodAnswer>& answers, std::string_view method) {
    const auto found = std::ranges::find_if(
        answers, [&](const MethodAnswer& answer) { return answer.facts->method == method; });
    if (found == answers.end()) throw std::invalid_argument("not among them");
    return *found;
}

std::vector<std::string> rules_of(const std::vector<triage::Reason>& reasons) {
    std::vector<std::string> ids;
    for (const triage::Reason& reason : reasons) ids.push_back(reason.rule);
    return ids;
}

Mass grams(std::string_view number) {
    return Mass::of(number, measure::units::gram);
}

TEST(MethodChoice, PutsTheFirstChoiceBeforeAllOthers) {
    const auto comparison = compared(unhindered_tree("10"), march);
    EXPECT_EQ(comparison.ranked.front().facts->method, "trunk_injection_emamectin");
    EXPECT_TRUE(comparison.ranked.front().first_choice);
    EXPECT_EQ(std::ranges::count(comparison.ranked, true, &MethodAnswer::first_choice), 1);
    EXPECT_TRUE(comparison.ruled_out.empty());
    EXPECT_TRUE(comparison.open.empty());
}

TEST(MethodChoice, RanksWhatFitsBetterFirst) {
    const auto comparison = compared(unhindered_tree("14"), march);
    // Emamectin is good; of those that are only fair, the ones with a rate come by the least of it.
    EXPECT_EQ(names(comparison.ranked),
              (std::vector<std::string>{"trunk_injection_emamectin", "trunk_injection_azadirachtin",
                                        "soil_drench_imidacloprid", "soil_dinotefuran",
                                        "basal_spray_dinotefuran", "trunk_injection_imidacloprid",
                                        "cover_spray"}));
}

TEST(MethodChoice, RanksAmongEqualFitsByTheLeastActiveIngredient) {
    const auto comparison = compared(unhindered_tree("10"), march);
    const auto& ranked = comparison.ranked;
    // Both good: 0.635 g per inch at most every year against 1.42 g per inch.
    EXPECT_EQ(ranked.at(1).facts->method, "trunk_injection_azadirachtin");
    EXPECT_EQ(ranked.at(2).facts->method, "soil_drench_imidacloprid");
    EXPECT_LT(ranked.at(1).active->to_a_year, ranked.at(2).active->to_a_year);
    // No rate, so by the label: behind those that are known.
    EXPECT_TRUE(ranked.at(3).active);
    EXPECT_EQ(ranked.at(4).facts->method, "basal_spray_dinotefuran");
    EXPECT_FALSE(ranked.at(4).active);
}

TEST(MethodChoice, RanksAMethodThatIsOverForThisYearBehindOneThatIsNot) {
    // Fits better than the spray, and is over.
    const auto comparison = compared(unhindered_tree("14", {{"botanical_only", "no"}}), late_june);
    const auto order = names(comparison.ranked);
    const auto drench = std::ranges::find(order, "soil_drench_imidacloprid");
    const auto spray = std::ranges::find(order, "cover_spray");
    EXPECT_LT(spray, drench);
    EXPECT_TRUE(answer_of(comparison.ranked, "soil_drench_imidacloprid").too_late_this_year());
    EXPECT_TRUE(answer_of(comparison.ranked, "trunk_injection_azadirachtin").in_time_this_year());
}

TEST(MethodChoice, SaysWhatIsStillInTimeWhenTheFirstChoiceIsNot) {
    const triage::TreeFacts tree = unhindered_tree("10", {{"owner_applies", "yes"}});
    const auto in_june = compared(tree, late_june);
    ASSERT_EQ(in_june.ranked.front().facts->method, "soil_drench_imidacloprid");
    ASSERT_TRUE(in_june.still_in_time);
    EXPECT_TRUE(in_june.ranked.at(*in_june.still_in_time).in_time_this_year());
    EXPECT_FALSE(compared(tree, march).still_in_time);
}

TEST(MethodChoice, TakesAMethodWithoutDatesNeitherForLateNorForInTime) {
    auto methods = test::built_in().methods;
    std::ranges::find(methods, "cover_spray", &MethodFacts::method)->dates = Said{"Some day.", {}};
    const auto comparison =
        compare_methods(methods, test::built_in().rules, test::built_in().engine,
                        test::built_in().seasons, unhindered_tree("10"), std::nullopt, late_june);
    const MethodAnswer& spray = answer_of(comparison.ranked, "cover_spray");
    EXPECT_FALSE(spray.window);
    EXPECT_FALSE(spray.too_late_this_year());
    EXPECT_FALSE(spray.in_time_this_year());
}

TEST(MethodChoice, SaysEveryRuleThatRulesAMethodOut) {
    const auto comparison =
        compared(unhindered_tree("10", {{"distance_to_water", "10"}, {"soil", "sandy"}}), march);
    EXPECT_EQ(rules_of(answer_of(comparison.ruled_out, "soil_drench_imidacloprid").ruled_out_by),
              (std::vector<std::string>{"drench-near-water", "drench-on-sand"}));
}

TEST(MethodChoice, SaysWhatSpeaksForAndAgainst) {
    const auto comparison =
        compared(unhindered_tree("10", {{"ground_water_shallow", "yes"}}), march);
    const MethodAnswer& drench = answer_of(comparison.ranked, "soil_drench_imidacloprid");
    EXPECT_EQ(drench.fits, std::vector<std::string>{"doubtful"});
    EXPECT_EQ(rules_of(drench.against), std::vector<std::string>{"drench-over-shallow-water"});
    EXPECT_EQ(rules_of(drench.in_favour), std::vector<std::string>{"drench-small-stem"});
}

TEST(MethodChoice, LeavesAMethodOpenWhileSomethingUnknownMayRuleItOut) {
    const auto comparison =
        compared(unhindered_tree("10", {{"distance_to_water", "unknown"}}), march);
    const MethodAnswer& spray = answer_of(comparison.open, "basal_spray_dinotefuran");
    EXPECT_EQ(spray.standing, Standing::open);
    ASSERT_EQ(spray.questions.size(), 1U);
    EXPECT_EQ(spray.questions.front().fact, "distance_to_water");
}

TEST(MethodChoice, AsksForWhatTheCanopyLossIsWorkedOutFrom) {
    const auto comparison = compared(tree_of("10", {{"botanical_only", "no"}}), march);
    const MethodAnswer& injection = answer_of(comparison.open, "trunk_injection_emamectin");
    const auto asks = [&](std::string_view fact) {
        return std::ranges::any_of(injection.questions,
                                   [&](const auto& each) { return each.fact == fact; });
    };
    EXPECT_TRUE(asks("canopy_dieback"));
    EXPECT_TRUE(asks("canopy_thinning"));
    EXPECT_FALSE(asks("canopy_loss"));
}

TEST(MethodChoice, RulesAMethodOutHoweverLittleElseIsKnown) {
    const auto comparison = compared(tree_of("", {{"botanical_only", "yes"}}), march);
    EXPECT_EQ(names(comparison.open), std::vector<std::string>{"trunk_injection_azadirachtin"});
    EXPECT_EQ(comparison.ruled_out.size(), 6U);
}

TEST(MethodChoice, MakesADayThatIsUnfitAReasonToWaitAndNotToRuleOut) {
    const auto comparison =
        compared(unhindered_tree("10", {{"soil_state", "saturated"}, {"wet_bark", "yes"}}), march);
    EXPECT_TRUE(comparison.ruled_out.empty());
    EXPECT_EQ(rules_of(answer_of(comparison.ranked, "soil_dinotefuran").wait_for),
              std::vector<std::string>{"soil-saturated"});
    EXPECT_EQ(rules_of(answer_of(comparison.ranked, "basal_spray_dinotefuran").wait_for),
              std::vector<std::string>{"bark-wet"});
    EXPECT_TRUE(answer_of(comparison.ranked, "trunk_injection_emamectin").wait_for.empty());
}

TEST(MethodChoice, SaysWhenSomethingBeyondTheWalkAroundFitsBetterThanTheFirstChoice) {
    const auto comparison =
        compared(unhindered_tree("10", {{"restricted_use_certified", "no"}}), march);
    ASSERT_EQ(comparison.ranked.front().facts->method, "trunk_injection_emamectin");
    EXPECT_EQ(comparison.ranked.front().fits, std::vector<std::string>{"doubtful"});
    ASSERT_TRUE(comparison.fits_better);
    EXPECT_EQ(comparison.ranked.at(*comparison.fits_better).fits, std::vector<std::string>{"good"});
    EXPECT_FALSE(compared(unhindered_tree("10"), march).fits_better);
}

TEST(MethodChoice, SaysThatNothingIsLeftPastTheStop) {
    const auto comparison = compared(tree_of("10", {{"canopy_loss", "50.1"}}), march);
    EXPECT_TRUE(comparison.ranked.empty());
    EXPECT_TRUE(comparison.open.empty());
    EXPECT_EQ(comparison.ruled_out.size(), test::built_in().methods.size());
}

// Smitley 2010a: 1.42 g imidacloprid per inch; 10 in are 14.2 g. Purdue caps: up to 2.84 g per
// inch.
TEST(ActivePerYear, IsTheRateOfTheSizeTimesTheDiameter) {
    const auto& methods = test::built_in().methods;
    const auto drench =
        std::ranges::find(methods, "soil_drench_imidacloprid", &MethodFacts::method);
    ASSERT_NE(drench, methods.end());
    const auto small = active_per_year(*drench, Length::of("10", measure::units::inch));
    ASSERT_TRUE(small);
    EXPECT_EQ(small->from_a_year, grams("14.2"));
    EXPECT_EQ(small->to_a_year, grams("14.2"));
    // The limit belongs to the smaller size; just above it the doubled rate may come in.
    EXPECT_EQ(active_per_year(*drench, Length::of("15", measure::units::inch))->to_a_year,
              grams("21.3"));
    const auto large = active_per_year(*drench, Length::of("20", measure::units::inch));
    EXPECT_EQ(large->from_a_year, grams("28.4"));
    EXPECT_EQ(large->to_a_year, grams("56.8"));
}

// Smitley 2010a: 0.1 to 0.4 g emamectin benzoate per inch, lasting 2 to 3 years; 12 in.
TEST(ActivePerYear, IsSpreadOverTheInterval) {
    const auto& methods = test::built_in().methods;
    const auto injection =
        std::ranges::find(methods, "trunk_injection_emamectin", &MethodFacts::method);
    ASSERT_NE(injection, methods.end());
    const auto active = active_per_year(*injection, Length::of("12", measure::units::inch));
    ASSERT_TRUE(active);
    EXPECT_EQ(active->from_once, grams("1.2"));
    EXPECT_EQ(active->to_once, grams("4.8"));
    EXPECT_EQ(active->from_a_year, grams("0.4"));  // 1.2 g every 3 years
    EXPECT_EQ(active->to_a_year, grams("2.4"));    // 4.8 g every 2 years
    EXPECT_FALSE(active->from_memory);
}

TEST(ActivePerYear, IsLeftToTheLabelWhereNoRateIsReliedUpon) {
    const auto& methods = test::built_in().methods;
    for (const std::string_view name : {"basal_spray_dinotefuran", "cover_spray"}) {
        const auto method = std::ranges::find(methods, name, &MethodFacts::method);
        ASSERT_NE(method, methods.end());
        EXPECT_FALSE(active_per_year(*method, Length::of("10", measure::units::inch))) << name;
    }
}

TEST(ActivePerYear, SaysWhichRateWasOnlyRemembered) {
    const auto& methods = test::built_in().methods;
    const auto soil = std::ranges::find(methods, "soil_dinotefuran", &MethodFacts::method);
    ASSERT_NE(soil, methods.end());
    EXPECT_TRUE(active_per_year(*soil, Length::of("10", measure::units::inch))->from_memory);
}

}  // namespace
}  // namespace ashtriage::plan
