// The record of an application: what it adds up to, and what is refused as impossible.
#include <gmock/gmock.h>

#include "measure/input_error.hpp"
#include "record_example.hpp"
#include "treat/check_application.hpp"

namespace ashtriage::treat {
namespace {

using measure::InputError;
using test::bare_record;
using test::full_record;
using testing::HasSubstr;
namespace units = measure::units;

measure::Volume fl_oz(std::string_view number) {
    return measure::Volume::of(number, units::us_fluid_ounce);
}

measure::Date day(std::string_view text) {
    return measure::parse_date(text);
}

TEST(ApplicationRecord, IsAcceptedFullAndBare) {
    EXPECT_NO_THROW(check(full_record()));
    EXPECT_NO_THROW(check(bare_record()));
}

TEST(ApplicationRecord, CountsItsTreesAndTheirDbh) {
    const ApplicationRecord record = full_record();
    EXPECT_EQ(trees_treated(record), 2);
    // 14 in = 355.6 mm (the inch is 25.4 mm), and 351 mm.
    EXPECT_EQ(dbh_treated(record), measure::Length::of("706.6", units::millimetre));
    EXPECT_EQ(product_on_trees(record), Amount(fl_oz("11.5")));
}

TEST(ApplicationRecord, DoesNotAddUpWhatIsNotKnownOfEveryTree) {
    ApplicationRecord record = full_record();
    record.trees.back().dbh.reset();
    record.trees.back().product.reset();
    EXPECT_EQ(trees_treated(record), 2);
    EXPECT_FALSE(dbh_treated(record));
    EXPECT_FALSE(product_on_trees(record));
}

TEST(ApplicationRecord, TakesTheStatedSumsWhereTreesAreNotListed) {
    ApplicationRecord record = bare_record();
    EXPECT_FALSE(trees_treated(record));
    EXPECT_FALSE(dbh_treated(record));
    EXPECT_FALSE(product_on_trees(record));
    record.number_of_trees = 12;
    record.dbh_sum = measure::Length::of("150", units::inch);
    EXPECT_NO_THROW(check(record));
    EXPECT_EQ(trees_treated(record), 12);
    EXPECT_EQ(dbh_treated(record), measure::Length::of("150", units::inch));
}

TEST(ApplicationRecord, HoldsWhatWasUsedAgainstWhatWasPlanned) {
    ApplicationRecord record = full_record();
    record.total_product = fl_oz("10");
    EXPECT_EQ(used_against_planned(record),
              (UsedAgainstPlanned{AgainstPlan::less, Amount(fl_oz("2"))}));
    record.total_product = fl_oz("14");
    EXPECT_EQ(used_against_planned(record),
              (UsedAgainstPlanned{AgainstPlan::more, Amount(fl_oz("2"))}));
    record.total_product = record.planned_product;
    EXPECT_EQ(used_against_planned(record)->used, AgainstPlan::as_planned);
    record.planned_product = measure::Mass::of("30", units::gram);
    EXPECT_THROW(used_against_planned(record), InputError);
    record.planned_product.reset();
    EXPECT_FALSE(used_against_planned(record));
}

// Half a US fluid ounce is not a whole number of ticks: two of them are one tick more than one.
TEST(ApplicationRecord, TakesNoPartOfATickForADifference) {
    ApplicationRecord record = full_record();
    for (TreatedTree& tree : record.trees) tree.product = fl_oz("5.5");
    record.total_product = fl_oz("11");
    record.planned_product = product_on_trees(record);
    ASSERT_NE(record.planned_product, record.total_product);
    EXPECT_NO_THROW(check(record));
    EXPECT_EQ(used_against_planned(record)->used, AgainstPlan::as_planned);
    EXPECT_FALSE(measurably_more(fl_oz("1"), fl_oz("1")));
    EXPECT_TRUE(measurably_more(measure::Volume::of("5.01", units::millilitre),
                                measure::Volume::of("5", units::millilitre)));
}

TEST(ApplicationRecord, TellsWhatMixIsLeftOver) {
    ApplicationRecord record = full_record();
    EXPECT_EQ(left_over(record), fl_oz("40"));  // a US gallon is 128 US fluid ounces
    record.mixed.reset();
    EXPECT_FALSE(left_over(record));
}

TEST(ApplicationRecord, ReadsARateInTheLabelsOwnFigures) {
    // A US fluid ounce is 29.5735295625 mL; the tick is 1e-10 mL.
    EXPECT_EQ(amount_of(LabelledRate{"0.43 fl oz", "inch DBH"}),
              Amount(measure::Volume::from_ticks(127'166'177'119)));
    EXPECT_EQ(amount_of(LabelledRate{"8.5 g", "tree"}),
              Amount(measure::Mass::of("8.5", units::gram)));
    EXPECT_THROW(amount_of(LabelledRate{"8.5 oz", "tree"}), InputError);
    EXPECT_THROW(amount_of(LabelledRate{"some", "tree"}), InputError);
}

TEST(ApplicationRecord, PutsEachActiveIngredientOnTheAccount) {
    ApplicationRecord record = full_record();
    record.actives.push_back({"azadirachtin", measure::Mass::of("2", units::gram)});
    const auto spent = spent_by(record);
    ASSERT_TRUE(spent);
    ASSERT_EQ(spent->size(), 2U);
    EXPECT_EQ(spent->at(0).active_ingredient, "dinotefuran");
    EXPECT_EQ(spent->at(0).use, CountedUse::bark);
    EXPECT_EQ(spent->at(0).on, day("2026-05-18"));
    EXPECT_EQ(spent->at(0).mass, measure::Mass::of("70.5", units::gram));
    EXPECT_EQ(spent->at(1).active_ingredient, "azadirachtin");
}

TEST(ApplicationRecord, DoesNotTakeAnUnknownAmountForNothing) {
    ApplicationRecord record = full_record();
    record.actives.push_back({"azadirachtin", {}});
    EXPECT_FALSE(spent_by(record));
    EXPECT_FALSE(spent_by(bare_record()));
    record = full_record();
    record.counted_as.reset();
    EXPECT_FALSE(spent_by(record));
}

TEST(ApplicationRecord, PutsNothingOnTheAccountWhenItWithdrawsAnother) {
    ApplicationRecord record = full_record();
    record.correction = Correction{7, "R. Éxample", day("2026-05-19"), "entered twice", true};
    ASSERT_TRUE(spent_by(record));
    EXPECT_THAT(*spent_by(record), testing::IsEmpty());
}

TEST(ApplicationRecord, NamesEverythingWrongAtOnce) {
    ApplicationRecord record = full_record();
    record.product_name = " Invented";
    record.trees[0].label = "";
    record.mixed = fl_oz("1");
    try {
        check(record);
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr("The application of 2026-05-18"));
        EXPECT_THAT(error.what(), HasSubstr("the name of the product begins or ends"));
        EXPECT_THAT(error.what(), HasSubstr("the label of a tree is missing"));
        EXPECT_THAT(error.what(), HasSubstr("more mix was applied than was made"));
    }
}

struct Impossible {
    const char* name;
    void (*spoil)(ApplicationRecord&);
    const char* complaint;
};

void PrintTo(const Impossible& impossible, std::ostream* out) {
    *out << impossible.name;
}

class ImpossibleRecords : public testing::TestWithParam<Impossible> {};

TEST_P(ImpossibleRecords, AreRefused) {
    ApplicationRecord record = full_record();
    GetParam().spoil(record);
    try {
        check(record);
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr(GetParam().complaint));
    }
}

const Impossible impossible[] = {
    {"NoDate", [](ApplicationRecord& r) { r.work_date = {}; }, "the date of the work is not"},
    {"WrittenBefore", [](ApplicationRecord& r) { r.written_on = day("2026-05-17"); },
     "2026-05-17, is before the work"},
    {"CopyBefore", [](ApplicationRecord& r) { r.customer_copy_given_on = day("2026-05-17"); },
     "customer's copy, 2026-05-17, is before"},
    {"EndBeforeStart", [](ApplicationRecord& r) { r.finished = parse_local_time("07:39"); },
     "ended at 07:39, before it began at 07:40"},
    {"TimeOutOfDay", [](ApplicationRecord& r) { r.finished = LocalTime{1440}; }, "not one of the"},
    {"OffsetTooFar", [](ApplicationRecord& r) { r.utc_offset = UtcOffset{841}; }, "from UTC"},
    {"TreeTwice", [](ApplicationRecord& r) { r.trees[1].label = "A-1"; }, "more than once"},
    {"TreeIdTwice", [](ApplicationRecord& r) { r.trees[0].tree = r.trees[1].tree = 4; },
     "more than once"},
    {"NoDbh", [](ApplicationRecord& r) { r.trees[0].dbh = measure::Length{}; },
     "the DBH of tree 'A-1' is not above 0"},
    {"NoProductOnATree", [](ApplicationRecord& r) { r.trees[0].product = measure::Volume{}; },
     "the product on tree 'A-1' is not above 0"},
    {"NoProduct", [](ApplicationRecord& r) { r.total_product = measure::Volume{}; },
     "the total of the product is not above 0"},
    {"TotalByWeight",
     [](ApplicationRecord& r) { r.total_product = measure::Mass::of("400", units::gram); },
     "a volume and another a weight"},
    {"DilutionByWeight",
     [](ApplicationRecord& r) { r.dilution->product = measure::Mass::of("4", units::gram); },
     "a volume and another a weight"},
    {"MoreOnTreesThanInAll", [](ApplicationRecord& r) { r.total_product = fl_oz("11.4"); },
     "got more product than it gives in all"},
    {"MoreMixOnTreesThanInAll", [](ApplicationRecord& r) { r.total_mix = fl_oz("215"); },
     "got more mix than it gives in all"},
    {"WrongNumber", [](ApplicationRecord& r) { r.number_of_trees = 3; },
     "lists 2 trees and gives their number as 3"},
    {"WrongDbhSum",
     [](ApplicationRecord& r) { r.dbh_sum = measure::Length::of("28", units::inch); },
     "does not add up"},
    {"BareOunce", [](ApplicationRecord& r) { r.rate->amount = "0.43 oz"; }, "'0.43 oz'"},
    {"RateByNothing", [](ApplicationRecord& r) { r.rate->per = ""; }, "counted by is missing"},
    {"AreaInFeet", [](ApplicationRecord& r) { r.extent->unit = "ft"; }, "'ft' is not a unit"},
    {"NoArea", [](ApplicationRecord& r) { r.extent->size = measure::Area{}; }, "has no size"},
    {"CapitalActive", [](ApplicationRecord& r) { r.actives[0].name = "Dinotefuran"; },
     "not in small letters"},
    {"ActiveTwice", [](ApplicationRecord& r) { r.actives.push_back(r.actives[0]); }, "given twice"},
    {"NoActive", [](ApplicationRecord& r) { r.actives[0].mass = measure::Mass{}; },
     "the amount of dinotefuran is not above 0"},
    {"WindBackwards", [](ApplicationRecord& r) { r.wind_speed = measure::Speed::from_ticks(-1); },
     "wind speed"},
    {"AssistantWithoutName", [](ApplicationRecord& r) { r.assistants[0].name = ""; },
     "the name of an assistant is missing"},
    {"AtSea", [](ApplicationRecord& r) { r.position = observe::Position{}; }, "in the sea"},
    {"CorrectsNothing",
     [](ApplicationRecord& r) {
         r.correction = Correction{0, "R. Éxample", day("2026-05-19"), "typing", false};
     },
     "does not say which"},
    {"CorrectedWithoutReason",
     [](ApplicationRecord& r) {
         r.correction = Correction{3, "", day("2026-05-19"), "", false};
     },
     "the name of who corrects is missing; the reason for the correction is missing"},
    {"CorrectedBeforeWritten",
     [](ApplicationRecord& r) {
         r.correction = Correction{3, "R. Éxample", day("2026-05-17"), "typing", false};
     },
     "the correction, 2026-05-17, is before the day of writing"},
    {"UnknownField", [](ApplicationRecord& r) { r.does_not_apply = {"dilutoin"}; }, "'dilutoin'"},
    {"AlwaysApplies", [](ApplicationRecord& r) { r.does_not_apply = {"registration_number"}; },
     "not a field that can be said not to apply"},
    {"GivenAndNotApplying", [](ApplicationRecord& r) { r.does_not_apply = {"dilution"}; },
     "is given and is said not to apply"},
    {"NotApplyingTwice",
     [](ApplicationRecord& r) {
         r.dilution.reset();
         r.does_not_apply = {"dilution", "dilution"};
     },
     "said twice"},
    {"Overflow",
     [](ApplicationRecord& r) {
         r.trees[0].product = r.trees[1].product = measure::Volume::from_ticks(INT64_MAX);
     },
     "larger than any property"},
};

INSTANTIATE_TEST_SUITE_P(Each, ImpossibleRecords, testing::ValuesIn(impossible),
                         [](const auto& test) { return std::string(test.param.name); });

TEST(OtherUses, AreCheckedAndCounted) {
    const OtherUse use{.id = 0,
                       .site = 1,
                       .active_ingredient = "imidacloprid",
                       .mass = measure::Mass::of("0.1", units::pound),
                       .date = day("2026-04-02"),
                       .what = "turf, grubs",
                       .counted_as = CountedUse::soil,
                       .correction = {}};
    EXPECT_NO_THROW(check(use));
    EXPECT_EQ(spent_by(use).mass, use.mass);
    EXPECT_EQ(spent_by(use).use, CountedUse::soil);
    EXPECT_EQ(spent_by(use).active_ingredient, "imidacloprid");
    OtherUse bad = use;
    bad.mass = {};
    bad.what = "";
    bad.active_ingredient = "Imidacloprid";
    try {
        check(bad);
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr("not above 0"));
        EXPECT_THAT(error.what(), HasSubstr("what was treated is missing"));
        EXPECT_THAT(error.what(), HasSubstr("small letters"));
    }
}

TEST(RaisedAllowances, AreCheckedAndTurnedIntoALimit) {
    const RaisedAllowance allowance{.id = 0,
                                    .site = 1,
                                    .active_ingredient = "imidacloprid",
                                    .per_acre = measure::Mass::of("0.8", units::pound),
                                    .reference = "XX-000000",
                                    .jurisdiction = "Invented State",
                                    .expires = day("2027-12-31"),
                                    .confirmed_by = "R. Éxample",
                                    .confirmed_on = day("2026-03-01"),
                                    .correction = {}};
    EXPECT_NO_THROW(check(allowance));
    EXPECT_EQ(limit_of(allowance).per_acre, allowance.per_acre);
    EXPECT_EQ(limit_of(allowance).expires, allowance.expires);
    EXPECT_EQ(limit_of(allowance).reference, "XX-000000");
    for (const auto spoil : {+[](RaisedAllowance& a) { a.reference = ""; },
                             +[](RaisedAllowance& a) { a.confirmed_by = " "; },
                             +[](RaisedAllowance& a) { a.jurisdiction = ""; },
                             +[](RaisedAllowance& a) { a.per_acre = {}; },
                             +[](RaisedAllowance& a) { a.expires = day("2026-02-28"); },
                             +[](RaisedAllowance& a) { a.confirmed_on = {}; }}) {
        RaisedAllowance bad = allowance;
        spoil(bad);
        EXPECT_THROW(check(bad), InputError);
    }
}

}  // namespace
}  // namespace ashtriage::treat
