// Files that were cut off, garbled or made to do harm: refused or well, never a crash or a hang.
#include <gtest/gtest.h>

#include <chrono>
#include <random>

#include "measure/input_error.hpp"
#include "reason/engine.hpp"
#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

// Reads the pack; true if it is well. What is accepted can also be compiled.
bool is_well(std::string_view pack) {
    try {
        const RuleSet set = read_rule_set(files_with(pack));
        const reason::Engine engine(set.model);
        return true;
    } catch (const BadFile& error) {
        EXPECT_FALSE(error.problems().empty());
        EXPECT_FALSE(std::string(error.what()).empty());
        return false;
    }
}

TEST(DamagedFiles, APackCutOffAnywhereIsRefusedOrWell) {
    for (std::size_t length = 0; length <= small_pack.size(); ++length) {
        const std::string_view pack = small_pack.substr(0, length);
        if (!is_well(pack)) continue;
        // Only whole rules or cases at the end, each of which ends with a brace, can be missing.
        EXPECT_EQ(pack[pack.find_last_not_of(" \n")], '}') << length;
    }
    EXPECT_TRUE(is_well(small_pack));
}

TEST(DamagedFiles, ASourcesFileCutOffAnywhereIsRefusedOrWell) {
    for (std::size_t length = 0; length <= small_sources.size(); ++length) {
        auto files = files_with(small_pack);
        files[1].text = std::string(small_sources.substr(0, length));
        try {
            read_rule_set(files);
        } catch (const BadFile& error) {
            EXPECT_FALSE(error.problems().empty());
        }
    }
}

TEST(DamagedFiles, GarbledPacksAreRefusedOrWell) {
    std::mt19937_64 random(41);
    const std::string signs =
        "{}[]:,-#&*!|>'\"%@`?~ \n\t\x01\xFF"
        "0a";
    const auto below = [&](std::size_t limit) {
        return std::uniform_int_distribution<std::size_t>(0, limit - 1)(random);
    };
    for (int round = 0; round < 1500; ++round) {
        std::string pack(small_pack);
        for (std::size_t change = 0; change <= below(3); ++change) {
            const std::size_t at = below(pack.size());
            switch (below(3)) {
                case 0:
                    pack[at] = signs[below(signs.size())];
                    break;
                case 1:
                    pack.erase(at, 1 + below(20));
                    break;
                default:
                    pack.insert(at, 1, signs[below(signs.size())]);
            }
        }
        is_well(pack);
    }
}

TEST(DamagedFiles, BinaryIsRefused) {
    std::mt19937_64 random(42);
    for (int round = 0; round < 200; ++round) {
        std::string bytes(1 + random() % 4096, '\0');
        for (char& byte : bytes) byte = static_cast<char>(random());
        EXPECT_FALSE(is_well(bytes));
    }
    EXPECT_FALSE(is_well(""));
    EXPECT_FALSE(is_well(std::string(1000, '\0')));
}

// Texts that cost a careless reader minutes or its stack. The limit is generous: the point is that
// none of them takes a time that grows with the square of its length.
TEST(DamagedFiles, HarmfulTextsAreRefusedQuickly) {
    const std::size_t size = std::size_t{1} << 20U;
    const auto repeated = [&](std::string_view piece) {
        std::string text = "pack: small\n";
        while (text.size() + piece.size() < size) text += piece;
        return text;
    };
    const std::vector<std::string> texts = {
        repeated("["),
        repeated("[\n"),
        repeated("{a: "),
        repeated("- "),
        repeated("a: {\n"),
        repeated("? "),
        repeated("x\n"),
        repeated("x: 1\n"),
        repeated("- x\n"),
        repeated("'"),
        repeated("\"\n"),
        repeated("# x\n"),
        repeated("\n"),
        repeated(","),
        repeated(",\n"),
        "x: " + std::string(std::size_t{10} << 20U, 'x'),
        "x: \"" + repeated("y\n"),
        "x: |\n" + repeated("  y\n"),
    };
    for (const std::string& text : texts) {
        const auto start = std::chrono::steady_clock::now();
        EXPECT_FALSE(is_well(text)) << text.substr(12, 20);
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
        EXPECT_LT(taken.count(), 60.0) << text.substr(12, 20);
    }
}

TEST(DamagedFiles, ThousandsOfProblemsEndTheReading) {
    std::string rules;
    for (int i = 0; i < 5000; ++i) {
        rules += "      - {id: extra-" + std::to_string(i) + ", when: {nothing_" +
                 std::to_string(i) + ": yes}, gives: weak, because: x, source: invented}\n";
    }
    std::string pack(small_pack);
    pack.insert(pack.find("      - {id: pecked"), rules);
    EXPECT_EQ(problems_of(pack).size(), most_problems);
}

TEST(DamagedFiles, MoreTablesThanAnyRuleSetNeedsAreRefused) {
    std::string tables;
    for (int i = 0; i < 1000; ++i) {
        tables += "  extra_" + std::to_string(i) +
                  ": {about: x, gives: [a], hit_policy: first, rules: [{id: extra-" +
                  std::to_string(i) + ", when: always, gives: a, because: x, source: invented}]}\n";
    }
    std::string pack(small_pack);
    pack.insert(pack.find("  signs:\n"), tables);
    const auto problems = problems_of(pack);
    ASSERT_FALSE(problems.empty());
    EXPECT_EQ(problems[0].id, "too-many-tables");
}

}  // namespace
}  // namespace ashtriage::packs
