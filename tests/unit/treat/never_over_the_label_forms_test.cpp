// Over 100,000 random cards in every form of rate, dry and liquid, with a range of DBH and limits
// in time: whatever is dosed keeps the rate and the size, and whatever is not stopped keeps the
// times. The limits are worked out here in a second way, in floating numbers and from the calendar.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "measure/units.hpp"
#include "treat/dose.hpp"
#include "treat/permission.hpp"

namespace ashtriage::treat {
namespace {

using measure::Date;
using measure::Length;
using measure::Mass;
using measure::Volume;
namespace units = measure::units;

constexpr int rounds = 100'000;
constexpr long double pi = std::numbers::pi_v<long double>;

enum class Form { by_inch, by_girth, by_class, by_ground, by_bark, by_mix };

struct RandomForm {
    Form form = Form::by_inch;
    bool dry = false;
    LabelCard card;
    std::vector<std::pair<double, std::int64_t>> classes;  // inches up to, highest amount
    std::int64_t most = 0;  // hundredths of a millilitre or of a gram, at the highest rate
    std::int64_t mix_per_inch = 0;
};

class Maker {
 public:
    explicit Maker(std::mt19937& random) : random_(random) {}

    RandomForm make() {
        RandomForm made;
        made.form = static_cast<Form>(random_() % 6);
        made.dry = random_() % 2 == 0;
        LabelCard& card = made.card;
        card.example = false;
        card.active_ingredient = "inventine";
        card.application = Application::basal_trunk_spray;
        card.product = made.dry ? ProductForm::dry : ProductForm::liquid;
        card.strength.active = Mass::from_ticks(units::gram.ticks * 100);
        if (made.dry) {
            card.strength.per = Mass::from_ticks(units::kilogram.ticks);
        } else {
            card.strength.per = Volume::from_ticks(units::litre.ticks);
        }
        card.spray = SprayedBark{Length::of("5", units::foot), {}};
        card.measure_with.product = amount(made.dry, pick({1, 10, 50, 100}));
        card.measure_with.carrier = volume(100);
        made.mix_per_inch = between(60'000, 90'000);
        card.mix = Mix{
            "water", Mix::Stated::finished, volume(made.mix_per_inch), basis_of(Per::inch_dbh), {}};
        add_rates(made);
        const int smallest = static_cast<int>(between(0, 8));
        if (smallest > 0) card.dbh.from = inches(smallest);
        if (random_() % 2 == 0) card.dbh.to = inches(smallest + static_cast<int>(between(4, 40)));
        if (random_() % 2 == 0) card.limits.applications_per_year = static_cast<int>(between(1, 3));
        if (random_() % 2 == 0) card.limits.again_after_days = static_cast<int>(between(1, 400));
        if (random_() % 2 == 0) card.limits.again_after_months = static_cast<int>(between(1, 24));
        return made;
    }

    static Length inches(int number) { return Length::from_ticks(units::inch.ticks * number); }
    std::int64_t between(std::int64_t from, std::int64_t to) {
        return std::uniform_int_distribution<std::int64_t>(from, to)(random_);
    }

 private:
    static StatedVolume volume(std::int64_t hundredths) {
        return {hundredths, 100, units::millilitre};
    }
    static StatedAmount amount(bool dry, std::int64_t hundredths) {
        if (dry) return StatedMass{hundredths, 100, units::gram};
        return volume(hundredths);
    }
    std::int64_t pick(const std::vector<std::int64_t>& from) {
        return from[random_() % from.size()];
    }

    Rate rate(bool dry, std::int64_t& most) {
        const std::int64_t low = between(100, 400);
        const std::int64_t usual = low + between(0, 200);
        most = usual + between(0, 200);
        return {amount(dry, low), amount(dry, usual), amount(dry, most)};
    }

    void add_rates(RandomForm& made) {
        if (made.form == Form::by_class) {
            int to = 0;
            made.card.rates.per = basis_of(Per::tree);
            for (std::int64_t line = between(1, 4); line > 0; --line) {
                to += static_cast<int>(between(2, 12));
                std::int64_t most = 0;
                const Rate of_line = rate(made.dry, most);
                made.card.rates.classes.push_back({inches(to), of_line});
                made.classes.emplace_back(to, most);
            }
            return;
        }
        made.card.rates.classes = {{std::nullopt, rate(made.dry, made.most)}};
        switch (made.form) {
            case Form::by_girth:
                made.card.rates.per = basis_of(Per::inch_girth);
                break;
            case Form::by_ground:
                made.card.rates.per = basis_of(Per::treated_area, "100 sq ft");
                break;
            case Form::by_bark:
                made.card.rates.per = basis_of(Per::bark_area, "10 sq ft");
                break;
            case Form::by_mix:
                made.card.rates.per = basis_of(Per::finished_mix, "1 gal");
                break;
            case Form::by_inch:
            case Form::by_class:
                made.card.rates.per = basis_of(Per::inch_dbh);
                break;
        }
    }

    std::mt19937& random_;
};

// The most that the card allows for a stem, in millilitres or grams; less than nothing where its
// table ends below it.
long double most_for(const RandomForm& made, long double dbh, long double ground_square_feet) {
    const long double most = static_cast<long double>(made.most) / 100.0L;
    switch (made.form) {
        case Form::by_inch:
            return most * dbh;
        case Form::by_girth:
            return most * dbh * pi;
        case Form::by_ground:
            return most * ground_square_feet / 100.0L;
        case Form::by_bark:
            return most * (pi * dbh / 12.0L * 5.0L) / 10.0L;
        case Form::by_mix:
            // In gallons of 3,785.411784 mL.
            return most * static_cast<long double>(made.mix_per_inch) / 100.0L * dbh /
                   3'785.411784L;
        case Form::by_class:
            for (const auto& [to, of_class] : made.classes) {
                if (dbh <= to) return static_cast<long double>(of_class) / 100.0L;
            }
            return -1.0L;
    }
    return -1.0L;
}

long double units_of(const Amount& amount) {
    return is_volume(amount) ? static_cast<long double>(volume_of(amount).ticks()) / 1e10L
                             : static_cast<long double>(mass_of(amount).ticks()) / 1e9L;
}

TEST(WhateverIsDosedInAnyForm, KeepsTheRateAndTheSizesOfItsCard) {
    std::mt19937 random(20260601);
    Maker maker(random);
    std::array<int, 6> dosed{};
    int outside = 0;
    for (int round = 0; round < rounds; ++round) {
        const RandomForm made = maker.make();
        const Length dbh = Length::from_ticks(maker.between(10'000'000, 1'200'000'000));
        const auto ground = measure::Area::from_ticks(maker.between(1'000'000, 4'000'000'000));
        const Dose dose =
            dose_for(made.card, {{dbh}, static_cast<RateLevel>(random() % 3), ground});
        const long double inches = static_cast<long double>(dbh.ticks()) / 25'400'000.0L;
        const auto& range = made.card.dbh;
        const bool in_range =
            (!range.from || dbh >= *range.from) && (!range.to || dbh <= *range.to);
        const long double most =
            most_for(made, inches, static_cast<long double>(ground.ticks()) / 9'290'304.0L);
        if (!in_range || most < 0.0L) {
            ++outside;
            ASSERT_TRUE(dose.stopped()) << "round " << round;
            ASSERT_TRUE(dose.amounts.empty());
            continue;
        }
        if (dose.stopped()) continue;
        ++dosed.at(static_cast<std::size_t>(made.form));
        // Sizes are held to the nanometre or its like.
        ASSERT_LE(units_of(dose.find(Part::product)->measured), most * (1.0L + 1e-6L) + 1e-6L)
            << "round " << round << ", form " << static_cast<int>(made.form);
    }
    for (const int each : dosed) EXPECT_GT(each, rounds / 40);
    EXPECT_GT(outside, rounds / 20);
}

// The months between, counted on the calendar; a day that the later month does not have is its
// last.
bool months_have_passed(const Date& from, const Date& to, int months) {
    const int between = (static_cast<int>(to.year()) - static_cast<int>(from.year())) * 12 +
                        static_cast<int>(static_cast<unsigned>(to.month())) -
                        static_cast<int>(static_cast<unsigned>(from.month()));
    if (between != months) return between > months;
    const std::chrono::year_month_day_last last(to.year(), std::chrono::month_day_last(to.month()));
    return to.day() >= std::min(from.day(), last.day());
}

TEST(WhateverIsNotStopped, KeepsTheTimesOfItsCard) {
    std::mt19937 random(20260602);
    Maker maker(random);
    int allowed = 0;
    int stopped = 0;
    for (int round = 0; round < rounds; ++round) {
        const RandomForm made = maker.make();
        IntendedUse use;
        use.on = measure::add_days(measure::parse_date("2026-01-01"),
                                   static_cast<int>(maker.between(0, 800)));
        for (std::int64_t before = maker.between(0, 3); before > 0; --before) {
            use.others.push_back(
                measure::add_days(use.on, -static_cast<int>(maker.between(0, 900))));
        }
        if (any_stop(findings_about(made.card, Dose{}, use))) {
            ++stopped;
            continue;
        }
        ++allowed;
        const Limits& limits = made.card.limits;
        int this_year = 0;
        for (const Date& date : use.others) {
            this_year += date.year() == use.on.year() ? 1 : 0;
            if (limits.again_after_days) {
                ASSERT_GE(measure::days_between(date, use.on), *limits.again_after_days);
            }
            if (limits.again_after_months) {
                ASSERT_TRUE(months_have_passed(date, use.on, *limits.again_after_months))
                    << measure::text(date) << " to " << measure::text(use.on);
            }
        }
        if (limits.applications_per_year) {
            ASSERT_LT(this_year, *limits.applications_per_year);
        }
    }
    EXPECT_GT(allowed, rounds / 10);
    EXPECT_GT(stopped, rounds / 10);
}

}  // namespace
}  // namespace ashtriage::treat
