#include "plan/schedule.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "measure/input_error.hpp"
#include "measure/units.hpp"
#include "packs/rule_files.hpp"
#include "packs/sources.hpp"
#include "season/read_seasons.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage::plan {
namespace {

using measure::parse_date;
using testing::ElementsAre;

std::vector<packs::Source> sources() {
    packs::Problems problems;
    auto read = packs::read_sources(packs::built_in_rule_files(), problems);
    problems.throw_if_any();
    return read;
}

const season::Seasons& seasons() {
    static const auto read = season::read_seasons(packs::built_in_rule_files(), sources());
    return read;
}

const std::vector<treat::LabelCard>& cards() {
    static const auto read = treat::read_label_cards(packs::built_in_rule_files(), sources());
    return read;
}

season::Location at(double latitude) {
    return {latitude, -88.0, measure::Length::of("700", measure::units::foot)};
}

std::vector<std::string> labels(const std::vector<ScheduledTree>& trees) {
    std::vector<std::string> result;
    for (const ScheduledTree& each : trees) result.push_back(each.tree.label);
    return result;
}

const std::string drench = "soil_drench_imidacloprid";
const std::string spray = "basal_spray_dinotefuran";
const std::string injection = "trunk_injection_emamectin";

TEST(Schedule, GoesByTheDayTheWindowCloses) {
    const std::vector<TreatableTree> trees{{"Elm Court", "late", injection, {}},
                                           {"Elm Court", "middle", spray, {}},
                                           {"Elm Court", "early", drench, {}}};
    EXPECT_THAT(labels(schedule(trees, seasons(), cards(), parse_date("2026-03-01"))),
                ElementsAre("early", "middle", "late"));
}

TEST(Schedule, PutsTheWindowThatClosesFirstBeforeOneThatOpensFirst) {
    const std::vector<TreatableTree> trees{{"A", "opens first", injection, at(38.0)},
                                           {"A", "closes first", spray, at(42.0)}};
    const auto result = schedule(trees, seasons(), cards(), parse_date("2026-03-01"));
    EXPECT_THAT(labels(result), ElementsAre("closes first", "opens first"));
    EXPECT_LT(result[1].next.window->opens, result[0].next.window->opens);
}

TEST(Schedule, PutsAPassedWindowIntoNextYearBehindThoseOfThisYear) {
    const std::vector<TreatableTree> trees{{"Elm Court", "drenched", drench, {}},
                                           {"Elm Court", "injected", injection, {}}};
    const auto result = schedule(trees, seasons(), cards(), parse_date("2026-07-01"));
    EXPECT_THAT(labels(result), ElementsAre("injected", "drenched"));
    EXPECT_EQ(result[0].next.state, season::WindowState::open_now);
    EXPECT_EQ(result[1].next.state, season::WindowState::passed_so_next_year);
    EXPECT_EQ(result[1].next.window->opens.year(), std::chrono::year(2027));
}

TEST(Schedule, SettlesTiesBySiteAndLabel) {
    const std::vector<TreatableTree> trees{{"Oak Court", "1", drench, {}},
                                           {"Elm Court", "2", drench, {}},
                                           {"Elm Court", "1", drench, {}}};
    const auto result = schedule(trees, seasons(), cards(), parse_date("2026-03-01"));
    EXPECT_EQ(result[0].tree.site + result[0].tree.label, "Elm Court1");
    EXPECT_EQ(result[1].tree.site + result[1].tree.label, "Elm Court2");
    EXPECT_EQ(result[2].tree.site, "Oak Court");
}

TEST(Schedule, PutsTheSouthernSiteFirst) {
    const std::vector<TreatableTree> trees{{"A", "north", drench, at(45.0)},
                                           {"A", "south", drench, at(38.0)}};
    EXPECT_THAT(labels(schedule(trees, seasons(), cards(), parse_date("2026-03-01"))),
                ElementsAre("south", "north"));
}

TEST(Schedule, PutsTreesWithoutAWindowLast) {
    const std::vector<TreatableTree> trees{{"A", "polar", injection, at(80.0)},
                                           {"B", "usual", injection, at(42.0)}};
    const auto result = schedule(trees, seasons(), cards(), parse_date("2026-03-01"));
    EXPECT_THAT(labels(result), ElementsAre("usual", "polar"));
    EXPECT_EQ(result[1].next.state, season::WindowState::none_here);
}

TEST(Schedule, SaysWhereOnlyAnExampleCardIsAtHand) {
    auto own = cards();
    const auto card = std::find_if(own.begin(), own.end(),
                                   [](const auto& each) { return each.method == drench; });
    ASSERT_NE(card, own.end());
    const std::vector<TreatableTree> trees{{"A", "1", drench, {}}};
    EXPECT_TRUE(schedule(trees, seasons(), own, parse_date("2026-03-01"))[0].example_card);
    EXPECT_TRUE(schedule(trees, seasons(), {}, parse_date("2026-03-01"))[0].example_card);
    card->example = false;
    EXPECT_FALSE(schedule(trees, seasons(), own, parse_date("2026-03-01"))[0].example_card);
}

TEST(Schedule, NamesTheTreeWhosePlaceIsWrong) {
    const season::Location east{41.8, 88.0, {}};
    try {
        schedule({{"Elm Court", "7", drench, east}}, seasons(), cards(), parse_date("2026-03-01"));
        FAIL() << "nothing was refused";
    } catch (const measure::InputError& error) {
        EXPECT_EQ(error.where(), "tree '7' of site 'Elm Court'");
    }
}

// A tree that was treated this season waits for next year's window, though this year's is open.
TEST(Schedule, LooksForNoWindowBeforeTheTreeMayBeTreatedAgain) {
    const std::vector<TreatableTree> trees{
        {"Elm Court", "treated", injection, {}, parse_date("2027-01-01")},
        {"Elm Court", "due", injection, {}}};
    const auto result = schedule(trees, seasons(), cards(), parse_date("2026-06-01"));
    EXPECT_EQ(result[0].tree.label, "due");
    EXPECT_EQ(result[0].next.window->opens.year(), std::chrono::year{2026});
    EXPECT_EQ(result[1].next.window->opens.year(), std::chrono::year{2027});
    EXPECT_EQ(result[1].next.state, season::WindowState::opens_later_this_year);
}

TEST(Schedule, OfNothingIsNothing) {
    EXPECT_TRUE(schedule({}, seasons(), cards(), parse_date("2026-03-01")).empty());
}

TEST(Schedule, HasASeasonForEveryShippedCard) {
    for (const treat::LabelCard& card : cards()) EXPECT_NO_THROW(seasons().method(card.method));
}

}  // namespace
}  // namespace ashtriage::plan
