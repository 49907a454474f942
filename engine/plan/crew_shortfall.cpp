// Intervals with more work than the crews can do.
#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <vector>

#include "plan/crew_problem.hpp"

namespace ashtriage::plan {

namespace {

class ShortfallSearch {
 public:
    ShortfallSearch(const Problem& problem, bool certified)
        : problem_(problem), certified_(certified) {
        for (int i = 0; i < static_cast<int>(problem.tasks().size()); ++i) {
            if (!certified || problem.task(i).needs_certified) tasks_.push_back(i);
        }
        std::ranges::stable_sort(tasks_, {}, [&](int task) { return problem.task(task).end_slot; });
        minutes_before_.push_back(0);
        for (const Slot& slot : problem.slots()) {
            minutes_before_.push_back(minutes_before_.back() +
                                      (certified && !slot.certified ? 0 : slot.minutes));
        }
        find_ways_in();
    }

    // The interval of slots with the most minutes too few, none of them from `taken`.
    std::optional<Shortfall> worst(const std::vector<std::pair<int, int>>& taken) const {
        std::set<int> firsts;
        for (const int task : tasks_) firsts.insert(problem_.task(task).first_slot);
        int most = 0;
        std::pair<int, int> where;
        for (const int first : firsts) {
            int needed = 0;
            std::set<int> sites;
            for (std::size_t i = 0; i < tasks_.size(); ++i) {
                const Task& task = problem_.task(tasks_[i]);
                if (task.first_slot < first) continue;
                needed += task.minutes;
                if (sites.insert(task.site).second) needed += to_site(task.site);
                const bool last_of_its_day = i + 1 == tasks_.size() ||
                                             problem_.task(tasks_[i + 1]).end_slot != task.end_slot;
                const int excess = needed - available(first, task.end_slot);
                const bool is_free = std::ranges::none_of(taken, [&](const auto& other) {
                    return first < other.second && other.first < task.end_slot;
                });
                if (last_of_its_day && is_free && excess > most) {
                    most = excess;
                    where = {first, task.end_slot};
                }
            }
        }
        if (most == 0) return std::nullopt;
        return described(where.first, where.second);
    }

    std::pair<int, int> slots_of(const Shortfall& shortfall) const {
        const auto& days = problem_.days();
        const auto by_day = [](const CrewDay& day) { return day.day; };
        return {static_cast<int>(std::ranges::lower_bound(days, shortfall.from, {}, by_day) -
                                 days.begin()),
                static_cast<int>(std::ranges::upper_bound(days, shortfall.to, {}, by_day) -
                                 days.begin())};
    }

 private:
    // Whatever the route, a crew comes to a site from its start or from another site.
    void find_ways_in() {
        std::set<int> sites;
        for (const Task& task : problem_.tasks()) sites.insert(task.site);
        for (const int site : sites) {
            int least = std::numeric_limits<int>::max();
            for (int crew = 0; crew < problem_.crews(); ++crew) {
                least = std::min(least, problem_.leg(problem_.start(crew), site));
            }
            for (const int other : sites) {
                if (other == site || !problem_.has_place(other)) continue;
                least = std::min(least, problem_.leg(other, site));
            }
            ways_in_[site] = problem_.has_place(site) ? least : 0;
        }
    }

    int to_site(int site) const { return problem_.setup() + ways_in_.at(site); }

    int available(int first, int end) const {
        return minutes_before_[static_cast<std::size_t>(end)] -
               minutes_before_[static_cast<std::size_t>(first)];
    }

    Shortfall described(int first, int end) const {
        Shortfall shortfall;
        const auto& days = problem_.days();
        shortfall.from = days[static_cast<std::size_t>(first)].day;
        shortfall.to = days[static_cast<std::size_t>(end) - 1].day;
        shortfall.certified = certified_;
        shortfall.available = available(first, end);
        std::set<int> sites;
        std::vector<int> saved_at_most;  // by leaving a tree out
        for (const int index : tasks_) {
            const Task& task = problem_.task(index);
            if (task.first_slot < first || task.end_slot > end) continue;
            shortfall.jobs.push_back(task.job);
            shortfall.needed += task.minutes;
            if (sites.insert(task.site).second) shortfall.needed += to_site(task.site);
            saved_at_most.push_back(task.minutes + to_site(task.site));
        }
        std::ranges::sort(shortfall.jobs);
        std::ranges::sort(saved_at_most, std::ranges::greater{});
        int excess = shortfall.needed - shortfall.available;
        for (const int saved : saved_at_most) {
            if (excess <= 0) break;
            excess -= saved;
            ++shortfall.at_least_left_out;
        }
        return shortfall;
    }

    const Problem& problem_;
    bool certified_;
    std::vector<int> tasks_;           // by the end of their windows
    std::vector<int> minutes_before_;  // available before each slot
    std::map<int, int> ways_in_;       // by site, the shortest
};

}  // namespace

std::vector<Shortfall> shortfalls(const Problem& problem) {
    std::vector<Shortfall> found;
    for (const bool certified : {false, true}) {
        const ShortfallSearch search(problem, certified);
        std::vector<std::pair<int, int>> taken;
        while (const auto next = search.worst(taken)) {
            taken.push_back(search.slots_of(*next));
            found.push_back(*next);
        }
    }
    return found;
}

}  // namespace ashtriage::plan
