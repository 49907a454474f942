#include "treat/read_label_card.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "card_text.hpp"
#include "measure/units.hpp"
#include "packs/bad_file.hpp"
#include "treat/card_choice.hpp"
#include "treat/check_label_card.hpp"

namespace ashtriage::treat {
namespace {

using test::changed;
using test::problems_in;
namespace units = measure::units;

std::vector<std::string> ids(const std::string& text) {
    std::vector<std::string> result;
    for (const packs::Problem& problem : problems_in(text)) result.push_back(problem.id);
    return result;
}

TEST(ReadLabelCard, ReadsEveryEntryOfACardOfOnesOwn) {
    const LabelCard card = test::card_of(test::sprayed_liquid);
    EXPECT_EQ(card.key, "invented-spray");
    EXPECT_FALSE(card.example);
    EXPECT_EQ(card.application, Application::basal_trunk_spray);
    EXPECT_EQ(amount_of(card.rates.classes.front().rate.high),
              Amount(measure::Volume::of("0.5", units::us_fluid_ounce)));
    EXPECT_EQ(card.rates.sources, SourceKeys{"label"});
    EXPECT_EQ(card.mix->carrier, "water");
    EXPECT_EQ(card.dbh.to, measure::Length::of("30", units::inch));
    EXPECT_EQ(card.limits.applications_per_year, 1);
    EXPECT_EQ(card.spray->up_to, measure::Length::of("5", units::foot));
    EXPECT_EQ(card.cautions.at(0).text, "Keep off the soil.");
    ASSERT_TRUE(card.from_label);
    EXPECT_EQ(card.from_label->registration_number, "00000-0");
    EXPECT_EQ(card.from_label->signal_word, SignalWord::caution);
    EXPECT_EQ(measure::text(card.from_label->checked_on), "2026-03-01");
}

TEST(ReadLabelCard, TakesTheUsualRateForEndsThatAreNotGiven) {
    const LabelCard card = test::card_of(test::injected_liquid);
    EXPECT_EQ(amount_of(card.rates.classes.front().rate.low),
              amount_of(card.rates.classes.front().rate.usual));
    EXPECT_EQ(amount_of(card.rates.classes.front().rate.high),
              amount_of(card.rates.classes.front().rate.usual));
    EXPECT_EQ(card.rates.per.per, Per::cm_dbh);
}

struct Refusal {
    const char* name;
    const std::string* card;
    const char* old;
    const char* replacement;
    const char* id;
};

void PrintTo(const Refusal& refusal, std::ostream* out) {
    *out << refusal.name;
}

class RefusedCard : public testing::TestWithParam<Refusal> {};

TEST_P(RefusedCard, NamesTheProblemAtItsLineWithARemedy) {
    const Refusal& refusal = GetParam();
    const std::string text = changed(*refusal.card, refusal.old, refusal.replacement);
    const auto problems = problems_in(text);
    ASSERT_EQ(problems.size(), 1U) << testing::PrintToString(ids(text));
    EXPECT_EQ(problems[0].id, refusal.id);
    EXPECT_FALSE(problems[0].message.empty());
    EXPECT_FALSE(problems[0].hint.empty()) << problems[0].message;
    EXPECT_GT(problems[0].place.line, 0U);
}

const Refusal refusals[] = {
    {"RateWithoutUnit", &test::sprayed_liquid, "usual: 0.43 fl oz", "usual: 0.43", "bad-value"},
    {"RateInBareOunces", &test::sprayed_liquid, "usual: 0.43 fl oz", "usual: 0.43 oz", "bad-value"},
    {"RateNegative", &test::sprayed_liquid, "usual: 0.43 fl oz", "usual: -0.43 fl oz", "bad-value"},
    {"RateZero", &test::sprayed_liquid, "usual: 0.43 fl oz", "usual: 0 fl oz", "bad-value"},
    {"RateNotANumber", &test::sprayed_liquid, "usual: 0.43 fl oz", "usual: nan fl oz", "bad-value"},
    {"RateOctal", &test::sprayed_liquid, "usual: 0.43 fl oz", "usual: 010 fl oz", "bad-value"},
    {"LiquidByWeight", &test::sprayed_liquid, "usual: 0.43 fl oz", "usual: 12 g", "bad-value"},
    {"DryByVolume", &test::dry_drench, "usual: 2 g", "usual: 2 mL", "bad-value"},
    {"RateWithoutPer", &test::sprayed_liquid, "{per: inch_dbh, low", "{low", "missing-key"},
    {"RateByMixWithoutOne", &test::injected_liquid, "{per: cm_dbh, usual",
     "{per: finished_mix, each: 1 gal, usual", "rate-without-mix"},
    {"RateByBarkWithoutHeight", &test::injected_liquid, "{per: cm_dbh, usual",
     "{per: bark_area, each: 1 sq ft, usual", "bark-without-height"},
    {"RateByAreaWithoutSize", &test::injected_liquid, "{per: cm_dbh, usual",
     "{per: treated_area, usual", "missing-key"},
    {"RateByDbhWithSize", &test::injected_liquid, "{per: cm_dbh, usual",
     "{per: cm_dbh, each: 1 sq ft, usual", "bad-value"},
    {"ClassesThatFall", &test::injected_liquid, "{per: cm_dbh, usual: 1 mL",
     "{per: tree, classes: [{to: 20 cm, usual: 5 mL}, {to: 10 cm, usual: 9 mL}]",
     "classes-out-of-order"},
    {"ClassesAfterTheLast", &test::injected_liquid, "{per: cm_dbh, usual: 1 mL",
     "{per: tree, classes: [{usual: 5 mL}, {to: 10 cm, usual: 9 mL}]", "classes-out-of-order"},
    {"NoClasses", &test::injected_liquid, "{per: cm_dbh, usual: 1 mL", "{per: tree, classes: []",
     "no-classes"},
    {"MixStatedTwice", &test::sprayed_liquid, "finished: 8.3 fl oz,",
     "finished: 8.3 fl oz, carrier_amount: 8 fl oz,", "mix-stated-twice"},
    {"RegistrationNumberInWords", &test::sprayed_liquid, "registration_number: 00000-0",
     "registration_number: none yet", "bad-value"},
    {"LabelWithoutSites", &test::sprayed_liquid, "  sites: [ornamental trees]\n", "",
     "missing-key"},
    {"LabelWithoutFirstAid", &test::sprayed_liquid, "  first_aid: Rinse with water.\n", "",
     "missing-key"},
    {"TemperaturesExchanged", &test::injected_liquid, "limits: {",
     "conditions: {temperature: {from: 90 F, to: 45 F}, source: test-source}\nlimits: {",
     "temperature-out-of-order"},
    {"WindInMiles", &test::injected_liquid, "limits: {",
     "conditions: {wind_to: 10 miles, source: test-source}\nlimits: {", "bad-value"},
    {"SeasonOnNoDay", &test::injected_liquid, "limits: {",
     "conditions: {season: {from: 02-30, to: 06-01}, source: test-source}\nlimits: {", "bad-value"},
    {"RatePerNearName", &test::sprayed_liquid, "{per: inch_dbh, low", "{per: inch_dhb, low",
     "unknown-value"},
    {"RateWithoutSource", &test::sprayed_liquid, "high: 0.5 fl oz, source: label}",
     "high: 0.5 fl oz}", "missing-key"},
    {"HighBelowUsual", &test::sprayed_liquid, "high: 0.5 fl oz", "high: 0.42 fl oz",
     "rate-out-of-order"},
    {"LowAboveUsual", &test::sprayed_liquid, "low: 0.4 fl oz", "low: 0.44 fl oz",
     "rate-out-of-order"},
    {"DbhMaximumBelowMinimum", &test::sprayed_liquid, "from: 2 in", "from: 31 in",
     "dbh-out-of-order"},
    {"DbhWithoutUnit", &test::sprayed_liquid, "from: 2 in", "from: 2", "bad-value"},
    {"StrengthAboveWhole", &test::dry_drench, "active: 750 g, per: 1 kg, percent_by_weight: 75 %",
     "active: 1.01 kg, per: 1 kg", "strength-above-whole"},
    {"StrengthOfNoLiquid", &test::sprayed_liquid, "active: 100 g", "active: 1.7 kg",
     "strength-above-whole"},
    {"StrengthContradictionDry", &test::dry_drench, "percent_by_weight: 75 %",
     "percent_by_weight: 7.5 %", "strength-contradiction"},
    {"StrengthContradictionLiquid", &test::sprayed_liquid, "per: 1 L, source: label}",
     "per: 1 L, percent_by_weight: 4 %, source: label}", "strength-contradiction"},
    {"StrengthAbove100Percent", &test::dry_drench, "percent_by_weight: 75 %",
     "percent_by_weight: 101 %", "bad-value"},
    {"MixTooSmall", &test::sprayed_liquid, "finished: 8.3 fl oz", "finished: 0.5 fl oz",
     "mix-too-small"},
    {"SurfactantWithoutDevice", &test::sprayed_liquid, "surfactant: 1 mL, ", "", "device-missing"},
    {"SurfactantOfAThirdOfTheMix", &test::sprayed_liquid, "amount: 0.65 mL, per: inch_dbh",
     "share: 33 %", "surfactant-share"},
    {"CarrierWithoutDevice", &test::dry_drench, ", carrier: 1 fl oz", "", "device-missing"},
    {"DeviceForNothing", &test::injected_liquid, "{product: 1 mL}", "{product: 1 mL, carrier: 1 L}",
     "device-unused"},
    {"SprayWithoutHeight", &test::sprayed_liquid, "spray: {up_to: 5 ft, source: label}\n", "",
     "spray-height-missing"},
    {"HolesInADrench", &test::dry_drench, "cautions:",
     "holes: {spacing: 10 cm, source: test-source}\ncautions:", "not-for-this-application"},
    {"SprayInADrench", &test::dry_drench, "cautions:",
     "spray: {up_to: 5 ft, source: test-source}\ncautions:", "not-for-this-application"},
    {"UnknownSource", &test::dry_drench, "percent_by_weight: 75 %, source: test-source",
     "percent_by_weight: 75 %, source: test-sorce", "unknown-source"},
    {"LabelAsSourceOfAnExample", &test::dry_drench, "percent_by_weight: 75 %, source: test-source",
     "percent_by_weight: 75 %, source: label", "unknown-source"},
    {"RegistrationOnAnExample", &test::dry_drench,
     "cautions:", "from_label: {registration_number: 00000-0}\ncautions:", "example-without-label"},
    {"MisspeltEntry", &test::dry_drench, "protective_equipment: Gloves.",
     "protective_equipment: Gloves.\nseveral_stem: sum", "unknown-key"},
    {"NoProtectiveEquipment", &test::dry_drench, "protective_equipment: Gloves.\n", "",
     "missing-key"},
    {"NotTheNameOfTheMethod", &test::dry_drench, "method: soil_drench_invented",
     "method: Soil drench", "bad-value"},
    {"HalfAnApplication", &test::sprayed_liquid, "applications_per_year: 1",
     "applications_per_year: 1.5", "not-a-whole-number"},
    {"DateThatDoesNotExist", &test::sprayed_liquid, "checked_on: 2026-03-01",
     "checked_on: 2026-02-30", "bad-value"},
    {"MostBelowTheLowestRate", &test::sprayed_liquid, "applications_per_year: 1",
     "applications_per_year: 1, per_application: 0.7 fl oz", "maximum-below-minimum"},
    {"SurfactantTwice", &test::sprayed_liquid, "amount: 0.65 mL,", "amount: 0.65 mL, share: 0.2 %,",
     "surfactant-amount"},
};

INSTANTIATE_TEST_SUITE_P(Each, RefusedCard, testing::ValuesIn(refusals),
                         [](const auto& each) { return std::string(each.param.name); });

TEST(ReadLabelCard, RefusesACardThatIsNotCalledAsItsFile) {
    packs::RuleFile file = test::file_of(test::dry_drench);
    file.name = "labels/other.yaml";
    packs::Problems problems;
    read_label_card(file, test::test_sources(), problems);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems.list()[0].id, "label-not-file-name");
}

TEST(ReadLabelCard, ACardOfOnesOwnNeedsWhatOnlyTheLabelKnows) {
    const std::string card =
        test::sprayed_liquid.substr(0, test::sprayed_liquid.find("from_label:"));
    EXPECT_THAT(ids(card), testing::ElementsAre("missing-key"));
}

TEST(ReadLabelCards, ShowsTheProblemsOfAllCardsTogether) {
    const std::string first = changed(test::dry_drench, "usual: 2 g", "usual: 2");
    const std::string second = changed(test::injected_liquid, "usual: 1 mL", "usual: 1 oz");
    try {
        read_label_cards({test::file_of(first), test::file_of(second)}, test::test_sources());
        FAIL() << "nothing was refused";
    } catch (const packs::BadFile& bad) {
        EXPECT_EQ(bad.problems().size(), 2U);
        EXPECT_THAT(bad.what(), testing::AllOf(testing::HasSubstr("invented-drench"),
                                               testing::HasSubstr("invented-injection")));
    }
}

struct SecondCard {
    const char* name;
    const char* old_text;
    const char* new_text;
    const char* differs_in;  // empty: the two agree
};

class CardsOfOneLabel : public testing::TestWithParam<SecondCard> {};

TEST_P(CardsOfOneLabel, HaveToAgree) {
    const std::string second =
        changed(changed(test::sprayed_liquid, "label: invented-spray", "label: invented-spray-2"),
                GetParam().old_text, GetParam().new_text);
    std::string refused;
    try {
        read_label_cards({test::file_of(test::sprayed_liquid), test::file_of(second)},
                         test::test_sources());
    } catch (const packs::BadFile& bad) {
        refused = bad.what();
    }
    if (std::string_view(GetParam().differs_in).empty()) {
        EXPECT_EQ(refused, "");
        return;
    }
    EXPECT_THAT(refused, testing::AllOf(testing::HasSubstr("cards-contradict"),
                                        testing::HasSubstr("invented-spray-2"),
                                        testing::HasSubstr(GetParam().differs_in)));
}

const SecondCard second_cards[] = {
    {"SameInAll", "Keep off the soil.", "Keep it off the soil.", ""},
    {"WithOtherZeros", "registration_number: 00000-0\n  signal_word: caution",
     "registration_number: 000-00\n  signal_word: danger", "'signal_word'"},
    {"OfAnotherLabel", "registration_number: 00000-0", "registration_number: 00000-1", ""},
    {"Rate", "high: 0.5 fl oz", "high: 0.6 fl oz", "'rate'"},
    {"Strength", "active: 100 g", "active: 110 g", "'strength'"},
    {"OftenInAYear", "applications_per_year: 1", "applications_per_year: 2", "'limits'"},
    {"Again", "applications_per_year: 1", "applications_per_year: 1, again_after_days: 300",
     "'limits'"},
    {"MostForATree", "applications_per_year: 1",
     "applications_per_year: 1, per_application: 20 fl oz", "'limits'"},
    {"ForAnAcre", "applications_per_year: 1",
     "applications_per_year: 1, active_per_acre_per_year: 0.4 lb", "'limits'"},
    {"LargestTree", "to: 30 in", "to: 40 in", "'limits'"},
    {"Restricted", "restricted_use: no", "restricted_use: yes", "'restricted_use'"},
    {"SignalWord", "signal_word: caution", "signal_word: danger", "'signal_word'"},
};

INSTANTIATE_TEST_SUITE_P(Each, CardsOfOneLabel, testing::ValuesIn(second_cards),
                         [](const auto& each) { return std::string(each.param.name); });

TEST(ReadLabelCards, LeavesOtherRuleFilesAlone) {
    const std::vector<packs::RuleFile> files{{"triage.yaml", "not: [a, card", {}},
                                             test::file_of(test::dry_drench)};
    EXPECT_EQ(read_label_cards(files, test::test_sources()).size(), 1U);
}

// A card cut off anywhere either is refused or is whole but for a blank at its end.
TEST(ReadLabelCard, RefusesACardCutOffAtAnyByte) {
    const std::string& whole = test::sprayed_liquid;
    for (std::size_t length = 0; length + 1 < whole.size(); ++length) {
        packs::Problems problems;
        packs::RuleFile file{"labels/invented-spray.yaml", whole.substr(0, length), {}};
        read_label_card(file, test::test_sources(), problems);
        ASSERT_FALSE(problems.empty()) << "cut off after byte " << length;
    }
}

TEST(ComplaintsAboutACard, AMixFilledByItsProductAloneHasNoRoomForWater) {
    LabelCard card = test::card_of(test::sprayed_liquid);
    card.surfactant.reset();
    card.measure_with.surfactant.reset();
    EXPECT_TRUE(complaints_about_mix(card).empty());
    card.mix->volume = std::get<StatedVolume>(card.rates.classes.front().rate.high);
    ASSERT_EQ(complaints_about_mix(card).size(), 1U);
    EXPECT_EQ(complaints_about_mix(card)[0].id, "mix-too-small");
}

TEST(CardForMethod, PrefersACardOfOnesOwnToAnExample) {
    LabelCard example = test::card_of(test::injected_liquid);
    LabelCard own = test::card_of(test::sprayed_liquid);
    own.method = example.method;
    const std::vector<LabelCard> cards{example, own};
    EXPECT_EQ(card_for_method(cards, example.method)->key, own.key);
    EXPECT_EQ(card_for_method(cards, "nothing_of_the_kind"), nullptr);
}

}  // namespace
}  // namespace ashtriage::treat
