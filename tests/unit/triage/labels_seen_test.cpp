#include "triage/labels_seen.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace ashtriage::triage {
namespace {

TEST(LabelsSeen, NoticesALabelThatComesAgain) {
    LabelsSeen labels;
    EXPECT_TRUE(labels.add("A1"));
    EXPECT_TRUE(labels.add("A2"));
    EXPECT_TRUE(labels.add("a1"));
    EXPECT_FALSE(labels.add("A1"));
    EXPECT_EQ(labels.kept(), 3U);
    EXPECT_FALSE(labels.some_not_kept());
}

TEST(LabelsSeen, SaysTheSameAsASetOfAllLabels) {
    LabelsSeen labels;
    std::set<std::string> all;
    for (unsigned i = 0; i < 200'000; ++i) {
        // Labels of many lengths, of which about one in three comes again.
        const unsigned number = i * 2654435761U % 150'000U;
        const std::string label = std::string(number % 30, 'x') + std::to_string(number);
        ASSERT_EQ(labels.add(label), all.insert(label).second) << label;
    }
    EXPECT_EQ(labels.kept(), all.size());
}

TEST(LabelsSeen, KeepsSoManyAndComparesLaterOnesWithThose) {
    LabelsSeen labels(3, 1000);
    for (const char* label : {"A", "B", "C"}) EXPECT_TRUE(labels.add(label));
    EXPECT_FALSE(labels.some_not_kept());
    EXPECT_TRUE(labels.add("D"));
    EXPECT_TRUE(labels.some_not_kept());
    EXPECT_FALSE(labels.add("B"));
    EXPECT_TRUE(labels.add("D"));  // not kept, so its coming again is not noticed
    EXPECT_EQ(labels.kept(), 3U);
}

TEST(LabelsSeen, KeepsSoManyBytes) {
    LabelsSeen labels(100, 10);
    EXPECT_TRUE(labels.add("123456789"));
    EXPECT_TRUE(labels.add("12"));
    EXPECT_TRUE(labels.some_not_kept());
    EXPECT_TRUE(labels.add("1"));
    EXPECT_EQ(labels.kept(), 2U);
    EXPECT_FALSE(labels.add("1"));
}

}  // namespace
}  // namespace ashtriage::triage
