// The rule files that come with the program.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "packs/cases.hpp"
#include "packs/read_rule_set.hpp"
#include "packs/wording.hpp"
#include "reason/engine.hpp"

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
