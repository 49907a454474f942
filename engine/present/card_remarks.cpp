#include "present/card_remarks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "measure/units.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"
#include "treat/dose.hpp"
#include "treat/permission.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

using measure::Length;
using measure::Mass;
using treat::LabelCard;
namespace units = measure::units;

namespace {

// Labels differ from trials, but hardly by this much: girth taken for DBH makes it 3.14 times too
// much or too little. A bound of our own that comes from no source.
constexpr std::int64_t quarters_above = 5;  // five quarters of the highest published rate
constexpr std::int64_t quarters_below = 3;  // three quarters of the lowest

// A stem to try the card on: within its range, and as near to 12 inches as that allows.
Length trial_stem(const LabelCard& card) {
    Length dbh = Length::of(12.0, units::inch);
    if (card.dbh.from) dbh = std::max(dbh, *card.dbh.from);
    if (card.dbh.to) dbh = std::min(dbh, *card.dbh.to);
    return dbh;
}

bool mentions(std::string_view text, std::string_view part) {
    return packs::normalised(text).find(packs::normalised(part)) != std::string::npos;
}

const plan::Rate* published_rate(const plan::MethodFacts& facts, Length dbh) {
    const auto rate = std::ranges::find_if(
        facts.rates, [&](const plan::Rate& each) { return !each.up_to || dbh <= *each.up_to; });
    return rate == facts.rates.end() ? nullptr : &*rate;
}

// Active ingredient for each inch DBH at the card's usual rate; nothing where the card does not
// count by the tree.
std::optional<Mass> active_per_inch(const LabelCard& card, Length dbh) {
    const treat::Dose dose = treat::dose_for(card, dbh);
    const treat::MeasuredAmount* product = dose.find(treat::Part::product);
    if (product == nullptr) return std::nullopt;
    return treat::active_in(card.strength, product->exact)
        .scaled(units::inch.ticks, dbh.ticks(), measure::Rounding::nearest);
}

class Remarks {
 public:
    Remarks(const LabelCard& card, const Knowledge& knowledge, const measure::Date& as_of)
        : card_(card), knowledge_(knowledge), as_of_(as_of) {}

    std::vector<CardRemark> collect() {
        about_the_method();
        about_the_day_of_the_check();
        about_the_interval();
        about_the_season();
        about_the_rate();
        return std::move(remarks_);
    }

 private:
    void add(std::string id, std::string text) {
        remarks_.push_back({card_.key, std::move(id), std::move(text)});
    }

    void about_the_method() {
        for (const treat::Finding& stop : stops_by_method(card_, knowledge_)) {
            add(stop.id, stop.text);
        }
    }

    void about_the_day_of_the_check() {
        if (!card_.from_label) return;
        const measure::Date& checked = card_.from_label->checked_on;
        if (measure::days_between(checked, as_of_) > treat::days_until_checked_again) {
            add("card-not-checked",
                fmt::format(
                    "Last held against the label on {}, more than a year ago: labels change.",
                    measure::long_text(checked)));
        }
        if (as_of_ < checked) {
            add("checked-in-the-future",
                fmt::format("Held against the label on {}, which is still to come.",
                            measure::long_text(checked)));
        }
    }

    void about_the_interval() {
        const treat::Limits& limits = card_.limits;
        if (limits.applications_per_year.value_or(0) < 2) return;
        const bool a_year_apart = limits.again_after_months.value_or(0) >= 12 ||
                                  limits.again_after_days.value_or(0) >= 365;
        if (!a_year_apart) return;
        add("interval-unlike-number",
            fmt::format("The card allows {} applications a year, and each a year or more after the "
                        "one before: one of the two is not what the label says.",
                        *limits.applications_per_year));
    }

    // Which a label may mean, and two ends that were exchanged look like.
    void about_the_season() {
        const auto& season = card_.conditions.season;
        if (!season || season->from <= season->to) return;
        add("season-over-the-new-year",
            fmt::format("The season on the card runs over the new year, from {:02}-{:02} to "
                        "{:02}-{:02}: exchange the two if the label does not mean that.",
                        season->from.month, season->from.day, season->to.month, season->to.day));
    }

    void about_the_rate() {
        const auto facts =
            std::ranges::find(knowledge_.methods, card_.method, &plan::MethodFacts::method);
        if (facts == knowledge_.methods.end()) return;
        const Length dbh = trial_stem(card_);
        const plan::Rate* published = published_rate(*facts, dbh);
        const auto on_card = active_per_inch(card_, dbh);
        if (published == nullptr || !on_card) return;
        const auto quarters = [](Mass mass, std::int64_t count) {
            return mass.scaled(count, 4, measure::Rounding::nearest);
        };
        if (*on_card <= quarters(published->to, quarters_above) &&
            *on_card >= quarters(published->from, quarters_below)) {
            return;
        }
        add("rate-unlike-published",
            fmt::format(
                "For a stem of {} inches the card comes to {} grams of {} for each inch DBH, and "
                "{} "
                "have been published for this method. Check the rate, the strength and their "
                "units, "
                "and whether the label counts by inches of DBH or of girth.",
                dbh.text(units::inch, 0), grams(*on_card), card_.active_ingredient,
                published->from == published->to
                    ? grams(published->from)
                    : fmt::format("{} to {}", grams(published->from), grams(published->to))));
    }

    static std::string grams(Mass mass) { return mass.text(units::gram, 2); }

    const LabelCard& card_;
    const Knowledge& knowledge_;
    const measure::Date& as_of_;
    std::vector<CardRemark> remarks_;
};

}  // namespace

std::vector<treat::Finding> stops_by_method(const LabelCard& card, const Knowledge& knowledge) {
    const packs::RuleSet& rules = knowledge.judge.rules();
    std::vector<std::string> methods =
        rules.model.tables[*rules.model.find_table(triage::table::method)].gives;
    std::erase(methods, triage::outcome::no_method_fits);
    // Methods that are compared, and that no rule puts first, can be planned by their card.
    for (const plan::MethodFacts& each : knowledge.methods) {
        if (std::ranges::find(methods, each.method) == methods.end())
            methods.push_back(each.method);
    }
    if (std::ranges::find(methods, card.method) == methods.end()) {
        const std::string near = packs::nearest_hint(card.method, methods);
        return {{treat::Severity::stop, "unknown-method",
                 fmt::format("No rule gives the method \"{}\", so nothing can be planned by this "
                             "card{}.",
                             card.method, near.empty() ? "" : ": " + near)}};
    }
    const auto facts =
        std::ranges::find(knowledge.methods, card.method, &plan::MethodFacts::method);
    if (facts == knowledge.methods.end()) return {};
    std::vector<treat::Finding> stops;
    if (!mentions(facts->title, treat::words(card.application))) {
        stops.push_back({treat::Severity::stop, "application-of-another-method",
                         fmt::format("The card is for a {}, and the method \"{}\" is another one "
                                     "({}): correct its application or its method.",
                                     treat::words(card.application), card.method, facts->title)});
    }
    if (!mentions(facts->active_ingredient, card.active_ingredient)) {
        stops.push_back(
            {treat::Severity::stop, "active-of-another-method",
             fmt::format("The card is for {}, and the method \"{}\" is by {}: what is "
                         "known of the method does not hold for it. Correct the active "
                         "ingredient or the method.",
                         card.active_ingredient, card.method, facts->active_ingredient)});
    }
    return stops;
}

std::vector<CardRemark> remarks_on(const LabelCard& card, const Knowledge& knowledge,
                                   const measure::Date& as_of) {
    return Remarks(card, knowledge, as_of).collect();
}

}  // namespace ashtriage::present
