#include "plan/read_method_facts.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "built_in_methods.hpp"
#include "measure/units.hpp"
#include "packs/bad_file.hpp"

namespace ashtriage::plan {
namespace {

using test::built_in;

// The built-in file with one text in it replaced by another.
std::vector<packs::RuleFile> changed(std::string_view old, std::string_view replacement) {
    auto files = packs::built_in_rule_files();
    for (packs::RuleFile& file : files) {
        if (file.name != "method_facts.yaml") continue;
        const std::size_t place = file.text.find(old);
        if (place == std::string::npos) throw std::invalid_argument("nothing to replace");
        file.text.replace(place, old.size(), replacement);
    }
    return files;
}

TEST(ReadMethodFacts, ReadsEveryMethodThatTheRulesCanChooseAndMore) {
    const auto& methods = built_in().methods;
    EXPECT_EQ(methods.size(), 7U);
    const MethodFacts& injection = methods.front();
    EXPECT_EQ(injection.method, "trunk_injection_emamectin");
    EXPECT_TRUE(injection.wounds);
    EXPECT_EQ(injection.interval.from_years, 2);
    EXPECT_EQ(injection.interval.to_years, 3);
    EXPECT_EQ(injection.interval.years(Wave::here), 2);
    EXPECT_EQ(injection.interval.years(Wave::past), 3);
    EXPECT_EQ(injection.interval.years(std::nullopt), 2);
    EXPECT_EQ(built_in().rules.model.tables[injection.fit].name, "fit_trunk_injection_emamectin");
    EXPECT_EQ(injection.evidence.at(0).up_to, measure::Length::of("15", measure::units::inch));
    EXPECT_FALSE(injection.evidence.at(1).up_to);
    EXPECT_FALSE(injection.dates);
}

TEST(ReadMethodFacts, RefusesAMethodWithNeitherDatesNorASeason) {
    season::Seasons seasons = built_in().seasons;
    std::erase_if(seasons.methods, [](const auto& each) { return each.method == "cover_spray"; });
    try {
        read_method_facts(packs::built_in_rule_files(), built_in().rules, seasons);
        FAIL() << "nothing was refused";
    } catch (const packs::BadFile& bad) {
        ASSERT_EQ(bad.problems().size(), 1U) << bad.what();
        EXPECT_EQ(bad.problems().list()[0].id, "dates-and-season");
    }
}

TEST(ReadMethodFacts, GivesASourceForEverythingThatIsSaid) {
    for (const MethodFacts& method : built_in().methods) {
        EXPECT_FALSE(method.interval.words.sources.empty()) << method.method;
        EXPECT_FALSE(method.wound.sources.empty()) << method.method;
        for (const Rate& rate : method.rates) EXPECT_FALSE(rate.sources.empty()) << method.method;
        EXPECT_FALSE(method.evidence.empty()) << method.method;
        for (const Evidence& evidence : method.evidence) {
            EXPECT_FALSE(evidence.words.sources.empty()) << method.method;
        }
    }
}

TEST(ReadMethodFacts, RefusesRuleFilesWithoutThem) {
    EXPECT_THROW(read_method_facts({}, built_in().rules, built_in().seasons), measure::InputError);
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

class RefusedMethods : public testing::TestWithParam<Refusal> {};

TEST_P(RefusedMethods, NamesTheProblemAndItsPlace) {
    const Refusal& refusal = GetParam();
    try {
        read_method_facts(changed(refusal.old, refusal.replacement), built_in().rules,
                          built_in().seasons);
        FAIL() << "nothing was refused";
    } catch (const packs::BadFile& bad) {
        const auto& problems = bad.problems().list();
        const auto found = std::ranges::find(problems, refusal.id, &packs::Problem::id);
        ASSERT_NE(found, problems.end()) << bad.what();
        EXPECT_GT(found->place.line, 1U) << bad.what();
    }
}

INSTANTIATE_TEST_SUITE_P(
    Each, RefusedMethods,
    testing::Values(
        Refusal{"AnotherKindOfFile", "methods: method-facts", "methods: seasons", "unknown-value"},
        Refusal{"AFitThatNoTableTells", "fit: fit_cover_spray", "fit: fit_cover_sprey",
                "unknown-table"},
        Refusal{"ATableOfAnotherKind", "fit: fit_cover_spray", "fit: hazard", "unsuitable-table"},
        Refusal{"AFitForTheDay", "ready: ready_for_soil", "ready: fit_cover_spray",
                "unsuitable-table"},
        Refusal{"AFallingInterval", "to_years: 3", "to_years: 1", "falling"},
        Refusal{"HalfAYear", "from_years: 2", "from_years: 2.5", "not-a-whole-number"},
        Refusal{"NoYears", "from_years: 2", "from_years: 0", "out-of-range"},
        Refusal{"AWaveBeyondTheInterval", "past: 3, source: [purdue", "past: 4, source: [purdue",
                "outside-interval"},
        Refusal{"AnIntervalThatDoesNotSayWhich",
                "      by_wave: {coming: 2, here: 2, past: 3, source: [purdue-interval, "
                "emamectin-factors]}\n",
                "", "missing-key"},
        Refusal{"AFallingRate", "from: 0.1 g, to: 0.4 g", "from: 0.4 g, to: 0.1 g", "falling"},
        Refusal{"ARateWithoutAUnit", "from: 0.1 g, to: 0.4 g", "from: 0.1, to: 0.4 g", "bad-value"},
        Refusal{"ARateThatIsAVolume", "from: 0.1 g, to: 0.4 g", "from: 0.1 mL, to: 0.4 g",
                "bad-value"},
        Refusal{"SizesOutOfOrder", "up_to: 12 in, says: \"Stayed", "up_to: 16 in, says: \"Stayed",
                "sizes-out-of-order"},
        Refusal{"NothingForLargeStems", "- {says: \"Holds", "- {up_to: 40 in, says: \"Holds",
                "sizes-out-of-order"},
        Refusal{"AnUnknownSource", "source: auf-2012", "source: auf-2021", "unknown-source"},
        Refusal{"AMisspeltKey", "wounds: yes", "wound_s: yes", "missing-key"},
        Refusal{"BothDatesAndASeason", "    title: Cover spray of stem, branches and leaves\n",
                "    title: Cover spray\n    dates: {says: Some day., source: herms-2009}\n",
                "dates-and-season"},
        Refusal{"AMethodOfTheRulesLeftOut", "  basal_spray_dinotefuran:\n",
                "  basal_spray_of_another:\n", "missing-method"}),
    [](const auto& refusal) { return std::string(refusal.param.name); });

}  // namespace
}  // namespace ashtriage::plan
