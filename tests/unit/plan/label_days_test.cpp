// The label's own season and its last day, held against a window.
#include "plan/label_days.hpp"

#include <gtest/gtest.h>

namespace ashtriage::plan {
namespace {

using measure::Date;
using measure::parse_date;

treat::LabelCard card_with_season(treat::MonthDay from, treat::MonthDay to) {
    treat::LabelCard card;
    card.conditions.season = treat::LabelSeason{from, to};
    return card;
}

std::string days_of(const treat::LabelCard* card, const char* from, const char* to) {
    const auto days = label_days(card, parse_date(from), parse_date(to));
    return days ? measure::text(days->first) + " " + measure::text(days->last) : "none";
}

TEST(LabelDays, AreAllOfTheWindowWhereTheLabelHasNoSeason) {
    const treat::LabelCard card;
    EXPECT_EQ(days_of(&card, "2027-05-15", "2027-06-15"), "2027-05-15 2027-06-15");
    EXPECT_EQ(days_of(nullptr, "2027-05-15", "2027-06-15"), "2027-05-15 2027-06-15");
    EXPECT_EQ(days_of(&card, "2027-06-16", "2027-06-15"), "none");
}

TEST(LabelDays, AreThoseThatWindowAndSeasonShare) {
    const treat::LabelCard card = card_with_season({5, 25}, {6, 5});
    EXPECT_EQ(days_of(&card, "2027-05-15", "2027-06-15"), "2027-05-25 2027-06-05");
    EXPECT_EQ(days_of(&card, "2027-06-01", "2027-06-15"), "2027-06-01 2027-06-05");
    EXPECT_EQ(days_of(&card, "2027-06-05", "2027-06-05"), "2027-06-05 2027-06-05");
    EXPECT_EQ(days_of(&card, "2027-06-06", "2027-06-15"), "none");
    EXPECT_EQ(days_of(&card, "2027-05-01", "2027-05-24"), "none");
}

TEST(LabelDays, OfASeasonOverTheNewYearAreTheFirstInARow) {
    const treat::LabelCard card = card_with_season({11, 1}, {5, 20});
    EXPECT_EQ(days_of(&card, "2027-05-15", "2027-11-15"), "2027-05-15 2027-05-20");
    EXPECT_EQ(days_of(&card, "2027-05-21", "2027-11-15"), "2027-11-01 2027-11-15");
}

TEST(LabelDays, EndWithTheLabel) {
    treat::LabelCard card;
    card.from_label.emplace();
    card.from_label->special_need =
        treat::SpecialNeed{"Anystate", "XX-0", parse_date("2027-05-20")};
    EXPECT_EQ(days_of(&card, "2027-05-15", "2027-06-15"), "2027-05-15 2027-05-20");
    EXPECT_EQ(days_of(&card, "2027-05-21", "2027-06-15"), "none");
}

}  // namespace
}  // namespace ashtriage::plan
