// Over 100,000 random cards, trees and sites: whatever is planned keeps every limit of its card.
// The limits are worked out here in a second way, in floating numbers of wide range, from the texts
// of the card.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include "card_text.hpp"
#include "measure/units.hpp"
#include "treat/acre_account.hpp"
#include "treat/dose.hpp"

namespace ashtriage::treat {
namespace {

using measure::Length;
using measure::Mass;
namespace units = measure::units;

constexpr int rounds = 100'000;

class RandomCard {
 public:
    explicit RandomCard(std::mt19937& random) : random_(random) {
        card.application = Application::basal_trunk_spray;
        card.active_ingredient = "inventine";
        card.strength.active = Mass::from_ticks(hundredths(1, 40'000) * units::gram.ticks / 100);
        card.strength.per = measure::Volume::from_ticks(units::litre.ticks);
        constexpr std::array bases{Per::inch_dbh, Per::cm_dbh, Per::inch_girth, Per::cm_girth,
                                   Per::tree};
        per = bases[random_() % bases.size()];
        const std::int64_t low = hundredths(1, 500);
        const std::int64_t usual = low + hundredths(0, 300);
        most = usual + hundredths(0, 300);
        card.rates = {basis_of(per),
                      {{std::nullopt, {millilitres(low), millilitres(usual), millilitres(most)}}},
                      {}};
        if (random_() % 2 == 0) {
            cap = hundredths(50, 20'000);
            card.limits.per_application = millilitres(cap);
        }
        card.limits.active_per_acre_per_year =
            Mass::from_ticks(hundredths(1, 40'000) * units::gram.ticks / 100);
        card.limits.counted = {CountedUse::bark};
        card.measure_with.product = millilitres(std::array{1, 10, 50, 100, 296}[random_() % 5]);
        card.measure_with.carrier = volume(std::array{100, 2957}[random_() % 2]);
        card.measure_with.surfactant = volume(100);
        if (random_() % 3 != 0) {
            // Always enough to hold product and surfactant.
            card.mix =
                Mix{"water", Mix::Stated::finished, volume(most * 3 + 500), basis_of(per), {}};
            if (random_() % 2 == 0) {
                share = hundredths(1, 200);
                card.surfactant =
                    Surfactant{"surfactant",
                               measure::Percent::from_ticks(share * units::percent.ticks / 100),
                               {}};
            }
        }
    }

    // How many of what the rate counts by.
    long double size(Length dbh) const {
        const long double millimetres = static_cast<long double>(dbh.ticks()) / 1e6L;
        switch (per) {
            case Per::inch_dbh:
                return millimetres / 25.4L;
            case Per::cm_dbh:
                return millimetres / 10.0L;
            case Per::inch_girth:
                return millimetres * std::numbers::pi_v<long double> / 25.4L;
            case Per::cm_girth:
                return millimetres * std::numbers::pi_v<long double> / 10.0L;
            default:
                return 1.0L;
        }
    }

    LabelCard card;
    Per per = Per::tree;
    std::int64_t most = 0;   // hundredths of a millilitre of product
    std::int64_t cap = 0;    // likewise; 0 for none
    std::int64_t share = 0;  // hundredths of a percent

 private:
    std::int64_t hundredths(std::int64_t from, std::int64_t to) {
        return std::uniform_int_distribution<std::int64_t>(from, to)(random_);
    }
    static StatedVolume volume(std::int64_t hundredths) {
        return {hundredths, 100, units::millilitre};
    }
    static StatedAmount millilitres(std::int64_t hundredths) { return volume(hundredths); }

    std::mt19937& random_;
};

long double in_millilitres(const Amount& amount) {
    return static_cast<long double>(volume_of(amount).ticks()) / 1e10L;
}

// Sizes are held to the nanometre, and a girth is rounded to it.
constexpr long double hair = 1e-6L;

void expect_within_the_label(const RandomCard& random, const Dose& dose, Length dbh) {
    const long double product = in_millilitres(dose.find(Part::product)->measured);
    const long double size = random.size(dbh);
    ASSERT_LE(product, static_cast<long double>(random.most) / 100.0L * size + hair);
    if (random.cap > 0) {
        ASSERT_LE(product, static_cast<long double>(random.cap) / 100.0L + hair);
    }
    ASSERT_LE(dose.find(Part::product)->measured, *dose.highest);
    if (!random.card.mix) return;
    // No stronger than the label: product over finished mix at most as the card has it.
    const long double finished = in_millilitres(Amount(*dose.finished));
    const long double stated = static_cast<long double>(random.most * 3 + 500) / 100.0L * size;
    ASSERT_GE(finished, stated - hair);
    if (random.share > 0) {
        const long double surfactant = in_millilitres(dose.find(Part::surfactant)->measured);
        ASSERT_LE(surfactant, stated * static_cast<long double>(random.share) / 10'000.0L + hair);
    }
}

TEST(WhateverIsPlanned, KeepsEveryLimitOfItsCard) {
    std::mt19937 random(20260521);
    int dosed = 0;
    int held_back = 0;
    const measure::Date today = measure::parse_date("2026-05-20");
    for (int round = 0; round < rounds; ++round) {
        const RandomCard made(random);
        std::vector<Claimant> trees;
        for (std::size_t tree = 0; tree < 1 + random() % 4; ++tree) {
            const Length dbh = Length::from_ticks(
                10'000'000 + static_cast<std::int64_t>(random() % 2'000'000'000));
            const auto level = static_cast<RateLevel>(random() % 3);
            const Dose dose = dose_for(made.card, dbh, level);
            if (dose.stopped()) {
                ASSERT_TRUE(dose.amounts.empty());
                continue;
            }
            ++dosed;
            expect_within_the_label(made, dose, dbh);
            if (HasFatalFailure()) return;
            trees.push_back({static_cast<int>(random() % 3),
                             active_in(made.card.strength, dose.find(Part::product)->measured,
                                       measure::Rounding::up)});
        }
        const auto site =
            measure::Area::from_ticks(1 + static_cast<std::int64_t>(random() % 4'000'000'000'000));
        const SpentActive used{
            "inventine", CountedUse::bark, today,
            Mass::from_ticks(static_cast<std::int64_t>(random() % 50'000'000'000))};
        const auto account = acre_account(made.card, site, today, {used}, {}, {});
        const auto set = largest_set(trees, account->left());
        long double grams = static_cast<long double>(used.mass.ticks()) / 1e9L;
        for (const std::size_t tree : set) {
            grams += static_cast<long double>(trees[tree].active.ticks()) / 1e9L;
        }
        const long double acres = static_cast<long double>(site.ticks()) / 404'685'642'240.0L;
        const long double allowed =
            static_cast<long double>(made.card.limits.active_per_acre_per_year->ticks()) / 1e9L *
            acres;
        if (!set.empty()) {
            ASSERT_LE(grams, allowed + 1e-9L) << "round " << round;
        }
        held_back += set.size() < trees.size() ? 1 : 0;
    }
    // The sample reaches both what fits and what does not.
    EXPECT_GT(dosed, rounds);
    EXPECT_GT(held_back, rounds / 20);
    EXPECT_LT(held_back, rounds);
}

}  // namespace
}  // namespace ashtriage::treat
