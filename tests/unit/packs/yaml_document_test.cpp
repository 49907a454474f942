#include "packs/yaml_document.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "packs/bad_file.hpp"

namespace ashtriage::packs {
namespace {

Node read_well(std::string_view text) {
    Problems problems;
    Node node = read_yaml(text, "file.yaml", problems);
    EXPECT_EQ(problems.text(), "");
    return node;
}

struct Refusal {
    std::string_view text;
    std::string id;
    Place place;
};

class RefusedYaml : public testing::TestWithParam<Refusal> {};

TEST_P(RefusedYaml, NamesTheProblemAndItsPlace) {
    Problems problems;
    read_yaml(GetParam().text, "file.yaml", problems);
    ASSERT_FALSE(problems.empty());
    const Problem& first = problems.list().front();
    EXPECT_EQ(first.id, GetParam().id) << problems.text();
    EXPECT_EQ(first.place, GetParam().place) << problems.text();
    EXPECT_EQ(first.file, "file.yaml");
}

using namespace std::string_view_literals;

INSTANTIATE_TEST_SUITE_P(
    Each, RefusedYaml,
    testing::Values(
        Refusal{"", "empty-file", {}}, Refusal{"  \n\n\t\n", "empty-file", {}},
        Refusal{"# only a comment\n", "empty-file", {}}, Refusal{"a: &x 1\n", "anchor", {1, 4}},
        Refusal{"a: &x {b: 1}\n", "anchor", {1, 4}}, Refusal{"a: &x [1]\n", "anchor", {1, 4}},
        Refusal{"&k a: 1\n", "anchor", {1, 1}}, Refusal{"a: !t 1\n", "tag", {1, 4}},
        Refusal{"a: !!str 1\n", "tag", {1, 4}}, Refusal{"a: ! 1\n", "tag", {1, 4}},
        Refusal{"a: !t\n", "tag", {1, 4}}, Refusal{"a: !t {b: 1}\n", "tag", {1, 4}},
        Refusal{"a: {b: 1}\nc: {<<: {d: 1}}\n", "merge-key", {2, 5}},
        Refusal{"a: 1\nb: 2\na: 3\n", "duplicate-key", {3, 1}},
        Refusal{"{a: 1, a: 2}\n", "duplicate-key", {1, 8}},
        Refusal{"'a': 1\na: 2\n", "duplicate-key", {2, 1}},
        Refusal{"a: 1\n---\nb: 2\n", "second-document", {2, 1}},
        Refusal{"a: 1\n...\nb: 2\n", "second-document", {3, 1}},
        Refusal{"[a]\n,\n", "second-document", {2, 1}},
        Refusal{"%YAML 1.2\n---\na: 1\n", "directive", {1, 1}},
        Refusal{": 1\n", "empty-key", {1, 1}}, Refusal{"{[a, b]: 1}\n", "key-not-text", {1, 2}},
        Refusal{"? {a: 1}\n: 2\n", "key-not-text", {1, 3}},
        Refusal{"a: \"open\n", "open-quote", {1, 4}},
        Refusal{"a: \"it\\\"s\n", "open-quote", {1, 4}},
        Refusal{"b: 'x'\r\na: 'it''s\r\nc: 1\r\n", "open-quote", {2, 4}},
        Refusal{"a: \"", "open-quote", {1, 4}}, Refusal{"a: 'open", "not-yaml", {1, 9}},
        Refusal{"a: [1, 2\n", "not-yaml", {2, 1}}, Refusal{"a: b: c\n", "not-yaml", {1, 5}},
        Refusal{"a: 1\n b: 2\n", "not-yaml", {2, 3}}, Refusal{"a: \x01\n", "not-text", {1, 4}},
        Refusal{"a: 1\rb: 2\n", "not-text", {1, 5}}, Refusal{"a: \0\n"sv, "not-text", {1, 4}},
        Refusal{"\x7f"
                "ELF\x02\x01\x01",
                "not-text",
                {1, 1}},
        Refusal{"a: \xFF\n", "not-utf8", {1, 4}},
        Refusal{"a: \xC0\xAF\n", "not-utf8", {1, 4}},          // overlong '/'
        Refusal{"a: \xED\xA0\x80\n", "not-utf8", {1, 4}},      // a surrogate
        Refusal{"a: \xF4\x90\x80\x80\n", "not-utf8", {1, 4}},  // above U+10FFFF
        Refusal{"a: \xE2\x82", "not-utf8", {1, 4}}));          // cut off

TEST(ReadYaml, RefusesAnAliasToAnAnchor) {
    Problems problems;
    read_yaml("a: &x 1\nb: *x\n", "f", problems);
    ASSERT_EQ(problems.size(), 2U);
    EXPECT_EQ(problems.list()[1].id, "alias");
    EXPECT_EQ(problems.list()[1].place, (Place{2, 4}));
}

TEST(ReadYaml, ASelfReferenceIsRefusedLikeAnyAlias) {
    Problems problems;
    read_yaml("a: &x [*x]\n", "f", problems);
    ASSERT_EQ(problems.size(), 2U);
    EXPECT_EQ(problems.list()[1].id, "alias");
}

TEST(ReadYaml, KeepsScalarsAsTheyAreWritten) {
    const Node root = read_well("a: 010\nb: NO\nc: .nan\nd: '5'\ne:\nf: ~\ng: |\n  x\n  y\n");
    ASSERT_EQ(root.entries.size(), 7U);
    EXPECT_EQ(root.find("a")->text, "010");
    EXPECT_EQ(root.find("b")->text, "NO");
    EXPECT_EQ(root.find("c")->text, ".nan");
    EXPECT_FALSE(root.find("a")->quoted);
    EXPECT_EQ(root.find("d")->text, "5");
    EXPECT_TRUE(root.find("d")->quoted);
    EXPECT_TRUE(root.find("e")->is_empty_scalar());
    EXPECT_TRUE(root.find("f")->is_empty_scalar());
    EXPECT_EQ(root.find("g")->text, "x\ny\n");
    EXPECT_TRUE(root.find("g")->quoted);
    EXPECT_EQ(root.find("h"), nullptr);
}

TEST(ReadYaml, KnowsThePlaceOfEveryKeyAndValue) {
    const Node root = read_well("a:\n  - {b: 1}\n  - c\nlong: [x, y]\n");
    EXPECT_EQ(root.entries[0].place, (Place{1, 1}));
    const Node& list = root.entries[0].value;
    EXPECT_EQ(list.items[0].entries[0].place, (Place{2, 6}));
    EXPECT_EQ(list.items[0].entries[0].value.place, (Place{2, 9}));
    EXPECT_EQ(list.items[1].place, (Place{3, 5}));
    EXPECT_EQ(root.entries[1].value.items[1].place, (Place{4, 11}));
}

TEST(ReadYaml, SkipsAByteOrderMarkAndReadsWindowsLineEnds) {
    const Node root = read_well(
        "\xEF\xBB\xBF"
        "a: 1\r\nb: 2\r\n");
    EXPECT_EQ(root.find("a")->text, "1");
    EXPECT_EQ(root.find("b")->text, "2");
    EXPECT_EQ(root.find("b")->place, (Place{2, 4}));
}

TEST(ReadYaml, ReadsQuotesInsideQuotes) {
    const Node root = read_well("a: 'it''s'\nb: \"say \\\"x\\\"\"\n'c d': \"\\\\\"\n");
    EXPECT_EQ(root.find("a")->text, "it's");
    EXPECT_EQ(root.find("b")->text, "say \"x\"");
    EXPECT_EQ(root.find("c d")->text, "\\");
}

TEST(ReadYaml, AcceptsADocumentMark) {
    EXPECT_EQ(read_well("---\na: 1\n...\n").find("a")->text, "1");
}

TEST(ReadYaml, OfTwoEntriesWithOneNameKeepsTheFirst) {
    Problems problems;
    const Node root = read_yaml("a: 1\na: {b: 2}\n", "f", problems);
    ASSERT_EQ(root.entries.size(), 1U);
    EXPECT_EQ(root.find("a")->text, "1");
}

std::string nested(std::size_t depth) {
    return std::string(depth, '[') + std::string(depth, ']') + "\n";
}

TEST(ReadYaml, AcceptsNestingUpToTheLimitAndNoDeeper) {
    Problems problems;
    read_yaml(nested(deepest_yaml_nesting), "f", problems);
    EXPECT_TRUE(problems.empty()) << problems.text();
    read_yaml(nested(deepest_yaml_nesting + 1), "g", problems);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems.list()[0].id, "too-deep");
    EXPECT_EQ(problems.list()[0].place, (Place{1, 33}));
}

TEST(ReadYaml, RefusesNestingByIndentationToo) {
    std::string text;
    for (std::size_t depth = 0; depth < 200; ++depth) text += std::string(depth, ' ') + "a:\n";
    Problems problems;
    read_yaml(text, "f", problems);
    ASSERT_FALSE(problems.empty());
    EXPECT_EQ(problems.list()[0].id, "too-deep");
}

TEST(ReadYaml, RefusesFilesAndLinesThatAreTooLong) {
    Problems problems;
    read_yaml("a: " + std::string(longest_yaml_line - 3, 'x') + "\n", "fits", problems);
    EXPECT_TRUE(problems.empty()) << problems.text();
    read_yaml("# x\na: " + std::string(longest_yaml_line, 'x') + "\n", "line", problems);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems.list()[0].id, "line-too-long");
    EXPECT_EQ(problems.list()[0].place.line, 2U);
    read_yaml("a: " + std::string(std::size_t{10} << 20U, 'x'), "file", problems);
    ASSERT_EQ(problems.size(), 2U);
    EXPECT_EQ(problems.list()[1].id, "file-too-large");
}

TEST(ReadYaml, RefusesMoreValuesThanAnyFileNeeds) {
    std::string text;
    for (std::size_t i = 0; i < most_yaml_nodes; ++i) text += "- 1\n";
    Problems problems;
    read_yaml(text, "f", problems);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems.list()[0].id, "too-many-values");
}

// Texts that made readers of YAML loop or crash.
TEST(ReadYaml, EndsOnTextsThatAreHardToRead) {
    for (const char* text :
         {",",  "a: 1\n,\n", "[",        "{",          "]",           "}",   "-",           "?",
          ":",  "- - -",     "? ? ?",    "{,}",        "[,]",         "|",   ">",           "a: |",
          "'",  "\"",        "\"\\",     "a: \"\\x\"", "\t",          "@",   "`",           "a: @b",
          "{a", "{a:",       "[a: b, c", "--- |",      "--- --- ---", "...", "a:\n\t- b\n", "*",
          "&",  "!",         "a: *",     "a: &",       "!<",          "!!",  "%",           "#"}) {
        Problems problems;
        const Node root = read_yaml(text, "f", problems);
        EXPECT_TRUE(!problems.empty() || root.place.line != 0) << text;
    }
}

}  // namespace
}  // namespace ashtriage::packs
