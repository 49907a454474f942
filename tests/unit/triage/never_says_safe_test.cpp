// No text of the program says that a tree is "safe": no look from the ground can find that out.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "random_trees.hpp"

namespace ashtriage::triage {
namespace {

namespace fs = std::filesystem;

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_letter(char c) {
    return lower(c) >= 'a' && lower(c) <= 'z';
}

// The first line in which the word stands by itself, in capitals or not; empty when in none.
std::string line_with_word(const std::string& text, std::string_view word) {
    for (std::size_t at = 0; at + word.size() <= text.size(); ++at) {
        const bool here =
            std::ranges::equal(word, std::string_view(text).substr(at, word.size()), {}, {}, lower);
        if (!here || (at > 0 && is_letter(text[at - 1]))) continue;
        if (at + word.size() < text.size() && is_letter(text[at + word.size()])) continue;
        const std::size_t start = text.rfind('\n', at) + 1;
        return text.substr(start, text.find('\n', at) - start);
    }
    return {};
}

TEST(LineWithWord, FindsTheWordByItselfHoweverItIsWritten) {
    EXPECT_EQ(line_with_word("one\nThis tree is safe.\nthree", "safe"), "This tree is safe.");
    EXPECT_EQ(line_with_word("SAFE", "safe"), "SAFE");
    EXPECT_EQ(line_with_word("is_safe", "safe"), "is_safe");
    EXPECT_EQ(line_with_word("unsafe, safety, safely", "safe"), "");
    EXPECT_EQ(line_with_word("", "safe"), "");
}

std::size_t expect_no_file_says_safe(const char* folder, const std::vector<std::string>& endings) {
    std::size_t read = 0;
    for (const auto& entry :
         fs::recursive_directory_iterator(fs::path(ASHTRIAGE_SOURCE_DIR) / folder)) {
        if (!entry.is_regular_file() ||
            std::ranges::find(endings, entry.path().extension().string()) == endings.end()) {
            continue;
        }
        std::ifstream file(entry.path(), std::ios::binary);
        const std::string text(std::istreambuf_iterator<char>(file), {});
        EXPECT_FALSE(text.empty()) << entry.path();
        EXPECT_EQ(line_with_word(text, "safe"), "") << entry.path();
        EXPECT_EQ(line_with_word(text, "safely"), "") << entry.path();
        EXPECT_EQ(line_with_word(text, "safest"), "") << entry.path();
        ++read;
    }
    return read;
}

TEST(TheWordSafe, StandsInNoRuleFile) {
    EXPECT_GE(expect_no_file_says_safe("rules", {".yaml"}), 7U);
}

TEST(TheWordSafe, StandsInNoDocument) {
    EXPECT_GE(expect_no_file_says_safe("docs", {".md"}), 3U);
}

TEST(TheWordSafe, StandsInNoSourceOfWhatIsShown) {
    const std::vector<std::string> sources{".cpp", ".hpp", ".yaml", ".in"};
    EXPECT_GE(expect_no_file_says_safe("engine/present", sources), 20U);
    EXPECT_GE(expect_no_file_says_safe("engine/triage", sources), 10U);
    EXPECT_GE(expect_no_file_says_safe("engine/treat", sources), 10U);
    EXPECT_GE(expect_no_file_says_safe("engine/season", sources), 5U);
    EXPECT_GE(expect_no_file_says_safe("cli", sources), 30U);
}

TEST(TheWordSafe, StandsInNoAnswerToAnyTree) {
    RandomTrees random(built_in_rules(), 7);
    std::size_t texts = 0;
    const auto expect_unsaid = [&](const std::string& text) {
        EXPECT_EQ(line_with_word(text, "safe"), "");
        ++texts;
    };
    const auto expect_unsaid_in = [&](const Reason& reason) {
        for (const std::string* text : {&reason.because, &reason.client, &reason.todo, &reason.who})
            expect_unsaid(*text);
    };
    for (int tree = 0; tree < 60; ++tree) {
        const Recommendation answer =
            built_in_judge().recommend(facts_of(random.findings(), random.stems()));
        for (const auto& flag : answer.flags) expect_unsaid_in(flag.reason);
        std::ranges::for_each(answer.reasons, expect_unsaid_in);
        std::ranges::for_each(answer.method, expect_unsaid_in);
        std::ranges::for_each(answer.notes, expect_unsaid);
    }
    EXPECT_GT(texts, 1000U);
}

}  // namespace
}  // namespace ashtriage::triage
