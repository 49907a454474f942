// Packs that hold nothing but cases are read only when cases are run.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "packs/bad_file.hpp"
#include "packs/cases.hpp"
#include "packs/read_rule_set.hpp"
#include "small_pack.hpp"

namespace ashtriage::packs {
namespace {

using testing::Contains;
using testing::Field;
using testing::SizeIs;

std::vector<RuleFile> files_with_cases_apart(std::string_view more = {}) {
    auto files = files_with(small_pack);
    files.push_back({"small_cases.yaml",
                     "pack: small_cases\nedition: 2026.1\nabout: One tree.\n" + std::string(more) +
                         "cases:\n"
                         "  - {id: apart, given: {loss: 60}, expect: {advice: remove}, "
                         "source: invented}\n",
                     {}});
    return files;
}

TEST(CasesApart, AreLeftOutWhenTreesAreJudged) {
    const RuleSet judged = read_rule_set(files_with_cases_apart());
    EXPECT_THAT(judged.cases, SizeIs(3));
    EXPECT_THAT(read_rule_set(files_with_cases_apart(), {}, Reading::rules_and_cases).cases,
                SizeIs(4));
}

TEST(CasesApart, ChangeNeitherTheHashNorTheEditions) {
    const RuleSet without = read_rule_set(files_with(small_pack));
    for (const Reading reading : {Reading::rules, Reading::rules_and_cases}) {
        const RuleSet with = read_rule_set(files_with_cases_apart(), {}, reading);
        EXPECT_EQ(with.hash, without.hash);
        EXPECT_THAT(with.editions, SizeIs(without.editions.size()));
    }
}

TEST(CasesApart, AreRun) {
    const auto results = run_cases(files_with_cases_apart());
    ASSERT_THAT(results, SizeIs(4));
    EXPECT_THAT(results,
                Contains(Field(&CaseResult::tested, Field(&Case::id, std::string("apart")))));
}

// A rule in such a pack would be left out without a word whenever a tree is judged.
TEST(CasesApart, MayHoldNothingElse) {
    const auto files = files_with_cases_apart(
        "settings:\n  extra: {value: 1, unit: percent, source: invented, about: Nothing.}\n");
    try {
        run_cases(files);
        FAIL() << "settings beside cases were accepted";
    } catch (const BadFile& error) {
        EXPECT_THAT(error.problems().list(),
                    Contains(Field(&Problem::id, std::string("not-only-cases"))));
    }
}

}  // namespace
}  // namespace ashtriage::packs
