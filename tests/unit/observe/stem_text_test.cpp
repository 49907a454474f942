#include "observe/stem_text.hpp"

#include <gmock/gmock.h>

#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::observe {
namespace {

using measure::Length;
using measure::units::centimetre;
using measure::units::foot;
using measure::units::inch;
using testing::ElementsAre;

Stem diameter(Length length) {
    return {StemMeasure::diameter, length};
}

Stem girth(Length length) {
    return {StemMeasure::girth, length};
}

TEST(ParseStems, TakesABareNumberForInchesOfDiameter) {
    EXPECT_THAT(parse_stems("14"), ElementsAre(diameter(Length::of("14", inch))));
    EXPECT_THAT(parse_stems("14.25"), ElementsAre(diameter(Length::of("14.25", inch))));
    EXPECT_THAT(parse_stems("  14 in  "), ElementsAre(diameter(Length::of("14", inch))));
    EXPECT_THAT(parse_stems("dbh 14 in"), ElementsAre(diameter(Length::of("14", inch))));
    EXPECT_THAT(parse_stems("14 in dbh"), ElementsAre(diameter(Length::of("14", inch))));
}

TEST(ParseStems, TakesOtherUnits) {
    EXPECT_THAT(parse_stems("35.6 cm"), ElementsAre(diameter(Length::of("35.6", centimetre))));
    EXPECT_THAT(parse_stems("1.5 ft"), ElementsAre(diameter(Length::of("1.5", foot))));
    EXPECT_THAT(parse_stems("14 1/2 in"), ElementsAre(diameter(Length::of("14.5", inch))));
}

TEST(ParseStems, KeepsAGirthAGirthWhereverTheWordStands) {
    for (const char* text : {"girth 44", "girth 44 in", "44 in girth", " girth  44 in ",
                             "Girth 44 in", "44 in GIRTH"}) {
        EXPECT_THAT(parse_stems(text), ElementsAre(girth(Length::of("44", inch)))) << text;
    }
}

TEST(ParseStems, TakesSeveralStemsInTheirOrder) {
    const auto stems = {diameter(Length::of("10", inch)), diameter(Length::of("8", inch)),
                        girth(Length::of("25", inch))};
    EXPECT_THAT(parse_stems("10 in + 8 in + girth 25 in"), testing::ElementsAreArray(stems));
    EXPECT_THAT(parse_stems("10;8;girth 25"), testing::ElementsAreArray(stems));
    EXPECT_THAT(parse_stems("10+8 ; 25 in girth"), testing::ElementsAreArray(stems));
}

TEST(ParseStems, RefusesAStemOfNoSize) {
    for (const char* text : {"0", "0 in", "-3 in", "girth 0 cm", "10 in + 0 in"}) {
        EXPECT_THROW(parse_stems(text), measure::InputError) << text;
    }
    // The smallest length there is.
    EXPECT_THAT(parse_stems("0.000001 mm"), testing::SizeIs(1));
}

TEST(ParseStems, RefusesAGapInTheList) {
    for (const char* text :
         {"", "  ", "+", "10 in +", "+ 10 in", "10 in ++ 8 in", "10;;8", "girth", "dbh"}) {
        EXPECT_THROW(parse_stems(text), measure::InputError) << text;
    }
}

TEST(ParseStems, RefusesWhatIsNoLength) {
    for (const char* text : {"nan", "inf", "010", "0x10", "1e2", "1,5 in", "14 oz", "14 lb", "14 %",
                             "about 14 in", "14 in 8 in", "girth girth 44 in", "girth dbh 14 in"}) {
        EXPECT_THROW(parse_stems(text), measure::InputError) << text;
    }
}

// Whatever else comes of a girth with a capital letter, it is not a diameter.
TEST(ParseStems, NeverTakesAGirthForADiameter) {
    for (const char* text : {"Girth 44 in", "GIRTH 44", "circumference 44 in", "44 in around"}) {
        try {
            for (const Stem& stem : parse_stems(text)) {
                EXPECT_EQ(stem.measured, StemMeasure::girth) << text;
            }
        } catch (const measure::InputError& refusal) {
            EXPECT_STRNE(refusal.what(), "");
        }
    }
}

TEST(StemsText, IsWrittenAsAPersonWouldWriteIt) {
    EXPECT_EQ(stems_text({}), "");
    EXPECT_EQ(stems_text({diameter(Length::of("14", inch))}), "14 in");
    EXPECT_EQ(stems_text({diameter(Length::of("100", inch))}), "100 in");
    EXPECT_EQ(stems_text({diameter(Length::of("10", inch)), girth(Length::of("25.5", inch))}),
              "10 in + girth 25.5 in");
}

// A length is kept in whole nanometres, so that is what has to come back: one, and 35.6 cm, which
// are no round number of inches.
TEST(StemsText, IsReadBackToTheLastDigit) {
    const std::vector<Stem> stems{
        diameter(Length::from_ticks(1)), diameter(Length::of("35.6", centimetre)),
        girth(Length::of("111.8", centimetre)), diameter(Length::from_ticks(123456789)),
        diameter(Length::of("120", inch))};
    for (const Stem& stem : stems) {
        EXPECT_THAT(parse_stems(stems_text({stem})), ElementsAre(stem)) << stems_text({stem});
    }
    EXPECT_EQ(parse_stems(stems_text(stems)), stems);
}

}  // namespace
}  // namespace ashtriage::observe
