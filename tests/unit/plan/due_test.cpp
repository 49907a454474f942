// Whether a tree is due, at the boundaries of its interval, its label and its window.
#include "plan/due.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "built_in_methods.hpp"
#include "treat/label_card.hpp"

namespace ashtriage::plan {
namespace {

using measure::Date;
using measure::parse_date;
using test::built_in;

const std::string injection = "trunk_injection_emamectin";
const std::string azadirachtin = "trunk_injection_azadirachtin";
const std::string basal = "basal_spray_dinotefuran";
const std::string drench = "soil_drench_imidacloprid";

treat::LabelCard card(const std::string& method, const std::string& active, int months) {
    treat::LabelCard card;
    card.key = method;
    card.example = false;
    card.method = method;
    card.active_ingredient = active;
    card.limits.applications_per_year = 1;
    card.limits.again_after_months = months;
    return card;
}

const std::vector<treat::LabelCard>& cards() {
    static const std::vector<treat::LabelCard> all{
        card(injection, "emamectin benzoate", 12), card(azadirachtin, "azadirachtin", 12),
        card(basal, "dinotefuran", 12), card(drench, "imidacloprid", 12)};
    return all;
}

DueRules rules(const std::vector<treat::LabelCard>& which = cards()) {
    static const season::KnownYear a_usual_year;
    return {&built_in().methods, &built_in().seasons, &which, &a_usual_year};
}

season::Window window(const std::string& method, int year) {
    return *season::window_for(built_in().seasons, method, std::nullopt, year);
}

Date day(const char* text) {
    return parse_date(text);
}

Date after(const Date& date, int days) {
    return measure::add_days(date, days);
}

// A tree in northern Illinois, walked round this year, that was so treated.
DueTree treated(const std::string& method, const std::string& active, const char* on) {
    DueTree tree;
    tree.site = "Elm Court";
    tree.label = "A1";
    tree.method = method;
    tree.earlier = {{day(on), active, method}};
    tree.walked_on = day("2026-04-01");
    return tree;
}

DueState state_of(const DueTree& tree, const Date& as_of) {
    return due_on(tree, rules(), as_of).state;
}

TEST(Due, ADrenchIsDueEveryYear) {
    const DueTree tree = treated(drench, "imidacloprid", "2025-04-20");
    const Due due = due_on(tree, rules(), day("2026-04-25"));
    EXPECT_EQ(due.state, DueState::due);
    EXPECT_EQ(due.due_year, 2026);
    EXPECT_EQ(due.first_day, day("2026-04-25"));
    EXPECT_EQ(due.window->closes, window(drench, 2026).closes);
}

// Every two years while the wave is coming or here, every three once it is past (Purdue).
TEST(Due, AnInjectionLastsByWhereTheWaveHasGotTo) {
    DueTree tree = treated(injection, "emamectin benzoate", "2024-06-01");
    for (const auto& [wave, year] : {std::pair{Wave::coming, 2026}, std::pair{Wave::here, 2026},
                                     std::pair{Wave::past, 2027}}) {
        tree.wave = wave;
        const Due due = due_on(tree, rules(), day("2025-12-31"));
        EXPECT_EQ(due.due_year, year);
        EXPECT_EQ(due.state, DueState::not_yet_due);
        EXPECT_FALSE(due.interval_taken_short);
    }
    EXPECT_EQ(state_of(tree, day("2026-06-10")), DueState::not_yet_due);
    tree.wave = Wave::here;
    EXPECT_EQ(state_of(tree, day("2026-01-01")), DueState::due);
}

TEST(Due, WithoutTheWaveTheShortestIntervalIsTakenAndSaid) {
    DueTree tree = treated(azadirachtin, "azadirachtin", "2025-06-20");
    Due due = due_on(tree, rules(), day("2026-06-25"));
    EXPECT_EQ(due.interval_years, 1);
    EXPECT_TRUE(due.interval_taken_short);
    tree.wave = Wave::coming;
    due = due_on(tree, rules(), day("2026-06-25"));
    EXPECT_EQ(due.interval_years, 2);
    EXPECT_FALSE(due.interval_taken_short);
}

TEST(Due, TheLabelStopsUpToTheDayBeforeItAllowsItAgain) {
    const DueTree tree = treated(basal, "dinotefuran", "2025-06-10");
    const Due stopped = due_on(tree, rules(), day("2026-06-09"));
    EXPECT_EQ(stopped.state, DueState::too_soon);
    EXPECT_EQ(stopped.allowed_from, day("2026-06-10"));
    EXPECT_EQ(stopped.first_day, day("2026-06-10"));
    EXPECT_EQ(state_of(tree, day("2026-06-10")), DueState::due);
}

TEST(Due, WhereTheLabelAllowsItOnlyAfterTheWindowTheNextYearsIsNamed) {
    const DueTree tree = treated(basal, "dinotefuran", "2025-06-20");
    const Due due = due_on(tree, rules(), day("2026-05-20"));
    ASSERT_LT(window(basal, 2026).closes, day("2026-06-20"));
    EXPECT_EQ(due.state, DueState::too_soon);
    EXPECT_EQ(due.first_day, window(basal, 2027).opens);
}

TEST(Due, SoManyApplicationsAYearLeaveNoneUntilNewYear) {
    treat::LabelCard often = card(basal, "dinotefuran", 12);
    often.limits.again_after_months.reset();
    const std::vector<treat::LabelCard> only{often};
    const Due due =
        due_on(treated(basal, "dinotefuran", "2026-05-20"), rules(only), day("2026-05-30"));
    EXPECT_EQ(due.state, DueState::too_soon);
    EXPECT_EQ(due.allowed_from, day("2027-01-01"));
}

TEST(Due, AnotherActiveIngredientIsNotStoppedByTheLabel) {
    DueTree tree = treated(basal, "imidacloprid", "2026-04-20");
    tree.earlier.front().method = drench;
    const Due due = due_on(tree, rules(), day("2026-05-20"));
    EXPECT_FALSE(due.allowed_from);
    EXPECT_EQ(due.state, DueState::not_yet_due);
}

TEST(Due, TheLastDayOfTheWindowIsStillInTime) {
    const DueTree tree = treated(drench, "imidacloprid", "2025-04-20");
    const Date closes = window(drench, 2026).closes;
    EXPECT_EQ(state_of(tree, closes), DueState::due);
    const Due missed = due_on(tree, rules(), after(closes, 1));
    EXPECT_EQ(missed.state, DueState::missed);
    EXPECT_EQ(missed.window_passed, closes);
    EXPECT_EQ(missed.first_day, window(drench, 2027).opens);
}

TEST(Due, ASeasonThatWentByMakesItOverdue) {
    const DueTree tree = treated(drench, "imidacloprid", "2024-04-20");
    EXPECT_EQ(state_of(tree, day("2025-12-31")), DueState::missed);
    EXPECT_EQ(state_of(tree, day("2026-01-01")), DueState::overdue);
    EXPECT_EQ(state_of(tree, after(window(drench, 2026).closes, 1)), DueState::missed);
}

TEST(Due, OnlyWhatWasDoneUntilTheDayCounts) {
    DueTree tree = treated(drench, "imidacloprid", "2025-04-20");
    tree.earlier.push_back({day("2026-05-01"), "imidacloprid", drench});
    EXPECT_EQ(state_of(tree, day("2026-04-30")), DueState::due);
    EXPECT_EQ(state_of(tree, day("2026-05-01")), DueState::too_soon);
}

TEST(Due, NeverTreatedIsToldFromNotRecorded) {
    DueTree tree = treated(injection, "emamectin benzoate", "2024-06-01");
    tree.earlier.clear();
    EXPECT_EQ(state_of(tree, day("2026-06-01")), DueState::not_recorded);
    tree.said = SaidOfTreatment::never;
    EXPECT_EQ(state_of(tree, day("2026-06-01")), DueState::never_treated);
    tree.said = SaidOfTreatment::earlier;
    EXPECT_EQ(state_of(tree, day("2026-06-01")), DueState::not_recorded);
}

TEST(Due, ATreatmentThatOnlyTheWalkAroundKnowsStopsItForThatYear) {
    DueTree tree = treated(injection, "emamectin benzoate", "2024-06-01");
    tree.earlier.clear();
    tree.said = SaidOfTreatment::this_season;
    const Due due = due_on(tree, rules(), day("2026-06-01"));
    EXPECT_EQ(due.state, DueState::too_soon);
    EXPECT_EQ(due.allowed_from, day("2027-01-01"));
    EXPECT_FALSE(due.allowed_by_record);
    EXPECT_EQ(state_of(tree, day("2027-01-01")), DueState::not_recorded);
}

TEST(Due, ATreeIsLookedAtBeforeAnythingElse) {
    DueTree tree = treated(drench, "imidacloprid", "2025-04-20");
    EXPECT_FALSE(due_on(tree, rules(), day("2026-04-25")).look_again);
    EXPECT_TRUE(due_on(tree, rules(), day("2027-01-01")).look_again);
    tree.walked_on.reset();
    EXPECT_EQ(state_of(tree, day("2026-04-25")), DueState::not_looked_at);
    tree.walked_on = day("2026-04-01");
    tree.method.clear();
    EXPECT_EQ(state_of(tree, day("2026-04-25")), DueState::not_to_be_treated);
}

TEST(Due, ARecordWhoseMethodCannotBeToldLastsOneYear) {
    DueTree tree = treated(injection, "emamectin benzoate", "2025-06-01");
    tree.earlier.front().method.clear();
    const Due due = due_on(tree, rules(), day("2026-06-05"));
    EXPECT_EQ(due.interval_years, 1);
    EXPECT_TRUE(due.interval_taken_short);
}

TEST(Due, WithoutACardTheLabelIsSaidNotToBeKnown) {
    const std::vector<treat::LabelCard> none;
    const Due due =
        due_on(treated(drench, "imidacloprid", "2025-04-20"), rules(none), day("2026-04-25"));
    EXPECT_TRUE(due.no_card);
    EXPECT_FALSE(due.allowed_from);
}

TEST(StillInTime, IsTheFirstWhoseWindowIsNotOver) {
    const DueTree tree = treated(drench, "imidacloprid", "2025-04-20");
    const auto found = still_in_time({drench, basal, injection, azadirachtin}, tree, rules(),
                                     after(window(basal, 2026).closes, 1));
    ASSERT_TRUE(found);
    EXPECT_EQ(found->method, injection);
    EXPECT_FALSE(still_in_time({drench, basal, injection}, tree, rules(),
                               after(window(injection, 2026).closes, 1)));
}

TEST(StillInTime, LeavesOutWhatTheLabelDoesNotAllowInTheRestOfTheWindow) {
    DueTree tree = treated(drench, "imidacloprid", "2025-04-20");
    tree.earlier.push_back({day("2025-08-20"), "emamectin benzoate", injection});
    auto found = still_in_time({injection}, tree, rules(), day("2026-07-01"));
    ASSERT_TRUE(found);
    EXPECT_EQ(found->first_day, day("2026-08-20"));
    tree.earlier.back().on = day("2025-09-05");
    EXPECT_FALSE(still_in_time({injection}, tree, rules(), day("2026-07-01")));
}

// --- whatever was done and whenever it is asked -------------------------------------------------

TEST(DueProperties, NoDayIsNamedThatIsTooEarlyOrOutsideItsWindow) {
    std::mt19937 random(7);
    const auto number = [&](int from, int to) {
        return std::uniform_int_distribution<int>(from, to)(random);
    };
    const std::vector<std::pair<std::string, std::string>> methods{
        {injection, "emamectin benzoate"},
        {azadirachtin, "azadirachtin"},
        {basal, "dinotefuran"},
        {drench, "imidacloprid"}};
    int stopped = 0;
    for (int i = 0; i < 2000; ++i) {
        const auto& [method, active] = methods[static_cast<std::size_t>(number(0, 3))];
        DueTree tree = treated(method, active, "2020-01-01");
        tree.earlier.clear();
        for (int each = number(0, 3); each > 0; --each) {
            const auto& earlier = methods[static_cast<std::size_t>(number(0, 3))];
            tree.earlier.push_back(
                {after(day("2022-01-01"), number(0, 1600)), earlier.second, earlier.first});
        }
        const Date as_of = after(day("2024-01-01"), number(0, 1000));
        const Due due = due_on(tree, rules(), as_of);
        if (due.first_day) {
            EXPECT_TRUE(due.window->contains(*due.first_day));
            EXPECT_GE(*due.first_day, as_of);
            if (due.allowed_from) {
                EXPECT_GE(*due.first_day, *due.allowed_from);
            }
        }
        // The label's twelve months, counted by hand.
        for (const EarlierTreatment& earlier : tree.earlier) {
            const bool within =
                earlier.active_ingredient == active && earlier.on <= as_of &&
                as_of < measure::add_years(earlier.on, 1, measure::LeapDay::february_28);
            if (!within) continue;
            ++stopped;
            EXPECT_EQ(due.state, DueState::too_soon);
        }
    }
    EXPECT_GT(stopped, 100);
}

}  // namespace
}  // namespace ashtriage::plan
