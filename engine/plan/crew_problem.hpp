// What planning reckons with: work, crew days and ways as plain numbers. For the files of this
// folder; others use crew_schedule.hpp.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include "plan/crew_day.hpp"
#include "plan/crew_schedule.hpp"
#include "plan/visits.hpp"

namespace ashtriage::plan {

inline constexpr int not_planned = -1;

// A job that at least one crew could do on some day.
struct Task {
    std::size_t job = 0;
    int site = 0;
    int minutes = 0;
    int rank = 0;  // of its priority among all: 0 is the most important
    bool needs_certified = false;
    int first_slot = 0;  // the slots of its window: from the first one to before the end
    int end_slot = 0;
    int best_end = 0;          // from here on the better part of the window is over
    std::int64_t active = 0;   // in ticks of measure::Mass
    int before = not_planned;  // the slot it had in the plan that this one changes
};

// A crew day.
struct Slot {
    int crew = 0;
    int minutes = 0;
    int offset = 0;  // days from the first slot
    int year = 0;
    bool certified = false;
};

// What an assignment costs by the aim: each of these weighs over all that follow it.
struct Cost {
    int moved = 0;       // trees that come to another day or crew than they were planned for
    int after_best = 0;  // trees that are done after the better part of their window
    int minutes = 0;
    int days = 0;  // from the first one, of all trees

    Cost& operator+=(const Cost& other) {
        moved += other.moved;
        after_best += other.after_best;
        minutes += other.minutes;
        days += other.days;
        return *this;
    }
    Cost& operator-=(const Cost& other) {
        moved -= other.moved;
        after_best -= other.after_best;
        minutes -= other.minutes;
        days -= other.days;
        return *this;
    }
    friend Cost operator+(Cost a, const Cost& b) { return a += b; }
    friend bool operator==(const Cost& a, const Cost& b) = default;
    friend std::strong_ordering operator<=>(const Cost& a, const Cost& b) {
        const auto weighed = [](const Cost& cost) {
            return std::tie(cost.moved, cost.after_best, cost.minutes, cost.days);
        };
        return weighed(a) <=> weighed(b);
    }
};

class Problem {
 public:
    // `before` holds, by job, where the job was planned; empty for a new plan.
    Problem(const WorkDue& work, const Crews& crews, std::vector<CrewDay> days,
            const ScheduleOptions& options,
            const std::vector<std::optional<std::pair<std::size_t, measure::Date>>>& before = {});

    const std::vector<Task>& tasks() const { return tasks_; }
    const Task& task(int index) const { return tasks_[static_cast<std::size_t>(index)]; }
    const std::vector<Slot>& slots() const { return slots_; }
    const Slot& slot(int index) const { return slots_[static_cast<std::size_t>(index)]; }
    const std::vector<CrewDay>& days() const { return days_; }
    int crews() const { return crew_count_; }
    int sites() const { return site_count_; }
    int ranks() const { return rank_count_; }
    int setup() const { return setup_; }

    // Jobs that cannot be done by anybody, with the reason.
    const std::vector<LeftOut>& impossible() const { return impossible_; }

    // The node of a crew's start; sites are the nodes from 0 on.
    int start(int crew) const { return site_count_ + crew; }
    int leg(int from, int to) const {
        const std::size_t a = static_cast<std::size_t>(from);
        const std::size_t b = static_cast<std::size_t>(to);
        return legs_.empty() ? leg_reckoned(a, b) : legs_[a * places_.size() + b];
    }
    // A site without a place is on no way.
    bool has_place(int site) const { return places_[static_cast<std::size_t>(site)].has_value(); }

    // Whether the window, the applicator and the length of the day allow the task there.
    bool can(const Task& task, const Slot& slot, int slot_index) const;
    // The task alone on a day of the crew, travel included.
    int alone(const Task& task, int crew) const;

    // The account that a task draws on in a year, or nothing.
    std::optional<std::size_t> account(int task, int year) const;
    const std::vector<std::int64_t>& account_limits() const { return account_limits_; }

    // What it costs by the aim to do a task in a slot, beside the minutes.
    Cost placing_cost(const Task& task, int slot) const;

 private:
    int leg_reckoned(std::size_t from, std::size_t to) const;
    void add_task(const WorkDue& work, const Crews& crews, std::size_t job, int before);
    void add_accounts(const WorkDue& work);

    std::vector<Task> tasks_;
    std::vector<Slot> slots_;
    std::vector<CrewDay> days_;
    std::vector<LeftOut> impossible_;
    int crew_count_ = 0;
    int site_count_ = 0;
    int rank_count_ = 0;
    int setup_ = 0;
    WithoutPlace without_place_ = WithoutPlace::leave_out;
    measure::Date from_{};
    CrewSettings settings_;
    std::vector<std::optional<season::Location>> places_;  // of sites, then of starts
    std::vector<int> legs_;                                // all of them, if they are not too many
    std::vector<std::map<int, std::size_t>> accounts_;     // by task, then by year
    std::vector<std::int64_t> account_limits_;
};

struct Assignment {
    std::vector<int> slot_of;             // by task; not_planned where it is left out
    std::vector<std::vector<int>> sites;  // by slot, in the order of a way; may be empty

    bool leaves_out(std::size_t task) const { return slot_of[task] == not_planned; }
};

// How good an assignment is; the smaller is the better one.
struct Score {
    std::vector<int> left_out;  // by rank
    Cost cost;

    friend bool operator==(const Score& a, const Score& b) {
        return a.left_out == b.left_out && a.cost == b.cost;
    }
    friend bool operator<(const Score& a, const Score& b) {
        if (a.left_out != b.left_out) return a.left_out < b.left_out;
        return a.cost < b.cost;
    }
};

// The best assignment of a few tasks, a good one of many.
Assignment assignment_for(const Problem& problem);

// The plan of an assignment, with the shortfalls that prove that some must be left out. Of ways as
// short it takes those that go as the days planned before went.
CrewSchedule proved_schedule(const Problem& problem, const Crews& crews,
                             const Assignment& assignment,
                             const std::vector<PlannedDay>& before = {});

// The plan that an assignment comes to, likewise.
CrewSchedule schedule_of(const Problem& problem, const Crews& crews, const Assignment& assignment,
                         const std::vector<PlannedDay>& before = {});

// The best assignment by all of them, for at most exact_jobs tasks.
Assignment best_assignment(const Problem& problem);

// A good one, for any number of tasks.
Assignment good_assignment(const Problem& problem);

// An assignment with the tasks that it leaves out put in where they fit without moving any other,
// the most important first.
Assignment filled(const Problem& problem, const Assignment& assignment);

// Intervals with more work than the crews can do, the worst first; those that follow share no day
// with the ones before them.
std::vector<Shortfall> shortfalls(const Problem& problem);

// Accounts of the acre that cannot take all that is due.
std::vector<AcreShortfall> acre_shortfalls(const Problem& problem);

}  // namespace ashtriage::plan
