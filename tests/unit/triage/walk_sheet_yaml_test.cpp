#include <gmock/gmock.h>

#include "measure/units.hpp"
#include "packs/bad_file.hpp"
#include "trees.hpp"
#include "triage/walk_sheet.hpp"

namespace ashtriage::triage {
namespace {

using measure::units::acre;
using measure::units::foot;
using measure::units::inch;
using measure::units::mile;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

observe::WalkSheet read(std::string_view text) {
    return read_walk_sheet_yaml(text, "sheet.yaml", built_in_rules(),
                                measure::parse_date("2026-07-06"));
}

// "line: message hint" of every problem of a sheet.
std::vector<std::string> problems_of(std::string_view text) {
    std::vector<std::string> problems;
    try {
        read(text);
    } catch (const packs::BadFile& bad) {
        for (const packs::Problem& problem : bad.problems().list()) {
            EXPECT_EQ(problem.file, "sheet.yaml");
            problems.push_back(std::to_string(problem.place.line) + ": " + problem.message + " " +
                               problem.hint);
        }
    }
    return problems;
}

constexpr std::string_view full_sheet = R"(client:
  name: Mrs. Nobody
  address: 1 Nowhere Road
  telephone: 555-0100
  email: nobody@nowhere.example
site:
  name: Nowhere
  address: 1 Nowhere Road
  area: 2.5 acres
  soil: loam
  distance_to_water: 180 ft
  infestation_distance: 4 miles
  in_quarantined_county: no
  latitude: 42.4
  longitude: -88.6
  elevation: 900 ft
date: 2026-07-06
observer: A. Nobody
trees:
  - tree: N1
    place: by the gate
    stems: 9 in + girth 25 in
    notes: |
      Two lines
      of notes
    latitude: 42.5
    longitude: -88.5
    facts:
      species: green_ash
      canopy_dieback: 20-30 %
      galleries_seen: could not see
  - tree: N2
    date: 2026-07-04
    observer: B. Nobody
)";

TEST(WalkSheetYaml, IsReadWhole) {
    const observe::WalkSheet sheet = read(full_sheet);
    ASSERT_TRUE(sheet.client);
    EXPECT_EQ(*sheet.client, (observe::Client{0, "Mrs. Nobody", "1 Nowhere Road", "555-0100",
                                              "nobody@nowhere.example"}));
    ASSERT_TRUE(sheet.site);
    EXPECT_EQ(sheet.site->name, "Nowhere");
    EXPECT_EQ(sheet.site->area, measure::Area::of("2.5", acre));
    EXPECT_EQ(sheet.site->soil, "loam");
    EXPECT_EQ(sheet.site->distance_to_water, measure::Length::of("180", foot));
    EXPECT_EQ(sheet.site->infestation_distance, measure::Length::of("4", mile));
    EXPECT_EQ(sheet.site->in_quarantined_county, false);
    EXPECT_EQ(sheet.site->position,
              (observe::Position{42.4, -88.6, measure::Length::of("900", foot)}));

    ASSERT_THAT(sheet.trees, SizeIs(2));
    const observe::SheetTree& first = sheet.trees[0];
    EXPECT_EQ(first.place, "sheet.yaml:20");
    EXPECT_EQ(first.tree.label, "N1");
    EXPECT_EQ(first.tree.place, "by the gate");
    EXPECT_EQ(first.tree.position, (observe::Position{42.5, -88.5, {}}));
    EXPECT_EQ(first.walk_around.date, measure::parse_date("2026-07-06"));
    EXPECT_EQ(first.walk_around.observer, "A. Nobody");
    EXPECT_THAT(
        first.walk_around.stems,
        ElementsAre(observe::Stem{observe::StemMeasure::diameter, measure::Length::of("9", inch)},
                    observe::Stem{observe::StemMeasure::girth, measure::Length::of("25", inch)}));
    EXPECT_THAT(first.walk_around.findings,
                ElementsAre(observe::Finding{"species", "green_ash"},
                            observe::Finding{"canopy_dieback", "20-30 %"},
                            observe::Finding{"galleries_seen", "could not see"}));
    EXPECT_THAT(first.walk_around.notes, AllOf(HasSubstr("Two lines"), HasSubstr("of notes")));

    const observe::SheetTree& second = sheet.trees[1];
    EXPECT_EQ(second.walk_around.date, measure::parse_date("2026-07-04"));
    EXPECT_EQ(second.walk_around.observer, "B. Nobody");
    EXPECT_THAT(second.walk_around.findings, IsEmpty());
}

TEST(WalkSheetYaml, NeedsNothingButTrees) {
    const observe::WalkSheet sheet = read("trees:\n  - tree: N1\n");
    EXPECT_FALSE(sheet.client);
    EXPECT_FALSE(sheet.site);
    ASSERT_THAT(sheet.trees, SizeIs(1));
    EXPECT_EQ(sheet.trees[0].walk_around.date, measure::parse_date("2026-07-06"));
}

TEST(WalkSheetYaml, MayBeginWithAByteOrderMark) {
    EXPECT_THAT(read("\xEF\xBB\xBFtrees:\n  - tree: N1\n").trees, SizeIs(1));
}

// A tree with one fact, on line 4.
std::vector<std::string> problems_of_fact(const std::string& fact) {
    return problems_of("trees:\n  - tree: N1\n    facts:\n      " + fact + "\n");
}

TEST(WalkSheetYaml, RefusesAFactThatThereIsNot) {
    EXPECT_THAT(problems_of_fact("canopy_diebak: 20 %"),
                ElementsAre(AllOf(HasSubstr("4: "), HasSubstr("N1"), HasSubstr("canopy_diebak"),
                                  HasSubstr("canopy_dieback"))));
}

TEST(WalkSheetYaml, RefusesAValueThatTheFactCannotHave) {
    for (const std::string value :
         {"101 %", "-1 %", ".nan", "nan", "20 in", "light", "1e2", "0x10"}) {
        EXPECT_THAT(problems_of_fact("canopy_dieback: " + value),
                    ElementsAre(AllOf(HasSubstr("4: "), HasSubstr("N1"), HasSubstr(value))));
    }
    EXPECT_THAT(problems_of_fact("woodpecker_damage: hevy"),
                ElementsAre(AllOf(HasSubstr("hevy"), HasSubstr("heavy"))));
}

TEST(WalkSheetYaml, RefusesADiameterAmongTheFacts) {
    EXPECT_THAT(problems_of_fact("dbh: 14 in"),
                ElementsAre(AllOf(HasSubstr("4: "), HasSubstr("stem"))));
}

std::vector<std::string> problems_of_entry(const std::string& entry) {
    return problems_of("trees:\n  - tree: N1\n    " + entry + "\n");
}

TEST(WalkSheetYaml, RefusesStemsWithoutSize) {
    EXPECT_THAT(problems_of_entry("stems: 0 in"), ElementsAre(HasSubstr("3: ")));
    EXPECT_THAT(problems_of_entry("stems: -4 in"), ElementsAre(HasSubstr("3: ")));
    EXPECT_THAT(problems_of_entry("stems: 9 in + girth 0 in"), ElementsAre(HasSubstr("3: ")));
    EXPECT_THAT(problems_of_entry("stems: 14 oz"), ElementsAre(HasSubstr("3: ")));
}

// February 2026 has 28 days.
TEST(WalkSheetYaml, RefusesADayThatThereIsNot) {
    EXPECT_THAT(problems_of_entry("date: 2026-02-30"),
                ElementsAre(AllOf(HasSubstr("3: "), HasSubstr("2026-02-30"))));
    EXPECT_THAT(problems_of_entry("date: 2/3/2026"), ElementsAre(HasSubstr("3: ")));
}

TEST(WalkSheetYaml, RefusesHalfAPosition) {
    EXPECT_THAT(problems_of_entry("latitude: 42.4"), ElementsAre(HasSubstr("go together")));
    EXPECT_THAT(problems_of_entry("longitude: 42.4"), ElementsAre(HasSubstr("go together")));
}

// Latitudes end at 90 degrees, longitudes at 180.
TEST(WalkSheetYaml, RefusesAPositionThatIsNotOnTheGlobe) {
    EXPECT_THAT(problems_of_entry("latitude: 90.1\n    longitude: 0.1"), SizeIs(1));
    EXPECT_THAT(problems_of_entry("latitude: 42.4\n    longitude: -180.1"), SizeIs(1));
    EXPECT_THAT(problems_of_entry("latitude: nan\n    longitude: -88"), SizeIs(1));
    EXPECT_THAT(problems_of_entry("latitude: -90\n    longitude: 180"), IsEmpty());
}

TEST(WalkSheetYaml, RefusesAnEntryThatThereIsNot) {
    EXPECT_THAT(problems_of_entry("steams: 14 in"),
                ElementsAre(AllOf(HasSubstr("3: "), HasSubstr("steams"), HasSubstr("stems"))));
    EXPECT_THAT(problems_of("trees: []\nclients: {name: X}\n"),
                ElementsAre(AllOf(HasSubstr("2: "), HasSubstr("clients"), HasSubstr("client"))));
}

TEST(WalkSheetYaml, RefusesATreeThatStandsTwice) {
    EXPECT_THAT(problems_of("trees:\n  - tree: N1\n  - tree: N2\n  - tree: N1\n"),
                ElementsAre(AllOf(HasSubstr("4: "), HasSubstr("N1"), HasSubstr("twice"))));
}

TEST(WalkSheetYaml, RefusesATreeWithoutALabel) {
    EXPECT_THAT(problems_of("trees:\n  - place: by the gate\n"), ElementsAre(HasSubstr("2: ")));
    EXPECT_THAT(problems_of("trees:\n  - tree: ''\n"), SizeIs(1));
}

TEST(WalkSheetYaml, RefusesASheetWithoutTrees) {
    EXPECT_THAT(problems_of("client: {name: Mrs. Nobody}\n"), ElementsAre(HasSubstr("trees")));
    EXPECT_THAT(problems_of(""), SizeIs(1));
    EXPECT_THAT(problems_of("just a sentence\n"), testing::Not(IsEmpty()));
    EXPECT_THAT(problems_of("trees: N1\n"), SizeIs(1));
}

TEST(WalkSheetYaml, RefusesWrongEntriesOfTheSite) {
    const auto of_site = [](const std::string& entry) {
        return problems_of("site:\n  name: Nowhere\n  " + entry + "\ntrees: []\n");
    };
    EXPECT_THAT(of_site("soil: moon dust"),
                ElementsAre(AllOf(HasSubstr("3: "), HasSubstr("moon dust"))));
    EXPECT_THAT(of_site("area: 2.5 ft"), ElementsAre(HasSubstr("3: ")));
    EXPECT_THAT(of_site("distance_to_water: 180"), ElementsAre(HasSubstr("3: ")));  // no unit
    EXPECT_THAT(of_site("in_quarantined_county: perhaps"), ElementsAre(HasSubstr("3: ")));
    EXPECT_THAT(of_site("latitude: 42"), ElementsAre(HasSubstr("go together")));
}

TEST(WalkSheetYaml, TellsEverythingThatIsWrongAtOnce) {
    const auto problems = problems_of(R"(date: 2026-02-30
trees:
  - tree: N1
    stems: 0 in
    facts:
      canopy_dieback: 101 %
      conks: perhaps
  - tree: N1
    longitude: -88.5
)");
    EXPECT_THAT(problems, testing::UnorderedElementsAre(HasSubstr("1: "), HasSubstr("4: "),
                                                        HasSubstr("6: "), HasSubstr("7: "),
                                                        AllOf(HasSubstr("8: "), HasSubstr("twice")),
                                                        HasSubstr("go together")));
}

}  // namespace
}  // namespace ashtriage::triage
