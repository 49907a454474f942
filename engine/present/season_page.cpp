#include "present/season_page.hpp"

#include <fmt/format.h>

#include "measure/units.hpp"
#include "present/season_calendar.hpp"
#include "present/season_chart.hpp"
#include "present/season_page_template.hpp"
#include "present/template_values.hpp"
#include "present/treatment_words.hpp"

namespace ashtriage::present {

using ctemplate::TemplateDictionary;

namespace {

void add_end(TemplateDictionary& ends, std::string_view name, const measure::Date& date,
             const season::EndBasis& by) {
    TemplateDictionary* end = ends.AddSectionDictionary("END");
    set(*end, "NAME", name);
    set(*end, "DATE", measure::long_text(date));
    set(*end, "BY", basis_words(by));
}

void add_method(TemplateDictionary& page, const MethodWindow& each, season::SourceKeys& keys) {
    TemplateDictionary* entry = page.AddSectionDictionary("METHOD");
    set(*entry, "TITLE", each.method->title);
    set_if_any(*entry, "STATE", "TEXT", each.next.why_none);
    set_if_any(*entry, "STATE", "TEXT",
               each.next.window ? state_words(each) : window_words(each.next));
    std::vector<std::string> needs{never_words(*each.method)};
    for (const season::Need& need : each.method->needs) needs.push_back(need.text);
    std::erase(needs, std::string{});
    add_list(*entry, "NEEDS", "ITEM", needs);
    keys.insert(keys.end(), each.method->sources.begin(), each.method->sources.end());
    if (!each.next.window) return;
    const season::Window& window = *each.next.window;
    TemplateDictionary* ends = entry->AddSectionDictionary("ENDS");
    add_end(*ends, "opens", window.opens, window.opens_by);
    add_end(*ends, "best until", window.best_until, window.best_by);
    if (const auto& larger = window.larger_stems) {
        add_end(*ends, "best, stems over " + larger->over.with_unit(measure::units::inch, 0),
                larger->best_until, larger->by);
    }
    add_end(*ends, "closes", window.closes, window.closes_by);
    for (const season::EndBasis* by : {&window.opens_by, &window.best_by, &window.closes_by}) {
        keys.insert(keys.end(), by->sources.begin(), by->sources.end());
    }
}

void add_event(TemplateDictionary& page, const EventDates& dates, int give_or_take,
               season::SourceKeys& keys) {
    TemplateDictionary* entry = page.AddSectionDictionary("EVENT");
    set(*entry, "TITLE", dates.event->title);
    set(*entry, "BAND", band_words(dates.event->from, dates.event->to));
    if (dates.seen) {
        set_if_any(*entry, "DATES", "TEXT", "seen on " + measure::long_text(*dates.seen));
    }
    if (const std::string when = dates_words(dates); !when.empty()) {
        set_if_any(*entry, "DATES", "TEXT",
                   fmt::format("{}, give or take {} days", when, give_or_take));
    }
    set_if_any(*entry, "KNOWN", "TEXT", knowledge_words(dates));
    set_if_any(*entry, "NOTE", "TEXT", dates.event->note);
    keys.insert(keys.end(), dates.event->sources.begin(), dates.event->sources.end());
}

}  // namespace

std::string season_page(const SeasonReport& report) {
    TemplateDictionary page("season");
    set(page, "YEAR", std::to_string(report.year()));
    set(page, "AS_OF", measure::long_text(report.as_of));
    add_list(page, "HEAT", "ITEM", heat_lines(report));
    set_if_any(page, "CHART", "SVG", season_chart_svg(report));
    season::SourceKeys keys;
    for (const MethodWindow& each : report.methods) add_method(page, each, keys);
    std::vector<std::string> told = cautions(report);
    told.insert(told.end(), report.notes.begin(), report.notes.end());
    add_list(page, "CAUTIONS", "ITEM", told);
    std::vector<std::string> left_out;
    for (const season::NotOffered& each : report.seasons.not_offered) {
        left_out.push_back(each.title + ": sources disagree. " + each.why);
        keys.insert(keys.end(), each.sources.begin(), each.sources.end());
    }
    add_list(page, "LEFT_OUT", "ITEM", left_out);
    for (const EventDates& dates : event_dates(report)) {
        add_event(page, dates, report.seasons.calendar.give_or_take_days, keys);
    }
    add_list(page, "SOURCES", "ITEM", citations(report.sources, keys));
    return expanded("season", season_page_template, page);
}

}  // namespace ashtriage::present
