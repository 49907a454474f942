// Doses against published figures and against common practice.
//
// Sources: Smitley, Doccola, Cox 2010, Arboriculture & Urban Forestry 36(5):206-211; Arboriculture
// & Urban Forestry 38(2), March 2012, methods of an imidacloprid trial on hemlock; Purdue Extension
// Entomology, insecticide per-acre restrictions for emerald ash borer, undated; factors affecting
// efficacy of trunk-injected emamectin benzoate, Arboriculture & Urban Forestry, data 2013-2019.
#include "treat/dose.hpp"

#include <gtest/gtest.h>

#include <string>

#include "measure/units.hpp"
#include "packs/rule_files.hpp"
#include "packs/sources.hpp"
#include "treat/acre_limit.hpp"
#include "treat/card_choice.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage::treat {
namespace {

using measure::Area;
using measure::Length;
using measure::Mass;
using measure::Volume;
namespace units = measure::units;

LabelCard shipped_card(std::string_view method) {
    const auto files = packs::built_in_rule_files();
    packs::Problems problems;
    const auto sources = packs::read_sources(files, problems);
    problems.throw_if_any();
    const auto cards = read_label_cards(files, sources);
    const LabelCard* card = card_for_method(cards, method);
    EXPECT_NE(card, nullptr) << method;
    return card == nullptr ? LabelCard() : *card;
}

// A liquid injected undiluted and measured to the millilitre.
LabelCard injectable(std::string_view grams_per_litre, Per per, std::string_view millilitres) {
    LabelCard card;
    card.application = Application::trunk_injection;
    card.strength.active = Mass::of(grams_per_litre, units::gram);
    card.strength.per = Volume::of("1", units::litre);
    const StatedAmount rate = parse_stated_volume(std::string(millilitres) + " mL");
    card.rates = {basis_of(per), {{std::nullopt, {rate, rate, rate}}}, {}};
    card.measure_with.product = parse_stated_volume("1 mL");
    return card;
}

// Smitley 2010a: 0.1, 0.2 and 0.4 g emamectin benzoate per inch DBH; 0.4 g is 10 mL of a 4 %
// liquid.
TEST(EmamectinBenzoate, GivesThePublishedGramsAndMillilitresPerInch) {
    const LabelCard card = shipped_card("trunk_injection_emamectin");
    const auto dose = [&](RateLevel rate) {
        return dose_for(card, Length::of("10", units::inch), rate);
    };
    EXPECT_EQ(dose(RateLevel::low).active, Mass::of("1", units::gram));
    EXPECT_EQ(dose(RateLevel::usual).active, Mass::of("2", units::gram));
    EXPECT_EQ(dose(RateLevel::high).active, Mass::of("4", units::gram));
    EXPECT_EQ(dose(RateLevel::high).find(Part::product)->measured,
              Amount(Volume::of("100", units::millilitre)));
}

// AUF 2012: a tree of 50 cm, imidacloprid 5 % at 3 and 6 mL for each 2.5 cm, takes 60 and 120 mL;
// 3 and 6 mL hold 0.15 and 0.30 g.
TEST(ImidaclopridInjection, GivesThePublishedVolumesForATreeOfFiftyCentimetres) {
    const Length dbh = Length::of("50", units::centimetre);
    const Dose low = dose_for(injectable("50", Per::cm_dbh, "1.2"), dbh);
    EXPECT_EQ(low.find(Part::product)->text, "60 millilitres");
    EXPECT_EQ(low.active, Mass::of("3", units::gram));  // 20 x 0.15
    const Dose high = dose_for(injectable("50", Per::cm_dbh, "2.4"), dbh);
    EXPECT_EQ(high.find(Part::product)->text, "120 millilitres");
    EXPECT_EQ(high.active, Mass::of("6", units::gram));
}

// Purdue: 0.4 lb imidacloprid per acre and year. At the trial rate of 1.42 g per inch (Smitley
// 2010a) and at twice that, whole inches: 127 and 63, by arithmetic. The printed table says 128 and
// 64, which is 181.76 g where 0.4 lb is 181.44 g.
TEST(PerAcreLimit, IsRoundedDownWhereThePrintedTableIsRoundedUp) {
    const Area acre = Area::of("1", units::acre);
    const Mass limit = Mass::of("0.4", units::pound);
    const Mass single_rate = Mass::of("1.42", units::gram);
    EXPECT_EQ(whole_inches_allowed(limit, acre, Mass(), single_rate), 127);
    EXPECT_EQ(whole_inches_allowed(limit, acre, Mass(), single_rate * 2), 63);
    EXPECT_GT(single_rate * 128, limit);
    EXPECT_LE(single_rate * 127, limit);
    // The special local need of 0.8 lb: 255 and 127, printed as 256 and 128.
    EXPECT_EQ(whole_inches_allowed(limit * 2, acre, Mass(), single_rate), 255);
    EXPECT_EQ(whole_inches_allowed(limit * 2, acre, Mass(), single_rate * 2), 127);
    // Purdue prints 1.4 to 2.8 g per inch as well: 129 and 64, by arithmetic.
    EXPECT_EQ(whole_inches_allowed(limit, acre, Mass(), Mass::of("1.4", units::gram)), 129);
    EXPECT_EQ(whole_inches_allowed(limit, acre, Mass(), Mass::of("2.8", units::gram)), 64);
}

// Purdue prints 82 to 41 inches for 0.54 lb of dinotefuran at "6 to 10 g" per inch, in a column
// that is headed product and active ingredient alike. No reading of it reconciles: as active
// ingredient it would be 40 to 24 in; as granules of 20 % 204 to 122 in; 82 and 41 in are 3.0
// and 6.0 g of active ingredient per inch. All by arithmetic: inches come from the label's rate
// alone.
TEST(PerAcreLimit, OfThePrintedDinotefuranLineReconcilesWithNoReading) {
    const Area acre = Area::of("1", units::acre);
    const Mass limit = Mass::of("0.54", units::pound);
    const auto inches = [&](std::string_view grams) {
        return whole_inches_allowed(limit, acre, Mass(), Mass::of(grams, units::gram));
    };
    EXPECT_EQ(inches("6"), 40);
    EXPECT_EQ(inches("10"), 24);
    EXPECT_EQ(inches("1.2"), 204);  // 6 g of granules of 20 %
    EXPECT_EQ(inches("2"), 122);
    EXPECT_EQ(inches("2.4"), 102);
    for (const char* printed : {"6", "10", "1.2", "2"}) {
        EXPECT_NE(inches(printed), 82) << printed;
        EXPECT_NE(inches(printed), 41) << printed;
    }
    // Rounded up as in the line for imidacloprid, 82 and 41 in are past the limit at 3 and 6 g.
    EXPECT_EQ(inches("3"), 81);
    EXPECT_GT(Mass::of("3", units::gram) * 82, limit);
    EXPECT_GT(Mass::of("6", units::gram) * 41, limit);
}

// 2 lb per gallon at 0.2 fl oz per inch is 1/320 lb per inch exactly, by arithmetic: 0.4 lb reach
// for exactly 128 inches, and one more drop used elsewhere leaves 127.
TEST(PerAcreLimit, OfTheShippedImidaclopridCardIsExact) {
    const LabelCard card = shipped_card("soil_drench_imidacloprid");
    const Area acre = Area::of("1", units::acre);
    EXPECT_EQ(whole_inches_allowed(card, card.rates.classes.front().rate.usual, acre, Mass()), 128);
    EXPECT_EQ(whole_inches_allowed(card, card.rates.classes.front().rate.usual, acre,
                                   Mass::of("1", units::milligram)),
              127);
}

// Smitley 2010a drenched 1.42 g per inch; the shipped card's single rate is that to the rounding.
TEST(ImidaclopridDrench, GivesTheTrialRate) {
    const LabelCard card = shipped_card("soil_drench_imidacloprid");
    const Mass active = active_in(card.strength, amount_of(card.rates.classes.front().rate.usual));
    EXPECT_EQ(active.text(units::gram, 2), "1.42");
}

// A 1.6-oz packet (45.36 g, AUF 2012) of 75 % powder holds 34.0 g and reaches for 23 whole inches
// at 1.42 g per inch, by arithmetic; it is often rounded to 24.
TEST(ImidaclopridPowder, APacketReachesForTwentyThreeInches) {
    const Strength strength{Mass::of("75", units::gram), Mass::of("100", units::gram), {}, {}};
    const Mass active = active_in(strength, Mass::of("1.6", units::avoirdupois_ounce));
    EXPECT_EQ(active.text(units::gram, 1), "34.0");
    EXPECT_EQ(active.ticks() / Mass::of("1.42", units::gram).ticks(), 23);
}

// Factors: 16 ports per metre of girth against 8; on a tree of 20 in (girth 159.6 cm) that is 25 to
// 26 against 13, by arithmetic. A spacing may not be wider than the card's, so the count goes up.
TEST(InjectionHoles, MatchThePublishedDensities) {
    const Length dbh = Length::of("20", units::inch);
    EXPECT_EQ(dose_for(shipped_card("trunk_injection_emamectin"), dbh).holes, 13);
    LabelCard dense = injectable("40", Per::inch_dbh, "5");
    dense.holes = Holes{Length::of("6.25", units::centimetre), {}, {}, {}};
    EXPECT_EQ(dose_for(dense, dbh).holes, 26);
}

// McKenzie 2010: azadirachtin at 250 mg per cm on trees of 22 cm; 5 mL per cm of a 50 g/L liquid.
TEST(Azadirachtin, GivesTheTrialDose) {
    const Dose dose =
        dose_for(shipped_card("trunk_injection_azadirachtin"), Length::of("22", units::centimetre));
    EXPECT_EQ(dose.active, Mass::of("5.5", units::gram));  // 22 x 250 mg
    EXPECT_EQ(dose.find(Part::product)->text, "110 millilitres");
}

// Common practice for a basal trunk spray on a 14 in tree, no published source: 6 US fl oz of
// product, 9 mL of organosilicone surfactant and 110 US fl oz of water, which fits a 1 gal sprayer,
// sprayed from the root flare up to 5 ft; the surfactant is about 0.26 % of the mix by volume. The
// card is set to these proportions per inch; none of them is shipped.
TEST(BasalTrunkSpray, MixesAsPractitionersDo) {
    LabelCard card;
    card.application = Application::basal_trunk_spray;
    card.strength.active = Mass::of("100", units::gram);
    card.strength.per = Volume::of("1", units::litre);
    const Basis inch = basis_of(Per::inch_dbh);
    const StatedAmount rate = parse_stated_volume("6/14 fl oz");
    card.rates = {inch, {{std::nullopt, {rate, rate, rate}}}, {}};
    card.mix = Mix{"water", Mix::Stated::carrier, parse_stated_volume("110/14 fl oz"), inch, {}};
    card.surfactant = Surfactant{
        "organosilicone surfactant", Surfactant::Amount{parse_stated_volume("9/14 mL"), inch}, {}};
    card.spray = SprayedBark{Length::of("5", units::foot), {}};
    card.measure_with.product = parse_stated_volume("0.5 fl oz");
    card.measure_with.surfactant = parse_stated_volume("1 mL");
    card.measure_with.carrier = parse_stated_volume("1 fl oz");

    const Dose dose = dose_for(card, Length::of("14", units::inch));
    EXPECT_EQ(dose.find(Part::product)->text, "6.0 US fluid ounces");
    EXPECT_EQ(dose.find(Part::surfactant)->text, "9 millilitres");
    EXPECT_EQ(dose.find(Part::carrier)->text, "110 US fluid ounces");
    ASSERT_TRUE(dose.finished);
    EXPECT_LE(*dose.finished, Volume::of("1", units::us_gallon));
    // 116 US fluid ounces and 9 mL: 116.304 US fluid ounces, by arithmetic.
    EXPECT_EQ(dose.finished->text(units::us_fluid_ounce, 3), "116.304");
    const Volume surfactant = volume_of(dose.find(Part::surfactant)->measured);
    EXPECT_NEAR(100.0 * (surfactant / *dose.finished), 0.26, 0.005);
    // A cylinder 14 in thick and 5 ft high: pi x 14/12 x 5 = 18.33 square feet, by arithmetic.
    ASSERT_TRUE(dose.bark);
    EXPECT_EQ(dose.bark->text(units::square_foot, 2), "18.33");
}

}  // namespace
}  // namespace ashtriage::treat
