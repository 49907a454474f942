// The best assignment of few tasks: for each set of tasks the least cost of doing exactly these on
// the days looked at so far, day after day and year by year.
#include <algorithm>
#include <bit>
#include <limits>
#include <map>
#include <tuple>

#include "plan/crew_problem.hpp"
#include "plan/crew_route.hpp"

namespace ashtriage::plan {

namespace {

using Set = std::size_t;  // of tasks, a bit for each

constexpr Cost impossible{std::numeric_limits<int>::max() / 4, 0, 0, 0};

// Which tasks the last step added to reach each set.
struct Step {
    int slot = not_planned;  // not_planned: the step joins a year to those before it
    std::size_t year = 0;
    std::vector<Set> added;
};

struct Table {
    std::vector<Cost> cost;
    std::vector<Step> steps;
};

class ExactSearch {
 public:
    explicit ExactSearch(const Problem& problem)
        : problem_(problem), count_(problem.tasks().size()), sets_(Set{1} << count_) {
        for (const Task& task : problem.tasks()) {
            if (std::ranges::find(sites_, task.site) == sites_.end()) sites_.push_back(task.site);
        }
        sites_of_.assign(sets_, 0);
        for (Set set = 1; set < sets_; ++set) {
            const auto lowest = static_cast<std::size_t>(std::countr_zero(set));
            const auto site =
                std::ranges::find(sites_, problem.tasks()[lowest].site) - sites_.begin();
            sites_of_[set] = sites_of_[set & (set - 1)] | (Set{1} << site);
        }
        for (int crew = 0; crew < problem.crews(); ++crew) {
            ways_.push_back(shortest_ways(problem, crew, sites_));
        }
    }

    Assignment search() {
        std::vector<Table> years;
        Table all = empty();
        for (const auto& [year, slots] : slots_by_year()) {
            years.push_back(table_of(slots));
            keep_accounts(years.back(), year);
            join(all, years.back(), years.size() - 1);
        }
        Assignment assignment{std::vector<int>(count_, not_planned), {}};
        Set done = best_set(all);
        for (std::size_t i = all.steps.size(); i-- > 0;) {
            const Step& joined = all.steps[i];
            Set in_year = joined.added[done];
            done &= ~in_year;
            const std::vector<Step>& steps = years[joined.year].steps;
            for (std::size_t k = steps.size(); k-- > 0;) {
                const Set added = steps[k].added[in_year];
                for (std::size_t task = 0; task < count_; ++task) {
                    if ((added >> task & 1U) != 0) assignment.slot_of[task] = steps[k].slot;
                }
                in_year &= ~added;
            }
        }
        return assignment;
    }

 private:
    Table empty() const {
        Table table{std::vector<Cost>(sets_, impossible), {}};
        table.cost[0] = {};
        return table;
    }

    // Days that offer the same are needed at most once for each task, the earliest of them.
    std::map<int, std::vector<int>> slots_by_year() const {
        std::map<std::tuple<int, int, int, Set, Set, int>, std::size_t> seen;
        std::map<int, std::vector<int>> by_year;
        for (int i = 0; i < static_cast<int>(problem_.slots().size()); ++i) {
            const Slot& slot = problem_.slot(i);
            const Set allowed = allowed_in(i);
            if (allowed == 0) continue;
            const bool was_planned = std::ranges::any_of(
                problem_.tasks(), [&](const Task& task) { return task.before == i; });
            const int alike = was_planned ? i : not_planned;
            const auto offer =
                std::tuple(slot.year, slot.crew, slot.minutes, allowed, after_best_in(i), alike);
            if (++seen[offer] > count_) continue;
            by_year[slot.year].push_back(i);
        }
        return by_year;
    }

    Set allowed_in(int slot) const {
        Set allowed = 0;
        for (std::size_t task = 0; task < count_; ++task) {
            if (problem_.can(problem_.tasks()[task], problem_.slot(slot), slot)) {
                allowed |= Set{1} << task;
            }
        }
        return allowed;
    }

    Set after_best_in(int slot) const {
        Set late = 0;
        for (std::size_t task = 0; task < count_; ++task) {
            if (slot >= problem_.tasks()[task].best_end) late |= Set{1} << task;
        }
        return late;
    }

    // The sets that fit into a slot, with their costs.
    std::vector<std::pair<Set, Cost>> fitting(int slot) const {
        const Slot& day = problem_.slot(slot);
        const Set allowed = allowed_in(slot);
        std::vector<Cost> placing(sets_);
        std::vector<std::pair<Set, Cost>> fit;
        for (Set set = 1; set < sets_; ++set) {
            const Set rest = set & (set - 1);
            const auto lowest = static_cast<std::size_t>(std::countr_zero(set));
            const Task& task = problem_.tasks()[lowest];
            placing[set] = placing[rest] + problem_.placing_cost(task, slot);
            placing[set].minutes += task.minutes;
            if ((set & ~allowed) != 0) continue;
            const Set sites = sites_of_[set];
            Cost cost = placing[set];
            cost.minutes += ways_[static_cast<std::size_t>(day.crew)][sites] +
                            problem_.setup() * std::popcount(sites);
            if (cost.minutes <= day.minutes) fit.emplace_back(set, cost);
        }
        return fit;
    }

    static void extend(std::vector<Cost>& next, Step& step, const std::vector<Cost>& cost, Set all,
                       Set added, const Cost& added_cost) {
        const Set others = all & ~added;
        for (Set before = others;; before = (before - 1) & others) {
            if (cost[before] + added_cost < next[before | added]) {
                next[before | added] = cost[before] + added_cost;
                step.added[before | added] = added;
            }
            if (before == 0) break;
        }
    }

    Table table_of(const std::vector<int>& slots) const {
        Table table = empty();
        for (const int slot : slots) {
            Step step{slot, 0, std::vector<Set>(sets_, 0)};
            std::vector<Cost> next = table.cost;
            for (const auto& [set, cost] : fitting(slot)) {
                extend(next, step, table.cost, sets_ - 1, set, cost);
            }
            table.cost = std::move(next);
            table.steps.push_back(std::move(step));
        }
        return table;
    }

    void keep_accounts(Table& table, int year) const {
        for (Set set = 1; set < sets_; ++set) {
            std::vector<std::int64_t> left = problem_.account_limits();
            for (std::size_t task = 0; task < count_; ++task) {
                if ((set >> task & 1U) == 0) continue;
                const auto account = problem_.account(static_cast<int>(task), year);
                if (!account) continue;
                left[*account] -= problem_.tasks()[task].active;
                if (left[*account] < 0) table.cost[set] = impossible;
            }
        }
    }

    void join(Table& all, const Table& year, std::size_t index) const {
        Step step{not_planned, index, std::vector<Set>(sets_, 0)};
        std::vector<Cost> next = all.cost;
        for (Set set = 1; set < sets_; ++set) {
            if (year.cost[set] >= impossible) continue;
            extend(next, step, all.cost, sets_ - 1, set, year.cost[set]);
        }
        all.cost = std::move(next);
        all.steps.push_back(std::move(step));
    }

    Set best_set(const Table& all) const {
        std::optional<Score> best;
        Set best_set = 0;
        for (Set set = 0; set < sets_; ++set) {
            if (all.cost[set] >= impossible) continue;
            Score score{std::vector<int>(static_cast<std::size_t>(problem_.ranks()), 0),
                        all.cost[set]};
            for (std::size_t task = 0; task < count_; ++task) {
                if ((set >> task & 1U) == 0) {
                    ++score.left_out[static_cast<std::size_t>(problem_.tasks()[task].rank)];
                }
            }
            if (!best || score < *best) {
                best = score;
                best_set = set;
            }
        }
        return best_set;
    }

    const Problem& problem_;
    std::size_t count_;
    Set sets_;
    std::vector<int> sites_;
    std::vector<Set> sites_of_;           // by set of tasks, a bit for each of sites_
    std::vector<std::vector<int>> ways_;  // by crew, then by set of sites
};

}  // namespace

Assignment best_assignment(const Problem& problem) {
    return ExactSearch(problem).search();
}

}  // namespace ashtriage::plan
