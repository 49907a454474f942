#include "packs/value_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "measure/input_error.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {
namespace {

using measure::InputError;
using reason::Fact;
using reason::FactKind;
using reason::Interval;
using reason::Value;
using reason::WhyUnknown;
using testing::HasSubstr;

struct TestFact {
    Fact fact;
    FactText text;

    Value parse(std::string_view written) const { return parse_value(fact, text, written); }
    std::string write(const Value& value) const { return value_text(fact, text, value); }
};

TestFact number_fact(std::string name, std::string unit, double low, double high) {
    TestFact result;
    result.fact.name = std::move(name);
    result.fact.kind = FactKind::number;
    result.fact.range = Interval::closed(low, high);
    result.text.unit = std::move(unit);
    return result;
}

TestFact level_fact(FactKind kind, std::vector<std::string> levels) {
    TestFact result;
    result.fact.name = "woodpecker_damage";
    result.fact.kind = kind;
    result.fact.levels = std::move(levels);
    return result;
}

const TestFact loss = number_fact("canopy_loss", "percent", 0, 100);
const TestFact dbh = number_fact("dbh", "inches", 0.5, 120);
const TestFact height = number_fact("tree_height", "feet", 3, 200);
const TestFact holes = number_fact("exit_holes", "count", 0, 1000);
const TestFact lean = number_fact("lean", "degrees", 0, 90);
const TestFact reach = number_fact("target_distance_in_heights", "tree_heights", 0, 20);
const TestFact distance = number_fact("infestation_distance", "miles", 0, 3000);
const TestFact damage = level_fact(FactKind::ordered, {"none", "light", "heavy"});
const TestFact shape = level_fact(FactKind::choice, {"round", "d_shaped", "not_clear"});
const TestFact dead = level_fact(FactKind::yes_no, reason::yes_no_levels());

TEST(ParseValue, ReadsNumbersWithAndWithoutTheirUnit) {
    for (const char* text : {"35", "35%", "35 %", " 35 percent ", "35.0", "35 Per cent"}) {
        EXPECT_EQ(loss.parse(text), Value::number(35)) << text;
    }
    for (const char* text : {"14", "14in", "14 in", "14 inches", "14\"", "14 Inch"}) {
        EXPECT_EQ(dbh.parse(text), Value::number(14)) << text;
    }
    EXPECT_EQ(lean.parse("40 degrees"), Value::number(40));
    EXPECT_EQ(lean.parse("40°"), Value::number(40));
    EXPECT_EQ(reach.parse("1.5 tree heights"), Value::number(1.5));
    EXPECT_EQ(reach.parse("1 tree height"), Value::number(1));
    EXPECT_EQ(holes.parse("0"), Value::number(0));
}

// NIST SP 811: 1 in = 2.54 cm, 1 ft = 12 in, 1 mi = 1.609344 km, exactly.
TEST(ParseValue, ConvertsOtherUnitsOfLength) {
    EXPECT_EQ(dbh.parse("25.4 cm"), Value::number(10));
    EXPECT_EQ(dbh.parse("254 mm"), Value::number(10));
    EXPECT_EQ(dbh.parse("1'2\""), Value::number(14));
    EXPECT_EQ(dbh.parse("14 1/2 in"), Value::number(14.5));
    EXPECT_NEAR(dbh.parse("36 cm").interval()->low, 36 / 2.54, 1e-9);
    EXPECT_EQ(height.parse("36 in"), Value::number(3));
    EXPECT_EQ(distance.parse("1.609344 km"), Value::number(1));
    EXPECT_EQ(dbh.parse("25.4-50.8 cm"), Value::range(Interval::closed(10, 20)));
    EXPECT_EQ(dbh.parse("1 ft to 20 in"), Value::range(Interval::closed(12, 20)));
}

TEST(ParseValue, ReadsRanges) {
    const Value expected = Value::range(Interval::closed(20, 30));
    for (const char* text : {"20-30", "20 - 30", "20 to 30", "20 TO 30 %", "20-30 %", "20 % - 30 %",
                             "20–30", "20% to 30%"}) {
        EXPECT_EQ(loss.parse(text), expected) << text;
    }
    EXPECT_EQ(loss.parse("20-20"), Value::number(20));
}

TEST(ParseValue, ReadsOpenStretches) {
    for (const char* text : {"over 50", ">50", "> 50 %", "above 50", "more than 50%"}) {
        EXPECT_EQ(loss.parse(text), Value::range({50, 100, true, false})) << text;
    }
    for (const char* text : {"under 50", "<50", "below 50 %", "less than 50"}) {
        EXPECT_EQ(loss.parse(text), Value::range({0, 50, false, true})) << text;
    }
    for (const char* text : {"at least 50", ">=50", "≥ 50"}) {
        EXPECT_EQ(loss.parse(text), Value::range({50, 100, false, false})) << text;
    }
    for (const char* text : {"at most 50", "<=50", "up to 50"}) {
        EXPECT_EQ(loss.parse(text), Value::range({0, 50, false, false})) << text;
    }
    EXPECT_EQ(loss.parse("over 20 to under 30 %"), Value::range({20, 30, true, true}));
}

TEST(ParseValue, ReadsLevelsWhateverTheirSpelling) {
    EXPECT_EQ(damage.parse("Light"), Value::level(1));
    EXPECT_EQ(shape.parse("D-shaped"), Value::level(1));
    EXPECT_EQ(shape.parse("d shaped"), Value::level(1));
    EXPECT_EQ(shape.parse("not clear"), Value::level(2));
    EXPECT_EQ(damage.parse("light or heavy"), Value::levels(0b110));
    EXPECT_EQ(damage.parse("none, light or heavy"), Value::levels(0b111));
    EXPECT_EQ(dead.parse("yes"), Value::yes());
    EXPECT_EQ(dead.parse("Y"), Value::yes());
    EXPECT_EQ(dead.parse("n"), Value::no());
    EXPECT_EQ(dead.parse("yes or no"), Value::levels(0b11));
}

TEST(ParseValue, KeepsTheThreeWaysOfNotKnowingApart) {
    for (const TestFact* fact : {&loss, &damage, &dead}) {
        EXPECT_EQ(fact->parse("unknown"), Value::unknown(WhyUnknown::not_asked));
        EXPECT_EQ(fact->parse("Not asked"), Value::unknown(WhyUnknown::not_asked));
        EXPECT_EQ(fact->parse("could_not_see"), Value::unknown(WhyUnknown::could_not_see));
    }
    TestFact may_be_absent = loss;
    may_be_absent.fact.may_not_apply = true;
    EXPECT_EQ(may_be_absent.parse("does not apply"), Value::not_applicable());
    EXPECT_EQ(may_be_absent.parse("N/A"), Value::not_applicable());
}

void expect_refused(const TestFact& fact, std::string_view text) {
    try {
        fact.parse(text);
        ADD_FAILURE() << "'" << text << "' was accepted for " << fact.fact.name;
    } catch (const InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr(plain_name(fact.fact.name))) << text;
        EXPECT_FALSE(error.hint().empty()) << error.what();
        EXPECT_TRUE(error.where().empty()) << error.where();
    }
}

// Every tree has a crown: not to know its loss is something else.
TEST(ParseValue, RefusesDoesNotApplyOfWhatAppliesToEveryTree) {
    for (const TestFact* fact : {&loss, &damage, &dead}) {
        expect_refused(*fact, "does not apply");
        expect_refused(*fact, "n/a");
    }
}

TEST(ParseValue, RefusesWhatIsNoPlainNumberInTheRange) {
    for (const char* text : {"nan",      "NaN",
                             ".nan",     "inf",
                             "-inf",     "infinity",
                             "-1",       "-0.001",
                             "101",      "101 %",
                             "100.001",  "010",
                             "0x1F",     "1e1",
                             "1,5",      "5 5",
                             "",         "   ",
                             "-",        "--5",
                             "20-",      "-20-30",
                             "30-20",    "20-101",
                             "over 100", "under 0",
                             "over 101", "35 in",
                             "35 cm",    "half",
                             "~30",      "30 or 40",
                             "20-30-40", "> >5",
                             "5 %%",     "to",
                             "1/2",      "999999999999999999999999999999"}) {
        expect_refused(loss, text);
    }
    expect_refused(loss, std::string(1'000'000, '9'));
}

TEST(ParseValue, RefusesUnitsThatMeasureSomethingElse) {
    for (const char* text :
         {"14 %", "14 gal", "14 kg", "14 degrees", "14 oz", "14 in in", "0.4", "121", "11 ft"}) {
        expect_refused(dbh, text);
    }
    expect_refused(lean, "10 ft");
    expect_refused(holes, "10 in");
}

TEST(ParseValue, RefusesAFractionOfACount) {
    expect_refused(holes, "2.5");
    expect_refused(holes, "2 to 3.5");
    EXPECT_EQ(holes.parse("2 to 3"), Value::range(Interval::closed(2, 3)));
}

TEST(ParseValue, NeverTakesAGirthForADiameter) {
    for (const char* text : {"44 in girth", "girth 44 in", "44 in circumference", "44 in around"}) {
        expect_refused(dbh, text);
        try {
            dbh.parse(text);
        } catch (const InputError& error) {
            EXPECT_THAT(error.what(), HasSubstr("girth, which is never taken for a diameter"));
        }
    }
}

TEST(ParseValue, RefusesUnknownLevelsWithTheNearest) {
    for (const char* text : {"lots", "2", "light or", "or", ",", "light,", "light heavy", "true"}) {
        expect_refused(damage, text);
    }
    for (const char* text : {"true", "1", "maybe", "ja"}) expect_refused(dead, text);
    try {
        damage.parse("hevy");
    } catch (const InputError& error) {
        EXPECT_EQ(
            std::string(error.what()),
            "woodpecker damage: 'hevy' is not one of its values; expected none, light or heavy");
        EXPECT_EQ(error.hint(), "did you mean 'heavy'?");
    }
}

TEST(ParseValue, SaysWhatIsExpected) {
    try {
        loss.parse("101 %");
        FAIL();
    } catch (const InputError& error) {
        EXPECT_EQ(
            std::string(error.what()),
            "canopy loss: '101 %' is outside what makes sense; expected a number from 0 to 100 %");
        EXPECT_THAT(error.hint(), HasSubstr("could not see"));
    }
}

TEST(ValueText, ReadsLikeASheet) {
    EXPECT_EQ(loss.write(Value::number(35)), "35 %");
    EXPECT_EQ(loss.write(Value::range(Interval::closed(20, 30.5))), "20 to 30.5 %");
    EXPECT_EQ(loss.write(Value::range({50, 100, true, false})), "over 50 %");
    EXPECT_EQ(loss.write(Value::range({0, 50, false, true})), "under 50 %");
    EXPECT_EQ(dbh.write(Value::number(14.25)), "14.25 in");
    EXPECT_EQ(holes.write(Value::number(2)), "2");
    EXPECT_EQ(reach.write(Value::number(1)), "1 tree height");
    EXPECT_EQ(reach.write(Value::number(1.5)), "1.5 tree heights");
    EXPECT_EQ(shape.write(Value::level(1)), "d shaped");
    EXPECT_EQ(damage.write(Value::levels(0b110)), "light or heavy");
    EXPECT_EQ(dead.write(Value::yes()), "yes");
    EXPECT_EQ(dead.write(Value()), "not asked");
    EXPECT_EQ(dead.write(Value::unknown(WhyUnknown::could_not_see)), "could not see");
    EXPECT_EQ(dead.write(Value::not_applicable()), "does not apply");
}

// Whatever value is written out is read back as the same value.
TEST(ValueText, RoundTripsThroughParseValue) {
    std::mt19937_64 random(20260518);
    const auto chance = [&] { return std::uniform_real_distribution<double>(0, 1)(random); };
    for (const TestFact* fact : {&loss, &dbh, &height, &lean, &reach, &distance, &holes}) {
        const Interval& range = fact->fact.range;
        for (int i = 0; i < 2000; ++i) {
            const auto number = [&] {
                double value = range.low + (range.high - range.low) * chance();
                if (fact == &holes || chance() < 0.3) value = std::floor(value);
                if (chance() < 0.1) value = range.low;
                if (chance() < 0.1) value = range.high;
                return std::clamp(value, range.low, range.high);
            };
            const double a = number();
            const double b = number();
            Interval stretch{std::min(a, b), std::max(a, b), chance() < 0.4, chance() < 0.4};
            if (stretch.empty() || chance() < 0.2) stretch = Interval::point(a);
            const Value value = Value::range(stretch);
            ASSERT_EQ(fact->parse(fact->write(value)), value) << fact->write(value);
        }
    }
    for (const TestFact* fact : {&damage, &shape, &dead}) {
        for (reason::LevelSet set = 1; set <= reason::all_levels(fact->fact.levels.size()); ++set) {
            EXPECT_EQ(fact->parse(fact->write(Value::levels(set))), Value::levels(set));
        }
    }
}

}  // namespace
}  // namespace ashtriage::packs
