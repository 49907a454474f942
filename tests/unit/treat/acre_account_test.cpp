#include "treat/acre_account.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <bit>
#include <random>

#include "card_text.hpp"
#include "measure/input_error.hpp"
#include "measure/units.hpp"

namespace ashtriage::treat {
namespace {

using measure::Area;
using measure::Mass;
using measure::parse_date;
using test::card_of;
using test::changed;
namespace units = measure::units;

const Area one_acre = Area::of("1", units::acre);

Mass grams(std::string_view number) {
    return Mass::of(number, units::gram);
}

SpentActive spent(std::string_view mass, std::string_view on, CountedUse use = CountedUse::soil,
                  std::string name = "inventine") {
    return {std::move(name), use, parse_date(on), grams(mass)};
}

class Account : public testing::Test {
 protected:
    AcreAccount account(const std::vector<SpentActive>& used,
                        const std::vector<SpentActive>& planned = {},
                        const std::vector<RaisedLimit>& raised = {}) const {
        return acre_account(card_of(card), one_acre, today, used, planned, raised).value();
    }

    std::string card = test::dry_drench;  // 0.4 lb an acre, 181.436948 g
    measure::Date today = parse_date("2026-05-20");
};

TEST_F(Account, TakesWhatWasUsedAndPlannedInTheSameYearFromWhatIsAllowed) {
    const AcreAccount made = account({spent("100", "2026-04-01"), spent("50", "2025-12-31")},
                                     {spent("30", "2026-06-01")});
    EXPECT_EQ(made.allowed, grams("181.436948"));
    EXPECT_EQ(made.used, grams("100"));
    EXPECT_EQ(made.planned, grams("30"));
    EXPECT_EQ(made.left(), grams("51.436948"));
    EXPECT_EQ(made.over(), Mass());
}

TEST_F(Account, CountsTurfAndShrubsAndNoOtherActiveIngredient) {
    EXPECT_EQ(account({spent("150", "2026-03-01", CountedUse::other),
                       spent("99", "2026-03-01", CountedUse::soil, "secondine")})
                  .left(),
              grams("31.436948"));
}

TEST_F(Account, CountsOnlyTheUsesThatTheLabelCounts) {
    card = changed(card, "active_per_acre_per_year: 0.4 lb",
                   "active_per_acre_per_year: 0.4 lb, counting: [soil]");
    EXPECT_EQ(account({spent("150", "2026-03-01", CountedUse::injection),
                       spent("1", "2026-03-01", CountedUse::soil)})
                  .used,
              grams("1"));
}

TEST_F(Account, NeverShowsLessThanNothingLeftAndSaysHowFarItIsOver) {
    const AcreAccount made = account({spent("200", "2026-03-01")});
    EXPECT_EQ(made.left(), Mass());
    EXPECT_EQ(made.over(), grams("18.563052"));
}

TEST_F(Account, RoundsTheAllowanceOfTheSiteDown) {
    const auto made =
        acre_account(card_of(card), Area::of("0.3333", units::acre), today, {}, {}, {});
    EXPECT_EQ(made->allowed.ticks(), std::int64_t{60'472'934'768});  // 60.4729347684 g
}

TEST_F(Account, NeedsTheAreaOfTheSiteWhereThereIsALimit) {
    EXPECT_THROW(acre_account(card_of(card), std::nullopt, today, {}, {}, {}), measure::InputError);
    EXPECT_EQ(acre_account(card_of(test::injected_liquid), std::nullopt, today, {}, {}, {}),
              std::nullopt);
}

TEST_F(Account, RaisesTheLimitOnlyByAConfirmedOneThatIsInForceAndHigher) {
    const auto raised = [](std::string_view mass, std::string_view expires,
                           std::string name = "inventine") {
        return RaisedLimit{std::move(name), Mass::of(mass, units::pound), "XX-000000", "Anystate",
                           parse_date(expires)};
    };
    EXPECT_EQ(account({}, {}, {raised("0.8", "2026-05-20")}).allowed, grams("362.873896"));
    EXPECT_TRUE(account({}, {}, {raised("0.8", "2026-05-20")}).raised_by);
    EXPECT_EQ(account({}, {}, {raised("0.8", "2026-05-19")}).allowed, grams("181.436948"));
    EXPECT_EQ(account({}, {}, {raised("0.8", "2027-01-01", "secondine")}).allowed,
              grams("181.436948"));
    EXPECT_FALSE(account({}, {}, {raised("0.3", "2027-01-01")}).raised_by);
    EXPECT_EQ(account({}, {}, {raised("0.6", "2027-01-01"), raised("0.8", "2027-01-01")}).per_acre,
              Mass::of("0.8", units::pound));
}

// How many trees of each rank a set holds; sets are compared by that, the first rank first.
std::vector<int> held(const std::vector<Claimant>& trees, unsigned set) {
    std::vector<int> counts(4, 0);
    for (std::size_t i = 0; i < trees.size(); ++i) {
        if ((set >> i & 1U) != 0) ++counts[static_cast<std::size_t>(trees[i].rank)];
    }
    return counts;
}

TEST(LargestSet, IsTheBestOfAllSetsOnThousandsOfRandomSites) {
    std::mt19937 random(20260520);
    for (int round = 0; round < 3000; ++round) {
        std::vector<Claimant> trees(random() % 11);
        for (Claimant& tree : trees) {
            tree = {static_cast<int>(random() % 4),
                    Mass::from_ticks(1 + static_cast<std::int64_t>(random() % 40))};
        }
        const Mass left = Mass::from_ticks(static_cast<std::int64_t>(random() % 150));

        std::vector<int> best(4, 0);
        for (unsigned set = 0; set < 1U << trees.size(); ++set) {
            Mass taken;
            for (std::size_t i = 0; i < trees.size(); ++i) {
                if ((set >> i & 1U) != 0) taken += trees[i].active;
            }
            if (taken <= left) best = std::max(best, held(trees, set));
        }

        unsigned chosen = 0;
        Mass taken;
        for (const std::size_t tree : largest_set(trees, left)) {
            chosen |= 1U << tree;
            taken += trees[tree].active;
        }
        ASSERT_LE(taken, left);
        ASSERT_EQ(held(trees, chosen), best) << "round " << round;
    }
}

// A dose for a stem that belongs to no site.
TEST(AcreNotCounted, IsSaidOfACardWithALimitAndOfNoOther) {
    LabelCard card = test::card_of(test::dry_drench);
    ASSERT_TRUE(acre_not_counted(card).has_value());
    EXPECT_NE(acre_not_counted(card)->text.find("181.44 grams (0.4000 pounds)"), std::string::npos);
    card.limits.active_per_acre_per_year.reset();
    EXPECT_FALSE(acre_not_counted(card).has_value());
}

}  // namespace
}  // namespace ashtriage::treat
