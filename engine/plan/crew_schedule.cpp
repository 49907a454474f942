#include "plan/crew_schedule.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "measure/input_error.hpp"
#include "plan/crew_problem.hpp"
#include "plan/crew_route.hpp"

namespace ashtriage::plan {

namespace {

PlannedDay planned_day(const Problem& problem, const Crews& crews, int slot,
                       const std::map<int, std::vector<int>>& by_site, std::vector<int> sites,
                       const std::vector<int>& earlier) {
    const CrewDay& day = problem.days()[static_cast<std::size_t>(slot)];
    if (sites.empty()) {
        for (const auto& [site, tasks] : by_site) sites.push_back(site);
    }
    const int crew = static_cast<int>(day.crew);
    sites = route_for(problem, crew, std::move(sites)).sites;
    if (!earlier.empty()) sites = like_earlier(problem, crew, sites, earlier);

    PlannedDay planned{day.crew, day.day, {}, 0, 0, day.minutes};
    const int begins = crews.crews[day.crew].starts_at.minutes;
    int now = begins;
    int at = problem.start(crew);
    for (const int site : sites) {
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
    planned.travel_back = problem.leg(at, problem.start(crew));
    planned.minutes = now + planned.travel_back - begins;
    return planned;
}

// The sites of a crew's day in the order in which they were to be visited; none where nothing was.
std::vector<int> sites_before(const std::vector<PlannedDay>& before, const CrewDay& on) {
    std::vector<int> sites;
    for (const PlannedDay& day : before) {
        if (day.crew != on.crew || day.day != on.day) continue;
        for (const Visit& visit : day.visits) sites.push_back(static_cast<int>(visit.site));
    }
    return sites;
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
        LeftOut left{task.job, LeftOutBecause::acre_account, 0, 0, std::nullopt, std::nullopt};
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

// Whether a crew could do it if there were nothing else to do.
bool is_possible(const LeftOut& left) {
    return left.because == LeftOutBecause::no_room || left.because == LeftOutBecause::acre_account;
}

template <class Proof>
std::optional<std::size_t> proof_about(const std::vector<Proof>& proofs, std::size_t job) {
    const auto found = std::ranges::find_if(
        proofs, [&](const Proof& proof) { return std::ranges::binary_search(proof.jobs, job); });
    if (found == proofs.end()) return std::nullopt;
    return static_cast<std::size_t>(found - proofs.begin());
}

void prove(CrewSchedule& schedule, const Problem& problem) {
    if (std::ranges::none_of(schedule.left_out, is_possible)) return;
    schedule.shortfalls = shortfalls(problem);
    schedule.acre_shortfalls = acre_shortfalls(problem);
    for (LeftOut& left : schedule.left_out) {
        if (!is_possible(left)) continue;
        const auto by_time = proof_about(schedule.shortfalls, left.job);
        const auto by_acre = proof_about(schedule.acre_shortfalls, left.job);
        const bool acre_first = left.because == LeftOutBecause::acre_account;
        if (by_acre && (acre_first || !by_time)) {
            left.acre_shortfall = by_acre;
        } else {
            left.shortfall = by_time;
        }
    }
}

// How many trees every plan leaves out, by proofs that are about different trees.
std::size_t proved_left_out(const CrewSchedule& schedule) {
    struct Proof {
        std::size_t trees = 0;
        const std::vector<std::size_t>* jobs = nullptr;
    };
    std::vector<Proof> proofs;
    for (const Shortfall& each : schedule.shortfalls) {
        proofs.push_back({each.at_least_left_out, &each.jobs});
    }
    for (const AcreShortfall& each : schedule.acre_shortfalls) {
        proofs.push_back({each.at_least_left_out, &each.jobs});
    }
    std::ranges::stable_sort(proofs, std::ranges::greater{}, &Proof::trees);
    std::set<std::size_t> counted;
    std::size_t trees = 0;
    for (const Proof& proof : proofs) {
        const bool is_new = std::ranges::none_of(
            *proof.jobs, [&](std::size_t job) { return counted.count(job) != 0; });
        if (!is_new) continue;
        counted.insert(proof.jobs->begin(), proof.jobs->end());
        trees += proof.trees;
    }
    return trees;
}

ScheduleStanding standing_of(const CrewSchedule& schedule, const Problem& problem) {
    if (problem.tasks().size() <= exact_jobs) return ScheduleStanding::best;
    const auto left_out =
        static_cast<std::size_t>(std::ranges::count_if(schedule.left_out, is_possible));
    if (left_out == 0) return ScheduleStanding::all_planned;
    return proved_left_out(schedule) >= left_out ? ScheduleStanding::fewest_left_out
                                                 : ScheduleStanding::some_left_out;
}

// How many of the trees that are left out fit where the reserve is, all others staying where they
// are. The days are the same, only longer.
FreeForRain free_for_rain(const WorkDue& work, const Crews& crews, const ScheduleOptions& options,
                          const Problem& problem, const Assignment& assignment) {
    FreeForRain free;
    for (const CrewDay& day : problem.days()) free.minutes += day.reserved;
    const Problem longer(work, crews, crew_days(crews, options.from, Reserve::used), options);
    std::vector<int> slot_of_job(work.jobs.size(), not_planned);
    for (std::size_t task = 0; task < problem.tasks().size(); ++task) {
        slot_of_job[problem.tasks()[task].job] = assignment.slot_of[task];
    }
    Assignment same{{}, {}};
    for (const Task& task : longer.tasks()) same.slot_of.push_back(slot_of_job[task.job]);
    const Assignment with_reserve = filled(longer, same);
    for (std::size_t task = 0; task < same.slot_of.size(); ++task) {
        const bool now = !with_reserve.leaves_out(task);
        if (now && same.leaves_out(task)) ++free.would_hold;
    }
    return free;
}

}  // namespace

CrewSchedule schedule_of(const Problem& problem, const Crews& crews, const Assignment& assignment,
                         const std::vector<PlannedDay>& before) {
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
        const CrewDay& day = problem.days()[static_cast<std::size_t>(slot)];
        schedule.days.push_back(
            planned_day(problem, crews, slot, by_site, sites, sites_before(before, day)));
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
                             const Assignment& assignment, const std::vector<PlannedDay>& before) {
    CrewSchedule schedule = schedule_of(problem, crews, assignment, before);
    prove(schedule, problem);
    schedule.standing = standing_of(schedule, problem);
    return schedule;
}

CrewSchedule crew_schedule(const WorkDue& work, const Crews& crews,
                           const ScheduleOptions& options) {
    if (crews.crews.empty()) {
        throw measure::InputError("There is no crew to plan for", {},
                                  "Describe one in the crew file.");
    }
    const Problem problem(work, crews, crew_days(crews, options.from, Reserve::kept), options);
    const Assignment assignment = assignment_for(problem);
    CrewSchedule schedule = proved_schedule(problem, crews, assignment);
    if (!schedule.left_out.empty() && crews.settings.rain_reserve.percent > 0) {
        schedule.free_for_rain = free_for_rain(work, crews, options, problem, assignment);
    }
    return schedule;
}

}  // namespace ashtriage::plan
