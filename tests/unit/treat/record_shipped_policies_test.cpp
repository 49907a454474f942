// The record policies that come with the program, each held against what is known of its rule.
#include <gmock/gmock.h>

#include "packs/rule_files.hpp"
#include "packs/sources.hpp"
#include "record_example.hpp"
#include "treat/read_record_policies.hpp"

namespace ashtriage::treat {
namespace {

const RecordPolicies& shipped() {
    static const RecordPolicies policies = [] {
        const auto files = packs::built_in_rule_files();
        packs::Problems problems;
        const auto sources = packs::read_sources(files, problems);
        problems.throw_if_any();
        return read_record_policies(files, sources);
    }();
    return policies;
}

std::optional<int> number(const std::optional<SourcedNumber>& sourced) {
    return sourced ? std::optional(sourced->number) : std::nullopt;
}

struct Rule {
    const char* key;
    std::optional<int> written;
    int kept;
    std::optional<int> copy;
};

TEST(ShippedRecordPolicies, HaveTheDaysAndYearsOfTheirRules) {
    const Rule rules[] = {
        // Minnesota Stat. 18B.37 (2015): within 5 days; how long it is kept is from memory.
        {"minnesota", 5, 5, std::nullopt},
        // Wisconsin ATCP 29.21: on the same day, two years.
        {"wisconsin", 0, 2, std::nullopt},
        // Texas 4 TAC 7.33 and chapter 7: two years.
        {"texas", std::nullopt, 2, std::nullopt},
        {"texas-structural", std::nullopt, 2, std::nullopt},
        // South Dakota checklist: at the end of each day, three years, copy within 30 days.
        {"south-dakota", 0, 3, 30},
        // Maryland COMAR 15.05.01.07: two years.
        {"maryland", std::nullopt, 2, std::nullopt},
        // 40 CFR 171.303 and 7 U.S.C. 136i-1: two years, copy within 30 days.
        {"united-states-commercial", std::nullopt, 2, 30},
        {"united-states-statute", std::nullopt, 2, 30},
        {"strictest", 0, 5, 30},
    };
    EXPECT_EQ(shipped().policies.size(), std::size(rules));
    for (const Rule& rule : rules) {
        const RecordPolicy& policy = shipped().policy(rule.key);
        EXPECT_EQ(number(policy.written_within_days), rule.written) << rule.key;
        EXPECT_EQ(number(policy.kept_years), rule.kept) << rule.key;
        EXPECT_EQ(number(policy.customer_copy_within_days), rule.copy) << rule.key;
    }
    EXPECT_THAT(shipped().remind_after_days, testing::ElementsAre(0, 5, 14, 30));
}

TEST(ShippedRecordPolicies, AreForTheProductsThatTheirRulesAreFor) {
    EXPECT_EQ(shipped().policy("maryland").applies_to, ForProducts::all);
    EXPECT_EQ(shipped().policy("united-states-statute").applies_to, ForProducts::restricted_use);
    EXPECT_EQ(shipped().policy("united-states-commercial").applies_to, ForProducts::restricted_use);
    EXPECT_EQ(shipped().policy("south-dakota").customer_copy_for, ForProducts::restricted_use);
    EXPECT_EQ(shipped().strictest().applies_to, ForProducts::all);
    EXPECT_EQ(shipped().strictest().customer_copy_for, ForProducts::all);
}

TEST(ShippedRecordPolicies, LackNothingInAFullRecordAndMuchInABareOne) {
    for (const RecordPolicy& policy : shipped().policies) {
        EXPECT_THAT(missing_in(test::full_record(), policy), testing::IsEmpty()) << policy.key;
        EXPECT_GE(missing_in(test::bare_record(), policy).size(), 3U) << policy.key;
    }
}

bool lacks(const ApplicationRecord& record, std::string_view policy, std::string_view name) {
    for (const MissingFields& missing : missing_in(record, shipped().policy(policy))) {
        for (const RecordField* field : missing.fields) {
            if (field->name == name) return true;
        }
    }
    return false;
}

// What sets the rules apart, each field as its text asks for it.
TEST(ShippedRecordPolicies, AskForWhatSetsEachRuleApart) {
    const ApplicationRecord bare = test::bare_record();
    EXPECT_TRUE(lacks(bare, "minnesota", "end_time"));
    EXPECT_FALSE(lacks(bare, "minnesota", "start_time"));
    EXPECT_TRUE(lacks(bare, "minnesota", "wind_direction"));
    EXPECT_TRUE(lacks(bare, "minnesota", "firm_address"));
    EXPECT_TRUE(lacks(bare, "wisconsin", "start_time"));
    EXPECT_TRUE(lacks(bare, "wisconsin", "mix_load_place"));
    EXPECT_FALSE(lacks(bare, "wisconsin", "wind_speed"));
    EXPECT_TRUE(lacks(bare, "texas", "permit_number"));
    EXPECT_TRUE(lacks(bare, "texas", "air_temperature"));
    EXPECT_FALSE(lacks(bare, "texas", "end_time"));
    EXPECT_TRUE(lacks(bare, "texas-structural", "supervisor_license"));
    EXPECT_TRUE(lacks(bare, "south-dakota", "label_company"));
    EXPECT_TRUE(lacks(bare, "south-dakota", "target_pest"));
    EXPECT_TRUE(lacks(bare, "maryland", "applicator_address"));
    EXPECT_TRUE(lacks(bare, "maryland", "number_of_trees"));
    EXPECT_TRUE(lacks(bare, "united-states-commercial", "start_time"));
    EXPECT_TRUE(lacks(bare, "united-states-commercial", "customer_address"));
    EXPECT_FALSE(lacks(bare, "united-states-statute", "registration_number"));
}

// Wisconsin ATCP 29.21: concentration and total, or amount per unit and area.
TEST(ShippedRecordPolicies, LetWisconsinHaveEitherOfTwoWaysToTellTheAmount) {
    ApplicationRecord record = test::full_record();
    record.rate.reset();
    record.extent.reset();
    EXPECT_FALSE(lacks(record, "wisconsin", "rate"));
    record.total_product.reset();
    EXPECT_TRUE(lacks(record, "wisconsin", "total_product"));
}

TEST(ShippedRecordPolicies, SayThatNobodyHasHeldThemAgainstTheRulesInForce) {
    for (const RecordPolicy& policy : shipped().policies) {
        EXPECT_NE(age_note(policy, measure::parse_date("2026-05-18")), "") << policy.key;
    }
}

// 7 CFR Part 110 was rescinded in 2025 (90 FR 20083): a file that names it is refused as a whole,
// and the shipped one says nothing of it.
TEST(ShippedRecordPolicies, DoNotPresentARescindedRule) {
    const auto files = packs::built_in_rule_files();
    const packs::RuleFile* file = packs::find_rule_file(files, "records.yaml");
    ASSERT_NE(file, nullptr);
    EXPECT_EQ(file->text.find("110.3"), std::string::npos);
    EXPECT_EQ(file->text.find("7 CFR"), std::string::npos);
}

}  // namespace
}  // namespace ashtriage::treat
