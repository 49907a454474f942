#include "observe/check_records.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::observe {
namespace {

using measure::Area;
using measure::Length;
using testing::HasSubstr;

// What the check says about a record; empty when it says nothing.
template <class Record, class... More>
std::string complaint(const Record& record, const More&... more) {
    try {
        check(record, more...);
        return {};
    } catch (const measure::InputError& error) {
        return error.what();
    }
}

Client some_client() {
    Client client;
    client.name = "Example Orchard Trust";
    return client;
}

Site some_site() {
    Site site;
    site.name = "Mill Lane";
    return site;
}

Tree some_tree() {
    Tree tree;
    tree.label = "A-12";
    return tree;
}

WalkAround some_walk_around() {
    WalkAround walk_around;
    walk_around.date = measure::parse_date("2026-05-18");
    walk_around.observer = "R. Example";
    return walk_around;
}

TEST(CheckRecords, AcceptsTheLeastThatMakesARecord) {
    EXPECT_EQ(complaint(some_client()), "");
    EXPECT_EQ(complaint(some_site()), "");
    EXPECT_EQ(complaint(some_tree()), "");
    EXPECT_EQ(complaint(some_walk_around()), "");
}

TEST(CheckRecords, RefusesABlankName) {
    for (const char* blank : {"", " ", "\t "}) {
        Client client = some_client();
        client.name = blank;
        EXPECT_THAT(complaint(client), HasSubstr("its name is missing"));
        Site site = some_site();
        site.name = blank;
        EXPECT_THAT(complaint(site), HasSubstr("its name is missing"));
        Tree tree = some_tree();
        tree.label = blank;
        EXPECT_THAT(complaint(tree), HasSubstr("its label is missing"));
        WalkAround walk_around = some_walk_around();
        walk_around.observer = blank;
        EXPECT_THAT(complaint(walk_around), HasSubstr("the name of the observer is missing"));
    }
}

TEST(CheckRecords, RefusesLabelsThatLookLikeOthers) {
    for (const char* label : {" A-12", "A-12 ", "A-12\t"}) {
        Tree tree = some_tree();
        tree.label = label;
        EXPECT_THAT(complaint(tree), HasSubstr("begins or ends with a space")) << label;
    }
    Tree tree = some_tree();
    tree.label = "A 12";
    EXPECT_EQ(complaint(tree), "");
}

TEST(CheckRecords, RefusesControlCharactersInASingleLine) {
    for (const char* label : {"A\n12", "A\x1b[31m12", "A\x7f"}) {
        Tree tree = some_tree();
        tree.label = label;
        EXPECT_THAT(complaint(tree), HasSubstr("control character"));
    }
    Client client = some_client();
    client.address = "1 Example Road\nSampletown";  // an address has several lines
    EXPECT_EQ(complaint(client), "");
}

TEST(CheckRecords, TakesPositionsUpToThePolesAndTheDateLine) {
    Tree tree = some_tree();
    for (const double latitude : {-90.0, 90.0}) {
        for (const double longitude : {-180.0, 180.0}) {
            tree.position = Position{latitude, longitude, {}};
            EXPECT_EQ(complaint(tree), "");
        }
    }
    tree.position = Position{90.0000001, 0.0, {}};
    EXPECT_THAT(complaint(tree), HasSubstr("latitude"));
    tree.position = Position{45.0, -180.0000001, {}};
    EXPECT_THAT(complaint(tree), HasSubstr("longitude"));
    tree.position = Position{
        std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(), {}};
    EXPECT_THAT(complaint(tree), HasSubstr("latitude"));
    EXPECT_THAT(complaint(tree), HasSubstr("longitude"));
}

TEST(CheckRecords, RefusesThePositionOfAReceiverWithoutASignal) {
    Site site = some_site();
    site.position = Position{0.0, 0.0, {}};
    EXPECT_THAT(complaint(site), HasSubstr("latitude 0, longitude 0"));
    site.position = Position{0.0, -78.0, {}};  // the equator is a place
    EXPECT_EQ(complaint(site), "");
}

TEST(CheckRecords, RefusesAnAreaOfNothing) {
    Site site = some_site();
    site.area = Area{};
    EXPECT_THAT(complaint(site), HasSubstr("area"));
    site.area = Area::from_ticks(-1);
    EXPECT_THAT(complaint(site), HasSubstr("area"));
    site.area = Area::from_ticks(1);
    EXPECT_EQ(complaint(site), "");
}

TEST(CheckRecords, TakesADistanceOfNothingButNotLess) {
    Site site = some_site();
    site.distance_to_water = Length{};
    site.infestation_distance = Length{};  // the infestation is on the site itself
    EXPECT_EQ(complaint(site), "");
    site.distance_to_water = Length::from_ticks(-1);
    EXPECT_THAT(complaint(site), HasSubstr("water"));
    site.infestation_distance = Length::from_ticks(-1);
    EXPECT_THAT(complaint(site), HasSubstr("infestation"));
}

TEST(CheckRecords, RefusesAStemWithoutThickness) {
    WalkAround walk_around = some_walk_around();
    walk_around.stems = {{StemMeasure::diameter, Length::of("14", measure::units::inch)},
                         {StemMeasure::girth, Length{}}};
    EXPECT_THAT(complaint(walk_around), HasSubstr("stem 2 has no thickness"));
    walk_around.stems[1].length = Length::from_ticks(1);
    EXPECT_EQ(complaint(walk_around), "");
}

TEST(CheckRecords, RefusesOneFactWithTwoValues) {
    WalkAround walk_around = some_walk_around();
    walk_around.findings = {{"canopy_loss", "20 %"}, {"canopy_loss", "60 %"}};
    EXPECT_THAT(complaint(walk_around), HasSubstr("'canopy_loss' is given more than once"));
    walk_around.findings = {{"canopy_loss", ""}};
    EXPECT_THAT(complaint(walk_around), HasSubstr("the value of 'canopy_loss' is missing"));
}

TEST(CheckRecords, RefusesADateToCome) {
    const WalkAround walk_around = some_walk_around();
    EXPECT_EQ(complaint(walk_around, walk_around.date), "");  // today
    EXPECT_THAT(complaint(walk_around, measure::add_days(walk_around.date, -1)),
                HasSubstr("it lies after 2026-05-17"));
}

TEST(CheckRecords, RefusesADateThatTheCalendarLacks) {
    using std::chrono::February;
    WalkAround walk_around = some_walk_around();
    walk_around.date = std::chrono::year{2026} / February / 29;
    EXPECT_THAT(complaint(walk_around), HasSubstr("not a date"));
    walk_around.date = std::chrono::year{2028} / February / 29;
    EXPECT_EQ(complaint(walk_around), "");
}

TEST(CheckRecords, NamesEverythingThatIsWrongAtOnce) {
    Site site = some_site();
    site.area = Area{};
    site.position = Position{91.0, 181.0, {}};
    try {
        check(site);
        FAIL() << "accepted";
    } catch (const measure::InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr("'Mill Lane'"));
        EXPECT_THAT(error.what(), HasSubstr("area"));
        EXPECT_THAT(error.what(), HasSubstr("latitude"));
        EXPECT_THAT(error.what(), HasSubstr("longitude"));
        EXPECT_THAT(error.hint(), HasSubstr("decimal degrees"));
    }
}

}  // namespace
}  // namespace ashtriage::observe
