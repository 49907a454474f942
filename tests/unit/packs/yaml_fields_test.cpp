#include "packs/yaml_fields.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/date.hpp"
#include "packs/bad_file.hpp"

namespace ashtriage::packs {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

class YamlFields : public testing::Test {
 protected:
    // Fields of the mapping that `text` is.
    Fields fields_of(std::string_view text) {
        node_ = read_yaml(text, "f.yaml", problems_);
        return Fields(node_, "the thing", YamlSource{"f.yaml", problems_});
    }

    // The ids of all problems so far.
    std::vector<std::string> ids() const {
        std::vector<std::string> result;
        for (const Problem& problem : problems_.list()) result.push_back(problem.id);
        return result;
    }

    Node node_;
    Problems problems_;
};

TEST_F(YamlFields, ReadsEachKindOfValue) {
    Fields fields = fields_of(
        "name: Ash\nsize: 14.5\nopen: yes\nshut: no\nkind: b\nlist: [x, y]\nday: 2026-05-18\nlong: "
        "|\n  two\n  lines\n");
    EXPECT_EQ(fields.text("name"), "Ash");
    EXPECT_EQ(fields.number("size", {0, 20}), 14.5);
    EXPECT_TRUE(fields.yes_no("open"));
    EXPECT_FALSE(fields.yes_no("shut"));
    EXPECT_EQ(fields.choice("kind", {"a", "b"}), 1U);
    EXPECT_THAT(fields.texts("list"), ElementsAre("x", "y"));
    EXPECT_THAT(fields.texts("name"), ElementsAre("Ash"));
    const auto day = fields.parsed("day", measure::parse_date);
    ASSERT_TRUE(day.has_value());
    EXPECT_EQ(static_cast<unsigned>(day->month()), 5U);
    EXPECT_EQ(fields.text("long"), "two\nlines");
    fields.refuse_others();
    EXPECT_TRUE(problems_.empty()) << problems_.text();
}

TEST_F(YamlFields, MissingOptionalFieldsReadAsTheFallback) {
    Fields fields = fields_of("a: 1\n");
    EXPECT_EQ(fields.text_or("name", "none"), "none");
    EXPECT_EQ(fields.number_or("size", 7.0), 7.0);
    EXPECT_TRUE(fields.yes_no_or("open", true));
    EXPECT_EQ(fields.choice_or("kind", {"a", "b"}, 1), 1U);
    EXPECT_TRUE(fields.texts_or_none("list").empty());
    EXPECT_EQ(fields.mapping_or_null("map"), nullptr);
    EXPECT_EQ(fields.list_or_null("list"), nullptr);
    EXPECT_FALSE(fields.parsed_if_present("day", measure::parse_date).has_value());
    EXPECT_TRUE(problems_.empty()) << problems_.text();
}

TEST_F(YamlFields, AMissingRequiredFieldIsReportedOnceAtTheMapping) {
    Fields fields = fields_of("\n  a: 1\n");
    fields.text("name");
    ASSERT_THAT(ids(), ElementsAre("missing-key"));
    EXPECT_EQ(problems_.list()[0].place, (Place{2, 3}));
    EXPECT_EQ(problems_.list()[0].message, "the thing has no 'name'");
}

TEST_F(YamlFields, AnUnknownKeyIsReportedAtItsPlaceWithTheNearestKnown) {
    Fields fields = fields_of("name: Ash\nsizee: 3\n");
    fields.text("name");
    fields.number_or("size", 0);
    fields.refuse_others();
    ASSERT_THAT(ids(), ElementsAre("unknown-key"));
    EXPECT_EQ(problems_.list()[0].place, (Place{2, 1}));
    EXPECT_EQ(problems_.list()[0].hint, "did you mean 'size'?");
}

TEST_F(YamlFields, WhatIsNoMappingIsReportedOnce) {
    Fields fields = fields_of("- a\n");
    fields.text("name");
    fields.number("size");
    fields.refuse_others();
    EXPECT_THAT(ids(), ElementsAre("wrong-kind"));
    EXPECT_FALSE(fields.is_mapping());
}

TEST_F(YamlFields, NumbersAreReadStrictly) {
    for (const char* text : {"010", "0x1F", "1e3", "1,5", ".nan", ".inf", "-.inf", "NaN", "five",
                             "1 2", "+1", "1_000", "0o7"}) {
        Problems problems;
        const Node node = read_yaml("n: '" + std::string(text) + "'\n", "f", problems);
        EXPECT_FALSE(read_number(*node.find("n"), "'n'", {"f", problems}).has_value()) << text;
        ASSERT_EQ(problems.size(), 1U) << text;
        EXPECT_EQ(problems.list()[0].id, "not-a-number") << text;
        EXPECT_FALSE(problems.list()[0].hint.empty()) << text;
    }
}

TEST_F(YamlFields, BoundsBelongToTheRange) {
    Fields fields = fields_of("low: 0\nhigh: 100\nunder: -0.001\nover: 100.001\n");
    EXPECT_EQ(fields.number("low", {0, 100}), 0.0);
    EXPECT_EQ(fields.number("high", {0, 100}), 100.0);
    EXPECT_TRUE(problems_.empty());
    fields.number("under", {0, 100});
    fields.number("over", {0, 100});
    EXPECT_THAT(ids(), ElementsAre("out-of-range", "out-of-range"));
    EXPECT_THAT(problems_.list()[1].message,
                HasSubstr("'over' of the thing is 100.001; expected a number from 0 to 100"));
}

TEST_F(YamlFields, YesAndNoAreTheOnlySwitchWords) {
    for (const char* text : {"true", "false", "Yes", "NO", "on", "off", "y", "1"}) {
        Problems problems;
        const Node node = read_yaml("n: " + std::string(text) + "\n", "f", problems);
        EXPECT_FALSE(read_yes_no(*node.find("n"), "'n'", {"f", problems}).has_value()) << text;
        ASSERT_EQ(problems.size(), 1U) << text;
        EXPECT_EQ(problems.list()[0].id, "not-yes-no") << text;
    }
}

TEST_F(YamlFields, EmptyValuesAndWrongKindsAreReported) {
    Fields fields = fields_of("a:\nb: ' '\nc: [1]\nd: {x: 1}\ne: 5\nf: []\ng: [x, '']\n");
    fields.text("a");
    fields.number("b");
    fields.text("c");
    fields.texts("d");
    fields.mapping("e");
    fields.texts("f");
    fields.texts("g");
    EXPECT_THAT(ids(), ElementsAre("empty-value", "empty-value", "wrong-kind", "wrong-kind",
                                   "wrong-kind", "empty-value", "empty-value"));
}

TEST_F(YamlFields, AnUnknownChoiceNamesTheNearest) {
    Fields fields = fields_of("kind: ordred\n");
    fields.choice("kind", {"number", "ordered"});
    ASSERT_THAT(ids(), ElementsAre("unknown-value"));
    EXPECT_EQ(problems_.list()[0].hint, "did you mean 'ordered'?");
}

TEST_F(YamlFields, AParserOfItsOwnReportsAtTheField) {
    Fields fields = fields_of("day: 2026-02-30\n");
    EXPECT_FALSE(fields.parsed("day", measure::parse_date).has_value());
    ASSERT_THAT(ids(), ElementsAre("bad-value"));
    EXPECT_EQ(problems_.list()[0].place, (Place{1, 6}));
}

}  // namespace
}  // namespace ashtriage::packs
