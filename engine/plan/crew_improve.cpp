// A good assignment for any number of tasks: put together by the least detour in several orders,
// the best of which is then taken apart in places and put together again for as long as that helps.
#include <algorithm>
#include <functional>
#include <random>
#include <set>
#include <tuple>

#include "plan/crew_problem.hpp"
#include "plan/crew_roster.hpp"
#include "treat/acre_account.hpp"

namespace ashtriage::plan {

namespace {

using Order = std::function<bool(int, int)>;

class Improver {
 public:
    explicit Improver(const Problem& problem)
        : problem_(problem),
          roster_(problem),
          tasks_of_site_(static_cast<std::size_t>(problem.sites())) {
        for (int task = 0; task < static_cast<int>(problem.tasks().size()); ++task) {
            tasks_of_site_[static_cast<std::size_t>(problem.task(task).site)].push_back(task);
        }
        some_best_part_ = std::ranges::any_of(
            problem.tasks(), [](const Task& task) { return task.best_end < task.end_slot; });
    }

    Assignment find() {
        begin();
        const std::size_t rounds = rounds_for(problem_.tasks().size());
        for (std::size_t round = 0; round < rounds; ++round) {
            if (problem_.tasks().empty()) break;
            roster_.remember();
            const Score before = roster_.score();
            take_apart();
            const std::vector<int> tasks = pool();
            const int which = static_cast<int>(random(orders_at_hand()));
            put_together(tasks, which, random_preference());
            if (before < roster_.score()) roster_.go_back();
        }
        give_way();
        return roster_.assignment();
    }

 private:
    static constexpr std::size_t orders = 3;
    static constexpr int by_priority = 1;
    static constexpr int in_random_order = orders;  // after those that are the same every time

    // Small problems are given many rounds for their size, large ones as many as take some seconds.
    static std::size_t rounds_for(std::size_t tasks) {
        return std::clamp<std::size_t>(8 * tasks, 4'000, 25'000);
    }

    // With few tasks the orders that are the same every time come to the same few plans.
    std::size_t orders_at_hand() const {
        constexpr std::size_t few = 200;
        return problem_.tasks().size() <= few ? orders + 1 : orders;
    }

    std::size_t random(std::size_t below) { return random_() % below; }

    Prefer random_preference() {
        return some_best_part_ && random(2) == 0 ? Prefer::best_part : Prefer::few_visits;
    }

    void begin() {
        std::set<int> planned;
        for (int task = 0; task < static_cast<int>(problem_.tasks().size()); ++task) {
            if (problem_.task(task).before == not_planned) continue;
            roster_.put(task, problem_.task(task).before);
            planned.insert(problem_.task(task).before);
        }
        for (const int slot : planned) roster_.settle(slot);
        if (!planned.empty()) {
            put_together(left_out(), 0, Prefer::few_visits);
            return;
        }
        std::vector<int> all = left_out();
        const std::vector<int> beyond = beyond_accounts();
        std::erase_if(all, [&](int task) { return std::ranges::binary_search(beyond, task); });
        std::vector<std::pair<int, Prefer>> ways;
        for (int which = 0; which < static_cast<int>(orders); ++which) {
            ways.emplace_back(which, Prefer::few_visits);
            if (some_best_part_) ways.emplace_back(which, Prefer::best_part);
        }
        const auto put_all = [&](const std::pair<int, Prefer>& way) {
            put_together(all, way.first, way.second);
            put_together(beyond, way.first, way.second);
        };
        std::optional<Score> best;
        std::pair<int, Prefer> best_way;
        for (const auto& way : ways) {
            roster_.remember();
            put_all(way);
            if (!best || roster_.score() < *best) {
                best = roster_.score();
                best_way = way;
            }
            roster_.go_back();
        }
        put_all(best_way);
    }

    // Tasks that have to give way on their site's account of the acre, in ascending order. They may
    // still be planned where others are left out.
    std::vector<int> beyond_accounts() const {
        std::vector<std::vector<int>> drawing(problem_.account_limits().size());
        for (int i = 0; i < static_cast<int>(problem_.tasks().size()); ++i) {
            const Task& task = problem_.task(i);
            const int year = problem_.slot(task.first_slot).year;
            if (const auto account = problem_.account(i, year)) drawing[*account].push_back(i);
        }
        std::vector<int> beyond;
        for (std::size_t account = 0; account < drawing.size(); ++account) {
            std::vector<treat::Claimant> claimants;
            for (const int task : drawing[account]) {
                claimants.push_back({problem_.task(task).rank,
                                     measure::Mass::from_ticks(problem_.task(task).active)});
            }
            const auto chosen = treat::largest_set(
                claimants, measure::Mass::from_ticks(problem_.account_limits()[account]));
            for (std::size_t i = 0; i < drawing[account].size(); ++i) {
                if (std::ranges::find(chosen, i) == chosen.end()) {
                    beyond.push_back(drawing[account][i]);
                }
            }
        }
        std::ranges::sort(beyond);
        return beyond;
    }

    Order order(int which) const {
        const auto task = [this](int index) -> const Task& { return problem_.task(index); };
        if (which == 0) {
            return [task](int a, int b) {
                return std::tie(task(a).end_slot, task(a).rank) <
                       std::tie(task(b).end_slot, task(b).rank);
            };
        }
        if (which == by_priority) {
            return [task](int a, int b) {
                return std::tie(task(a).rank, task(a).end_slot) <
                       std::tie(task(b).rank, task(b).end_slot);
            };
        }
        return [task](int a, int b) {
            return std::make_tuple(task(a).end_slot - task(a).first_slot, task(a).rank) <
                   std::make_tuple(task(b).end_slot - task(b).first_slot, task(b).rank);
        };
    }

    std::vector<int> left_out() const {
        std::vector<int> tasks;
        for (int task = 0; task < static_cast<int>(problem_.tasks().size()); ++task) {
            if (roster_.slot_of(task) == not_planned) tasks.push_back(task);
        }
        return tasks;
    }

    // What is to be put in again: what was taken out, and some of what was left out before.
    std::vector<int> pool() {
        constexpr std::size_t most_of_the_left_out = 24;
        std::vector<int> left = left_out();
        std::vector<int> tasks = taken_out_;
        std::erase_if(left, [&](int task) {
            return std::ranges::find(taken_out_, task) != taken_out_.end();
        });
        for (const int task : left) {
            if (problem_.task(task).site == site_) tasks.push_back(task);
        }
        std::erase_if(left, [&](int task) { return problem_.task(task).site == site_; });
        for (std::size_t i = 0; i < most_of_the_left_out && !left.empty(); ++i) {
            const std::size_t which = random(left.size());
            tasks.push_back(left[which]);
            left[which] = left.back();
            left.pop_back();
        }
        std::ranges::sort(tasks);
        return tasks;
    }

    // Site by site, in the order of the first task of each; what of a site comes together is put in
    // together: all of it, or in the order of priorities what has the same.
    void put_together(std::vector<int> tasks, int which, Prefer prefer) {
        if (which == in_random_order) {
            for (std::size_t i = tasks.size(); i > 1; --i) {
                std::swap(tasks[i - 1], tasks[random(i)]);
            }
        } else {
            std::ranges::stable_sort(tasks, order(which));
        }
        std::vector<bool> done(tasks.size(), false);
        for (std::size_t i = 0; i < tasks.size(); ++i) {
            if (done[i]) continue;
            const Task& first = problem_.task(tasks[i]);
            std::vector<int> together;
            for (std::size_t k = i; k < tasks.size(); ++k) {
                const Task& other = problem_.task(tasks[k]);
                if (done[k] || other.site != first.site) continue;
                if (which == by_priority && other.rank != first.rank) break;
                done[k] = true;
                together.push_back(tasks[k]);
            }
            roster_.insert(std::move(together), prefer);
        }
    }

    void take_out(int slot, int site) {
        for (const Stop& stop : roster_.day(slot).stops) {
            if (stop.site != site) continue;
            taken_out_.insert(taken_out_.end(), stop.tasks.begin(), stop.tasks.end());
        }
        roster_.remove_stop(slot, site);
    }

    // Chance does not come to every visit: where one that was left out can take the place of others
    // of less value on a visit to its own site, it does.
    void give_way() {
        std::vector<int> left = left_out();
        std::ranges::stable_sort(left, order(by_priority));
        for (const int task : left) {
            const Task& about = problem_.task(task);
            for (int slot = about.first_slot;
                 slot < about.end_slot && roster_.slot_of(task) == not_planned; ++slot) {
                if (!any_of_less_value(slot, about)) continue;
                roster_.remember();
                const Score before = roster_.score();
                taken_out_.clear();
                take_out(slot, about.site);
                taken_out_.push_back(task);
                put_together(taken_out_, by_priority, Prefer::few_visits);
                if (!(roster_.score() < before)) roster_.go_back();
            }
        }
    }

    bool any_of_less_value(int slot, const Task& about) const {
        return std::ranges::any_of(roster_.day(slot).stops, [&](const Stop& stop) {
            return stop.site == about.site && std::ranges::any_of(stop.tasks, [&](int other) {
                       return problem_.task(other).rank > about.rank;
                   });
        });
    }

    // Every visit to a site, so that it may be done in fewer.
    void take_out_site(int site) {
        for (const int task : tasks_of_site_[static_cast<std::size_t>(site)]) {
            const int slot = roster_.slot_of(task);
            if (slot != not_planned) take_out(slot, site);
        }
    }

    void take_apart() {
        taken_out_.clear();
        const int task = static_cast<int>(random(problem_.tasks().size()));
        const std::vector<int> left = left_out();
        // Half of the time make room for one that was left out.
        const int at = !left.empty() && random(2) == 0 ? left[random(left.size())] : task;
        if (random(4) == 0 && roster_.slot_of(at) != not_planned) {
            const int slot = roster_.slot_of(at);
            while (!roster_.day(slot).stops.empty()) {
                take_out(slot, roster_.day(slot).stops.front().site);
            }
        }
        site_ = problem_.task(at).site;
        whole_sites_ = random(2) == 0;
        if (whole_sites_) take_out_site(site_);
        take_out_near(at, 1 + random(5));
    }

    // The stops nearest to the task's site, of the days of its window.
    void take_out_near(int task, std::size_t count) {
        struct Near {
            int leg = 0;
            int slot = 0;
            int site = 0;
        };
        const Task& about = problem_.task(task);
        std::vector<Near> near;
        for (int slot = about.first_slot; slot < about.end_slot; ++slot) {
            for (const Stop& stop : roster_.day(slot).stops) {
                // A little chance, so that it is not always the same ones.
                const int chance = static_cast<int>(random(8));
                near.push_back({problem_.leg(about.site, stop.site) + chance, slot, stop.site});
            }
        }
        const auto nearer = [](const Near& a, const Near& b) {
            return std::tie(a.leg, a.slot, a.site) < std::tie(b.leg, b.slot, b.site);
        };
        const std::size_t some = std::min(count, near.size());
        std::partial_sort(near.begin(), near.begin() + static_cast<std::ptrdiff_t>(some),
                          near.end(), nearer);
        for (std::size_t i = 0; i < some; ++i) {
            if (whole_sites_) {
                take_out_site(near[i].site);
            } else {
                take_out(near[i].slot, near[i].site);
            }
        }
    }

    const Problem& problem_;
    Roster roster_;
    std::mt19937 random_{20'260'525};  // always the same, so that the plan is
    std::vector<int> taken_out_;
    int site_ = 0;  // about which the plan is taken apart
    bool whole_sites_ = false;
    bool some_best_part_ = false;  // the windows of some tasks have one that ends before them
    std::vector<std::vector<int>> tasks_of_site_;
};

}  // namespace

Assignment filled(const Problem& problem, const Assignment& assignment) {
    Roster roster(problem);
    std::set<int> planned;
    std::vector<int> left_out;
    for (int task = 0; task < static_cast<int>(problem.tasks().size()); ++task) {
        const int slot = assignment.slot_of[static_cast<std::size_t>(task)];
        if (slot == not_planned) {
            left_out.push_back(task);
            continue;
        }
        roster.put(task, slot);
        planned.insert(slot);
    }
    for (const int slot : planned) roster.settle(slot);
    std::ranges::stable_sort(left_out, [&](int a, int b) {
        return std::tie(problem.task(a).rank, problem.task(a).end_slot) <
               std::tie(problem.task(b).rank, problem.task(b).end_slot);
    });
    for (const int task : left_out) roster.insert({task});
    return roster.assignment();
}

Assignment good_assignment(const Problem& problem) {
    return Improver(problem).find();
}

}  // namespace ashtriage::plan
