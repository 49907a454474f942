#include "present/crew_schedule_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "present/crew_schedule_page_template.hpp"
#include "present/crew_schedule_text.hpp"
#include "present/template_values.hpp"
#include "treat/local_time.hpp"

namespace ashtriage::present {

using ctemplate::TemplateDictionary;
using measure::Date;

namespace {

// In user units of the drawing.
constexpr int name_width = 150;
constexpr int week_width = 22;
constexpr int row_height = 46;
constexpr int bar_height = 34;
constexpr int axis_height = 24;

Date monday_of(const Date& day) {
    const std::chrono::weekday weekday{std::chrono::sys_days(day)};
    return measure::add_days(day, 1 - static_cast<int>(weekday.iso_encoding()));
}

struct WeekOfCrew {
    int used = 0;
    int may_use = 0;
};

std::string number(int value) {
    return std::to_string(value);
}

void add_bar(TemplateDictionary& chart, int x, int base, int height, const char* fill,
             const std::string& words) {
    TemplateDictionary& bar = *chart.AddSectionDictionary("BAR");
    set(bar, "X", number(x + 2));
    set(bar, "Y", number(base - height));
    set(bar, "W", number(week_width - 4));
    set(bar, "H", number(height));
    set(bar, "FILL", fill);
    set(bar, "WORDS", words);
}

// A tick at the first Monday of each month.
void add_months(TemplateDictionary& chart, const Date& first, int weeks, int bottom) {
    std::chrono::month shown{};
    for (int week = 0; week < weeks; ++week) {
        const Date monday = measure::add_days(first, 7 * week);
        if (monday.month() == shown) continue;
        shown = monday.month();
        TemplateDictionary& tick = *chart.AddSectionDictionary("TICK");
        set(tick, "X", number(name_width + week * week_width));
        set(tick, "TOP", "0");
        set(tick, "BOTTOM", number(bottom + 4));
        set(tick, "TEXT_Y", number(bottom + 18));
        set(tick, "WORDS", measure::text(monday).substr(5));
    }
}

void add_chart(TemplateDictionary& page, const plan::CrewSchedule& schedule,
               const plan::Crews& crews) {
    if (schedule.days.empty()) return;
    const Date first = monday_of(schedule.days.front().day);
    const int weeks = measure::days_between(first, schedule.days.back().day) / 7 + 1;
    const int rows = static_cast<int>(crews.crews.size());
    const int right = name_width + weeks * week_width;
    TemplateDictionary& chart = *page.AddSectionDictionary("CHART");
    set(chart, "WIDTH", number(right + 30));
    set(chart, "HEIGHT", number(rows * row_height + axis_height));
    set(chart, "ALT", "How full each week of each crew is; the visits are listed below.");
    set(chart, "LEGEND",
        "A bar for each week: its outline is the time that may be planned on the days with visits, "
        "its filling what is planned. The dates are Mondays.");
    add_months(chart, first, weeks, rows * row_height);
    for (int which = 0; which < rows; ++which) {
        const int base = (which + 1) * row_height;
        TemplateDictionary& row = *chart.AddSectionDictionary("ROW");
        set(row, "NAME", crews.crews[static_cast<std::size_t>(which)].name.substr(0, 22));
        set(row, "TEXT_Y", number(base - 8));
        set(row, "LEFT", number(name_width));
        set(row, "RIGHT", number(right));
        set(row, "BASE", number(base));
        std::vector<WeekOfCrew> by_week(static_cast<std::size_t>(weeks));
        for (const plan::PlannedDay& day : schedule.days) {
            if (day.crew != static_cast<std::size_t>(which)) continue;
            WeekOfCrew& week =
                by_week[static_cast<std::size_t>(measure::days_between(first, day.day) / 7)];
            week.used += day.minutes;
            week.may_use += day.may_use;
        }
        for (int week = 0; week < weeks; ++week) {
            const WeekOfCrew& each = by_week[static_cast<std::size_t>(week)];
            if (each.may_use == 0) continue;
            const std::string words = fmt::format(
                "week of {}: {} of {} minutes",
                measure::long_text(measure::add_days(first, 7 * week)), each.used, each.may_use);
            const int x = name_width + week * week_width;
            add_bar(chart, x, base, bar_height, "#ffffff", words);
            add_bar(
                chart, x, base,
                std::max(1, static_cast<int>(std::int64_t{bar_height} * each.used / each.may_use)),
                "#6d6a63", words);
        }
    }
}

void add_days(TemplateDictionary& page, const plan::CrewSchedule& schedule,
              const plan::WorkDue& work, const plan::Crews& crews) {
    for (const plan::PlannedDay& day : schedule.days) {
        TemplateDictionary& each = *page.AddSectionDictionary("DAY");
        set(each, "WORDS", measure::long_text(day.day) + ", " + crews.crews[day.crew].name);
        for (const plan::Visit& visit : day.visits) {
            TemplateDictionary& stay = *each.AddSectionDictionary("VISIT");
            set(stay, "TIMES",
                treat::text(treat::LocalTime{visit.arrives}) + " to " +
                    treat::text(treat::LocalTime{visit.leaves}));
            set(stay, "WHAT", work.sites[visit.site].name + ": " + visit_words(visit, work));
        }
    }
}

}  // namespace

std::string crew_schedule_page(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                               const plan::Crews& crews,
                               const std::vector<TreeWithoutADay>& without_a_day,
                               bool example_cards) {
    TemplateDictionary page("crew-schedule");
    if (example_cards) {
        set(*page.AddSectionDictionary("EXAMPLE"), "TEXT",
            "EXAMPLE label cards stand behind this plan: nothing may be applied by them.");
    }
    if (crews.settings.example) {
        set(*page.AddSectionDictionary("EXAMPLE"), "TEXT",
            "The minutes and ways are reckoned with EXAMPLE figures, nobody's own.");
    }
    set(page, "STANDING", standing_words(schedule));
    set(page, "AFTER_BEST", after_best_words(schedule, work));
    set(page, "FREE_FOR_RAIN", words(schedule.free_for_rain));
    set(page, "LABEL_FIRST", label_comes_first());
    add_chart(page, schedule, crews);
    add_days(page, schedule, work, crews);
    std::vector<std::string> left_out;
    for (const plan::LeftOut& left : schedule.left_out) {
        const plan::Job& job = work.jobs[left.job];
        left_out.push_back(fmt::format("{}, tree {}, priority {}: {}", work.sites[job.site].name,
                                       job.tree, job.priority, words(left, work)));
    }
    add_list(page, "LEFT_OUT", "ITEM", left_out);
    add_list(page, "PROOFS", "ITEM", proofs_of(schedule, work));
    std::vector<std::string> others;
    for (const TreeWithoutADay& each : without_a_day) {
        others.push_back(each.tree.site + ", " + each.tree.tree + ": " + each.tree.why);
    }
    add_list(page, "NOT_SCHEDULED", "ITEM", others);
    return expanded("crew-schedule-page", crew_schedule_page_template, page);
}

}  // namespace ashtriage::present
