#include "packs/problem.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "packs/bad_file.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {
namespace {

using testing::HasSubstr;

TEST(Problems, ShowsPlaceMessageIdSourceLineCaretAndHint) {
    Problems problems;
    problems.add_file("a.yaml", "one: 1\ntwo: 2\n");
    problems.add({"some-id", "a.yaml", {2, 6}, "'two' is wrong", "write 3", {}});
    EXPECT_EQ(problems.text(),
              "a.yaml:2:6: 'two' is wrong [some-id]\n"
              "    two: 2\n"
              "         ^\n"
              "    write 3");
}

TEST(Problems, AreShownInTheOrderOfFilesAndLines) {
    Problems problems;
    problems.add_file("b.yaml", "x\ny\n");
    problems.add_file("a.yaml", "x\n");
    problems.add({"third", "a.yaml", {1, 1}, "m", {}, {}});
    problems.add({"second", "b.yaml", {2, 1}, "m", {}, {}});
    problems.add({"first", "b.yaml", {1, 1}, "m", {}, {}});
    const std::string text = problems.text();
    EXPECT_LT(text.find("first"), text.find("second"));
    EXPECT_LT(text.find("second"), text.find("third"));
}

TEST(Problems, BeyondTheLimitOnlyTheirNumberIsShown) {
    Problems problems;
    for (int i = 0; i < 30; ++i) problems.add({"id", "f", {}, "m", {}, {}});
    EXPECT_THAT(problems.text(), HasSubstr("... and 5 more problems"));
    EXPECT_THAT(problems.text(29), HasSubstr("... and 1 more problem"));
    EXPECT_EQ(problems.text(30).find("more"), std::string::npos);
}

TEST(Problems, EndTheReadingWhenThereAreTooMany) {
    Problems problems;
    for (std::size_t i = 1; i < most_problems; ++i) problems.add({"id", "f", {}, "m", {}, {}});
    EXPECT_THROW(problems.add({"id", "f", {}, "m", {}, {}}), BadFile);
    EXPECT_EQ(problems.size(), most_problems);
}

TEST(Problems, CaretStandsUnderTheCharacterThoughColumnsCountBytes) {
    Problems problems;
    problems.add_file("a.yaml", "é: ü\n");  // two bytes each: the ü is byte 5, character 4
    problems.add({"id", "a.yaml", {1, 5}, "m", {}, {}});
    EXPECT_THAT(problems.text(), HasSubstr("\n    é: ü\n       ^"));
}

TEST(Problems, ControlCharactersDoNotReachTheTerminal) {
    Problems problems;
    problems.add_file("a.yaml", "a\x1b[31m\n");
    problems.add({"id", "a.yaml", {1, 1}, "found '\x1b[2J'", "h\x07", {}});
    problems.add({"id", "named\x1b[2J.yaml", {}, "x", {}, {}});
    EXPECT_EQ(problems.text().find_first_of("\x1b\x07"), std::string::npos);
}

TEST(Problems, NothingIsThrownWhenNothingIsWrong) {
    EXPECT_NO_THROW(Problems().throw_if_any());
}

TEST(Nearest, FindsTheNameThatWasMeant) {
    const std::vector<std::string> names = {"canopy_loss", "exit_holes", "none"};
    EXPECT_EQ(nearest("canopy_los", names), "canopy_loss");
    EXPECT_EQ(nearest("Canopy loss", names), "canopy_loss");
    EXPECT_EQ(nearest("exit_hloes", names), "exit_holes");
    EXPECT_EQ(nearest("girth", names), "");
    EXPECT_EQ(nearest("", names), "");
    EXPECT_EQ(nearest(std::string(100'000, 'x'), names), "");
}

TEST(NearestHint, ListsASmallChoiceWhenNothingIsNear) {
    EXPECT_EQ(nearest_hint("lihgt", {"none", "light"}), "did you mean 'light'?");
    EXPECT_EQ(nearest_hint("qqqqqq", {"none", "light"}), "it can be: none, light");
    EXPECT_EQ(nearest_hint("qqqqqq", std::vector<std::string>(50, "name")), "");
}

TEST(Words, AreComparedWhateverTheirSpelling) {
    EXPECT_EQ(normalised("  D-Shaped__hole "), "d shaped hole");
    EXPECT_EQ(plain_name("canopy_loss"), "canopy loss");
    EXPECT_EQ(plain_name("dbh"), "DBH");
    EXPECT_EQ(joined({"a", "b", "c"}), "a, b or c");
    EXPECT_EQ(joined({"a", "b"}, "and"), "a and b");
    EXPECT_EQ(joined({}), "");
}

}  // namespace
}  // namespace ashtriage::packs
