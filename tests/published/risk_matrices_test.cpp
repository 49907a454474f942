// Both matrices of the tree-risk method, cell by cell.
//
// First matrix: ISA Basic Tree Risk Assessment Form, p. 2, read. Second matrix: the positions of
// the cells are from memory; the form's counts of the cells (8 low, 4 moderate, 3 high, 1 extreme),
// read there, agree with them.
#include <gtest/gtest.h>

#include <array>
#include <map>

#include "built_in_judge.hpp"

namespace ashtriage::published {
namespace {

constexpr std::array failures{"imminent", "probable", "possible", "improbable"};
constexpr std::array impacts{"very_low", "low", "medium", "high"};
constexpr std::array<std::array<const char*, 4>, 4> failure_and_impact{{
    {"unlikely", "somewhat_likely", "likely", "very_likely"},
    {"unlikely", "unlikely", "somewhat_likely", "likely"},
    {"unlikely", "unlikely", "unlikely", "somewhat_likely"},
    {"unlikely", "unlikely", "unlikely", "unlikely"},
}};

constexpr std::array likelihoods{"very_likely", "likely", "somewhat_likely", "unlikely"};
constexpr std::array consequences{"negligible", "minor", "significant", "severe"};
constexpr std::array<std::array<const char*, 4>, 4> risk_rating{{
    {"low", "moderate", "high", "extreme"},
    {"low", "moderate", "high", "high"},
    {"low", "low", "moderate", "moderate"},
    {"low", "low", "low", "low"},
}};

triage::TreeFacts assessed(const char* failure, const char* impact, const char* consequence) {
    return facts_of({{"likelihood_of_failure", failure},
                     {"likelihood_of_impact", impact},
                     {"consequences", consequence}});
}

TEST(FirstMatrix, AgreesWithTheFormInEveryCell) {
    for (std::size_t f = 0; f < 4; ++f) {
        for (std::size_t i = 0; i < 4; ++i) {
            EXPECT_EQ(outcome("failure_and_impact", assessed(failures[f], impacts[i], "minor")),
                      failure_and_impact[f][i])
                << failures[f] << ", " << impacts[i];
        }
    }
}

// The pairs of the first matrix that lead to each of its four likelihoods.
std::vector<std::pair<const char*, const char*>> leading_to(std::string_view likelihood) {
    std::vector<std::pair<const char*, const char*>> pairs;
    for (std::size_t f = 0; f < 4; ++f) {
        for (std::size_t i = 0; i < 4; ++i) {
            if (failure_and_impact[f][i] == likelihood) pairs.emplace_back(failures[f], impacts[i]);
        }
    }
    return pairs;
}

TEST(SecondMatrix, AgreesWithTheFormInEveryCell) {
    for (std::size_t l = 0; l < 4; ++l) {
        const auto pairs = leading_to(likelihoods[l]);
        ASSERT_FALSE(pairs.empty());
        for (std::size_t c = 0; c < 4; ++c) {
            for (const auto& [failure, impact] : pairs) {
                EXPECT_EQ(outcome("risk_rating", assessed(failure, impact, consequences[c])),
                          risk_rating[l][c])
                    << failure << ", " << impact << ", " << consequences[c];
            }
        }
    }
}

TEST(SecondMatrix, HasAsManyCellsOfEachRatingAsTheForm) {
    std::map<std::string, int> cells;
    for (const char* likelihood : likelihoods) {
        const auto [failure, impact] = leading_to(likelihood).front();
        for (const char* consequence : consequences) {
            ++cells[outcome("risk_rating", assessed(failure, impact, consequence))];
        }
    }
    EXPECT_EQ(cells, (std::map<std::string, int>{
                         {"low", 8}, {"moderate", 4}, {"high", 3}, {"extreme", 1}}));
}

// Very likely and severe: nothing else of the 64 combinations reaches extreme.
TEST(BothMatrices, GiveExtremeInOneCaseOnly) {
    int extreme = 0;
    for (const char* failure : failures) {
        for (const char* impact : impacts) {
            for (const char* consequence : consequences) {
                const auto rating = outcome("risk_rating", assessed(failure, impact, consequence));
                EXPECT_NE(rating, "open");
                if (rating == "extreme") ++extreme;
            }
        }
    }
    EXPECT_EQ(extreme, 1);
    EXPECT_EQ(outcome("risk_rating", assessed("imminent", "high", "severe")), "extreme");
}

// A rating needs all three entries, except where the missing one makes no difference: what is
// unlikely is rated low whatever the consequences, and negligible consequences are always low.
TEST(BothMatrices, LeaveARatingOpenThatAMissingEntryDecides) {
    EXPECT_EQ(outcome("risk_rating", assessed("probable", "high", "unknown")), "open");
    EXPECT_EQ(outcome("risk_rating", assessed("unknown", "high", "severe")), "open");
    EXPECT_EQ(outcome("risk_rating", assessed("improbable", "unknown", "unknown")), "low");
    EXPECT_EQ(outcome("risk_rating", assessed("unknown", "unknown", "negligible")), "low");
}

}  // namespace
}  // namespace ashtriage::published
