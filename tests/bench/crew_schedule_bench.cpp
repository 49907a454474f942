// How long a plan takes for the work of a season: 500 sites, 5,000 trees, 4 crews, and for less.
// The counters say what the plan came to: trees planned and left out, and minutes for each tree,
// where `work_share` is the work at the trees as a part of all minutes (the rest is travel and
// set-up).
//
// Run the program itself for figures; as a test it only shows that it still runs.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <random>
#include <string>

#include "measure/units.hpp"
#include "plan/crew_schedule.hpp"
#include "plan/replan.hpp"

namespace ashtriage::plan {
namespace {

constexpr int trees_of_a_site = 10;

// Invented: sites spread over some 60 by 60 km, windows of four to fourteen weeks from mid-May on.
Crews four_crews() {
    Crews crews;
    crews.settings.minutes_per_tree["injection"] = {{std::nullopt, 25}};
    crews.settings.setup_minutes_per_site = 15;
    crews.settings.travel_factor = 1.3;
    crews.settings.travel_speed = measure::Speed::of("30", measure::units::mile_per_hour);
    crews.settings.rain_reserve = {15, ReserveOf::days};
    for (int i = 0; i < 4; ++i) {
        Crew crew;
        crew.name = "Crew " + std::to_string(i + 1);
        crew.start = {41.7 + 0.1 * i, -88.1 + 0.05 * i, {}};
        crew.starts_at.minutes = 450;
        crew.minutes_per_day = 540;
        crew.weekday_off = {true, false, false, false, false, false, true};
        crew.certified = i < 3;
        crew.first_day = measure::parse_date("2026-05-11");
        crew.last_day = measure::parse_date("2026-09-11");
        crews.crews.push_back(crew);
    }
    return crews;
}

WorkDue work_of(int sites, const Crews& crews) {
    std::mt19937 random(11);
    const auto between = [&](int low, int high) {
        return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
    std::vector<TreeToVisit> trees;
    for (int site = 0; site < sites; ++site) {
        const season::Location place{
            41.6 + 0.005 * between(0, 100), -88.4 + 0.006 * between(0, 120), {}};
        const measure::Date opens =
            measure::add_days(measure::parse_date("2026-05-13"), between(0, 20));
        const measure::Date closes = measure::add_days(opens, between(28, 98));
        for (int i = 0; i < trees_of_a_site; ++i) {
            TreeToVisit tree;
            tree.site = "Site " + std::to_string(1000 + site);
            tree.place = place;
            tree.tree = std::to_string(100 + i);
            tree.method = "injection";
            tree.release = opens;
            tree.deadline = closes;
            tree.priority = between(1, 3);
            tree.needs_certified = between(1, 10) == 1;
            trees.push_back(tree);
        }
    }
    WorkDue work = work_due(trees, {}, crews.settings);
    for (Job& job : work.jobs) job.minutes = between(10, 30);
    return work;
}

void report(benchmark::State& state, const WorkDue& work, const CrewSchedule& schedule) {
    int at_trees = 0;
    for (const Job& job : work.jobs) at_trees += job.minutes;
    const auto left_out = static_cast<double>(schedule.left_out.size());
    state.counters["left_out"] = left_out;
    state.counters["planned"] = static_cast<double>(work.jobs.size()) - left_out;
    std::size_t proved = 0;
    for (const Shortfall& each : schedule.shortfalls) proved += each.at_least_left_out;
    state.counters["proved_left_out"] = static_cast<double>(proved);
    state.counters["days"] = static_cast<double>(schedule.days.size());
    state.counters["work_share"] = at_trees / std::max(1.0, static_cast<double>(schedule.minutes));
}

void plan_season(benchmark::State& state) {
    const Crews crews = four_crews();
    const WorkDue work = work_of(static_cast<int>(state.range(0)), crews);
    const ScheduleOptions options{measure::parse_date("2026-05-01"), WithoutPlace::leave_out};
    CrewSchedule schedule;
    const auto begun = std::chrono::steady_clock::now();
    while (state.KeepRunning()) schedule = crew_schedule(work, crews, options);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begun;
    report(state, work, schedule);
    state.counters["of_ten_seconds"] = taken.count() / static_cast<double>(state.iterations()) / 10;
}

void replan_a_day(benchmark::State& state) {
    const Crews crews = four_crews();
    const WorkDue work = work_of(static_cast<int>(state.range(0)), crews);
    const ScheduleOptions options{measure::parse_date("2026-05-01"), WithoutPlace::leave_out};
    const CrewSchedule schedule = crew_schedule(work, crews, options);
    const LostDay lost{schedule.days[schedule.days.size() / 2].day, std::nullopt};
    Replanned after;
    while (state.KeepRunning()) after = replan(schedule, work, crews, options, lost);
    report(state, work, after.schedule);
    state.counters["moved"] = static_cast<double>(after.moved.size());
}

BENCHMARK(plan_season)->Arg(1)->Arg(50)->Arg(500)->Unit(benchmark::kMillisecond);
BENCHMARK(replan_a_day)->Arg(50)->Arg(500)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ashtriage::plan

BENCHMARK_MAIN();
