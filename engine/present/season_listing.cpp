#include "present/season_listing.hpp"

#include <fmt/format.h>

#include "measure/units.hpp"
#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/season_chart.hpp"
#include "present/text_layout.hpp"
#include "present/treatment_words.hpp"
#include "weather/heat_rule.hpp"

namespace ashtriage::present {

using measure::Date;
using season::Window;

namespace {

std::string end_line(std::string_view name, const Date& date, const season::EndBasis& by) {
    return paragraph(basis_words(by),
                     fmt::format("  {:<15}{:<19}", name, measure::long_text(date)));
}

std::string over_words(const season::LargerBest& larger) {
    return "over " + larger.over.with_unit(measure::units::inch, 0);
}

std::string ends_text(const MethodWindow& each) {
    const Window& window = *each.next.window;
    std::string text = end_line("opens", window.opens, window.opens_by);
    text += end_line("best until", window.best_until, window.best_by);
    if (window.larger_stems) {
        text += end_line("  " + over_words(*window.larger_stems), window.larger_stems->best_until,
                         window.larger_stems->by);
    }
    text += end_line("closes", window.closes, window.closes_by);
    if (window.again) {
        text += paragraph(fmt::format("A second time {} days after the first; {} if that is on the "
                                      "first day.",
                                      measure::days_between(window.opens, *window.again),
                                      measure::long_text(*window.again)),
                          "  ");
    }
    return text;
}

std::string window_text(const MethodWindow& each, bool ends) {
    if (!ends) {
        std::string text;
        if (each.passed) text += paragraph(passed_words(each), "  ");
        text += paragraph(window_words(each.next), "  ");
        if (each.next.window && each.next.window->again) {
            text += paragraph(fmt::format("A second time {} days after the first.",
                                          measure::days_between(each.next.window->opens,
                                                                *each.next.window->again)),
                              "  ");
        }
        return text;
    }
    std::string text;
    if (!each.next.why_none.empty()) text += paragraph(each.next.why_none, "  ");
    if (!each.next.window) return text.empty() ? paragraph(window_words(each.next), "  ") : text;
    return text + paragraph(state_words(each), "  ") + ends_text(each);
}

std::string method_text(const MethodWindow& each, bool ends) {
    std::string text = paragraph(each.method->title);
    text += window_text(each, ends);
    if (const std::string never = never_words(*each.method); !never.empty()) {
        text += paragraph(never, "  - ");
    }
    for (const season::Need& need : each.method->needs) text += paragraph(need.text, "  - ");
    return text + "\n";
}

bool shown_on_request(const SeasonReport& report, const season::NotOffered& left_out) {
    for (const MethodWindow& each : report.methods) {
        if (left_out.on_request && each.method == &*left_out.on_request) return true;
    }
    return false;
}

std::string date_or_nothing(const std::optional<Date>& date) {
    return date ? measure::text(*date) : std::string{};
}

// Four fields: the window of this year that is over, by what it closed.
void add_this_year(std::vector<std::string>& row, const MethodWindow& each) {
    if (!each.passed) {
        row.insert(row.end(), 4, std::string{});
        return;
    }
    row.insert(row.end(),
               {measure::text(each.passed->opens), measure::text(each.passed->best_until),
                measure::text(each.passed->closes), csv_text_field(each.passed->closes_by.words)});
}

// Five fields: for which day and place it was answered, and what the degree days rest on.
void add_ground(std::vector<std::string>& row, const SeasonReport& report) {
    row.push_back(measure::text(report.as_of));
    const auto& place = report.location;
    row.push_back(place ? fmt::format("{:g}", place->latitude) : std::string{});
    row.push_back(place ? fmt::format("{:g}", place->longitude) : std::string{});
    const auto& heat = report.known.heat;
    row.push_back(heat ? csv_text_field(heat->station) : std::string{});
    row.push_back(heat ? csv_text_field(weather::words(heat->rule)) : std::string{});
}

Json end_json(const Date& date, const season::EndBasis& by) {
    const auto date_or_null = [](const std::optional<Date>& each) {
        return each ? Json(measure::text(*each)) : Json(nullptr);
    };
    return {{"date", measure::text(date)},
            {"basis", basis_name(by.basis)},
            {"by", by.words},
            {"give_or_take_days", by.give_or_take_days},
            {"earliest", date_or_null(by.earliest)},
            {"latest", date_or_null(by.latest)},
            {"sources", by.sources}};
}

Json ends_json(const Window& window) {
    Json json = {{"opens", end_json(window.opens, window.opens_by)},
                 {"best_until", end_json(window.best_until, window.best_by)},
                 {"closes", end_json(window.closes, window.closes_by)}};
    if (const auto& larger = window.larger_stems) {
        json["larger_stems"] = end_json(larger->best_until, larger->by);
        json["larger_stems"]["over_inches"] = larger->over.in(measure::units::inch);
    }
    if (window.again) json["second_time"] = measure::text(*window.again);
    return json;
}

}  // namespace

std::string season_text(const SeasonReport& report) {
    std::string text;
    for (const std::string& line : heat_lines(report)) text += paragraph(line);
    if (!text.empty()) text += "\n";
    for (const MethodWindow& each : report.methods) {
        text += method_text(each, report.knows_more());
    }
    if (report.known.heat) text += season_chart_text(report) + "\n";
    if (report.knows_more() && !report.known.leaf_out) {
        text += paragraph("Leaf-out: not told. " + report.seasons.calendar.leaf_out);
    }
    for (const std::string& caution : cautions(report)) text += paragraph(caution);
    for (const std::string& note : report.notes) text += paragraph(note);
    for (const season::NotOffered& left_out : report.seasons.not_offered) {
        text += paragraph((shown_on_request(report, left_out) ? "Shown since you asked for it: "
                                                              : "Not offered: ") +
                          left_out.title + ". " + left_out.why);
    }
    if (report.knows_more()) {
        text += paragraph("The label, the leaves on the tree and the soil come before any date.");
    }
    return text;
}

std::string season_csv(const SeasonReport& report) {
    std::string text = csv_row({"method",
                                "state",
                                "opens",
                                "best_until",
                                "closes",
                                "opens_by",
                                "best_until_by",
                                "closes_by",
                                "opens_give_or_take_days",
                                "closes_give_or_take_days",
                                "opens_earliest",
                                "opens_latest",
                                "closes_earliest",
                                "closes_latest",
                                "larger_stems_over_in",
                                "larger_stems_best_until",
                                "second_time",
                                "why_none",
                                "this_year_opens",
                                "this_year_best_until",
                                "this_year_closes",
                                "this_year_closes_by",
                                "as_of",
                                "latitude",
                                "longitude",
                                "station",
                                "degree_days_method"});
    for (const MethodWindow& each : report.methods) {
        std::vector<std::string> row{each.method->method, std::string(state_name(each.next.state))};
        if (const auto& window = each.next.window) {
            const auto& larger = window->larger_stems;
            row.insert(
                row.end(),
                {measure::text(window->opens), measure::text(window->best_until),
                 measure::text(window->closes), csv_text_field(window->opens_by.words),
                 csv_text_field(window->best_by.words), csv_text_field(window->closes_by.words),
                 std::to_string(window->opens_by.give_or_take_days),
                 std::to_string(window->closes_by.give_or_take_days),
                 date_or_nothing(window->opens_by.earliest),
                 date_or_nothing(window->opens_by.latest),
                 date_or_nothing(window->closes_by.earliest),
                 date_or_nothing(window->closes_by.latest),
                 larger ? larger->over.text(measure::units::inch, 0) : std::string{},
                 larger ? measure::text(larger->best_until) : std::string{},
                 date_or_nothing(window->again)});
        } else {
            row.resize(17);
        }
        row.push_back(csv_text_field(each.next.why_none));
        add_this_year(row, each);
        add_ground(row, report);
        text += csv_row(row);
    }
    return text;
}

std::string season_json(const SeasonReport& report) {
    Json json = Json::array();
    for (const MethodWindow& each : report.methods) {
        const auto& window = each.next.window;
        const auto date = [&](Date Window::*day) {
            return window ? measure::text((*window).*day) : std::string{};
        };
        Json entry = {{"method", each.method->method},   {"state", state_name(each.next.state)},
                      {"opens", date(&Window::opens)},   {"best_until", date(&Window::best_until)},
                      {"closes", date(&Window::closes)}, {"sources_disagree", each.on_request}};
        entry["ends"] = window ? ends_json(*window) : Json(nullptr);
        entry["this_year_passed"] = each.passed ? ends_json(*each.passed) : Json(nullptr);
        entry["why_none"] = each.next.why_none.empty() ? Json(nullptr) : Json(each.next.why_none);
        entry["cautions"] = window ? Json(window->cautions) : Json::array();
        json.push_back(std::move(entry));
    }
    return json.dump(2) + "\n";
}

}  // namespace ashtriage::present
