// Over 100,000 random properties, cards and histories: what a whole plan accepts keeps every limit
// of its cards. The limits are worked out here in a second way, in floating numbers of wide range
// and by days of the calendar.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>
#include <ranges>

#include "labelled_cards.hpp"
#include "measure/units.hpp"
#include "present/planned_work.hpp"

namespace ashtriage::present {
namespace {

using measure::Date;
using measure::Length;
using measure::Mass;
namespace units = measure::units;

constexpr int rounds = 100'000;
const std::string fertilizer = "fertilizer";

long double inches(Length length) {
    return static_cast<long double>(length.ticks()) / static_cast<long double>(units::inch.ticks);
}

long double ticks(const treat::Amount& amount) {
    return static_cast<long double>(treat::ticks_of(amount));
}

long double grams(Mass mass) {
    return static_cast<long double>(mass.ticks()) / static_cast<long double>(units::gram.ticks);
}

// The demonstration in the spring of the next year, when every method is in its window or before
// it.
class RandomPlan {
 public:
    explicit RandomPlan(std::mt19937& random) : random_(random) {
        for (const TreeAssessment& tree : property.trees) {
            if (tree.treatment && tree.treatment->card) treated_.push_back(tree);
        }
    }

    PlannedWork next() {
        for (treat::LabelCard& card : knowledge.cards) change(card);
        property.site.area = measure::Area::from_ticks(units::acre.ticks / 100 * number(1, 300));
        property.trees.clear();
        before = {};
        for (int tree = 0; tree < number(1, 4); ++tree) add_tree();
        add_site_history();
        asked.rate = static_cast<treat::RateLevel>(number(0, 2));
        asked.mixed_with = one_in(10) ? std::vector{fertilizer} : std::vector<std::string>();
        asked.may_yield_food = one_in(10);
        asked.labels.clear();
        if (one_in(2)) asked.labels.push_back(property.trees.front().tree.label);
        asked.certified = one_in(2);
        return plan_work(property, knowledge, before, asked);
    }

    Knowledge knowledge = with_labels([](treat::LabelCard&) {});
    PropertyAssessment property = property_with(knowledge, measure::parse_date("2027-05-10"));
    treat::SiteHistory before;
    WorkAsked asked;

 private:
    int number(int from, int to) { return std::uniform_int_distribution(from, to)(random_); }
    bool one_in(int many) { return number(1, many) == 1; }
    template <class Value>
    std::optional<Value> perhaps(Value value) {
        return one_in(2) ? std::optional(value) : std::nullopt;
    }

    void change(treat::LabelCard& card) {
        card.limits.per_application.reset();
        if (one_in(3)) {
            const auto size = number(1, 3'000);
            card.limits.per_application =
                card.product == treat::ProductForm::dry
                    ? treat::StatedAmount(treat::StatedMass{size, 10, units::gram})
                    : treat::StatedAmount(treat::StatedVolume{size, 10, units::millilitre});
        }
        card.limits.applications_per_year = perhaps(number(1, 2));
        card.limits.again_after_months = perhaps(number(1, 24));
        card.limits.again_after_days = perhaps(number(1, 400));
        card.limits.active_per_acre_per_year =
            perhaps(Mass::from_ticks(units::gram.ticks / 10 * number(1, 500)));
        card.limits.counted = {treat::counted_use(card.application), treat::CountedUse::soil};
        card.dbh.from = perhaps(Length::from_ticks(units::inch.ticks * number(1, 12)));
        card.dbh.to = perhaps(Length::from_ticks(units::inch.ticks * number(12, 60)));
        card.never_food_trees = one_in(2);
        card.never_mix_with.clear();
        if (one_in(2)) card.never_mix_with.push_back(fertilizer);
        card.from_label->restricted_use = one_in(4);
    }

    void add_tree() {
        TreeAssessment tree =
            treated_[static_cast<std::size_t>(number(1, 1'000'000)) % treated_.size()];
        const auto id = static_cast<int>(property.trees.size()) + 1;
        tree.tree.id = id;
        tree.tree.label = "T" + std::to_string(id);
        tree.facts.diameters.clear();
        for (int stem = 0; stem < (one_in(5) ? 2 : 1); ++stem) {
            tree.facts.diameters.push_back(
                Length::from_ticks(units::inch.ticks / 100 * number(50, 6'000)));
        }
        tree.treatment->card =
            *std::ranges::find(knowledge.cards, tree.treatment->method, &treat::LabelCard::method);
        for (int earlier = 0; earlier < number(0, 2); ++earlier) {
            before.on_trees.push_back({id, active(), day()});
        }
        property.trees.push_back(std::move(tree));
    }

    void add_site_history() {
        for (int use = 0; use < number(0, 3); ++use) {
            before.spent.push_back(
                {active(), one_in(2) ? treat::CountedUse::soil : treat::CountedUse::other, day(),
                 Mass::from_ticks(units::gram.ticks / 10 * number(1, 200))});
        }
        if (one_in(4)) {
            before.raised.push_back({active(),
                                     Mass::from_ticks(units::gram.ticks / 10 * number(1, 900)), "L",
                                     "Invented State", day()});
        }
    }

    std::string active() {
        return knowledge
            .cards[static_cast<std::size_t>(number(1, 1'000'000)) % knowledge.cards.size()]
            .active_ingredient;
    }
    // From a year and a half before the day to half a year after it.
    Date day() { return measure::add_days(property.as_of, number(-550, 180)); }

    std::mt19937& random_;
    std::vector<TreeAssessment> treated_;
};

// The day of the month is kept, or is the last one.
Date months_after(const Date& date, int months) {
    int month = static_cast<int>(static_cast<unsigned>(date.month())) - 1 + months;
    const std::chrono::year year{static_cast<int>(date.year()) + month / 12};
    month = month % 12 + 1;
    for (unsigned day = static_cast<unsigned>(date.day());; --day) {
        const Date later{year, std::chrono::month(static_cast<unsigned>(month)),
                         std::chrono::day(day)};
        if (later.ok()) return later;
    }
}

// Sizes are held to the nanometre.
constexpr long double hair = 1e-6L;

class Accepted {
 public:
    Accepted(const RandomPlan& made, const PlannedWork& work) : made_(made), work_(work) {}

    void expect_within_every_limit() const {
        std::map<std::string, long double> planned;
        for (const PlannedTree& tree : work_.trees) {
            if (tree.ruled_out()) continue;
            expect_dose_within(tree);
            expect_time_within(tree);
            EXPECT_FALSE(made_.asked.may_yield_food && tree.card.never_food_trees);
            EXPECT_TRUE(made_.asked.mixed_with.empty() || tree.card.never_mix_with.empty());
            EXPECT_TRUE(*made_.asked.certified || !tree.card.from_label->restricted_use);
            planned[tree.card.key] += active_of(tree);
        }
        for (const auto& [key, mass] : planned) expect_acre_within(key);
    }

 private:
    static long double active_of(const PlannedTree& tree) {
        const treat::Strength& strength = tree.card.strength;
        const auto per = std::visit([](const auto& each) { return each.ticks(); }, strength.per);
        return ticks(tree.dose.find(treat::Part::product)->measured) /
               static_cast<long double>(per) * grams(strength.active);
    }

    void expect_dose_within(const PlannedTree& tree) const {
        const TreeAssessment& assessed = *std::ranges::find_if(
            made_.property.trees,
            [&](const TreeAssessment& each) { return each.tree.id == tree.tree.id; });
        long double dbh = 0;
        for (const Length stem : assessed.facts.diameters) dbh += inches(stem);
        const treat::LabelCard& card = tree.card;
        EXPECT_TRUE(!card.dbh.from || dbh >= inches(*card.dbh.from) - hair);
        EXPECT_TRUE(!card.dbh.to || dbh <= inches(*card.dbh.to) + hair);
        ASSERT_EQ(card.rates.classes.size(), 1U);
        const long double size = card.rates.per.per == treat::Per::cm_dbh ? dbh * 2.54L : dbh;
        const long double product = ticks(tree.dose.find(treat::Part::product)->measured);
        const long double high = ticks(treat::amount_of(card.rates.classes[0].rate.high));
        EXPECT_LE(product, high * size * (1 + hair));
        if (card.limits.per_application) {
            EXPECT_LE(product, ticks(treat::amount_of(*card.limits.per_application)));
        }
    }

    void expect_time_within(const PlannedTree& tree) const {
        const treat::Limits& limits = tree.card.limits;
        int this_year = 0;
        for (const treat::SiteHistory::OnTree& earlier : made_.before.on_trees) {
            if (earlier.tree != tree.tree.id ||
                earlier.active_ingredient != tree.card.active_ingredient) {
                continue;
            }
            this_year += earlier.on.year() == work_.on.year() ? 1 : 0;
            const auto [first, second] = std::minmax(earlier.on, work_.on);
            if (limits.again_after_days) {
                EXPECT_GE(measure::days_between(first, second), *limits.again_after_days);
            }
            if (limits.again_after_months) {
                EXPECT_LE(months_after(first, *limits.again_after_months), second);
            }
        }
        EXPECT_TRUE(!limits.applications_per_year || this_year < *limits.applications_per_year);
    }

    // All that counts by the card, of whatever card it is, against the limit in force.
    void expect_acre_within(const std::string& key) const {
        const treat::LabelCard& card =
            *std::ranges::find(made_.knowledge.cards, key, &treat::LabelCard::key);
        if (!card.limits.active_per_acre_per_year) return;
        long double limit = grams(*card.limits.active_per_acre_per_year);
        for (const treat::RaisedLimit& raised : made_.before.raised) {
            if (raised.active_ingredient == card.active_ingredient && raised.expires >= work_.on) {
                limit = std::max(limit, grams(raised.per_acre));
            }
        }
        long double used = 0;
        for (const treat::SpentActive& spent : made_.before.spent) {
            if (spent.active_ingredient == card.active_ingredient &&
                spent.on.year() == work_.on.year() && card.limits.counted.contains(spent.use)) {
                used += grams(spent.mass);
            }
        }
        for (const PlannedTree& tree : work_.trees) {
            if (tree.ruled_out() || tree.card.active_ingredient != card.active_ingredient) continue;
            if (card.limits.counted.contains(treat::counted_use(tree.card.application))) {
                used += active_of(tree);
            }
        }
        const long double acres = static_cast<long double>(made_.property.site.area->ticks()) /
                                  static_cast<long double>(units::acre.ticks);
        EXPECT_LE(used, limit * acres + 1e-8L);
    }

    const RandomPlan& made_;
    const PlannedWork& work_;
};

TEST(WhateverAWholePlanAccepts, KeepsEveryLimitOfItsCards) {
    std::mt19937 random(20260601);
    RandomPlan made(random);
    int accepted = 0;
    int ruled_out = 0;
    int without_room = 0;
    int moved = 0;
    for (int round = 0; round < rounds; ++round) {
        const PlannedWork work = made.next();
        Accepted(made, work).expect_within_every_limit();
        if (testing::Test::HasFailure()) FAIL() << "in round " << round;
        for (const PlannedTree& tree : work.trees) {
            (tree.ruled_out() ? ruled_out : accepted) += 1;
            moved += std::ranges::any_of(tree.findings, [](const treat::Finding& finding) {
                return finding.id == moved_finding;
            });
        }
        without_room +=
            static_cast<int>(std::ranges::count_if(work.left_out, &LeftOut::for_want_of_room));
    }
    // The sample reaches what is accepted and every way of refusing it.
    EXPECT_GT(accepted, rounds / 4);
    EXPECT_GT(ruled_out, rounds / 4);
    EXPECT_GT(without_room, rounds / 50);
    EXPECT_GT(moved, rounds / 200);
}

}  // namespace
}  // namespace ashtriage::present
