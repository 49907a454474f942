#include "present/season_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/input_error.hpp"
#include "packs/sources.hpp"
#include "packs/words.hpp"
#include "present/words.hpp"
#include "weather/heat_rule.hpp"

namespace ashtriage::present {

using season::Basis;

namespace {

void add_once(std::vector<std::string>& lines, const std::string& line) {
    if (std::ranges::find(lines, line) == lines.end()) lines.push_back(line);
}

}  // namespace

void add_methods(SeasonReport& report, std::string_view method, bool on_request) {
    const auto add = [&](const season::MethodSeason& each, bool asked_for) {
        MethodWindow found{
            &each,
            season::next_window(report.seasons, each, report.location, report.as_of, report.known),
            asked_for,
            {}};
        if (found.next.state == season::WindowState::passed_so_next_year) {
            found.passed = season::window_for(report.seasons, each, report.location, report.year(),
                                              report.known)
                               .window;
        }
        report.methods.push_back(std::move(found));
    };
    if (!method.empty()) {
        add(report.seasons.method(method), false);
    } else {
        for (const season::MethodSeason& each : report.seasons.methods) add(each, false);
    }
    if (!on_request) return;
    for (const season::NotOffered& left_out : report.seasons.not_offered) {
        if (left_out.on_request) add(*left_out.on_request, true);
    }
}

std::vector<std::string> heat_lines(const SeasonReport& report) {
    if (!report.known.heat) return {};
    const weather::HeatTotals& totals = *report.known.heat;
    std::vector<std::string> lines;
    lines.push_back(
        fmt::format("Degree days F: {}. Station: {}.", weather::words(totals.rule),
                    totals.station.empty() ? std::string("not named") : totals.station));
    std::string known =
        totals.days.empty()
            ? fmt::format("Nothing is known yet of {}", report.year())
            : fmt::format("Known to {}: {:.1f}", measure::long_text(totals.days.back().date),
                          totals.days.back().total);
    known += fmt::format("; complete past seasons at hand: {}.", report.known.past.size());
    lines.push_back(std::move(known));
    if (totals.stopped && totals.days.empty()) {
        lines.push_back(fmt::format(
            "Nothing can be added up of {}: its weather has to begin on {}, but {}. Add the "
            "days from then on.",
            report.year(), measure::long_text(totals.first), totals.stopped->why));
    } else if (totals.stopped) {
        lines.push_back(fmt::format("The total goes no further than the day before {}: {}.",
                                    measure::text(totals.stopped->first_missing),
                                    totals.stopped->why));
    }
    if (totals.filled_days > 0) {
        lines.push_back(
            fmt::format("{} interpolated, not measured.", day_count(totals.filled_days)));
    }
    return lines;
}

std::string basis_words(const season::EndBasis& by) {
    std::string text = "by " + by.words;
    if (by.give_or_take_days > 0) {
        text += fmt::format("; give or take {}", day_count(by.give_or_take_days));
    }
    if (by.earliest && by.latest) {
        text += fmt::format("; as past years went on, {} to {}", measure::long_text(*by.earliest),
                            measure::long_text(*by.latest));
    } else if (by.earliest) {
        text += fmt::format("; as past years went on, {} at the earliest, in some never",
                            measure::long_text(*by.earliest));
    }
    return text;
}

std::string_view basis_name(Basis basis) {
    switch (basis) {
        case Basis::calendar:
            return "calendar";
        case Basis::heat_measured:
            return "heat-measured";
        case Basis::heat_projected:
            return "heat-projected";
        case Basis::leaf_out:
            return "leaf-out";
        case Basis::cue:
            return "cue";
        case Basis::time_of_year:
            return "time-of-year";
    }
    throw measure::InputError("This basis has no name");
}

std::string_view state_name(season::WindowState state) {
    switch (state) {
        case season::WindowState::open_now:
            return "open_now";
        case season::WindowState::opens_later_this_year:
            return "opens_later_this_year";
        case season::WindowState::passed_so_next_year:
            return "passed_so_next_year";
        case season::WindowState::none_here:
            break;
    }
    return "none_here";
}

std::string state_words(const MethodWindow& each) {
    switch (each.next.state) {
        case season::WindowState::open_now:
            return fmt::format("Open now; {} left{}.", day_count(each.next.days_left),
                               each.next.past_best ? ", the better part is over" : "");
        case season::WindowState::opens_later_this_year:
            return fmt::format("Opens in {}.", day_count(each.next.days_until_open));
        case season::WindowState::passed_so_next_year:
            return (each.passed ? passed_words(each) : std::string("No window this year.")) +
                   " The next one:";
        case season::WindowState::none_here:
            break;
    }
    return {};
}

std::string passed_words(const MethodWindow& each) {
    if (!each.passed) return {};
    const season::Window& window = *each.passed;
    const bool guessed = window.closes_by.basis == Basis::heat_projected;
    return fmt::format(
        "This year's window {}: {} to {}, best until {} (closed {}).",
        guessed ? "should have passed, by a projection and not by what was measured" : "has passed",
        measure::long_text(window.opens), measure::long_text(window.closes),
        measure::long_text(window.best_until), basis_words(window.closes_by));
}

std::string never_words(const season::MethodSeason& method) {
    if (method.why_never.empty()) return {};
    std::vector<std::string> times;
    for (const season::TimeOfYear time : method.never_in) {
        times.emplace_back(season::words(time));
    }
    if (times.empty()) return method.why_never;
    return fmt::format("Never in {}: {}", packs::joined(times), method.why_never);
}

std::vector<std::string> cautions(const SeasonReport& report) {
    std::vector<std::string> lines;
    for (const MethodWindow& each : report.methods) {
        if (!each.next.window) continue;
        for (const std::string& caution : each.next.window->cautions) add_once(lines, caution);
    }
    return lines;
}

std::vector<std::string> citations(const std::vector<packs::Source>& sources,
                                   const season::SourceKeys& keys) {
    std::vector<std::string> lines;
    for (const std::string& key : keys) {
        if (const packs::Source* source = packs::find_source(sources, key)) {
            add_once(lines, fmt::format("[{}] {} ({})", key, source->citation,
                                        packs::evidence_text(source->evidence)));
        }
    }
    return lines;
}

}  // namespace ashtriage::present
