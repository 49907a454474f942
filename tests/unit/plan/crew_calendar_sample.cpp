// Prints a calendar file of invented work, for readers that are not ours: the plan, the plan of a
// later day, with one more tree, after a first visit to each site, with a tree that cannot be
// scheduled, or after a lost day.
#include <cstdio>
#include <string>

#include "measure/units.hpp"
#include "plan/replan.hpp"
#include "present/calendar_file.hpp"

namespace ashtriage {
namespace {

using measure::parse_date;

plan::Crews one_crew() {
    plan::Crews crews;
    crews.settings.minutes_per_tree["trunk_injection_emamectin"] = {{std::nullopt, 60}};
    crews.settings.minutes_per_tree["soil_drench_imidacloprid"] = {{std::nullopt, 30}};
    crews.settings.setup_minutes_per_site = 20;
    crews.settings.travel_speed = measure::Speed::of("30", measure::units::mile_per_hour);
    plan::Crew crew;
    crew.name = "North; crew, \"one\"";
    crew.start = {41.8, -88.0, {}};
    crew.starts_at.minutes = 450;
    crew.minutes_per_day = 240;
    crew.certified = true;
    crew.first_day = parse_date("2026-05-18");
    crew.last_day = parse_date("2026-05-22");
    crews.crews.push_back(crew);
    return crews;
}

// Names with everything that has to be escaped, folded or kept whole.
plan::WorkDue awkward_work(const plan::Crews& crews, bool with_another) {
    const std::string long_name =
        "Aesculus Cottages, Flöhe & Söhne; the long drive behind the water tower\\mill, "
        "Übergrößenträgerstraße № 7 — ヤチダモ並木";
    std::vector<plan::TreeToVisit> trees;
    for (const std::string& site :
         {long_name, std::string("Elm Court"), std::string("Elm-Court")}) {
        for (const std::string label : {"A-1", "A,1", "B;2\\m"}) {
            plan::TreeToVisit tree;
            tree.site = site;
            tree.place = season::Location{41.82, -88.05, {}};
            tree.tree = label;
            tree.method = label == "A,1" ? "soil_drench_imidacloprid" : "trunk_injection_emamectin";
            tree.release = parse_date("2026-05-18");
            tree.deadline = parse_date(label == "A-1" ? "2026-05-18" : "2026-05-22");
            tree.priority = label == "A,1" ? 2 : 1;
            trees.push_back(tree);
        }
    }
    if (with_another) {  // the first of its site
        trees.push_back(trees[4]);
        trees.back().tree = "A,0";
    }
    return work_due(trees, {}, crews.settings);
}

int run(const std::string& which) {
    const plan::Crews crews = one_crew();
    const plan::WorkDue work = awkward_work(crews, which == "another");
    const plan::ScheduleOptions options{parse_date("2026-05-01"), plan::WithoutPlace::leave_out};
    const plan::CrewSchedule schedule = crew_schedule(work, crews, options);
    present::CalendarOptions dates;
    dates.as_of = dates.planned_on = parse_date("2026-05-01");
    std::string text;
    if (which == "replanned") {
        dates.as_of = dates.planned_on = parse_date("2026-05-19");
        dates.before = &schedule;
        const plan::LostDay lost{parse_date("2026-05-19"), std::nullopt};
        text = calendar_text(replan(schedule, work, crews, options, lost).schedule, work, crews,
                             dates);
    } else {
        if (which == "later") dates.as_of = dates.planned_on = parse_date("2026-05-02");
        if (which == "visited") {
            for (const plan::WorkSite& site : work.sites) dates.visits_made[{site.name, 2026}] = 1;
        }
        if (which == "not_scheduled") {
            const season::Location place{41.82, -88.05, {}};
            const auto opens = parse_date("2026-05-15");
            const std::string drench = "soil_drench_imidacloprid";
            dates.without_a_day.resize(4);
            dates.without_a_day[0] = {{"Elm Court", "C1", "the label stops it"}, true, drench, 2};
            dates.without_a_day[0].opens = opens;
            dates.without_a_day[0].closes = parse_date("2026-06-15");
            dates.without_a_day[0].place = place;
            dates.without_a_day[1] = {{"Elm Court", "C2", "no window"}, true, drench, 1};
            dates.without_a_day[2] = {{"Elm Court", "C3", "nobody has walked round it yet"}};
            dates.without_a_day[3] = {{"Elm Court", "C4", "due in 2028"}, false, drench, 1};
        }
        text = calendar_text(schedule, work, crews, dates);
    }
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 1;
}

}  // namespace
}  // namespace ashtriage

int main(int count, char** words) {
    return ashtriage::run(count > 1 ? words[1] : "plan");
}
