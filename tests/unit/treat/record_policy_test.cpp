// What a record still lacks, by when it is due, and what is called to mind.
#include "treat/record_policy.hpp"

#include <gmock/gmock.h>

#include "measure/input_error.hpp"
#include "packs/bad_file.hpp"
#include "record_example.hpp"
#include "record_policy_text.hpp"

namespace ashtriage::treat {
namespace {

using measure::InputError;
using test::bare_record;
using test::changed;
using test::full_record;
using test::policies_of;
using test::two_policies;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

measure::Date day(std::string_view text) {
    return measure::parse_date(text);
}

std::vector<std::string> names_of(const std::vector<MissingFields>& missing) {
    std::vector<std::string> names;
    for (const MissingFields& each : missing) {
        for (const RecordField* field : each.fields) names.emplace_back(field->name);
    }
    return names;
}

class RecordPolicyTest : public testing::Test {
 protected:
    std::vector<Duty> duties_of(const ApplicationRecord& record, const RecordPolicy& policy) const {
        return duties(std::span(&record, 1), policy, policies);
    }
    std::vector<Reminder> reminders_of(const ApplicationRecord& record, const RecordPolicy& policy,
                                       std::string_view as_of) const {
        return reminders(std::span(&record, 1), policy, policies, day(as_of));
    }

    RecordPolicies policies = policies_of(two_policies);
    const RecordPolicy& strictest = policies.strictest();
    const RecordPolicy& lenient = policies.policy("lenient");
};

TEST_F(RecordPolicyTest, IsReadWithEveryEntry) {
    EXPECT_EQ(policies.edition, "test");
    EXPECT_THAT(policies.remind_after_days, ElementsAre(0, 5, 14, 30));
    EXPECT_EQ(lenient.jurisdiction, "Invented State");
    EXPECT_EQ(lenient.applies_to, ForProducts::restricted_use);
    EXPECT_EQ(lenient.written_within_days->number, 7);
    EXPECT_THAT(lenient.written_within_days->sources, ElementsAre("test-source"));
    EXPECT_FALSE(lenient.kept_years);
    EXPECT_EQ(lenient.customer_copy_within_days->number, 40);
    EXPECT_EQ(lenient.customer_copy_for, ForProducts::restricted_use);
    ASSERT_EQ(lenient.required.size(), 2U);
    EXPECT_EQ(lenient.required[1].either.size(), 2U);
    EXPECT_FALSE(lenient.checked_on);
    EXPECT_EQ(strictest.checked_on, day("2026-01-15"));
}

TEST_F(RecordPolicyTest, IsNamedByTheNearestKeyWhenMisspelt) {
    try {
        policies.policy("leniant");
        FAIL() << "nothing was refused";
    } catch (const InputError& error) {
        EXPECT_THAT(error.hint(), HasSubstr("lenient"));
    }
}

TEST_F(RecordPolicyTest, FindsNothingMissingInAFullRecord) {
    EXPECT_THAT(missing_in(full_record(), strictest), IsEmpty());
    EXPECT_THAT(missing_in(full_record(), lenient), IsEmpty());
}

TEST_F(RecordPolicyTest, FindsWhatABareRecordLacks) {
    EXPECT_THAT(names_of(missing_in(bare_record(), strictest)),
                ElementsAre("product_name", "wind_speed", "dilution", "total_product", "rate",
                            "area", "assistants"));
}

TEST_F(RecordPolicyTest, TakesWhatIsSaidNotToApplyAsSettled) {
    ApplicationRecord record = full_record();
    record.assistants.clear();
    EXPECT_THAT(names_of(missing_in(record, strictest)), ElementsAre("assistants"));
    record.does_not_apply = {"assistants"};
    EXPECT_THAT(missing_in(record, strictest), IsEmpty());
}

TEST_F(RecordPolicyTest, TakesOneOfTwoListsAsEnough) {
    ApplicationRecord record = full_record();
    record.dilution.reset();
    EXPECT_THAT(missing_in(record, lenient), IsEmpty());
    record.extent.reset();
    const auto missing = missing_in(record, lenient);
    ASSERT_EQ(missing.size(), 1U);
    EXPECT_THAT(names_of(missing), ElementsAre("dilution"));
    EXPECT_EQ(missing[0].words,
              "either product and water of the dilution and the total of the undiluted product, "
              "or the rate as the label gives it and the treated area with its unit");
    record.total_product.reset();
    EXPECT_THAT(names_of(missing_in(record, lenient)), ElementsAre("area"));
}

TEST_F(RecordPolicyTest, TakesOneOfSeveralFieldsForToldOnlyWhenOneIs) {
    const RecordPolicies choice = policies_of(
        changed(two_policies, "[[dilution, total_product], [rate, area]]", "[[dilution], [area]]"));
    ApplicationRecord record = bare_record();
    record.product_name = "Invented Product";
    record.does_not_apply = {"dilution", "area"};
    EXPECT_THAT(names_of(missing_in(record, choice.policy("lenient"))), ElementsAre("dilution"));
    record.does_not_apply = {"dilution"};
    record.extent = full_record().extent;
    EXPECT_THAT(missing_in(record, choice.policy("lenient")), IsEmpty());
}

TEST_F(RecordPolicyTest, AsksNothingForProductsThatItIsNotFor) {
    ApplicationRecord record = bare_record();
    EXPECT_TRUE(applies(lenient, record)) << "not known counts as restricted";
    record.restricted_use = false;
    EXPECT_FALSE(applies(lenient, record));
    EXPECT_THAT(missing_in(record, lenient), IsEmpty());
    EXPECT_THAT(duties_of(record, lenient), IsEmpty());
    EXPECT_TRUE(applies(strictest, record));
    record.restricted_use = true;
    EXPECT_TRUE(applies(lenient, record));
}

TEST_F(RecordPolicyTest, SaysByWhenWhatIsDue) {
    ApplicationRecord record = full_record();  // work and writing 2026-05-18, copy 2026-05-20
    record.restricted_use = true;
    const auto due = duties_of(record, lenient);
    ASSERT_EQ(due.size(), 3U);
    EXPECT_EQ(due[0].kind, DutyKind::write_down);
    EXPECT_EQ(due[0].due, day("2026-05-25"));
    EXPECT_EQ(due[0].done_on, day("2026-05-18"));
    EXPECT_FALSE(due[0].from_strictest);
    EXPECT_EQ(due[1].kind, DutyKind::copy_to_customer);
    EXPECT_EQ(due[1].due, day("2026-06-27"));
    EXPECT_EQ(due[1].done_on, day("2026-05-20"));
    EXPECT_EQ(due[2].kind, DutyKind::keep);
    EXPECT_EQ(due[2].due, day("2031-05-18"));
    EXPECT_TRUE(due[2].from_strictest) << "the policy does not say how long";
}

TEST_F(RecordPolicyTest, CountsTheDayOfTheWorkAsTheSameDay) {
    EXPECT_EQ(duties_of(bare_record(), strictest)[0].due, day("2026-05-18"));
}

TEST_F(RecordPolicyTest, KeepsARecordOfALeapDayRatherTooLong) {
    ApplicationRecord record = bare_record();
    record.work_date = record.written_on = day("2028-02-29");
    EXPECT_EQ(duties_of(record, strictest)[2].due, day("2033-03-01"));
}

TEST_F(RecordPolicyTest, AsksForNoCopyWhereTheRuleAsksForNone) {
    const RecordPolicies all =
        policies_of(changed(two_policies, "applies_to: restricted_use", "applies_to: not known"));
    ApplicationRecord record = full_record();
    record.restricted_use = false;
    const auto due = duties(std::span(&record, 1), all.policy("lenient"), all);
    ASSERT_EQ(due.size(), 2U);
    EXPECT_EQ(due[0].kind, DutyKind::write_down);
    EXPECT_EQ(due[1].kind, DutyKind::keep);
}

TEST_F(RecordPolicyTest, TakesTheFirstVersionThatLacksNothingAsWritten) {
    ApplicationRecord first = full_record();
    first.id = 1;
    first.wind_speed.reset();
    ApplicationRecord second = full_record();
    second.id = 2;
    second.correction = Correction{1, "R. Éxample", day("2026-05-21"), "wind added", false};
    ApplicationRecord third = second;
    third.id = 3;
    third.correction = Correction{2, "R. Éxample", day("2026-06-30"), "typing", false};
    std::vector<ApplicationRecord> versions{first};
    EXPECT_FALSE(duties(versions, strictest, policies)[0].done_on);
    versions.push_back(second);
    EXPECT_EQ(duties(versions, strictest, policies)[0].done_on, day("2026-05-21"));
    versions.push_back(third);
    EXPECT_EQ(duties(versions, strictest, policies)[0].done_on, day("2026-05-21"));
    versions.back().product_name.clear();
    EXPECT_FALSE(duties(versions, strictest, policies)[0].done_on);
}

TEST_F(RecordPolicyTest, AsksNothingForAWithdrawnRecord) {
    ApplicationRecord record = bare_record();
    record.correction = Correction{1, "R. Éxample", day("2026-05-21"), "entered twice", true};
    EXPECT_THAT(duties_of(record, strictest), IsEmpty());
    EXPECT_THAT(reminders_of(record, strictest, "2026-07-01"), IsEmpty());
    EXPECT_THROW(duties({}, strictest, policies), InputError);
}

TEST_F(RecordPolicyTest, RemindsOnTheDaysThatItNames) {
    const ApplicationRecord record = bare_record();  // work 2026-05-18
    EXPECT_THAT(reminders_of(record, strictest, "2026-05-17"), IsEmpty());
    const std::pair<const char*, int> days[] = {
        {"2026-05-18", 0},  {"2026-05-22", 0},  {"2026-05-23", 5},  {"2026-05-31", 5},
        {"2026-06-01", 14}, {"2026-06-16", 14}, {"2026-06-17", 30}, {"2027-06-17", 30}};
    for (const auto& [as_of, expected] : days) {
        const auto open = reminders_of(record, strictest, as_of);
        ASSERT_EQ(open.size(), 2U) << as_of;
        EXPECT_EQ(open[0].duty.kind, DutyKind::write_down);
        EXPECT_EQ(open[0].day, expected) << as_of;
        EXPECT_EQ(open[1].duty.kind, DutyKind::copy_to_customer);
        EXPECT_EQ(open[1].day, expected) << as_of;
    }
}

TEST_F(RecordPolicyTest, CallsADutyOverdueOnTheDayAfterTheLast) {
    const ApplicationRecord record = bare_record();
    EXPECT_FALSE(reminders_of(record, strictest, "2026-05-18")[0].overdue);
    EXPECT_TRUE(reminders_of(record, strictest, "2026-05-19")[0].overdue);
    EXPECT_FALSE(reminders_of(record, strictest, "2026-06-17")[1].overdue);
    EXPECT_TRUE(reminders_of(record, strictest, "2026-06-18")[1].overdue);
}

TEST_F(RecordPolicyTest, RemindsOnlyOfWhatIsOpen) {
    EXPECT_THAT(reminders_of(full_record(), strictest, "2026-07-01"), IsEmpty());
    ApplicationRecord record = full_record();
    record.wind_speed.reset();
    const auto open = reminders_of(record, strictest, "2026-07-01");
    ASSERT_EQ(open.size(), 1U);
    EXPECT_THAT(names_of(open[0].missing), ElementsAre("wind_speed"));
}

TEST_F(RecordPolicyTest, SaysWhenItIsOlderThanAYear) {
    EXPECT_EQ(age_note(strictest, day("2026-01-15")), "");
    EXPECT_EQ(age_note(strictest, day("2027-01-15")), "");
    EXPECT_THAT(age_note(strictest, day("2027-01-16")), HasSubstr("15 January 2026"));
    EXPECT_THAT(age_note(lenient, day("2026-01-15")), HasSubstr("Nobody has held"));
}

TEST(ReadRecordPolicies, RefusesRuleFilesWithoutThem) {
    EXPECT_THROW(read_record_policies({}, {}), InputError);
}

struct Refusal {
    const char* name;
    const char* old;
    const char* replacement;
    const char* id;
};

void PrintTo(const Refusal& refusal, std::ostream* out) {
    *out << refusal.name;
}

class RefusedRecordPolicies : public testing::TestWithParam<Refusal> {};

TEST_P(RefusedRecordPolicies, NameTheProblemAndItsPlace) {
    const Refusal& refusal = GetParam();
    try {
        policies_of(changed(two_policies, refusal.old, refusal.replacement));
        FAIL() << "nothing was refused";
    } catch (const packs::BadFile& bad) {
        ASSERT_EQ(bad.problems().size(), 1U) << bad.what();
        EXPECT_EQ(bad.problems().list()[0].id, refusal.id) << bad.what();
        EXPECT_GT(bad.problems().list()[0].place.line, 0U);
    }
}

const Refusal refusals[] = {
    {"AnotherFile", "application-records", "seasons", "unknown-value"},
    {"UnknownField", "wind_speed,", "wind_sped,", "unknown-field"},
    {"UnknownFieldInAChoice", "[rate, area]]", "[rate, aera]]", "unknown-field"},
    {"ChoiceOfOne", "[[dilution, total_product], [rate, area]]", "[[dilution]]", "no-choice"},
    {"ChoiceOfNone", "[[dilution, total_product], [rate, area]]", "[]", "no-choice"},
    {"ChoiceIsText", "[[dilution, total_product], [rate, area]]", "dilution", "wrong-kind"},
    {"UnknownKey", "kept: not known", "kept: not known\n    keept: 3", "unknown-key"},
    {"NoKept", "    kept: not known\n", "", "missing-key"},
    {"KeptIsText", "kept: not known", "kept: unknown", "unknown-value"},
    {"HalfADay", "within_days: 7", "within_days: 7.5", "not-a-whole-number"},
    {"BelowZero", "within_days: 7", "within_days: -1", "out-of-range"},
    {"NoSource", "{within_days: 7, source: test-source}", "{within_days: 7}", "missing-key"},
    {"UnknownSource", "{within_days: 7, source: test-source}", "{within_days: 7, source: other}",
     "unknown-source"},
    {"CopyForNobody", "for: restricted_use", "for: nobody", "unknown-value"},
    {"DateThatDoesNotExist", "2026-01-15", "2026-02-30", "bad-value"},
    {"DaysDoNotRise", "[0, 5, 14, 30]", "[0, 5, 5, 30]", "days-out-of-order"},
    {"NoStrictest", "  strictest:", "  strict:", "strictest-is-not"},
    {"WrittenSooner", "{within_days: 0,", "{within_days: 8,", "strictest-is-not"},
    {"KeptLonger", "kept: not known", "kept: {years: 6, source: test-source}", "strictest-is-not"},
    {"CopySooner", "within_days: 40", "within_days: 29", "strictest-is-not"},
    {"AsksForMore", "        - product_name\n", "        - lot_number\n", "strictest-is-not"},
    {"AsksForMoreInEveryChoice", "[[dilution, total_product], [rate, area]]",
     "[[dilution, lot_number], [rate, photos]]", "strictest-is-not"},
    {"Rescinded", "Invented State", "United States, 7 CFR 110.3", "rescinded"},
    {"RescindedPart", "Invented too.", "As 7 C.F.R. Part 110 asks.", "rescinded"},
};

INSTANTIATE_TEST_SUITE_P(Each, RefusedRecordPolicies, testing::ValuesIn(refusals),
                         [](const auto& test) { return std::string(test.param.name); });

TEST(ReadRecordPolicies, NamesTheNearestFieldAndKey) {
    const auto hint = [](const char* old, const char* replacement) {
        try {
            policies_of(changed(two_policies, old, replacement));
        } catch (const packs::BadFile& bad) {
            return bad.problems().list()[0].hint;
        }
        return std::string("nothing was refused");
    };
    EXPECT_THAT(hint("wind_speed,", "wind_sped,"), HasSubstr("wind_speed"));
    EXPECT_THAT(hint("    kept: not known\n", "    kept: not known\n    chcked_on: not checked\n"),
                HasSubstr("checked_on"));
}

}  // namespace
}  // namespace ashtriage::treat
