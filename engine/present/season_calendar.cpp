#include "present/season_calendar.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/season_chart.hpp"
#include "present/text_layout.hpp"
#include "weather/heat_rule.hpp"

namespace ashtriage::present {

using measure::Date;
using season::HeatDate;
using season::HeatKnowledge;

namespace {

std::string_view knowledge_name(HeatKnowledge knowledge) {
    switch (knowledge) {
        case HeatKnowledge::measured:
            return "measured";
        case HeatKnowledge::projected:
            return "projected";
        case HeatKnowledge::never:
            return "never";
        case HeatKnowledge::unknown:
            break;
    }
    return "unknown";
}

std::string spread_words(const HeatDate& from, const HeatDate& to) {
    if (from.knowledge != HeatKnowledge::projected && to.knowledge != HeatKnowledge::projected) {
        return {};
    }
    const HeatDate& first = from.knowledge == HeatKnowledge::projected ? from : to;
    std::string text = fmt::format("; as {} past years went on, ", first.seasons);
    text += first.earliest ? measure::long_text(*first.earliest) : std::string("never");
    return text + " to " + (to.latest ? measure::long_text(*to.latest) : std::string("never"));
}

std::vector<std::string> event_lines(const EventDates& dates) {
    std::vector<std::string> lines;
    if (const std::string known = knowledge_words(dates); !known.empty()) lines.push_back(known);
    if (!dates.event->note.empty()) lines.push_back(dates.event->note);
    for (const season::PublishedFigure& figure : dates.event->figures) {
        std::string text = band_words(figure.from, figure.to);
        if (!figure.says.empty()) text += ", " + figure.says;
        text += " [";
        for (std::size_t i = 0; i < figure.sources.size(); ++i) {
            text += (i > 0 ? ", " : "") + figure.sources[i];
        }
        lines.push_back(text + "]");
    }
    return lines;
}

season::SourceKeys keys_of(const season::Calendar& calendar) {
    season::SourceKeys keys = calendar.sources;
    const auto add = [&](const season::SourceKeys& more) {
        keys.insert(keys.end(), more.begin(), more.end());
    };
    add(calendar.give_or_take_sources);
    add(calendar.leaf_out_sources);
    for (const season::CalendarEvent& event : calendar.events) {
        add(event.sources);
        for (const season::PublishedFigure& figure : event.figures) add(figure.sources);
    }
    for (const season::RegionDates& region : calendar.regions) add(region.sources);
    return keys;
}

std::string leaf_out_words(const SeasonReport& report) {
    const auto seen = report.known.leaf_out_in(report.year());
    return (seen ? "Ash in full leaf: seen on " + measure::long_text(*seen) + ". "
                 : std::string("Ash in full leaf: not told. ")) +
           report.seasons.calendar.leaf_out;
}

Json heat_date_json(const HeatDate& date) {
    const auto text = [](const std::optional<Date>& each) {
        return each ? Json(measure::text(*each)) : Json(nullptr);
    };
    return {{"knowledge", knowledge_name(date.knowledge)},
            {"date", text(date.date)},
            {"earliest", text(date.earliest)},
            {"latest", text(date.latest)},
            {"past_seasons", date.seasons},
            {"why", date.why.empty() ? Json(nullptr) : Json(date.why)}};
}

}  // namespace

std::vector<EventDates> event_dates(const SeasonReport& report) {
    std::vector<EventDates> all;
    for (const season::CalendarEvent& event : report.seasons.calendar.events) {
        all.push_back({&event, season::date_of_heat(report.known, report.year(), event.from),
                       season::date_of_heat(report.known, report.year(), event.to),
                       report.known.seen_in(event.name, report.year())});
    }
    return all;
}

std::string band_words(double from, double to) {
    return from == to ? fmt::format("{:g}", from) : fmt::format("{:g} to {:g}", from, to);
}

std::string dates_words(const EventDates& dates) {
    if (!dates.from.date) return {};
    if (!dates.to.date) return "from " + measure::long_text(*dates.from.date);
    if (*dates.from.date == *dates.to.date) return "about " + measure::long_text(*dates.to.date);
    return measure::long_text(*dates.from.date) + " to " + measure::long_text(*dates.to.date);
}

std::string knowledge_words(const EventDates& dates) {
    if (!dates.from.date) return dates.from.why;
    if (!dates.to.date) return fmt::format("The upper figure: {}", dates.to.why);
    std::string text{knowledge_name(dates.from.knowledge)};
    if (dates.from.knowledge != dates.to.knowledge) {
        text += fmt::format(", the upper figure {}", knowledge_name(dates.to.knowledge));
    }
    return text + spread_words(dates.from, dates.to);
}

std::string season_calendar_text(const SeasonReport& report) {
    const season::Calendar& calendar = report.seasons.calendar;
    std::string text = paragraph(
        fmt::format("Borer and plants in {}, in degree days F above {} from {}", report.year(),
                    weather::temperature_words(calendar.base, weather::DegreeUnit::fahrenheit),
                    measure::long_text(
                        Date(report.as_of.year(), calendar.start.month(), calendar.start.day()))));
    for (const std::string& line : heat_lines(report)) text += paragraph(line);
    for (const EventDates& dates : event_dates(report)) {
        text += "\n" + paragraph(fmt::format("{}, {}", dates.event->title,
                                             band_words(dates.event->from, dates.event->to)));
        if (dates.seen) text += paragraph("seen on " + measure::long_text(*dates.seen), "  ");
        if (const std::string when = dates_words(dates); !when.empty()) {
            text += paragraph(
                fmt::format("{}, give or take {} days", when, calendar.give_or_take_days), "  ");
        }
        for (const std::string& line : event_lines(dates)) text += paragraph(line, "  - ");
    }
    text += "\n" + paragraph(leaf_out_words(report));
    text += paragraph(calendar.how);
    if (report.known.heat) {
        text += "\n" + season_chart_text(report);
    } else {
        text += paragraph(
            "No weather was given, so there are no dates by degree days. What is "
            "said of regions:");
        for (const season::RegionDates& region : calendar.regions) {
            text += paragraph(region.region + ": " + region.says, "  - ");
        }
    }
    for (const std::string& note : report.notes) text += paragraph(note);
    text += "\nSources\n";
    for (const std::string& line : citations(report.sources, keys_of(calendar))) {
        text += paragraph(line);
    }
    return text;
}

std::string season_calendar_csv(const SeasonReport& report) {
    std::string text = csv_row({"event", "of", "from_degree_days_f", "to_degree_days_f", "seen",
                                "from_date", "to_date", "knowledge", "earliest", "latest",
                                "past_seasons", "give_or_take_days", "sources"});
    const auto date = [](const std::optional<Date>& each) {
        return each ? measure::text(*each) : std::string{};
    };
    for (const EventDates& dates : event_dates(report)) {
        std::string keys;
        for (const std::string& key : dates.event->sources) keys += (keys.empty() ? "" : " ") + key;
        text += csv_row(
            {dates.event->name, dates.event->of == season::EventOf::borer ? "borer" : "plant",
             fmt::format("{:g}", dates.event->from), fmt::format("{:g}", dates.event->to),
             date(dates.seen), date(dates.from.date), date(dates.to.date),
             std::string(knowledge_name(dates.from.knowledge)), date(dates.from.earliest),
             date(dates.to.latest), std::to_string(std::max(dates.from.seasons, dates.to.seasons)),
             std::to_string(report.seasons.calendar.give_or_take_days), csv_text_field(keys)});
    }
    return text;
}

std::string season_calendar_json(const SeasonReport& report) {
    const season::Calendar& calendar = report.seasons.calendar;
    Json events = Json::array();
    for (const EventDates& dates : event_dates(report)) {
        Json figures = Json::array();
        for (const season::PublishedFigure& figure : dates.event->figures) {
            figures.push_back({{"from", figure.from},
                               {"to", figure.to},
                               {"says", figure.says},
                               {"sources", figure.sources}});
        }
        events.push_back({{"event", dates.event->name},
                          {"title", dates.event->title},
                          {"of", dates.event->of == season::EventOf::borer ? "borer" : "plant"},
                          {"from", dates.event->from},
                          {"to", dates.event->to},
                          {"seen", dates.seen ? Json(measure::text(*dates.seen)) : Json(nullptr)},
                          {"from_date", heat_date_json(dates.from)},
                          {"to_date", heat_date_json(dates.to)},
                          {"note", dates.event->note},
                          {"sources", dates.event->sources},
                          {"figures", std::move(figures)}});
    }
    const auto leaf_out = report.known.leaf_out_in(report.year());
    const Json json = {
        {"year", report.year()},
        {"unit", "degree days F"},
        {"base", weather::temperature_words(calendar.base, weather::DegreeUnit::fahrenheit)},
        {"reckoned", heat_lines(report)},
        {"give_or_take_days", calendar.give_or_take_days},
        {"leaf_out", leaf_out ? Json(measure::text(*leaf_out)) : Json(nullptr)},
        {"events", std::move(events)},
        {"notes", report.notes}};
    return json.dump(2) + "\n";
}

}  // namespace ashtriage::present
