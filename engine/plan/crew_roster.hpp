// A plan while it is being made: what every crew does on every day, what that costs, and how to put
// tasks in and take them out again. For the files of this folder.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "plan/crew_problem.hpp"

namespace ashtriage::plan {

struct Stop {
    int site = 0;
    std::vector<int> tasks;
};

struct DayWork {
    std::vector<Stop> stops;  // in the order of the route
    int minutes = 0;          // travel and set-up included
};

// Whether trees of a site are put on the day that takes the most of them, or first, where that can
// be, on the one that takes the most in the better part of their windows, without the others.
enum class Prefer { few_visits, best_part };

class Roster {
 public:
    explicit Roster(const Problem& problem);

    const Problem& problem() const { return problem_; }
    Assignment assignment() const;
    const DayWork& day(int slot) const { return days_[static_cast<std::size_t>(slot)]; }
    const Score& score() const { return score_; }
    int slot_of(int task) const { return slot_of_[static_cast<std::size_t>(task)]; }

    // What is left of the account a task draws on in that year: none of it where it draws on none.
    bool account_allows(int task, int year) const;

    // Puts as many of these tasks of one site as it can where they cost least: all of them on one
    // day if one has room, else as much as fits, and the rest on other days. Returns those for
    // which there is no room.
    std::vector<int> insert(std::vector<int> tasks, Prefer prefer = Prefer::few_visits);

    // Puts a task into a slot without looking whether it fits: settle() sees to that.
    void put(int task, int slot);
    // Finds the best way of a day, and takes stops out of it until it fits.
    void settle(int slot);

    void remove_stop(int slot, int site);

    // Remembers the plan as it is now; go_back() returns to it.
    void remember();
    void go_back();

 private:
    struct Offer {
        int slot = not_planned;
        std::vector<int> tasks;
        int minutes = 0;  // of these tasks
        Cost cost;        // beside their minutes
        std::size_t position = 0;
    };

    Offer offer(int slot, const std::vector<int>& tasks, Prefer prefer) const;
    // The detour to a site and where in the route it is least.
    std::pair<int, std::size_t> detour(int slot, int site) const;
    void take(const Offer& offer);
    void touch(int slot);
    void set_slot(int task, int slot);
    void set_minutes(int slot, int minutes);
    void reroute(int slot, std::size_t most_stops);
    int route_minutes(int slot) const;

    const Problem& problem_;
    std::vector<DayWork> days_;
    std::vector<int> slot_of_;
    std::vector<std::int64_t> account_used_;
    Score score_;

    std::vector<std::pair<int, DayWork>> touched_days_;
    std::vector<std::pair<int, int>> touched_tasks_;  // with the slot they had
    std::vector<bool> is_touched_;
    std::vector<std::int64_t> remembered_accounts_;
    Score remembered_score_;
};

}  // namespace ashtriage::plan
