#include "measure/plausibility.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "measure/units.hpp"

namespace ashtriage::measure {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Length inches(const char* number) {
    return Length::of(number, units::inch);
}

std::vector<DbhDoubt> doubts(const char* dbh) {
    std::vector<DbhDoubt> found;
    for (const DbhQuestion& question : questions_about_dbh(inches(dbh), std::nullopt)) {
        found.push_back(question.doubt);
    }
    return found;
}

std::vector<DbhDoubt> doubts(const char* dbh, const char* last_visit) {
    std::vector<DbhDoubt> found;
    for (const DbhQuestion& question : questions_about_dbh(inches(dbh), inches(last_visit))) {
        found.push_back(question.doubt);
    }
    return found;
}

TEST(QuestionsAboutDbh, AsksNothingOfAnOrdinaryStem) {
    EXPECT_THAT(doubts("14"), IsEmpty());
    EXPECT_THAT(doubts("14.5", "14"), IsEmpty());
    EXPECT_THAT(doubts("14", "14"), IsEmpty());
    EXPECT_THAT(doubts("20", "10"), IsEmpty());
}

TEST(QuestionsAboutDbh, AsksOutsideOneToSixtyInches) {
    EXPECT_THAT(doubts("1"), IsEmpty());
    EXPECT_THAT(doubts("0.99"), ElementsAre(DbhDoubt::too_small));
    EXPECT_THAT(doubts("60"), IsEmpty());
    EXPECT_THAT(doubts("60.01"), ElementsAre(DbhDoubt::too_large));
}

TEST(QuestionsAboutDbh, ShowsBothOtherReadingsOfALargeFigure) {
    const auto questions = questions_about_dbh(inches("75"), std::nullopt);
    ASSERT_EQ(questions.size(), 1U);
    EXPECT_THAT(questions[0].text, HasSubstr("75.0 in (190.5 cm)"));
    EXPECT_THAT(questions[0].text, HasSubstr("23.9 in"));  // 75 / pi
    EXPECT_THAT(questions[0].text, HasSubstr("29.5 in"));  // 75 / 2.54
}

TEST(QuestionsAboutDbh, AsksWhetherAGirthWasEntered) {
    EXPECT_THAT(doubts("44", "14"), ElementsAre(DbhDoubt::girth_as_diameter));  // 44.0 = 14 pi
    EXPECT_THAT(doubts("48", "14"), ElementsAre(DbhDoubt::girth_as_diameter));  // grown since
    EXPECT_THAT(doubts("42", "14"), ElementsAre(DbhDoubt::girth_as_diameter));  // three times
    const auto questions = questions_about_dbh(inches("44"), inches("14"));
    ASSERT_EQ(questions.size(), 1U);
    EXPECT_THAT(questions[0].text, HasSubstr("44.0 in (111.8 cm)"));
    EXPECT_THAT(questions[0].text, HasSubstr("last visit was 14.0 in (35.6 cm)"));
    EXPECT_THAT(questions[0].text, HasSubstr("would then be 14.0 in"));
}

TEST(QuestionsAboutDbh, AsksWhetherCentimetresWereEntered) {
    EXPECT_THAT(doubts("35.6", "14"), ElementsAre(DbhDoubt::centimetres_as_inches));
    const auto questions = questions_about_dbh(inches("35.6"), inches("14"));
    ASSERT_EQ(questions.size(), 1U);
    EXPECT_THAT(questions[0].text, HasSubstr("would then be 14.0 in"));
}

// 15 % around pi is 2.670 to 3.613; around 2.54 it is 2.159 to 2.921; they overlap.
TEST(QuestionsAboutDbh, AsksWithinFifteenPercentOfEitherFactor) {
    EXPECT_THAT(doubts("21.5", "10"), IsEmpty());
    EXPECT_THAT(doubts("21.7", "10"), ElementsAre(DbhDoubt::centimetres_as_inches));
    EXPECT_THAT(doubts("26.6", "10"), ElementsAre(DbhDoubt::centimetres_as_inches));
    EXPECT_THAT(doubts("26.8", "10"),
                ElementsAre(DbhDoubt::girth_as_diameter, DbhDoubt::centimetres_as_inches));
    EXPECT_THAT(doubts("29.2", "10"),
                ElementsAre(DbhDoubt::girth_as_diameter, DbhDoubt::centimetres_as_inches));
    EXPECT_THAT(doubts("29.3", "10"), ElementsAre(DbhDoubt::girth_as_diameter));
    EXPECT_THAT(doubts("36.1", "10"), ElementsAre(DbhDoubt::girth_as_diameter));
    EXPECT_THAT(doubts("36.2", "10"), IsEmpty());
}

// FIA allows 0.1 in for each 20 in begun (from memory), and both visits may be off.
TEST(QuestionsAboutDbh, AsksAboutAStemThatShrank) {
    EXPECT_THAT(doubts("13.8", "14"), IsEmpty());
    EXPECT_THAT(doubts("13.79", "14"), ElementsAre(DbhDoubt::shrunk));
    EXPECT_THAT(doubts("19.8", "20"), IsEmpty());
    EXPECT_THAT(doubts("19.79", "20"), ElementsAre(DbhDoubt::shrunk));
    EXPECT_THAT(doubts("21.6", "22"), IsEmpty());
    EXPECT_THAT(doubts("21.59", "22"), ElementsAre(DbhDoubt::shrunk));
}

TEST(QuestionsAboutDbh, AsksSeveralThingsAtOnce) {
    EXPECT_THAT(doubts("69.1", "22"),
                ElementsAre(DbhDoubt::too_large, DbhDoubt::girth_as_diameter));
    EXPECT_THAT(doubts("0.5", "14"), ElementsAre(DbhDoubt::too_small, DbhDoubt::shrunk));
}

TEST(QuestionsAboutDbh, LeavesALastVisitWithoutADiameterOut) {
    EXPECT_THAT(questions_about_dbh(inches("14"), Length{}), IsEmpty());
}

TEST(QuestionsAboutDbh, SurvivesFiguresNoTreeHas) {
    const auto least = questions_about_dbh(Length::from_ticks(-1), inches("14"));
    ASSERT_EQ(least.size(), 2U);
    EXPECT_EQ(least[0].doubt, DbhDoubt::too_small);
    EXPECT_EQ(least[1].doubt, DbhDoubt::shrunk);
}

// A girth of 44 in is a DBH of 14 in; typed as a diameter it would be dosed 3.14 times too high.
TEST(GirthQuestion, IsAskedOfALargeDiameterThatWasTypedIn) {
    EXPECT_EQ(girth_question(inches("24.9")), std::nullopt);
    ASSERT_TRUE(girth_question(inches("25")));
    EXPECT_NE(girth_question(inches("44"))->find("14.0 in"), std::string::npos);
}

}  // namespace
}  // namespace ashtriage::measure
