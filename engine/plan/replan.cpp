#include "plan/replan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "measure/input_error.hpp"
#include "plan/crew_problem.hpp"

namespace ashtriage::plan {

namespace {

void check(const Crews& crews, const LostDay& lost) {
    if (lost.crew && *lost.crew >= crews.crews.size()) {
        throw measure::InputError("There is no such crew");
    }
    for (std::size_t crew = 0; crew < crews.crews.size(); ++crew) {
        if (lost.takes(crew, lost.day) && crews.crews[crew].works_on(lost.day)) return;
    }
    throw measure::InputError(
        lost.crew ? fmt::format("The crew '{}' does not work on {}", crews.crews[*lost.crew].name,
                                measure::text(lost.day))
                  : fmt::format("No crew works on {}", measure::text(lost.day)),
        {}, "Name the day on which work was planned that could not be done.");
}

using Places = std::vector<std::optional<CrewOnDay>>;  // by job

Places places_in(const CrewSchedule& schedule, std::size_t jobs) {
    Places places(jobs);
    for (const PlannedDay& day : schedule.days) {
        for (const Visit& visit : day.visits) {
            for (const std::size_t job : visit.jobs) places[job] = CrewOnDay{day.crew, day.day};
        }
    }
    return places;
}

// The work that is still open after the lost day, and which of the whole work each job is.
struct OpenWork {
    WorkDue work;
    std::vector<std::size_t> job_of;
    std::vector<std::optional<std::pair<std::size_t, measure::Date>>> before;
};

enum class Which { planned_before, all };

OpenWork open_work(const WorkDue& work, const Places& places, const LostDay& lost, Which which) {
    OpenWork open;
    open.work.sites = work.sites;
    open.work.rooms = work.rooms;
    for (std::size_t job = 0; job < work.jobs.size(); ++job) {
        const auto& place = places[job];
        const Job& done = work.jobs[job];
        if (place && place->day <= lost.day && !lost.takes(place->crew, place->day)) {
            for (AcreRoom& room : open.work.rooms) {
                if (room.site == work.sites[done.site].name &&
                    room.active_ingredient == done.active_ingredient &&
                    room.year == static_cast<int>(place->day.year())) {
                    room.left -= done.active;
                }
            }
            continue;
        }
        if (!place && which == Which::planned_before) continue;
        open.work.jobs.push_back(done);
        open.job_of.push_back(job);
        open.before.emplace_back();
        if (place && !lost.takes(place->crew, place->day)) {
            open.before.back() = {place->crew, place->day};
        }
    }
    return open;
}

// The answer to the first problem as one to the problem of all open work: the days are the same.
Assignment same_in(const Problem& all, const OpenWork& open, const Problem& first_problem,
                   const OpenWork& first, const Assignment& answer) {
    std::map<std::size_t, int> slot_of_job;
    for (std::size_t task = 0; task < answer.slot_of.size(); ++task) {
        slot_of_job[first.job_of[first_problem.tasks()[task].job]] = answer.slot_of[task];
    }
    Assignment same{std::vector<int>(all.tasks().size(), not_planned), {}};
    for (std::size_t task = 0; task < same.slot_of.size(); ++task) {
        const auto found = slot_of_job.find(open.job_of[all.tasks()[task].job]);
        if (found != slot_of_job.end()) same.slot_of[task] = found->second;
    }
    return same;
}

void rename_jobs(CrewSchedule& schedule, const std::vector<std::size_t>& job_of) {
    for (PlannedDay& day : schedule.days) {
        for (Visit& visit : day.visits) {
            for (std::size_t& job : visit.jobs) job = job_of[job];
        }
    }
    for (LeftOut& left : schedule.left_out) left.job = job_of[left.job];
    for (Shortfall& shortfall : schedule.shortfalls) {
        for (std::size_t& job : shortfall.jobs) job = job_of[job];
    }
    for (AcreShortfall& shortfall : schedule.acre_shortfalls) {
        for (std::size_t& job : shortfall.jobs) job = job_of[job];
    }
}

const PlannedDay* same_day(const std::vector<PlannedDay>& days, const PlannedDay& as) {
    const auto found = std::ranges::find_if(
        days, [&](const PlannedDay& day) { return day.crew == as.crew && day.day == as.day; });
    return found == days.end() ? nullptr : &*found;
}

const Visit* same_site(const PlannedDay& day, std::size_t site) {
    const auto found = std::ranges::find(day.visits, site, &Visit::site);
    return found == day.visits.end() ? nullptr : &*found;
}

bool same_work(const PlannedDay& a, const PlannedDay& b) {
    return a.visits.size() == b.visits.size() &&
           std::ranges::all_of(a.visits, [&](const Visit& visit) {
               const Visit* other = same_site(b, visit.site);
               return other != nullptr && other->jobs == visit.jobs;
           });
}

// Nobody has to be told of another way through a day whose work is the same.
void keep_hours(CrewSchedule& schedule, const std::vector<PlannedDay>& before) {
    for (PlannedDay& day : schedule.days) {
        const PlannedDay* was = same_day(before, day);
        if (was == nullptr || !same_work(day, *was)) continue;
        schedule.minutes += was->minutes - day.minutes;
        day.visits = was->visits;
        day.travel_back = was->travel_back;
        day.minutes = was->minutes;
    }
}

std::vector<ChangedHours> changed_hours(const std::vector<PlannedDay>& before,
                                        const std::vector<PlannedDay>& now) {
    std::vector<ChangedHours> changed;
    for (const PlannedDay& day : now) {
        const PlannedDay* was = same_day(before, day);
        if (was == nullptr) continue;
        for (const Visit& visit : day.visits) {
            const Visit* other = same_site(*was, visit.site);
            if (other == nullptr) continue;
            if (other->arrives == visit.arrives && other->leaves == visit.leaves) continue;
            changed.push_back({{day.crew, day.day}, *other, visit});
        }
    }
    return changed;
}

}  // namespace

Replanned replan(const CrewSchedule& schedule, const WorkDue& work, const Crews& crews,
                 const ScheduleOptions& options, const LostDay& lost) {
    check(crews, lost);
    const Places before = places_in(schedule, work.jobs.size());

    ScheduleOptions from_next_day = options;
    from_next_day.from = std::max(options.from, measure::add_days(lost.day, 1));
    std::vector<LostDay> all_lost = schedule.lost;
    all_lost.push_back(lost);

    Replanned result;
    const auto days = crew_days(crews, from_next_day.from, Reserve::used, all_lost);
    const OpenWork first = open_work(work, before, lost, Which::planned_before);
    const Problem first_problem(first.work, crews, days, from_next_day, first.before);
    const Assignment first_answer = assignment_for(first_problem);

    const OpenWork open = open_work(work, before, lost, Which::all);
    const Problem problem(open.work, crews, days, from_next_day, open.before);
    const Assignment answer = same_in(problem, open, first_problem, first, first_answer);
    result.schedule = proved_schedule(problem, crews, filled(problem, answer), schedule.days);
    rename_jobs(result.schedule, open.job_of);
    keep_hours(result.schedule, schedule.days);
    result.schedule.lost = std::move(all_lost);

    std::vector<PlannedDay> kept;
    for (const PlannedDay& day : schedule.days) {
        if (lost.day < day.day || lost.takes(day.crew, day.day)) continue;
        kept.push_back(day);
        result.schedule.minutes += day.minutes;
    }
    result.schedule.days.insert(result.schedule.days.begin(), kept.begin(), kept.end());

    const Places after = places_in(result.schedule, work.jobs.size());
    for (std::size_t job = 0; job < work.jobs.size(); ++job) {
        if (after[job] && before[job] != after[job]) {
            result.moved.push_back({job, before[job], *after[job]});
        }
    }
    result.changed_hours = changed_hours(schedule.days, result.schedule.days);
    for (const LeftOut& left : result.schedule.left_out) {
        if (before[left.job]) result.lost_place.push_back(left);
    }
    return result;
}

}  // namespace ashtriage::plan
