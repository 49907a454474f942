// What the applicator reads beside a tree.
#include "present/at_the_tree.hpp"

#include <gmock/gmock.h>

#include "../treat/card_text.hpp"
#include "measure/units.hpp"

namespace ashtriage::present {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;
namespace units = measure::units;

PlannedTree planned_by(const treat::LabelCard& card, const std::vector<std::string>& inches) {
    PlannedTree planned;
    planned.card = card;
    treat::DoseTask task;
    for (const std::string& each : inches) {
        task.stems.push_back(measure::Length::of(each, units::inch));
    }
    planned.dose = treat::dose_for(card, task);
    return planned;
}

std::string under(const std::vector<LabelSays>& says, std::string_view heading) {
    std::string text;
    for (const LabelSays& each : says) {
        if (each.heading.find(heading) == std::string::npos) continue;
        for (const std::string& line : each.lines) text += line + "\n";
    }
    return text;
}

TEST(AtTheTree, NamesTheProductItsNumberAndItsSignalWord) {
    treat::LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
    const std::string words = product_words(card);
    for (const char* part :
         {"Invented Product", "00000-0", "inventine", "basal trunk spray", "CAUTION"}) {
        EXPECT_THAT(words, HasSubstr(part));
    }
    EXPECT_THAT(words, Not(HasSubstr("restricted")));
    card.from_label->restricted_use = true;
    EXPECT_THAT(product_words(card), HasSubstr("restricted use"));
}

TEST(AtTheTree, SaysWhatTheLabelAsksOfPlaceAndWeatherWithItsFigures) {
    treat::LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
    card.conditions.wind_to = measure::Speed::of("10", units::mile_per_hour);
    card.conditions.dry_bark = true;
    card.buffers.push_back({"open water", measure::Length::of("25", units::foot), {}});
    card.from_label->mandatory = {"Must stay off the soil."};
    card.from_label->advisory = {"Should be done early."};
    const auto says = label_at_the_tree(card);
    const std::string asked = under(says, "allows");
    for (const char* part : {"10.0 mph", "bark: dry", "open water: at least 25 ft"}) {
        EXPECT_THAT(asked, HasSubstr(part));
    }
    EXPECT_EQ(under(says, "Binding"), "Must stay off the soil.\n");
    EXPECT_EQ(under(says, "Re-entry"), "Until dry.\n");
    EXPECT_EQ(under(says, "Advice"), "");
    EXPECT_EQ(under(label_for_the_day(card), "Advice"), "Should be done early.\n");
    EXPECT_EQ(under(label_for_the_day(card), "First aid"), "Rinse with water.\n");
}

TEST(AtTheTree, HasOneStemMeasuredAgainByItsOwnGirth) {
    const treat::LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
    EXPECT_THAT(steps_at_the_tree(planned_by(card, {"14"})),
                Contains(HasSubstr("must come to 14.0 in")));
}

// 10 in and 8 in: the dose goes by their sum, which no tape around any stem can show.
TEST(AtTheTree, HasEachOfSeveralStemsMeasuredAgainAndNotTheirSum) {
    const treat::LabelCard card = treat::test::card_of(treat::test::sprayed_liquid);
    const std::string again = steps_at_the_tree(planned_by(card, {"10", "8"})).front();
    EXPECT_THAT(again, HasSubstr("10.0 in"));
    EXPECT_THAT(again, HasSubstr("8.0 in"));
    EXPECT_THAT(again, Not(HasSubstr("18.0 in")));
}

// Holes 10 cm apart: a girth of 79.8 cm takes 8, one of 63.8 cm takes 7.
TEST(AtTheTree, SaysHowManyHolesGoIntoEachStem) {
    const treat::LabelCard card = treat::test::card_of(treat::test::injected_liquid);
    const auto steps = steps_at_the_tree(planned_by(card, {"10", "8"}));
    EXPECT_THAT(steps, Contains(HasSubstr("Drill 15 holes")));
    EXPECT_THAT(steps, Contains(HasSubstr("8 in the stem of 10.0 in and 7 in the stem of 8.0 in")));
    EXPECT_THAT(steps_at_the_tree(planned_by(card, {"10"})),
                Contains(HasSubstr("Drill 8 holes, evenly")));
}

}  // namespace
}  // namespace ashtriage::present
