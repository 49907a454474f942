// Position and altitude: GPS tags of CIPA DC-008. Degrees, minutes and seconds are positive; the
// sign lives in the reference tag alone.
#include <gmock/gmock.h>

#include <cstdint>
#include <limits>

#include "measure/units.hpp"
#include "photo/photo_facts.hpp"
#include "photo_builder.hpp"

namespace ashtriage::photo {
namespace {

using ::testing::ElementsAre;
using testing::facts_of;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::PhotoBuilder;
using testing::Rational;

constexpr double hundredth_of_a_second = 1.0 / 360'000.0;

TEST(PhotoPosition, IsDecimalDegrees) {
    // 41 deg 52 min 55.20 s = 41 + 52/60 + 55.2/3600 = 41.882; 87 deg 37 min 40.80 s = 87.628.
    for (const testing::ByteOrder order :
         {testing::ByteOrder::intel, testing::ByteOrder::motorola}) {
        const PhotoFacts facts =
            facts_of(PhotoBuilder(order).position("N", 41, 52, 5520, "W", 87, 37, 4080).jpeg());
        ASSERT_TRUE(facts.position);
        EXPECT_NEAR(facts.position->latitude, 41.882, hundredth_of_a_second);
        EXPECT_NEAR(facts.position->longitude, -87.628, hundredth_of_a_second);
        EXPECT_THAT(facts.left_out, IsEmpty());
    }
}

TEST(PhotoPosition, TakesTheSignFromTheReferenceInAllFourQuarters) {
    struct Quarter {
        const char* north_or_south;
        const char* east_or_west;
        double latitude;
        double longitude;
    };
    for (const Quarter& quarter :
         {Quarter{"N", "E", 10.5, 20.25}, Quarter{"N", "W", 10.5, -20.25},
          Quarter{"S", "E", -10.5, 20.25}, Quarter{"S", "W", -10.5, -20.25}}) {
        const PhotoFacts facts = facts_of(
            PhotoBuilder()
                .position(quarter.north_or_south, 10, 30, 0, quarter.east_or_west, 20, 15, 0)
                .jpeg());
        ASSERT_TRUE(facts.position);
        EXPECT_DOUBLE_EQ(facts.position->latitude, quarter.latitude);
        EXPECT_DOUBLE_EQ(facts.position->longitude, quarter.longitude);
    }
}

TEST(PhotoPosition, AMissingReferenceIsUnknownAndNotNorthOrWest) {
    const std::vector<Rational> ten = {{10, 1}, {0, 1}, {0, 1}};
    const PhotoFacts no_latitude_side = facts_of(PhotoBuilder()
                                                     .gps_rationals(testing::latitude, ten)
                                                     .gps_text(testing::longitude_reference, "W")
                                                     .gps_rationals(testing::longitude, ten)
                                                     .jpeg());
    EXPECT_FALSE(no_latitude_side.position);
    EXPECT_THAT(no_latitude_side.left_out, ElementsAre(HasSubstr("N or S")));
    const PhotoFacts no_longitude_side = facts_of(PhotoBuilder()
                                                      .gps_text(testing::latitude_reference, "N")
                                                      .gps_rationals(testing::latitude, ten)
                                                      .gps_rationals(testing::longitude, ten)
                                                      .jpeg());
    EXPECT_FALSE(no_longitude_side.position);
    EXPECT_THAT(no_longitude_side.left_out, ElementsAre(HasSubstr("E or W")));
}

TEST(PhotoPosition, AReferenceOfTheOtherAxisOrNoneIsRefused) {
    for (const char* reference : {"E", "n", "X", "", "NS"}) {
        const PhotoFacts facts =
            facts_of(PhotoBuilder().position(reference, 41, 52, 0, "W", 87, 37, 0).jpeg());
        EXPECT_FALSE(facts.position) << reference;
        EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr("N or S"))) << reference;
    }
}

TEST(PhotoPosition, AZeroDenominatorAnywhereLeavesItOut) {
    for (std::size_t bad = 0; bad < 3; ++bad) {
        std::vector<Rational> parts = {{41, 1}, {52, 1}, {0, 1}};
        parts[bad].denominator = 0;
        const PhotoFacts facts =
            facts_of(PhotoBuilder()
                         .gps_text(testing::latitude_reference, "N")
                         .gps_rationals(testing::latitude, parts)
                         .gps_text(testing::longitude_reference, "W")
                         .gps_rationals(testing::longitude, {{87, 1}, {37, 1}, {0, 1}})
                         .jpeg());
        EXPECT_FALSE(facts.position) << bad;
        EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr("latitude")));
    }
}

TEST(PhotoPosition, NullIslandIsUnknown) {
    const PhotoFacts facts = facts_of(PhotoBuilder().position("N", 0, 0, 0, "E", 0, 0, 0).jpeg());
    EXPECT_FALSE(facts.position);
    EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr("0, 0")));
}

TEST(PhotoPosition, TheEquatorAndGreenwichAloneAreKnown) {
    const PhotoFacts equator =
        facts_of(PhotoBuilder().position("N", 0, 0, 0, "W", 78, 0, 0).jpeg());
    ASSERT_TRUE(equator.position);
    EXPECT_EQ(equator.position->longitude, -78.0);
    const PhotoFacts greenwich =
        facts_of(PhotoBuilder().position("N", 51, 0, 0, "E", 0, 0, 0).jpeg());
    ASSERT_TRUE(greenwich.position);
    EXPECT_EQ(greenwich.position->latitude, 51.0);
}

TEST(PhotoPosition, EndsAtThePoleAndTheDateLine) {
    EXPECT_TRUE(facts_of(PhotoBuilder().position("S", 90, 0, 0, "E", 180, 0, 0).jpeg()).position);
    EXPECT_FALSE(facts_of(PhotoBuilder().position("S", 90, 0, 1, "E", 180, 0, 0).jpeg()).position);
    EXPECT_FALSE(facts_of(PhotoBuilder().position("S", 90, 0, 0, "E", 180, 0, 1).jpeg()).position);
}

TEST(PhotoPosition, SixtySecondsAreTheNextMinuteAndMoreAreRefused) {
    const PhotoFacts sixty =
        facts_of(PhotoBuilder().position("N", 41, 59, 6000, "W", 87, 0, 0).jpeg());
    ASSERT_TRUE(sixty.position);
    EXPECT_NEAR(sixty.position->latitude, 42.0, 1e-12);
    EXPECT_FALSE(
        facts_of(PhotoBuilder().position("N", 41, 59, 6001, "W", 87, 0, 0).jpeg()).position);
    EXPECT_FALSE(facts_of(PhotoBuilder().position("N", 41, 61, 0, "W", 87, 0, 0).jpeg()).position);
}

TEST(PhotoPosition, NeedsBothAxes) {
    const PhotoFacts facts =
        facts_of(PhotoBuilder()
                     .gps_text(testing::latitude_reference, "N")
                     .gps_rationals(testing::latitude, {{41, 1}, {0, 1}, {0, 1}})
                     .jpeg());
    EXPECT_FALSE(facts.position);
    EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr("longitude is missing")));
}

TEST(PhotoPosition, NeedsThreeRationals) {
    const PhotoFacts facts = facts_of(PhotoBuilder()
                                          .gps_text(testing::latitude_reference, "N")
                                          .gps_rationals(testing::latitude, {{41882, 1000}})
                                          .gps_text(testing::longitude_reference, "W")
                                          .gps_text(testing::longitude, "87.628")
                                          .jpeg());
    EXPECT_FALSE(facts.position);
    EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr("latitude"), HasSubstr("longitude")));
}

TEST(PhotoPosition, IsUnknownWithoutGpsAndNothingIsLeftOut) {
    EXPECT_EQ(facts_of(PhotoBuilder().jpeg()), PhotoFacts{});
}

TEST(PhotoPosition, AnotherMapDatumIsNotTakenForWgs84) {
    const PhotoFacts wgs = facts_of(PhotoBuilder()
                                        .position("N", 35, 0, 0, "E", 139, 0, 0)
                                        .gps_text(testing::map_datum, "WGS-84")
                                        .jpeg());
    EXPECT_TRUE(wgs.position);
    const PhotoFacts tokyo = facts_of(PhotoBuilder()
                                          .position("N", 35, 0, 0, "E", 139, 0, 0)
                                          .gps_text(testing::map_datum, "TOKYO")
                                          .jpeg());
    EXPECT_FALSE(tokyo.position);
    EXPECT_THAT(tokyo.left_out, ElementsAre(HasSubstr("TOKYO")));
}

PhotoFacts facts_with_altitude(unsigned char reference, Rational metres) {
    return facts_of(PhotoBuilder()
                        .gps_byte(testing::altitude_reference, reference)
                        .gps_rationals(testing::altitude, {metres})
                        .jpeg());
}

TEST(PhotoAltitude, IsAboveOrBelowTheSea) {
    EXPECT_EQ(facts_with_altitude(0, {2135, 10}).altitude,
              measure::Length::of("213.5", measure::units::metre));
    EXPECT_EQ(facts_with_altitude(1, {25, 1}).altitude,
              measure::Length::of("-25", measure::units::metre));
    EXPECT_EQ(facts_with_altitude(0, {0, 1}).altitude, measure::Length{});
}

TEST(PhotoAltitude, IsLeftOutWhenItCannotBeTrusted) {
    for (const PhotoFacts& facts :
         {facts_with_altitude(0, {200, 0}), facts_with_altitude(2, {200, 1}),
          facts_with_altitude(0, {9001, 1}), facts_with_altitude(1, {501, 1}),
          facts_with_altitude(0, {std::numeric_limits<std::uint32_t>::max(), 1}),
          facts_of(PhotoBuilder().gps_rationals(testing::altitude, {{200, 1}}).jpeg())}) {
        EXPECT_FALSE(facts.altitude);
        EXPECT_THAT(facts.left_out, ElementsAre(HasSubstr("altitude")));
    }
}

TEST(PhotoAltitude, DoesNotDependOnThePosition) {
    const PhotoFacts facts = facts_of(PhotoBuilder()
                                          .position("N", 0, 0, 0, "E", 0, 0, 0)
                                          .gps_byte(testing::altitude_reference, 0)
                                          .gps_rationals(testing::altitude, {{190, 1}})
                                          .jpeg());
    EXPECT_FALSE(facts.position);
    EXPECT_EQ(facts.altitude, measure::Length::of("190", measure::units::metre));
}

}  // namespace
}  // namespace ashtriage::photo
