#include "plan/spray_day.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "measure/units.hpp"
#include "plan/day_limits.hpp"
#include "plan/day_rain.hpp"
#include "treat/permission.hpp"

namespace ashtriage::plan {

using weather::ForecastPeriod;
using weather::Stretch;
namespace units = measure::units;

namespace {

// As much of the value as is needed to tell it from a limit: "10 mph", "10.01 mph".
std::string days(int count) {
    return fmt::format("{} day{}", count, count == 1 ? "" : "s");
}

// "by the calendar, give or take 10 days".
std::string basis_words(const season::EndBasis& by) {
    if (by.give_or_take_days == 0) return "by " + by.words;
    return fmt::format("by {}, give or take {}", by.words, days(by.give_or_take_days));
}

template <class Quantity, class Unit>
std::string shown(const Quantity& value, const Unit& unit) {
    std::string text = value.text(unit, 2);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
    return text + " " + std::string(unit.symbol());
}

std::string shown(const measure::Speed& wind) {
    return shown(wind, units::mile_per_hour);
}

std::string shown(const measure::Temperature& temperature) {
    return fmt::format("{} ({})", shown(temperature, units::fahrenheit),
                       shown(temperature, units::celsius));
}

template <class Quantity>
struct Range {
    Quantity low;
    Quantity high;
};

// A range of which the day may have any value, held against a limit of which every value will do.
// The ground is that of the end which decides; null when the range lies within the limits.
template <class Quantity>
std::pair<DayAnswer, const Ground*> held_against(const Range<Quantity>& day,
                                                 const RangeLimit<Quantity>& limit) {
    std::pair<DayAnswer, const Ground*> worst{DayAnswer::go, nullptr};
    const auto note = [&](bool surely, bool perhaps, const Ground& ground) {
        if (!perhaps) return;
        const DayAnswer answer = surely ? ground.otherwise : DayAnswer::check;
        if (answer > worst.first) worst = {answer, &ground};
    };
    if (limit.low) {
        note(day.high < limit.low->value, day.low < limit.low->value, limit.low->ground);
    }
    if (limit.high) {
        note(day.low > limit.high->value, day.high > limit.high->value, limit.high->ground);
    }
    if (limit.best_high) {
        note(day.low > limit.best_high->value, day.high > limit.best_high->value,
             limit.best_high->ground);
    }
    return worst;
}

template <class Quantity>
std::string limit_words(const RangeLimit<Quantity>& limit) {
    if (limit.low && limit.high) {
        return fmt::format("From {} to {}.", shown(limit.low->value), shown(limit.high->value));
    }
    if (limit.low) return fmt::format("At least {}.", shown(limit.low->value));
    return fmt::format("At most {}.", shown(limit.high->value));
}

class Screening {
 public:
    Screening(const DayRules& rules, const treat::LabelCard* card,
              const std::optional<SeasonOfDay>& season, const DayFacts& day)
        : rules_(rules), card_(card), season_(season), day_(day) {
        if (day_.work.to <= day_.work.from) {
            work_ = {day_.work.from, day_.work.from + std::chrono::minutes(1)};
        } else {
            work_ = day_.work;
        }
    }

    SprayDay screen() {
        about_the_label();
        about_the_season();
        about(DayTopic::leaves, by_rule(rules_.leaves_out), day_.leaves_out,
              {"The leaves are fully out.", "The leaves are not fully out.",
               "Not known whether the leaves are fully out: look at the tree."});
        about_the_soil();
        about(DayTopic::bark, bark_limit(rules_, card_), day_.bark_dry,
              {"The bark is dry.", "The bark is wet.",
               "Not known whether the bark is dry: look at the tree."});
        about_the_temperature();
        about_the_wind();
        about(DayTopic::inversion, by_rule(rules_.no_inversion), negated(day_.inversion),
              {"No inversion was seen.", "There is an inversion.",
               "Not known whether there is an inversion: look at smoke or dust on the spot."});
        about_the_rain();
        about(DayTopic::bloom, bloom_limit(rules_, card_), negated(day_.in_bloom),
              {"Neither the tree nor its root zone is in bloom.",
               "The tree, or something in its root zone, is in bloom.",
               "Not known what is in bloom: look at the tree and the ground under it."});
        about(DayTopic::bees, by_rule(rules_.no_bees), negated(day_.bees),
              {"No bees forage near by.", "Bees forage near by.",
               "Not known whether bees forage near by: look before you begin."});
        result_.advice = rules_.advice;
        return std::move(result_);
    }

 private:
    struct YesNoWords {
        std::string_view as_needed;
        std::string_view otherwise;
        std::string_view not_known;
    };

    static std::optional<bool> negated(const std::optional<bool>& value) {
        if (!value) return std::nullopt;
        return !*value;
    }

    void add(DayTopic topic, DayAnswer answer, std::string known, std::string limit,
             const Ground& ground) {
        result_.checks.push_back({topic, answer, std::move(known), std::move(limit), ground.from,
                                  ground.because.sources});
    }

    void about(DayTopic topic, const std::optional<Ground>& ground,
               const std::optional<bool>& as_needed, const YesNoWords& words) {
        if (!ground) {
            result_.no_limit.push_back(topic);
            return;
        }
        const DayAnswer answer = !as_needed   ? DayAnswer::check
                                 : *as_needed ? DayAnswer::go
                                              : ground->otherwise;
        const std::string_view known = !as_needed   ? words.not_known
                                       : *as_needed ? words.as_needed
                                                    : words.otherwise;
        add(topic, answer, std::string(known), ground->because.says, *ground);
    }

    void about_the_label() {
        if (card_ == nullptr) {
            add(DayTopic::label, DayAnswer::check,
                "No label card is at hand: what your label asks for is not known.",
                "Copy your own label onto a card.", {});
            return;
        }
        const Ground by_card{DayAnswer::no_go, {}, LimitFrom::card};
        if (card_->example) {
            add(DayTopic::label, DayAnswer::check,
                "This is an EXAMPLE card and nobody's label: nothing may be applied by it.",
                "Copy your own label onto a card.", by_card);
            return;
        }
        treat::IntendedUse use;
        use.on = weather::date_of(work_.from);
        use.certified = day_.certified;
        bool any = false;
        for (const treat::Finding& finding : treat::findings_about(*card_, {}, use)) {
            if (finding.severity == treat::Severity::note) continue;
            any = true;
            add(DayTopic::label,
                finding.severity == treat::Severity::stop ? DayAnswer::no_go : DayAnswer::check,
                finding.text, {}, by_card);
        }
        if (!any) {
            add(DayTopic::label, DayAnswer::go, "The card names this use and is up to date.",
                "The label in your hand decides, not the card.", by_card);
        }
    }

    // The label's own season goes before dates that are worked out.
    bool in_season_of_label(const measure::Date& date) const {
        return card_ != nullptr && !card_->example && card_->conditions.season &&
               card_->conditions.season->contains(
                   {static_cast<int>(static_cast<unsigned>(date.month())),
                    static_cast<int>(static_cast<unsigned>(date.day()))});
    }

    void about_the_season() {
        const measure::Date date = weather::date_of(work_.from);
        if (!season_) {
            add(DayTopic::season, DayAnswer::check,
                "No dates are worked out for this method: the label has them.", {}, {});
            return;
        }
        const season::MethodSeason& method = *season_->method;
        const season::TimeOfYear time = season::time_of_year(date);
        if (std::ranges::find(method.never_in, time) != method.never_in.end()) {
            add(DayTopic::season, DayAnswer::no_go,
                fmt::format("{} lies in {}.", measure::long_text(date), season::words(time)),
                method.why_never, {DayAnswer::no_go, {{}, method.sources}, LimitFrom::rule});
            return;
        }
        const Ground dates{DayAnswer::no_go, {{}, method.opens.sources}, LimitFrom::rule};
        if (!season_->window) {
            add(DayTopic::season, DayAnswer::check,
                "By the dates there is no window at this place.", {}, dates);
            return;
        }
        const season::Window& window = *season_->window;
        const std::string dates_words =
            fmt::format("It is open from {} ({}) to {} ({}).", measure::long_text(window.opens),
                        basis_words(window.opens_by), measure::long_text(window.closes),
                        basis_words(window.closes_by));
        if (window.contains(date)) {
            within_the_window(window, date, dates_words, dates);
            return;
        }
        const bool early = date < window.opens;
        const int outside = early ? measure::days_between(date, window.opens)
                                  : measure::days_between(window.closes, date);
        const season::EndBasis& end = early ? window.opens_by : window.closes_by;
        const bool label_allows = in_season_of_label(date);
        add(DayTopic::season,
            outside <= end.give_or_take_days || label_allows ? DayAnswer::check : DayAnswer::no_go,
            fmt::format("{} lies {} outside the method's window.", measure::long_text(date),
                        days(outside)),
            dates_words + (label_allows ? " The card's own season allows the day." : ""), dates);
    }

    void within_the_window(const season::Window& window, const measure::Date& date,
                           const std::string& dates_words, const Ground& dates) {
        std::string open = date > window.best_until ? "The window is open; its better part is over."
                                                    : "The window is open.";
        const std::string doubt = doubt_within(window, date);
        if (doubt.empty()) {
            add(DayTopic::season, DayAnswer::go, std::move(open), dates_words, dates);
        } else {
            add(DayTopic::season, DayAnswer::check, open + " " + doubt, dates_words, dates);
        }
    }

    // Why a day within the window may in truth lie outside it; empty where what was seen, or the
    // label itself, says that it does not.
    std::string doubt_within(const season::Window& window, const measure::Date& date) const {
        if (in_season_of_label(date)) return {};
        if (!season_->place_known) return "Where the trees stand was not told.";
        const bool leaves_tell = season_->method->opens.leaf_out && day_.leaves_out == true;
        const int after = measure::days_between(window.opens, date);
        if (!leaves_tell && after < window.opens_by.give_or_take_days) {
            return fmt::format("But that is only {} after an opening that may be {} later.",
                               days(after), days(window.opens_by.give_or_take_days));
        }
        const int left = measure::days_between(date, window.closes);
        if (left < window.closes_by.give_or_take_days) {
            return fmt::format("But that is only {} before a close that may be {} earlier.",
                               days(left), days(window.closes_by.give_or_take_days));
        }
        return {};
    }

    void about_the_soil() {
        const auto limit = soil_limit(rules_, card_);
        if (!limit) {
            result_.no_limit.push_back(DayTopic::soil);
            return;
        }
        std::vector<std::string> allowed;
        for (const treat::SoilState state : limit->allowed) {
            allowed.emplace_back(treat::words(state));
        }
        const std::string allowed_words =
            fmt::format("It has to be {}.", fmt::join(allowed, " or "));
        const Ground first = limit->refused.empty() ? Ground{} : limit->refused.front().second;
        if (!day_.soil) {
            add(DayTopic::soil, DayAnswer::check,
                "Not known how wet the soil is: squeeze a handful, and look for puddles.",
                allowed_words, first);
            return;
        }
        const std::string known = fmt::format("The soil is {}.", treat::words(*day_.soil));
        for (const auto& [state, ground] : limit->refused) {
            if (state == *day_.soil) {
                add(DayTopic::soil, ground.otherwise, known, ground.because.says, ground);
                return;
            }
        }
        add(DayTopic::soil, DayAnswer::go, known, allowed_words, first);
    }

    // The worst that the day may be in any part of the work.
    template <class Quantity>
    void hold_against(DayTopic topic, const RangeLimit<Quantity>& limit,
                      const std::vector<Range<Quantity>>& known, std::string known_words,
                      const std::string& not_known_words) {
        if (!limit.any()) {
            result_.no_limit.push_back(topic);
            return;
        }
        const Ground& any_ground = limit.high  ? limit.high->ground
                                   : limit.low ? limit.low->ground
                                               : limit.best_high->ground;
        std::pair<DayAnswer, const Ground*> worst{
            not_known_words.empty() ? DayAnswer::go : DayAnswer::check, nullptr};
        for (const Range<Quantity>& range : known) {
            const auto held = held_against(range, limit);
            if (held.first > worst.first) worst = held;
        }
        const Ground& ground = worst.second != nullptr ? *worst.second : any_ground;
        if (!known_words.empty() && !not_known_words.empty()) known_words += " ";
        add(topic, worst.first, known_words + not_known_words,
            limit_words(limit) + " " + ground.because.says, ground);
    }

    template <class Quantity>
    static std::string range_words(std::string_view what,
                                   const std::vector<Range<Quantity>>& ranges) {
        if (ranges.empty()) return {};
        Range<Quantity> all = ranges.front();
        for (const Range<Quantity>& each : ranges) {
            all.low = std::min(all.low, each.low);
            all.high = std::max(all.high, each.high);
        }
        if (all.low == all.high) return fmt::format("{} {}.", what, shown(all.low));
        return fmt::format("{} {} to {}.", what, shown(all.low), shown(all.high));
    }

    // What is missing of the work, where the forecast says nothing of it; empty when nothing is.
    std::string missing_of_work(std::string_view what, bool period_without) const {
        if (day_.forecast.periods.empty()) {
            return fmt::format("{} is not known: measure it on the spot.", what);
        }
        const auto missing = weather::not_covered(day_.forecast, work_);
        if (!missing.empty()) {
            return fmt::format("{} is not known from {} on: the forecast does not reach it.", what,
                               weather::words(missing.front().from));
        }
        return period_without ? fmt::format("The forecast does not give {} for all of the work.",
                                            what == "The wind" ? "the wind" : "the temperature")
                              : std::string();
    }

    void about_the_temperature() {
        std::vector<Range<measure::Temperature>> known;
        bool without = false;
        for (const ForecastPeriod& period : weather::periods_within(day_.forecast, work_)) {
            if (period.coolest && period.warmest) {
                known.push_back({*period.coolest, *period.warmest});
            } else {
                without = true;
            }
        }
        std::string words = range_words("Forecast:", known);
        std::string missing;
        if (day_.temperature) {
            known.push_back({*day_.temperature, *day_.temperature});
            words = fmt::format("Measured: {}.{}{}", shown(*day_.temperature),
                                words.empty() ? "" : " ", words);
        } else {
            missing = missing_of_work("The temperature", without);
        }
        hold_against(DayTopic::temperature, temperature_limit(rules_, card_), known,
                     std::move(words), missing);
    }

    void about_the_wind() {
        std::vector<Range<measure::Speed>> known;
        bool without = false;
        bool daily = false;
        for (const ForecastPeriod& period : weather::periods_within(day_.forecast, work_)) {
            if (period.wind && !period.daily) {
                known.push_back({*period.wind, *period.wind});
            } else if (period.wind) {
                daily = true;
            } else {
                without = true;
            }
        }
        std::string words = range_words("Forecast:", known);
        std::string missing;
        if (day_.wind) {
            known.push_back({*day_.wind, *day_.wind});
            words = fmt::format("Measured: {}.{}{}", shown(*day_.wind), words.empty() ? "" : " ",
                                words);
        } else {
            missing = missing_of_work("The wind", without);
            if (missing.empty() && daily) {
                missing =
                    "One figure for a whole day says little of an hour of it: measure the "
                    "wind on the spot.";
            } else if (missing.empty()) {
                missing = "A forecast is no measurement: measure the wind on the spot.";
            }
        }
        hold_against(DayTopic::wind, wind_limit(rules_, card_), known, std::move(words), missing);
    }

    void about_the_rain() {
        const auto limit = rain_limit(rules_, card_);
        if (!limit) {
            result_.no_limit.push_back(DayTopic::rain);
            return;
        }
        const Stretch needed{day_.work.from, std::max(day_.work.from, day_.work.to) +
                                                 std::chrono::hours(limit->free_hours)};
        RainOutlook outlook = rain_outlook(day_.forecast, needed, day_.chance_taken);
        const bool dry = outlook.rain == RainAhead::none;
        const DayAnswer answer = outlook.rain == RainAhead::due ? limit->ground.otherwise
                                 : dry && day_.end_known        ? DayAnswer::go
                                                                : DayAnswer::check;
        if (dry && !day_.end_known) {
            outlook.words +=
                " When the work ends was not said (--until): the dry hours count from "
                "then.";
        }
        add(DayTopic::rain, answer, std::move(outlook.words),
            fmt::format("No rain up to {} hours after the work. {}", limit->free_hours,
                        limit->ground.because.says),
            limit->ground);
    }

    const DayRules& rules_;
    const treat::LabelCard* card_;
    const std::optional<SeasonOfDay>& season_;
    const DayFacts& day_;
    Stretch work_;
    SprayDay result_;
};

}  // namespace

std::string_view words(DayTopic topic) {
    constexpr std::array<std::string_view, 11> names{"label", "season",      "leaves", "soil",
                                                     "bark",  "temperature", "wind",   "inversion",
                                                     "rain",  "bloom",       "bees"};
    return names.at(static_cast<std::size_t>(topic));
}

DayAnswer SprayDay::answer() const {
    DayAnswer worst = DayAnswer::go;
    for (const DayCheck& check : checks) worst = std::max(worst, check.answer);
    return worst;
}

SprayDay screen_day(const DayRules& rules, const treat::LabelCard* card,
                    const std::optional<SeasonOfDay>& season, const DayFacts& day) {
    return Screening(rules, card, season, day).screen();
}

}  // namespace ashtriage::plan
