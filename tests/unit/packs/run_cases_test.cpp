#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "packs/cases.hpp"
#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(RunCases, PassesWhatComesOutAsExpected) {
    const auto results = run_cases(files_with(small_pack));
    ASSERT_EQ(results.size(), 3U);
    for (const CaseResult& result : results) {
        EXPECT_THAT(result.differences, IsEmpty()) << result.tested.id;
    }
}

std::vector<std::string> differences_of(std::string_view from, std::string_view to,
                                        std::size_t case_number) {
    return run_cases(files_with(changed(from, to))).at(case_number).differences;
}

TEST(RunCases, SaysWhatCameOutInstead) {
    EXPECT_THAT(differences_of("{advice: remove, flags: [brittle]}", "{advice: treat}", 0),
                ElementsAre("advice: expected treat, came out as remove"));
    EXPECT_THAT(differences_of("{advice: [remove, treat],", "{advice: remove,", 2),
                ElementsAre("advice: expected remove, came out as remove or treat"));
}

TEST(RunCases, ACollectTableMustHoldWhatIsIncludedAndCannotHoldWhatIsExcluded) {
    EXPECT_THAT(differences_of("flags: [brittle]", "flags: [dead_tree]", 0),
                ElementsAre("flags: dead tree is missing; collected: brittle"));
    EXPECT_THAT(differences_of("excludes: [dead_tree]", "includes: [brittle]", 2),
                ElementsAre("flags: brittle is missing; collected: nothing"));
    EXPECT_THAT(differences_of("excludes: [dead_tree]", "excludes: [brittle]", 2),
                ElementsAre("flags: brittle should not be possible; collected: nothing"));
}

TEST(RunCases, EachCaseRunsUnderItsOwnPreset) {
    EXPECT_THAT(differences_of("preset: strict, ", "", 1),
                ElementsAre("advice: expected remove, came out as remove or treat"));
}

TEST(RunCases, ReportsAGapOfATable) {
    const auto differences = differences_of("- {id: worth-it, when: always,",
                                            "- {id: worth-it, when: {loss: {below: 20}},", 2);
    EXPECT_THAT(differences, testing::Contains(testing::HasSubstr("perhaps no rule holds")));
}

}  // namespace
}  // namespace ashtriage::packs
