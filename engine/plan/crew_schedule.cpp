#include "plan/crew_schedule.hpp"

#include <algorithm>
#include <map>

#include "measure/input_error.hpp"
#include "plan/crew_problem.hpp"
#include "plan/crew_route.hpp"

namespace ashtriage::plan {

namespace {

PlannedDay planned_day(const Problem& problem, const Crews& crews, int slot,
                       const std::map<int, std::vector<int>>& by_site, std::vector<int> sites) {
    const CrewDay& day = problem.days()[static_cast<std::size_t>(slot)];
    if (sites.empty()) {
        for (const auto& [site, tasks] : by_site) sites.push_back(site);
    }
    const Route route = route_for(problem, static_cast<int>(day.crew), std::move(sites));

    PlannedDay planned{day.crew, day.day, {}, 0, 0, day.minutes};
    const int begins = crews.crews[day.crew].starts_at.minutes;
    int now = begins;
    int at = problem.start(static_cast<int>(day.crew));
    for (const int site : route.sites) {
        Visit visit;
        visit.site = static_cast<std::size_t>(site);
        if (problem.has_place(site)) {
            visit.travel = problem.leg(at, site);
            at = site;
        }
        now += visit.travel;
        visit.arrives = now;
        now += problem.setup();
        for (const int index : by_site.at(site)) {
            visit.jobs.push_back(problem.task(index).job);
            now += problem.task(index).minutes;
        }
        visit.leaves = now;
        planned.visits.push_back(std::move(visit));
    }
    planned.travel_back = problem.leg(at, problem.start(static_cast<int>(day.crew)));
    planned.minutes = now + planned.travel_back - begins;
    return planned;
}

class ReasonFinder {
 public:
    ReasonFinder(const Problem& problem, const Assignment& assignment, const CrewSchedule& schedule)
        : problem_(problem), account_left_(problem.account_limits()) {
        for (const CrewDay& day : problem.days()) free_.push_back(day.minutes);
        for (const PlannedDay& day : schedule.days) {
            for (std::size_t slot = 0; slot < free_.size(); ++slot) {
                const CrewDay& same = problem.days()[slot];
                if (same.crew == day.crew && same.day == day.day) free_[slot] -= day.minutes;
            }
        }
        for (int task = 0; task < static_cast<int>(assignment.slot_of.size()); ++task) {
            const int slot = assignment.slot_of[static_cast<std::size_t>(task)];
            if (slot == not_planned) continue;
            if (const auto account = problem.account(task, problem.slot(slot).year)) {
                account_left_[*account] -= problem.task(task).active;
            }
        }
    }

    LeftOut reason(int index) const {
        const Task& task = problem_.task(index);
        LeftOut left{task.job, LeftOutBecause::acre_account, 0, 0, std::nullopt};
        for (int slot = task.first_slot; slot < task.end_slot; ++slot) {
            if (!problem_.can(task, problem_.slot(slot), slot)) continue;
            const auto account = problem_.account(index, problem_.slot(slot).year);
            if (account && account_left_[*account] < task.active) continue;
            const int needed = problem_.alone(task, problem_.slot(slot).crew);
            if (left.because == LeftOutBecause::acre_account || needed < left.minutes_needed) {
                left.minutes_needed = needed;
            }
            left.because = LeftOutBecause::no_room;
            left.minutes_available =
                std::max(left.minutes_available, free_[static_cast<std::size_t>(slot)]);
        }
        return left;
    }

 private:
    const Problem& problem_;
    std::vector<int> free_;  // minutes, by slot
    std::vector<std::int64_t> account_left_;
};

void prove(CrewSchedule& schedule, const Problem& problem) {
    const auto has_no_room = [](const LeftOut& left) {
        return left.because == LeftOutBecause::no_room;
    };
    if (std::ranges::none_of(schedule.left_out, has_no_room)) return;
    schedule.shortfalls = shortfalls(problem);
    for (LeftOut& left : schedule.left_out) {
        if (!has_no_room(left)) continue;
        for (std::size_t i = 0; i < schedule.shortfalls.size() && !left.shortfall; ++i) {
            if (std::ranges::binary_search(schedule.shortfalls[i].jobs, left.job)) {
                left.shortfall = i;
            }
        }
    }
}

}  // namespace

CrewSchedule schedule_of(const Problem& problem, const Crews& crews, const Assignment& assignment) {
    std::map<int, std::map<int, std::vector<int>>> by_slot;
    for (int task = 0; task < static_cast<int>(assignment.slot_of.size()); ++task) {
        const int slot = assignment.slot_of[static_cast<std::size_t>(task)];
        if (slot != not_planned) by_slot[slot][problem.task(task).site].push_back(task);
    }
    CrewSchedule schedule;
    for (const auto& [slot, by_site] : by_slot) {
        const std::vector<int> sites = assignment.sites.empty()
                                           ? std::vector<int>()
                                           : assignment.sites[static_cast<std::size_t>(slot)];
        schedule.days.push_back(planned_day(problem, crews, slot, by_site, sites));
        schedule.minutes += schedule.days.back().minutes;
    }
    schedule.left_out = problem.impossible();
    const ReasonFinder reasons(problem, assignment, schedule);
    for (int task = 0; task < static_cast<int>(assignment.slot_of.size()); ++task) {
        if (assignment.slot_of[static_cast<std::size_t>(task)] != not_planned) continue;
        schedule.left_out.push_back(reasons.reason(task));
    }
    std::ranges::sort(schedule.left_out, {}, &LeftOut::job);
    return schedule;
}

Assignment assignment_for(const Problem& problem) {
    return problem.tasks().size() <= exact_jobs ? best_assignment(problem)
                                                : good_assignment(problem);
}

CrewSchedule proved_schedule(const Problem& problem, const Crews& crews,
                             const Assignment& assignment) {
    CrewSchedule schedule = schedule_of(problem, crews, assignment);
    prove(schedule, problem);
    const bool all = std::ranges::find(assignment.slot_of, not_planned) == assignment.slot_of.end();
    schedule.standing =
        problem.tasks().size() <= exact_jobs
            ? ScheduleStanding::best
            : (all ? ScheduleStanding::all_planned : ScheduleStanding::some_left_out);
    return schedule;
}

CrewSchedule crew_schedule(const WorkDue& work, const Crews& crews,
                           const ScheduleOptions& options) {
    if (crews.crews.empty()) {
        throw measure::InputError("There is no crew to plan for", {},
                                  "Describe one in the crew file.");
    }
    const Problem problem(work, crews, crew_days(crews, options.from, Reserve::kept), options);
    return proved_schedule(problem, crews, assignment_for(problem));
}

}  // namespace ashtriage::plan
