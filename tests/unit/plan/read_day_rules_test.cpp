#include "plan/read_day_rules.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "built_in_methods.hpp"
#include "packs/bad_file.hpp"

namespace ashtriage::plan {
namespace {

using test::built_in;
using testing::HasSubstr;

const std::string good =
    "day: day-rules\n"
    "edition: x\n"
    "list:\n"
    "  spray:\n"
    "    title: Spray\n"
    "    methods: [a, b]\n"
    "    wind: {from: 2 mph, below: check, to: 10 mph, above: no-go, says: W, source: policy}\n"
    "    rain: {free_hours: 6, otherwise: no-go, says: R, source: policy}\n";

std::vector<DayRules> read(const std::string& text) {
    return read_day_rules({{"day_rules.yaml", text, {}}}, built_in().rules.sources, {"a", "b"});
}

std::string complaint(std::string text, const std::string& replaced, const std::string& by) {
    const std::size_t place = text.find(replaced);
    if (place == std::string::npos) return "the text to replace is not there";
    text.replace(place, replaced.size(), by);
    try {
        read(text);
    } catch (const packs::BadFile& error) {
        return error.what();
    }
    return "no complaint";
}

TEST(ReadDayRules, ReadsLimitsWithTheirUnitsAndSources) {
    const auto rules = read(good);
    ASSERT_EQ(rules.size(), 1U);
    EXPECT_EQ(rules[0].wind->to, measure::Speed::of("10", measure::units::mile_per_hour));
    EXPECT_EQ(rules[0].wind->below, DayAnswer::check);
    EXPECT_EQ(rules[0].rain->free_hours, 6);
    EXPECT_EQ(rules[0].rain->need.because.sources, std::vector<std::string>{"policy"});
    EXPECT_FALSE(rules[0].temperature);
}

TEST(ReadDayRules, EveryMethodOfTheProgramHasItsRules) {
    std::vector<std::string> methods;
    for (const MethodFacts& method : built_in().methods) methods.push_back(method.method);
    const auto rules =
        read_day_rules(packs::built_in_rule_files(), built_in().rules.sources, methods);
    for (const std::string& method : methods) {
        EXPECT_NO_THROW(static_cast<void>(day_rules_for(rules, method))) << method;
    }
    EXPECT_THROW(static_cast<void>(day_rules_for(rules, "painting")), measure::InputError);
}

TEST(ReadDayRules, RefusesARuleThatLetsADayThroughThatDoesNotKeepIt) {
    EXPECT_THAT(complaint(good, "otherwise: no-go", "otherwise: go"), HasSubstr("'go'"));
}

TEST(ReadDayRules, RefusesWhatIsMissingTurnedRoundOrUnknown) {
    EXPECT_THAT(complaint(good, "to: 10 mph", "to: 1 mph"), HasSubstr("no room"));
    EXPECT_THAT(complaint(good, "to: 10 mph", "to: 10"), HasSubstr("'to'"));
    EXPECT_THAT(complaint(good, "free_hours: 6", "free_hours: 1.5"), HasSubstr("whole hours"));
    EXPECT_THAT(complaint(good, "[a, b]", "[a]"), HasSubstr("'b'"));
    EXPECT_THAT(complaint(good, "[a, b]", "[a, b, c]"), HasSubstr("no method 'c'"));
    EXPECT_THAT(complaint(good, "[a, b]", "[a, b, a]"), HasSubstr("two kinds"));
    EXPECT_THAT(complaint(good, "source: policy}\n    rain", "source: nobody}\n    rain"),
                HasSubstr("nobody"));
    EXPECT_THAT(complaint(good, "rain:", "rein:"), HasSubstr("rein"));
    EXPECT_THAT(complaint(good, "day: day-rules", "day: night"), HasSubstr("night"));
}

TEST(ReadDayRules, RefusesARulesFolderWithoutTheFile) {
    EXPECT_THROW(read_day_rules({}, {}, {}), measure::InputError);
}

}  // namespace
}  // namespace ashtriage::plan
