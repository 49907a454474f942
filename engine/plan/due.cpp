#include "plan/due.hpp"

#include <algorithm>
#include <array>
#include <chrono>

#include "packs/words.hpp"
#include "plan/label_days.hpp"
#include "treat/card_choice.hpp"
#include "treat/permission.hpp"

namespace ashtriage::plan {

using measure::Date;

namespace {

Date new_year(int year) {
    return std::chrono::year(year) / std::chrono::January / 1;
}

int year_of(const Date& date) {
    return static_cast<int>(date.year());
}

const MethodFacts* find_method(const DueRules& rules, std::string_view name) {
    const auto found = std::ranges::find(*rules.methods, name, &MethodFacts::method);
    return found == rules.methods->end() ? nullptr : &*found;
}

bool has_dates(const DueRules& rules, std::string_view method) {
    return std::ranges::find(rules.seasons->methods, method, &season::MethodSeason::method) !=
           rules.seasons->methods.end();
}

std::vector<EarlierTreatment> treated_until(const DueTree& tree, const Date& as_of) {
    std::vector<EarlierTreatment> treated;
    std::ranges::copy_if(tree.earlier, std::back_inserter(treated),
                         [&](const EarlierTreatment& each) { return each.on <= as_of; });
    return treated;
}

// The first day from which the card allows its active ingredient again.
std::optional<Date> allowed_by(const treat::LabelCard& card,
                               const std::vector<EarlierTreatment>& treated, const Date& as_of) {
    std::optional<Date> last;
    int this_year = 0;
    for (const EarlierTreatment& each : treated) {
        if (packs::normalised(each.active_ingredient) !=
            packs::normalised(card.active_ingredient)) {
            continue;
        }
        last = last ? std::max(*last, each.on) : each.on;
        if (each.on.year() == as_of.year()) ++this_year;
    }
    if (!last) return std::nullopt;
    std::optional<Date> allowed = treat::earliest_next(card.limits, *last);
    if (card.limits.applications_per_year && this_year >= *card.limits.applications_per_year) {
        const Date next_year = new_year(year_of(as_of) + 1);
        allowed = allowed ? std::max(*allowed, next_year) : next_year;
    }
    return allowed;
}

class Judgement {
 public:
    Judgement(const DueTree& tree, const DueRules& rules, const Date& as_of)
        : tree_(tree), rules_(rules), as_of_(as_of), treated_(treated_until(tree, as_of)) {}

    Due judge() {
        take_last();
        if (!tree_.walked_on) {
            due_.state = DueState::not_looked_at;
            return due_;
        }
        due_.look_again = tree_.walked_on->year() < as_of_.year();
        if (tree_.method.empty()) {
            due_.state = DueState::not_to_be_treated;
            return due_;
        }
        take_label();
        take_windows();
        due_.state = state();
        return due_;
    }

 private:
    void take_last() {
        const auto last = std::ranges::max_element(treated_, {}, &EarlierTreatment::on);
        if (last == treated_.end()) return;
        due_.last = *last;
        const MethodFacts* method = find_method(rules_, last->method);
        due_.interval_years = method == nullptr ? 1 : method->interval.years(tree_.wave);
        due_.interval_taken_short =
            method == nullptr || (method->interval.by_wave.has_value() && !tree_.wave);
        due_.due_year = year_of(last->on) + due_.interval_years;
    }

    void take_label() {
        card_ = treat::card_for_method(*rules_.cards, tree_.method);
        due_.no_card = card_ == nullptr;
        due_.example_card = card_ != nullptr && card_->example;
        std::optional<Date> allowed;
        if (card_ != nullptr) allowed = allowed_by(*card_, treated_, as_of_);
        // Twice in a season is too soon by every label there is a card for.
        if (treated_.empty() && tree_.said == SaidOfTreatment::this_season) {
            allowed = new_year(year_of(*tree_.walked_on) + 1);
            due_.allowed_by_record = false;
        }
        if (allowed && *allowed > as_of_) due_.allowed_from = allowed;
    }

    void take_windows() {
        due_.has_dates = has_dates(rules_, tree_.method);
        if (!due_.has_dates) return;
        take_what_passed();
        Date from = as_of_;
        if (due_.allowed_from) from = std::max(from, *due_.allowed_from);
        if (due_.due_year) from = std::max(from, new_year(*due_.due_year));
        take_next_window(from);
    }

    void take_what_passed() {
        const auto window = season::window_for(*rules_.seasons, tree_.method, tree_.location,
                                               year_of(as_of_), *rules_.year);
        if (!window) return;
        const auto days = label_days(card_, window->opens, window->closes);
        const Date last = days ? days->last : window->closes;
        if (last < as_of_) due_.window_passed = last;
    }

    // The next window with a day that the label allows; one in which there is none is passed over
    // once, since next year's may lie otherwise.
    void take_next_window(Date from) {
        for (int tried = 0; tried < 2; ++tried) {
            due_.window = season::next_window(*rules_.seasons, tree_.method, tree_.location, from,
                                              *rules_.year)
                              .window;
            if (!due_.window) return;
            const auto days =
                label_days(card_, std::max(from, due_.window->opens), due_.window->closes);
            if (days) {
                due_.first_day = days->first;
                due_.last_day = days->last;
                return;
            }
            from = measure::add_days(due_.window->closes, 1);
        }
        due_.outside_label = true;
    }

    DueState state() const {
        if (due_.allowed_from) return DueState::too_soon;
        if (!due_.last) {
            return tree_.said == SaidOfTreatment::never ? DueState::never_treated
                                                        : DueState::not_recorded;
        }
        const int year = year_of(as_of_);
        if (year < *due_.due_year) return DueState::not_yet_due;
        if (due_.window_passed) return DueState::missed;
        return year > *due_.due_year ? DueState::overdue : DueState::due;
    }

    const DueTree& tree_;
    const DueRules& rules_;
    const Date& as_of_;
    std::vector<EarlierTreatment> treated_;
    const treat::LabelCard* card_ = nullptr;
    Due due_;
};

}  // namespace

std::string_view words(DueState state) {
    constexpr std::array<std::string_view, 9> names{
        "overdue",     "missed",   "due",           "never treated",    "not recorded",
        "not yet due", "too soon", "not looked at", "not to be treated"};
    return names.at(static_cast<std::size_t>(state));
}

Due due_on(const DueTree& tree, const DueRules& rules, const Date& as_of) {
    return Judgement(tree, rules, as_of).judge();
}

std::optional<StillInTime> still_in_time(const std::vector<std::string>& methods,
                                         const DueTree& tree, const DueRules& rules,
                                         const Date& as_of) {
    const auto treated = treated_until(tree, as_of);
    for (const std::string& method : methods) {
        if (method == tree.method || !has_dates(rules, method)) continue;
        const auto window =
            season::window_for(*rules.seasons, method, tree.location, year_of(as_of), *rules.year);
        if (!window) continue;
        Date first = std::max(as_of, window->opens);
        const treat::LabelCard* card = treat::card_for_method(*rules.cards, method);
        if (card != nullptr) {
            if (const auto allowed = allowed_by(*card, treated, as_of)) {
                first = std::max(first, *allowed);
            }
        }
        const auto days = label_days(card, first, window->closes);
        if (days) return StillInTime{method, *window, days->first, days->last};
    }
    return std::nullopt;
}

}  // namespace ashtriage::plan
