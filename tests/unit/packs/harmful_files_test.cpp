// Rule files that were made to do harm, by the names under which such files are known: each is
// refused with its place and a remedy, in bounded time and memory.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>

#include "packs/rule_files.hpp"
#include "packs/yaml_document.hpp"
#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using namespace std::string_literals;

constexpr std::size_t mebibyte = std::size_t{1} << 20U;

// Generous, for sanitizers on a busy machine; a reader that goes wrong takes minutes.
constexpr double longest_seconds = 20.0;

// What a screen or two can hold.
constexpr std::size_t longest_text = std::size_t{32} << 10U;

double seconds_taken_by(const std::function<void()>& action) {
    const auto start = std::chrono::steady_clock::now();
    action();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// The most memory that this process has had at once, in bytes.
std::size_t peak_memory() {
    rusage usage{};
    EXPECT_EQ(getrusage(RUSAGE_SELF, &usage), 0);
    return static_cast<std::size_t>(usage.ru_maxrss) * 1024;
}

// The refusal of a set of files; a failure of the test if they are well.
Problems refusal_of(const std::vector<RuleFile>& files) {
    Problems problems;
    const double taken = seconds_taken_by([&] {
        try {
            read_rule_set(files);
        } catch (const BadFile& error) {
            EXPECT_LT(std::string(error.what()).size(), longest_text);
            problems = error.problems();
        }
    });
    EXPECT_LT(taken, longest_seconds);
    EXPECT_FALSE(problems.empty());
    return problems;
}

struct Harm {
    std::string name;
    std::string text;
    std::string id;
    Place place;
};

void PrintTo(const Harm& harm, std::ostream* stream) {
    *stream << harm.name;
}

class HarmfulFile : public testing::TestWithParam<Harm> {};

TEST_P(HarmfulFile, IsRefusedWithItsPlaceAndARemedy) {
    const Problems problems = refusal_of(files_with(GetParam().text));
    ASSERT_FALSE(problems.empty());
    const Problem& first = problems.list().front();
    EXPECT_EQ(first.id, GetParam().id) << problems.text();
    EXPECT_EQ(first.file, "small.yaml");
    EXPECT_EQ(first.place, GetParam().place) << problems.text();
    EXPECT_FALSE(first.message.empty());
    EXPECT_FALSE(first.hint.empty());
}

// Each level names the one before ten times: written out, the last would have 10^9 entries.
std::string billion_laughs() {
    std::string text = "a0: &a0 [x]\n";
    for (int level = 1; level <= 9; ++level) {
        const std::string before = "*a" + std::to_string(level - 1);
        text += "a" + std::to_string(level) + ": &a" + std::to_string(level) + " [" + before;
        for (int i = 1; i < 10; ++i) text += ", " + before;
        text += "]\n";
    }
    return text;
}

Place line_after_small_pack() {
    return {static_cast<std::size_t>(std::count(small_pack.begin(), small_pack.end(), '\n')) + 1,
            1};
}

std::string repeated(std::string_view piece, std::size_t size) {
    std::string text;
    while (text.size() < size) text += piece;
    return text;
}

INSTANTIATE_TEST_SUITE_P(
    Each, HarmfulFile,
    testing::Values(Harm{"deep_nesting",
                         "pack: small\nabout: " + std::string(1000, '[') + std::string(1000, ']') +
                             "\n",
                         "too-deep",
                         {2, 39}},
                    Harm{"billion_laughs", billion_laughs(), "anchor", {1, 5}},
                    Harm{"alias_of_itself", "pack: small\nabout: &a [*a]\n", "anchor", {2, 8}},
                    Harm{"alias_of_nothing", "pack: small\nabout: *a\n", "not-yaml", {2, 8}},
                    Harm{"merge_key", "pack: small\n<<: {edition: 1}\n", "merge-key", {2, 1}},
                    Harm{"tag", "pack: small\nabout: !!binary aGFybQ==\n", "tag", {2, 8}},
                    Harm{"duplicate_key", std::string(small_pack) + "pack: small\n",
                         "duplicate-key", line_after_small_pack()},
                    Harm{"second_document", std::string(small_pack) + "---\npack: small\n",
                         "second-document", line_after_small_pack()},
                    Harm{"scalar_of_10_MB_in_a_line",
                         "pack: small\nabout: " + std::string(10 * mebibyte, 'x'),
                         "file-too-large",
                         {}},
                    Harm{"scalar_of_3_MB_in_a_line",
                         "pack: small\nabout: " + std::string(3 * mebibyte, 'x'),
                         "line-too-long",
                         {2, 1}},
                    Harm{"scalar_of_10_MB_in_lines",
                         "pack: small\nabout: |\n" + repeated("  x\n", 10 * mebibyte),
                         "file-too-large",
                         {}},
                    Harm{"byte_zero", "pack: sm\0all\n"s, "not-text", {1, 9}},
                    Harm{"invalid_utf8", "pack: small\nabout: caf\xE9\n", "not-utf8", {2, 11}},
                    Harm{"escape_for_the_terminal", "pack: \x1B[2Jsmall\n", "not-text", {1, 7}},
                    Harm{"directive", "%YAML 1.1\n---\npack: small\n", "directive", {1, 1}}),
    [](const auto& harm) { return harm.param.name; });

// However many rules close the circle.
TEST(HarmfulFiles, OneCycleOfManyRulesIsRefusedOnceAtARuleThatClosesIt) {
    const std::string pack = changed("gives: dead_tree, because: It is dead., source: invented}\n",
                                     "gives: dead_tree, because: It is dead., source: invented}\n"
                                     "      - {id: r1, when: {flags: {includes: brittle}}, gives: "
                                     "dead_tree, because: x, source: invented}\n"
                                     "      - {id: r2, when: {flags: {includes: brittle}}, gives: "
                                     "dead_tree, because: x, source: invented}\n"
                                     "      - {id: r3, when: {flags: {includes: brittle}}, gives: "
                                     "dead_tree, because: x, source: invented}\n");
    const Problems problems = refusal_of(files_with(pack));
    ASSERT_EQ(problems.size(), 1U) << problems.text();
    EXPECT_EQ(problems.list()[0].id, "cycle");
    EXPECT_THAT(problems.list()[0].source_line, HasSubstr("id: r1"));
}

TEST(HarmfulFiles, ThreeTablesInACycleAreRefusedOnceWithTheWay) {
    std::string pack(small_pack);
    pack.insert(
        pack.find("cases:\n"),
        R"(  a: {about: a, gives: [x], hit_policy: first, rules: [{id: a, when: {b: x}, gives: x, because: a, source: invented}]}
  b: {about: b, gives: [x], hit_policy: first, rules: [{id: b, when: {c: x}, gives: x, because: b, source: invented}]}
  c: {about: c, gives: [x], hit_policy: first, rules: [{id: c, when: {a: x}, gives: x, because: c, source: invented}]}
)");
    const Problems problems = refusal_of(files_with(pack));
    ASSERT_EQ(problems.size(), 1U) << problems.text();
    EXPECT_EQ(problems.list()[0].id, "cycle");
    EXPECT_NE(problems.list()[0].place, Place{});
    EXPECT_THAT(problems.list()[0].message, HasSubstr("a -> b -> c -> a"));
    EXPECT_FALSE(problems.list()[0].hint.empty());
}

TEST(HarmfulFiles, AnOutcomeThatTheTableDoesNotDeclareIsRefusedWithThoseItDoes) {
    const Problems problems = refusal_of(files_with(changed("gives: treat", "gives: burn")));
    ASSERT_EQ(problems.size(), 1U) << problems.text();
    EXPECT_EQ(problems.list()[0].id, "unknown-value");
    EXPECT_NE(problems.list()[0].place, Place{});
    EXPECT_THAT(problems.list()[0].hint, HasSubstr("remove, treat"));
}

TEST(HarmfulFiles, OfThousandsOfMistakesTheFirstAreShownAndTheirNumber) {
    std::string pack(small_pack);
    for (int i = 0; i < 5000; ++i) {
        pack += "  - {id: wrong-" + std::to_string(i) + ", given: {nothing: 1}}\n";
    }
    const std::string text = refusal_of(files_with(pack)).text();
    std::size_t shown = 0;
    for (std::size_t at = text.find("small.yaml:"); at != std::string::npos;
         at = text.find("small.yaml:", at + 1)) {
        ++shown;
    }
    EXPECT_EQ(shown, 25U);
    EXPECT_THAT(text, HasSubstr("... and 975 more problems; the rest was not read"));
}

// A message names what was found, and what was found may be as long as a line may be.
TEST(HarmfulFiles, LongValuesDoNotMakeLongMessages) {
    std::string facts;
    for (int i = 0; i < 30; ++i) {
        facts += "  fact_" + std::to_string(i) +
                 ":\n    kind: " + std::string(longest_yaml_line - 20, 'x') + "\n";
    }
    std::string pack(small_pack);
    pack.insert(pack.find("  loss:\n"), facts);
    EXPECT_GE(refusal_of(files_with(pack)).size(), 30U);
}

TEST(HarmfulFiles, AFileOf100MegabytesIsRefusedInBoundedTimeAndMemory) {
    const fs::path folder = fs::path(testing::TempDir()) / "rules_of_100_megabytes";
    fs::remove_all(folder);
    fs::create_directories(folder);
    std::ofstream(folder / "triage.yaml") << "pack: triage\n";
    fs::resize_file(folder / "triage.yaml", 100 * mebibyte);  // the rest is zeros, on no disk

    const std::size_t memory_before = peak_memory();
    const double taken = seconds_taken_by([&] {
        const Problems problems = refusal_of(rule_files(folder));
        ASSERT_FALSE(problems.empty());
        EXPECT_EQ(problems.list()[0].id, "file-too-large");
        EXPECT_EQ(problems.list()[0].file, (folder / "triage.yaml").string());
        EXPECT_FALSE(problems.list()[0].hint.empty());
    });
    EXPECT_LT(taken, longest_seconds);
    EXPECT_LT(peak_memory() - memory_before, 64 * mebibyte);
    fs::remove_all(folder);
}

}  // namespace
}  // namespace ashtriage::packs
