// A sheet says of an application exactly what was written on it, and refuses what is not of its
// form.
#include "treat/application_sheet.hpp"

#include <gmock/gmock.h>

#include "packs/bad_file.hpp"
#include "record_example.hpp"
#include "treat/record_entries.hpp"

namespace ashtriage::treat {
namespace {

using measure::InputError;
using testing::AnyOf;
using testing::ElementsAre;
using testing::HasSubstr;

// What a sheet does not hold: identities of the book and the text of the card.
ApplicationRecord as_on_a_sheet(ApplicationRecord record) {
    record.id = 0;
    record.site = 0;
    record.label_card_text.clear();
    for (TreatedTree& tree : record.trees) tree.tree.reset();
    return record;
}

std::string with(const std::string& sheet, const std::string& old, const std::string& now) {
    const std::size_t at = sheet.find(old);
    if (at == std::string::npos) throw std::logic_error("the sheet has no " + old);
    return std::string(sheet).replace(at, old.size(), now);
}

std::string refusal_of(const std::string& sheet) {
    try {
        read_application_sheet(sheet, "a.yaml");
    } catch (const packs::BadFile& error) {
        return error.what();
    }
    ADD_FAILURE() << "nothing was refused";
    return {};
}

TEST(ApplicationSheetForm, IsReadBackExactlyAsItWasWritten) {
    ApplicationRecord record = test::full_record();
    record.correction = Correction{3, "S. Éxample", measure::parse_date("2026-05-19"),
                                   "the \"wind\" was misread: # no comment", false};
    record.does_not_apply = {"permit_number", "supervisor_name"};
    record.number_of_trees = 2;
    record.dbh_sum = measure::Length::of("28", measure::units::inch);
    const ApplicationSheet sheet{"Mill Lane: north", record};
    const ApplicationSheet read = read_application_sheet(application_sheet(sheet), "a.yaml");
    EXPECT_EQ(read.site, sheet.site);
    EXPECT_EQ(read.record, as_on_a_sheet(record));
}

TEST(ApplicationSheetForm, LeavesWhatIsNotKnownToBeFilledIn) {
    const ApplicationSheet sheet{"Mill Lane", test::bare_record()};
    const std::string text = application_sheet(sheet);
    EXPECT_EQ(read_application_sheet(text, "a.yaml").record, as_on_a_sheet(sheet.record));
    for (const RecordEntry& entry : record_entries()) {
        EXPECT_THAT(text, HasSubstr("\n" + std::string(entry.name) + ":"));
    }
}

TEST(ApplicationSheetForm, KeepsAWeightAsAWeight) {
    ApplicationRecord record = test::full_record();
    record.total_product = measure::Mass::of("45.375", measure::units::gram);
    record.planned_product.reset();
    const std::string text = application_sheet({"Mill Lane", record});
    EXPECT_EQ(read_application_sheet(text, "a.yaml").record.total_product, record.total_product);
}

TEST(ApplicationSheetForm, NamesEveryThingThatIsWrongAtItsLine) {
    std::string text = application_sheet({"Mill Lane", test::full_record()});
    text = with(text, "start_time: \"07:40\"", "start_time: 7.40");
    text = with(text, "total_product: \"11.5 fl oz\"", "total_product: 11.5 oz");
    text = with(text, "wind_speed:", "windspeed:");
    const std::string refusal = refusal_of(text);
    EXPECT_THAT(refusal, HasSubstr("start_time"));
    EXPECT_THAT(refusal, HasSubstr("total_product"));
    EXPECT_THAT(refusal, HasSubstr("windspeed"));
    EXPECT_THAT(refusal, HasSubstr("wind_speed"));
    EXPECT_THAT(refusal, HasSubstr("a.yaml:"));
}

TEST(ApplicationSheetForm, RefusesAnAmountWithoutAUnitAndARateWithoutABasis) {
    const std::string text = application_sheet({"Mill Lane", test::full_record()});
    EXPECT_THAT(refusal_of(with(text, "mixed: \"2 gal\"", "mixed: 2")), HasSubstr("mixed"));
    EXPECT_THAT(refusal_of(with(text, "\nrate: \"0.43 fl oz per inch DBH\"", "\nrate: 0.43 fl oz")),
                HasSubstr("per"));
    EXPECT_THAT(refusal_of(with(text, "dilution: \"6 fl oz : 110 fl oz\"", "dilution: 6 fl oz")),
                HasSubstr("product and water"));
    EXPECT_THAT(refusal_of(with(text, "restricted_use: \"yes\"", "restricted_use: maybe")),
                HasSubstr("neither yes nor no"));
    EXPECT_THAT(refusal_of(with(text, "work_date: \"2026-05-18\"", "work_date: 2026-02-30")),
                HasSubstr("work_date"));
}

TEST(ApplicationSheetForm, RefusesToSayThatANeededEntryDoesNotApply) {
    const std::string text = application_sheet({"Mill Lane", test::full_record()});
    EXPECT_THAT(refusal_of(with(text, "does_not_apply:", "does_not_apply: [product_name] #")),
                HasSubstr("product_name"));
}

// At every line: the first half of a sheet would be filed as if it were all.
TEST(ApplicationSheetForm, IsRefusedWhereverItIsCutOff) {
    const std::string text = application_sheet({"Mill Lane", test::full_record()});
    const std::size_t last = text.find("does_not_apply:");
    ASSERT_NE(last, std::string::npos);
    int cuts = 0;
    for (std::size_t at = text.find('\n'); at < last; at = text.find('\n', at + 1)) {
        EXPECT_THAT(refusal_of(text.substr(0, at + 1)),
                    AnyOf(HasSubstr("cut off"), HasSubstr("nothing but comments")));
        ++cuts;
    }
    EXPECT_GT(cuts, 40);
}

TEST(ApplicationSheetForm, RefusesASheetOfNoSite) {
    EXPECT_THAT(refusal_of("work_date: 2026-05-18\n"), HasSubstr("site"));
    EXPECT_THAT(refusal_of("[]\n"), HasSubstr("sheet"));
}

TEST(RecordEntries, HaveTheNamesByWhichPoliciesAskForFields) {
    for (const RecordEntry& entry : record_entries()) {
        const RecordField* field = find_record_field(entry.name);
        if (field == nullptr) continue;
        // Where the text is there the field is given, and the other way round.
        const ApplicationRecord full = test::full_record();
        ApplicationRecord bare = test::bare_record();
        EXPECT_EQ(entry.text(bare).empty(), !field->given(bare)) << entry.name;
        if (entry.text(full).empty()) continue;  // counted from the list of trees
        EXPECT_TRUE(field->given(full)) << entry.name;
        entry.read(bare, entry.text(full));
        EXPECT_TRUE(field->given(bare)) << entry.name;
        EXPECT_EQ(entry.text(bare), entry.text(full)) << entry.name;
    }
}

TEST(RecordEntries, SayEveryTickOfAnAmount) {
    for (const std::int64_t ticks :
         {1LL, 9LL, 123'456'789LL, 295'735'295'625LL, 147'867'647'813LL}) {
        const Amount volume = measure::Volume::from_ticks(ticks);
        EXPECT_EQ(parse_amount(exact_text(volume)), volume) << exact_text(volume);
        const Amount mass = measure::Mass::from_ticks(ticks);
        EXPECT_EQ(parse_amount(exact_text(mass)), mass) << exact_text(mass);
        const auto length = measure::Length::from_ticks(ticks);
        EXPECT_EQ(measure::parse_length(exact_text(length)), length);
        const auto area = measure::Area::from_ticks(ticks);
        EXPECT_EQ(measure::parse_area(exact_text(area)), area);
    }
    EXPECT_EQ(exact_text(Amount{measure::Volume::of("6", measure::units::us_fluid_ounce)}),
              "6 fl oz");
    EXPECT_EQ(exact_text(Amount{measure::Volume::of("72", measure::units::millilitre)}), "72 mL");
}

TEST(RecordEntries, RefuseABareOunceForAnAmount) {
    EXPECT_THROW(parse_amount("6 oz"), InputError);
    EXPECT_THROW(parse_amount("6"), InputError);
    EXPECT_THROW(parse_amount("6 in"), InputError);
}

}  // namespace
}  // namespace ashtriage::treat
