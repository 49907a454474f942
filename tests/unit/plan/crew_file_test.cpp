// The file that describes the crews, and every way in which it can be wrong.
#include "plan/crew_file.hpp"

#include <gmock/gmock.h>

#include "measure/units.hpp"
#include "packs/bad_file.hpp"

namespace ashtriage::plan {
namespace {

using testing::HasSubstr;

const std::vector<std::string> methods{"trunk_injection_emamectin", "trunk_injection_azadirachtin",
                                       "soil_drench_imidacloprid", "basal_spray_dinotefuran"};

Crews read(const std::string& text) {
    return read_crews(text, "crews.yaml", methods);
}

// The example file with one text in place of another.
std::string changed(std::string_view from, std::string_view to) {
    std::string text(example_crew_file());
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
}

// The problems of a file; empty when there are none.
std::string refused(const std::string& text) {
    try {
        read(text);
    } catch (const packs::BadFile& error) {
        return error.what();
    }
    return {};
}

TEST(CrewFile, ReadsTheExampleAsItIs) {
    const Crews crews = read(std::string(example_crew_file()));
    EXPECT_TRUE(crews.settings.example);
    EXPECT_EQ(crews.settings.setup_minutes_per_site, 20);
    EXPECT_EQ(crews.settings.rain_reserve.percent, 15);
    EXPECT_EQ(crews.settings.rain_reserve.of, ReserveOf::days);
    ASSERT_EQ(crews.crews.size(), 2U);
    EXPECT_EQ(crews.crews[0].name, "Crew one");
    EXPECT_EQ(crews.crews[0].starts_at.minutes, 450);
    EXPECT_EQ(crews.crews[0].minutes_per_day, 480);
    EXPECT_TRUE(crews.crews[0].certified);
    EXPECT_EQ(crews.crews[1].minutes_per_day, 450);
    EXPECT_FALSE(crews.crews[1].certified);
    EXPECT_FALSE(crews.crews[0].works_on(measure::parse_date("2026-05-25")));  // a date off
    EXPECT_FALSE(crews.crews[0].works_on(measure::parse_date("2026-05-23")));  // a Saturday
    EXPECT_TRUE(crews.crews[0].works_on(measure::parse_date("2026-05-26")));
}

TEST(CrewFile, TakesTheNamedDiameterIntoItsSize) {
    const CrewSettings settings = read(std::string(example_crew_file())).settings;
    const auto inches = [](std::string_view number) {
        return measure::Length::of(number, measure::units::inch);
    };
    const auto minutes = [&](const std::optional<measure::Length>& dbh) {
        return settings.minutes_for("trunk_injection_emamectin", dbh);
    };
    EXPECT_EQ(minutes(inches("12")), 20);
    EXPECT_EQ(minutes(inches("12.01")), 35);
    EXPECT_EQ(minutes(inches("24")), 35);
    EXPECT_EQ(minutes(inches("24.01")), 55);
    EXPECT_EQ(minutes(std::nullopt), 55);
    EXPECT_THROW(settings.minutes_for("cover_spray", inches("12")), measure::InputError);
}

TEST(CrewFile, NamesTheNearestForWhatItDoesNotKnowAndWhere) {
    EXPECT_THAT(refused(changed("hours_per_day: 8\n", "hours_a_day: 8\n")),
                AllOf(HasSubstr("crews.yaml:"), HasSubstr("unknown entry 'hours_a_day'"),
                      HasSubstr("hours_per_day")));
    EXPECT_THAT(
        refused(changed("    soil_drench_imidacloprid:", "    soil_drench_imidaclopryd:")),
        AllOf(HasSubstr("unknown method"), HasSubstr("did you mean 'soil_drench_imidacloprid'")));
    EXPECT_THAT(refused(changed("[Saturday, Sunday]", "[Satuday, Sunday]")), HasSubstr("Saturday"));
}

TEST(CrewFile, RefusesACrewWithoutADay) {
    EXPECT_THAT(
        refused(changed("[Saturday, Sunday]",
                        "[Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday]")),
        HasSubstr("the crew 'Crew one' has no day to work on"));
    EXPECT_THAT(refused(changed("last_day: 2026-09-11", "last_day: 2026-04-12")),
                HasSubstr("2026-04-12, is before its first, 2026-04-13"));
    EXPECT_THAT(refused(changed("last_day: 2026-09-11", "last_day: 2027-04-14")),
                HasSubstr("more than 366 days"));
    EXPECT_EQ(refused(changed("last_day: 2026-09-11", "last_day: 2027-04-13")), "");
}

TEST(CrewFile, RefusesMoreThanADayOfHours) {
    EXPECT_THAT(refused(changed("hours_per_day: 8\n", "hours_per_day: 24.5\n")),
                HasSubstr("expected a number from 0.25 to 24"));
    EXPECT_THAT(refused(changed("hours_per_day: 8\n", "hours_per_day: 0\n")),
                HasSubstr("expected a number from 0.25 to 24"));
    EXPECT_THAT(refused(changed("hours_per_day: 8\n", "hours_per_day: 16.75\n")),
                HasSubstr("ends after midnight"));
    EXPECT_EQ(refused(changed("hours_per_day: 8\n", "hours_per_day: 16.5\n")), "");
}

TEST(CrewFile, RefusesFiguresThatCannotBe) {
    EXPECT_THAT(refused(changed("speed: 30 mph", "speed: 30")), HasSubstr("'speed'"));
    EXPECT_THAT(refused(changed("speed: 30 mph", "speed: 0 mph")), HasSubstr("no speed"));
    EXPECT_THAT(refused(changed("speed: 30 mph", "speed: 300 mph")), HasSubstr("no speed"));
    EXPECT_THAT(refused(changed("factor: 1.3", "factor: 0.9")), HasSubstr("from 1 to 5"));
    EXPECT_THAT(refused(changed("percent: 15", "percent: 91")), HasSubstr("from 0 to 90"));
    EXPECT_THAT(refused(changed("of: days", "of: weeks")), HasSubstr("expected hours or days"));
    EXPECT_THAT(refused(changed("latitude: 41.80", "latitude: 91")), HasSubstr("from -90 to 90"));
    EXPECT_THAT(refused(changed("starts_at: \"07:30\"", "starts_at: 7.30")),
                HasSubstr("'starts_at'"));
    EXPECT_THAT(refused(changed("setup_minutes_per_site: 20", "setup_minutes_per_site: 20.5")),
                HasSubstr("whole number"));
    EXPECT_THAT(refused(changed("- name: Crew two", "- name: Crew one")),
                HasSubstr("two crews are called 'Crew one'"));
}

TEST(CrewFile, RefusesSizesThatLeaveATreeWithoutMinutes) {
    EXPECT_THAT(
        refused(changed("- {dbh_up_to: 24 in, minutes: 35}", "- {dbh_up_to: 11 in, minutes: 35}")),
        HasSubstr("do not rise"));
    EXPECT_THAT(refused(changed("- {dbh_up_to: 24 in, minutes: 35}", "- {minutes: 35}")),
                HasSubstr("is not the last"));
    EXPECT_THAT(refused(changed("      - {minutes: 55}\n", "")), HasSubstr("the last size"));
    EXPECT_THAT(refused(changed("dbh_up_to: 12 in", "dbh_up_to: 12")), HasSubstr("'dbh_up_to'"));
}

TEST(CrewFile, ShowsEverythingThatIsWrongAtOnce) {
    std::string text = changed("percent: 15", "percent: 200");
    const std::size_t at = text.find("hours_per_day: 7.5");
    text.replace(at, 18, "hours_per_day: 25 ");
    EXPECT_THAT(refused(text), AllOf(HasSubstr("from 0 to 90"), HasSubstr("from 0.25 to 24")));
}

TEST(CrewFile, NeedsACrew) {
    const std::string text(example_crew_file());
    EXPECT_THAT(refused(text.substr(0, text.find("crews:\n")) + "crews: []\n"),
                HasSubstr("expected one or more"));
}

}  // namespace
}  // namespace ashtriage::plan
