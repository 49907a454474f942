// The rule files that come with the program.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <tuple>
#include <type_traits>
#include <utility>

#include "packs/cases.hpp"
#include "packs/coverage.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/wording.hpp"
#include "reason/engine.hpp"
#include "reason/visit.hpp"

namespace ashtriage::packs {
namespace {

namespace fs = std::filesystem;

TEST(BuiltInRules, AreTheFilesOfTheRulesFolder) {
    const fs::path folder = fs::path(ASHTRIAGE_SOURCE_DIR) / "rules";
    std::set<std::string> on_disk;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.path().extension() == ".yaml") {
            on_disk.insert(entry.path().lexically_relative(folder).generic_string());
        }
    }
    std::set<std::string> built_in;
    for (const RuleFile& file : built_in_rule_files()) {
        built_in.insert(file.name);
        std::ifstream stream(folder / file.name, std::ios::binary);
        const std::string text(std::istreambuf_iterator<char>(stream), {});
        EXPECT_TRUE(file.text == text) << file.name << " is not the one that was built in";
    }
    EXPECT_EQ(built_in, on_disk);
    EXPECT_EQ(built_in.count("sources.yaml"), 1U);
}

TEST(BuiltInRules, CanBeReadAndCompiledUnderEveryPreset) {
    const auto files = built_in_rule_files();
    const RuleSet usual = read_rule_set(files);
    EXPECT_FALSE(usual.model.tables.empty());
    for (const Preset& preset : usual.presets) {
        const RuleSet set = read_rule_set(files, preset.name);
        EXPECT_NO_THROW(reason::Engine{set.model}) << preset.name;
        EXPECT_NE(set.hash, usual.hash) << preset.name;
    }
}

TEST(BuiltInRules, PassTheirOwnCases) {
    const auto results = run_cases(built_in_rule_files());
    EXPECT_FALSE(results.empty());
    for (const CaseResult& result : results) {
        for (const std::string& difference : result.differences) {
            ADD_FAILURE() << result.tested.file << ":" << result.tested.line << " "
                          << result.tested.id << ": " << difference;
        }
    }
}

TEST(BuiltInRules, HaveCasesForEveryRuleAndBothSidesOfEveryCondition) {
    const auto tables = case_coverage(built_in_rule_files());
    EXPECT_FALSE(tables.empty());
    for (const TableCoverage& table : tables) {
        EXPECT_GT(table.rules().all, 0U) << table.table;
        for (const CoverageItem& item : table.items) {
            EXPECT_TRUE(item.reached()) << table.file << ":" << item.line << " " << item.rule << " "
                                        << item.test << ": no case; needed: " << item.case_needed;
        }
    }
}

// By the place of a test the sides that cases of several presets show are put together.
TEST(BuiltInRules, HaveEachTestAtOnePlaceUnderEveryPreset) {
    const auto files = built_in_rule_files();
    using Tested = std::pair<bool, std::size_t>;  // whether it is a table's outcome, and which
    std::map<std::tuple<std::string, std::size_t, std::size_t>, Tested> at_place;
    const auto look_at = [&](const RuleSet& set) {
        for (reason::TableIndex table = 0; table < set.model.tables.size(); ++table) {
            for (reason::RuleIndex rule = 0; rule < set.tables[table].rules.size(); ++rule) {
                const reason::Rule& tests = set.model.tables[table].rules[rule];
                const std::vector<Place>& places = set.tables[table].rules[rule].tests;
                std::set<std::pair<std::size_t, std::size_t>> used;
                std::size_t next = 0;
                reason::for_each_test(tests.when, [&](const auto& test) {
                    ASSERT_LT(next, places.size()) << tests.id;
                    const Place place = places[next++];
                    EXPECT_TRUE(used.emplace(place.line, place.column).second) << tests.id;
                    Tested tested;
                    if constexpr (std::is_same_v<std::decay_t<decltype(test)>,
                                                 reason::OutcomeTest>) {
                        tested = {true, test.table};
                    } else {
                        tested = {false, test.fact};
                    }
                    const auto [known, is_new] =
                        at_place.try_emplace({tests.id, place.line, place.column}, tested);
                    EXPECT_EQ(known->second, tested) << tests.id << " " << set.preset;
                });
                EXPECT_EQ(next, places.size()) << tests.id;
            }
        }
    };
    const RuleSet usual = read_rule_set(files);
    look_at(usual);
    for (const Preset& preset : usual.presets) look_at(read_rule_set(files, preset.name));
    EXPECT_FALSE(at_place.empty());
}

TEST(BuiltInRules, CanBeSaidForATreeOfWhichNothingIsKnown) {
    const RuleSet set = read_rule_set(built_in_rule_files());
    const reason::Engine engine(set.model);
    const reason::Observation nothing = engine.nothing_known();
    for (const TableText& table : set.tables) {
        for (const RuleText& rule : table.rules) {
            const std::string text = worded(rule.because, set, engine, nothing);
            EXPECT_EQ(text.find_first_of("{}"), std::string::npos) << text;
        }
    }
}

}  // namespace
}  // namespace ashtriage::packs
