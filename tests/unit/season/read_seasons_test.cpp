#include "season/read_seasons.hpp"

#include <gtest/gtest.h>

#include "measure/units.hpp"
#include "packs/bad_file.hpp"
#include "season_text.hpp"

namespace ashtriage::season {
namespace {

using measure::InputError;
using test::changed;
using test::seasons_of;

TEST(ReadSeasons, ReadsEveryEntry) {
    const Seasons seasons = seasons_of(test::two_methods);
    EXPECT_EQ(seasons.anchor.name, "Anchor Town");
    EXPECT_EQ(seasons.anchor.longitude, -90.0);
    EXPECT_EQ(seasons.anchor.elevation, measure::Length::of("500", measure::units::foot));
    EXPECT_EQ(seasons.give_or_take_days, 10);
    ASSERT_EQ(seasons.methods.size(), 2U);
    const MethodSeason& drench = seasons.method("spring_drench");
    EXPECT_EQ(drench.opens.day, parse_day_of_year("10 April"));
    EXPECT_TRUE(drench.closes.moves);
    EXPECT_FALSE(seasons.method("summer_injection").closes.moves);
    EXPECT_EQ(drench.needs.at(0).text, "Moist soil.");
    EXPECT_EQ(seasons.not_offered.at(0).title, "Drench in autumn");
}

TEST(ReadSeasons, NamesTheNearestMethodForAMisspeltOne) {
    const Seasons seasons = seasons_of(test::two_methods);
    try {
        seasons.method("spring_drensh");
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_NE(error.hint().find("spring_drench"), std::string::npos) << error.hint();
    }
}

TEST(ReadSeasons, RefusesRuleFilesWithoutSeasons) {
    EXPECT_THROW(read_seasons({}, {}), InputError);
}

struct Refusal {
    const char* name;
    const char* old;
    const char* replacement;
    const char* id;
};

void PrintTo(const Refusal& refusal, std::ostream* out) {
    *out << refusal.name;
}

class RefusedSeasons : public testing::TestWithParam<Refusal> {};

TEST_P(RefusedSeasons, NamesTheProblem) {
    const Refusal& refusal = GetParam();
    try {
        seasons_of(changed(test::two_methods, refusal.old, refusal.replacement));
        FAIL() << "nothing was refused";
    } catch (const packs::BadFile& bad) {
        ASSERT_EQ(bad.problems().size(), 1U) << bad.what();
        EXPECT_EQ(bad.problems().list()[0].id, refusal.id) << bad.what();
        EXPECT_GT(bad.problems().list()[0].place.line, 0U);
    }
}

const Refusal refusals[] = {
    {"DayThatDoesNotExist", "10 April", "31 April", "bad-value"},
    {"LeapDay", "10 April", "29 February", "bad-value"},
    {"MonthFirst", "10 April", "April 10", "bad-value"},
    {"DateAsNumbers", "10 April", "04-10", "bad-value"},
    {"MonthShortened", "10 April", "10 Apr", "bad-value"},
    {"OpensAfterBest", "10 April", "21 April", "days-out-of-order"},
    {"ClosesBeforeBest", "10 May", "19 April", "days-out-of-order"},
    {"OpensInWinter", "10 April", "28 February", "day-in-never"},
    {"ClosesInAutumn", "31 August", "1 September", "day-in-never"},
    {"AnchorInTheSouth", "latitude: 40.0", "latitude: -40.0", "out-of-range"},
    {"AnchorInTheEast", "longitude: -90.0", "longitude: 90.0", "out-of-range"},
    {"ElevationWithoutUnit", "elevation: 500 ft", "elevation: 500", "bad-value"},
    {"HalfADay", "days: 10", "days: 10.5", "not-a-whole-number"},
    {"UnknownSource", "days: 10, source: test-source", "days: 10, source: other", "unknown-source"},
    {"NoSource", "days: 10, source: test-source", "days: 10", "missing-key"},
    {"MisspeltEntry", "edition: test", "edition: test\nanker: x", "unknown-key"},
    {"MovesMaybe", "date: 10 April, moves: yes", "date: 10 April, moves: maybe", "not-yes-no"},
    {"OtherFile", "seasons: ash-treatment", "seasons: other", "unknown-value"},
};

INSTANTIATE_TEST_SUITE_P(Each, RefusedSeasons, testing::ValuesIn(refusals),
                         [](const auto& each) { return std::string(each.param.name); });

class RefusedMarks : public testing::TestWithParam<Refusal> {};

TEST_P(RefusedMarks, NameTheProblemAndItsPlace) {
    const Refusal& refusal = GetParam();
    try {
        seasons_of(changed(test::known_methods, refusal.old, refusal.replacement));
        FAIL() << "nothing was refused";
    } catch (const packs::BadFile& bad) {
        ASSERT_EQ(bad.problems().size(), 1U) << bad.what();
        EXPECT_EQ(bad.problems().list()[0].id, refusal.id) << bad.what();
        EXPECT_GT(bad.problems().list()[0].place.line, 1U);
    }
}

const Refusal refused_marks[] = {
    {"ClosesByLessHeatThanItOpens", "degree_days: 1200, included: no",
     "degree_days: 899, included: no", "marks-out-of-order"},
    {"ClosesByTheHeatItOpensAtWhichIsNotIncluded", "degree_days: 1200, included: no",
     "degree_days: 900, included: no", "marks-out-of-order"},
    {"ClosesWithTheLeavesBeforeItOpens", "days: 30, included: no", "days: 3, included: no",
     "marks-out-of-order"},
    {"IncludedMaybe", "degree_days: 1200, included: no", "degree_days: 1200, included: maybe",
     "not-yes-no"},
    {"IncludedNotSaid", "degree_days: 1200, included: no", "degree_days: 1200", "missing-key"},
    {"NoHeat", "degree_days: 1200, included: no", "degree_days: 0, included: no", "out-of-range"},
    {"HalfADay", "days: 30, included: no", "days: 30.5, included: no", "not-a-whole-number"},
    {"MisspeltMark", "by_heat: {degree_days: 1800", "by_heet: {degree_days: 1800", "unknown-key"},
    {"UnknownCue", "cue: blossom, days: 7", "cue: blosom, days: 7", "unknown-cue"},
    {"EventThatIsNoCue", "cue: blossom, days: 7", "cue: beetles, days: 7", "unknown-cue"},
    {"BandBackwards", "from: 450, to: 550", "from: 551, to: 550", "band-out-of-order"},
    {"FigureBackwards", "[{from: 450, to: 500", "[{from: 501, to: 500", "band-out-of-order"},
    {"EventWithoutFigures", "[{from: 450, to: 500, source: test-source}]", "[]", "no-figure"},
    {"EventOfNobody", "of: borer", "of: weather", "unknown-value"},
    {"BaseWithoutUnit", "base: 50 F", "base: 50", "bad-value"},
    {"WindowOnRequestNamedAsAMethod", "autumn_drench:", "drench:", "name-taken"},
    {"WindowOnRequestInWinter", "closes: {date: 15 November", "closes: {date: 1 December",
     "day-in-never"},
    {"SecondTimeOnTheSameDay", "again: {days: 28", "again: {days: 0", "out-of-range"},
    {"LargerStemsWithoutUnit", "over: 12 in", "over: 12", "bad-value"},
};

INSTANTIATE_TEST_SUITE_P(Each, RefusedMarks, testing::ValuesIn(refused_marks),
                         [](const auto& each) { return std::string(each.param.name); });

// The marks of a window that is one day long.
TEST(ReadSeasons, TakesAWindowWhoseLastDayIsItsFirst) {
    EXPECT_NO_THROW(
        seasons_of(changed(changed(test::known_methods, "degree_days: 1000, included: yes",
                                   "degree_days: 900, included: yes"),
                           "degree_days: 1200, included: no", "degree_days: 900, included: yes")));
}

TEST(ReadSeasons, RefusesAMethodThatDoesNotLeaveOutWinter) {
    const std::string text = changed(test::two_methods,
                                     "31 August, moves: no, source: test-source}\n"
                                     "    never_in: [autumn, winter]",
                                     "31 August, moves: no, source: test-source}\n"
                                     "    never_in: [autumn]");
    EXPECT_THROW(seasons_of(text), packs::BadFile);
}

// A file cut off is refused, but for one that ends between the two methods: it is a whole file with
// one.
TEST(ReadSeasons, RefusesAFileCutOffAtAnyByteButBetweenTwoMethods) {
    const std::size_t between = test::two_methods.find("  summer_injection:");
    const std::size_t end = test::two_methods.find("not_offered:") - 2;
    for (std::size_t length = 0; length < end; ++length) {
        const std::string cut = test::two_methods.substr(0, length);
        const bool whole = length + 2 > between && length <= between + 2;
        if (whole) {
            EXPECT_EQ(seasons_of(cut).methods.size(), 1U) << "cut off after byte " << length;
        } else {
            EXPECT_THROW(seasons_of(cut), packs::BadFile) << "cut off after byte " << length;
        }
    }
}

TEST(ParseDayOfYear, ReadsDayAndMonthAndNothingElse) {
    using std::chrono::day;
    using std::chrono::month;
    EXPECT_EQ(parse_day_of_year("15 May"), (std::chrono::month_day{month(5), day(15)}));
    EXPECT_EQ(parse_day_of_year("31 December"), (std::chrono::month_day{month(12), day(31)}));
    for (const char* wrong : {"", "15", "May", "0 May", "32 May", "15.5 May", "15  May", "015 May",
                              "15 may", "15 May 2026", "30 February"}) {
        EXPECT_THROW(parse_day_of_year(wrong), InputError) << wrong;
    }
}

}  // namespace
}  // namespace ashtriage::season
