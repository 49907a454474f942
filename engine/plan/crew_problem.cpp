#include "plan/crew_problem.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace ashtriage::plan {

namespace {

// Beyond so many places the ways are reckoned as they are needed.
constexpr std::size_t most_tabled_places = 2'500;

}  // namespace

Problem::Problem(const WorkDue& work, const Crews& crews, std::vector<CrewDay> days,
                 const ScheduleOptions& options,
                 const std::vector<std::optional<std::pair<std::size_t, measure::Date>>>& before)
    : days_(std::move(days)),
      crew_count_(static_cast<int>(crews.crews.size())),
      site_count_(static_cast<int>(work.sites.size())),
      setup_(crews.settings.setup_minutes_per_site),
      without_place_(options.without_place),
      from_(options.from),
      settings_(crews.settings) {
    for (const CrewDay& day : days_) {
        slots_.push_back({static_cast<int>(day.crew), day.minutes,
                          measure::days_between(days_.front().day, day.day),
                          static_cast<int>(day.day.year()), crews.crews[day.crew].certified});
    }
    for (const WorkSite& site : work.sites) places_.push_back(site.place);
    for (const Crew& crew : crews.crews) places_.emplace_back(crew.start);
    if (places_.size() <= most_tabled_places) {
        const std::size_t size = places_.size();
        std::vector<int> legs(size * size, 0);
        for (std::size_t a = 0; a < size; ++a) {
            for (std::size_t b = a; b < size; ++b) {
                const int minutes = leg(static_cast<int>(a), static_cast<int>(b));
                legs[a * size + b] = minutes;
                legs[b * size + a] = minutes;
            }
        }
        legs_ = std::move(legs);
    }
    std::set<int> priorities;
    for (const Job& job : work.jobs) priorities.insert(job.priority);
    rank_count_ = static_cast<int>(priorities.size());
    for (std::size_t job = 0; job < work.jobs.size(); ++job) {
        int slot = not_planned;
        if (!before.empty() && before[job]) {
            const auto found = std::ranges::find_if(days_, [&](const CrewDay& day) {
                return day.crew == before[job]->first && day.day == before[job]->second;
            });
            if (found != days_.end()) slot = static_cast<int>(found - days_.begin());
        }
        add_task(work, crews, job, slot);
        if (tasks_.empty() || tasks_.back().job != job) continue;
        tasks_.back().rank = static_cast<int>(
            std::distance(priorities.begin(), priorities.find(work.jobs[job].priority)));
    }
    add_accounts(work);
}

void Problem::add_task(const WorkDue& work, const Crews& crews, std::size_t index, int before) {
    const Job& job = work.jobs[index];
    Task task;
    task.job = index;
    task.site = static_cast<int>(job.site);
    task.minutes = job.minutes;
    task.needs_certified = job.needs_certified;
    task.active = job.active.ticks();
    task.before = before;
    const auto by_day = [](const CrewDay& day) { return day.day; };
    task.first_slot =
        static_cast<int>(std::ranges::lower_bound(days_, job.release, {}, by_day) - days_.begin());
    task.end_slot =
        static_cast<int>(std::ranges::upper_bound(days_, job.deadline, {}, by_day) - days_.begin());
    task.best_end = task.end_slot;
    if (job.best_until) {
        const auto end = std::ranges::upper_bound(days_, *job.best_until, {}, by_day);
        task.best_end = std::min(task.end_slot, static_cast<int>(end - days_.begin()));
    }

    const auto leave_out = [&](LeftOutBecause because, int needed, int available) {
        impossible_.push_back({index, because, needed, available, std::nullopt, std::nullopt});
    };
    if (!work.sites[job.site].place && without_place_ == WithoutPlace::leave_out) {
        return leave_out(LeftOutBecause::site_without_place, 0, 0);
    }
    if (job.deadline < from_) return leave_out(LeftOutBecause::window_over, 0, 0);
    std::optional<int> needed;
    int longest = 0;
    bool anybody = false;
    bool certified = false;
    for (int i = task.first_slot; i < task.end_slot; ++i) {
        const Slot& day = slot(i);
        if (day.minutes == 0) continue;
        anybody = true;
        if (task.needs_certified && !crews.crews[static_cast<std::size_t>(day.crew)].certified) {
            continue;
        }
        certified = true;
        const int minutes = alone(task, day.crew);
        if (minutes <= day.minutes) {
            tasks_.push_back(task);
            return;
        }
        if (!needed || minutes - day.minutes < *needed - longest) {
            needed = minutes;
            longest = day.minutes;
        }
    }
    if (!anybody) return leave_out(LeftOutBecause::no_crew_day, 0, 0);
    if (!certified) return leave_out(LeftOutBecause::no_certified_crew, 0, 0);
    leave_out(LeftOutBecause::longer_than_any_day, needed.value_or(0), longest);
}

void Problem::add_accounts(const WorkDue& work) {
    std::map<std::tuple<std::string, std::string, int>, std::size_t> indices;
    for (const AcreRoom& room : work.rooms) {
        indices[{room.site, room.active_ingredient, room.year}] = account_limits_.size();
        account_limits_.push_back(room.left.ticks());
    }
    accounts_.resize(tasks_.size());
    for (std::size_t i = 0; i < tasks_.size(); ++i) {
        const Job& job = work.jobs[tasks_[i].job];
        if (job.active_ingredient.empty()) continue;
        for (int year = static_cast<int>(job.release.year());
             year <= static_cast<int>(job.deadline.year()); ++year) {
            const auto found =
                indices.find({work.sites[job.site].name, job.active_ingredient, year});
            if (found != indices.end()) accounts_[i][year] = found->second;
        }
    }
}

int Problem::leg_reckoned(std::size_t from, std::size_t to) const {
    if (!places_[from] || !places_[to]) return 0;
    return travel_minutes(*places_[from], *places_[to], settings_);
}

bool Problem::can(const Task& task, const Slot& slot, int slot_index) const {
    return slot_index >= task.first_slot && slot_index < task.end_slot &&
           (!task.needs_certified || slot.certified) && alone(task, slot.crew) <= slot.minutes;
}

int Problem::alone(const Task& task, int crew) const {
    return 2 * leg(start(crew), task.site) + setup_ + task.minutes;
}

std::optional<std::size_t> Problem::account(int task, int year) const {
    const auto& by_year = accounts_[static_cast<std::size_t>(task)];
    const auto found = by_year.find(year);
    if (found == by_year.end()) return std::nullopt;
    return found->second;
}

Cost Problem::placing_cost(const Task& task, int slot_index) const {
    const bool moved = task.before != not_planned && task.before != slot_index;
    return {moved ? 1 : 0, slot_index >= task.best_end ? 1 : 0, 0, slot(slot_index).offset};
}

}  // namespace ashtriage::plan
