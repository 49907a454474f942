// Intervals with more work than the crews can do.
#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>
#include <vector>

#include "plan/crew_problem.hpp"

namespace ashtriage::plan {

namespace {

// The crew days that offer the same: those of a crew with as many minutes.
struct Kind {
    int crew = 0;
    int minutes = 0;
    std::vector<int> before;  // how many of them there are before each slot

    int within(int first, int end) const {
        return before[static_cast<std::size_t>(end)] - before[static_cast<std::size_t>(first)];
    }
};

std::vector<Kind> kinds_of(const Problem& problem, bool certified) {
    std::map<std::pair<int, int>, std::vector<int>> by_offer;
    const auto offers = [&](const Slot& slot) {
        return slot.minutes > 0 && (!certified || slot.certified);
    };
    for (const Slot& slot : problem.slots()) {
        if (offers(slot)) by_offer[{slot.crew, slot.minutes}] = {0};
    }
    for (const Slot& slot : problem.slots()) {
        for (auto& [offer, before] : by_offer) {
            const bool is_one = offers(slot) && offer == std::pair(slot.crew, slot.minutes);
            before.push_back(before.back() + (is_one ? 1 : 0));
        }
    }
    std::vector<Kind> kinds;
    for (auto& [offer, before] : by_offer) {
        kinds.push_back({offer.first, offer.second, std::move(before)});
    }
    return kinds;
}

// How near each crew's start is to the nearest of some sites.
class Nearest {
 public:
    explicit Nearest(const Problem& problem)
        : problem_(problem),
          minutes_(static_cast<std::size_t>(problem.crews()), std::numeric_limits<int>::max()) {}

    void add(int site) {
        for (int crew = 0; crew < problem_.crews(); ++crew) {
            int& least = minutes_[static_cast<std::size_t>(crew)];
            least = std::min(least, problem_.leg(problem_.start(crew), site));
        }
    }
    int to(int crew) const { return minutes_[static_cast<std::size_t>(crew)]; }

 private:
    const Problem& problem_;
    std::vector<int> minutes_;
};

// Of all sites: what no way can go below.
struct Ways {
    std::map<int, int> into;  // by site, the shortest
    Nearest nearest;

    // Whatever the route, a crew comes to a site from its start or from another site.
    explicit Ways(const Problem& problem) : nearest(problem) {
        std::set<int> sites;
        for (const Task& task : problem.tasks()) sites.insert(task.site);
        for (const int site : sites) {
            if (!problem.has_place(site)) {
                into[site] = 0;
                continue;
            }
            nearest.add(site);
            int least = std::numeric_limits<int>::max();
            for (int crew = 0; crew < problem.crews(); ++crew) {
                least = std::min(least, problem.leg(problem.start(crew), site));
            }
            for (const int other : sites) {
                if (other == site || !problem.has_place(other)) continue;
                least = std::min(least, problem.leg(other, site));
            }
            into[site] = least;
        }
    }
};

// What an interval needs and has, in minutes, and how many trees it has room for.
struct Balance {
    int available = 0;
    // Two bounds on what goes to set-up and travel: counted by the sites, each of which is come to
    // once at the least, and by the crew days.
    int around_by_site = 0;
    int around_by_day = 0;
    std::size_t room_for = 0;  // trees, were they all the shortest ones
};

// The work of an interval, put together tree by tree.
class DueWork {
 public:
    DueWork(const Problem& problem, const Ways& ways)
        : problem_(problem), ways_(ways), nearest_(problem) {}

    void add(const Task& task) {
        ++trees_;
        at_trees_ += task.minutes;
        ++by_minutes_[task.minutes];
        most_saved_ = std::max(most_saved_, task.minutes + to_site(task.site));
        if (!sites_.insert(task.site).second) return;
        to_sites_ += to_site(task.site);
        nearest_.add(task.site);
        some_without_place_ = some_without_place_ || !problem_.has_place(task.site);
    }

    std::size_t trees() const { return trees_; }
    int at_trees() const { return at_trees_; }
    int to_site(int site) const { return problem_.setup() + ways_.into.at(site); }

    Balance balance(const std::vector<Kind>& kinds, int first, int end) const {
        Balance balance;
        balance.around_by_site = to_sites_;
        for (const Kind& kind : kinds) {
            const int days = kind.within(first, end);
            if (days == 0) continue;
            const int around = least_around(kind);
            balance.available += days * kind.minutes;
            balance.around_by_site += days * least_way_back(kind);
            balance.around_by_day += days * around;
            balance.room_for += static_cast<std::size_t>(days) * fitting_in(kind.minutes - around);
        }
        return balance;
    }

    int excess(const Balance& balance) const {
        return at_trees_ + std::max(balance.around_by_site, balance.around_by_day) -
               balance.available;
    }

    // Of this many trees at the least some are left out; not as many as can be proved.
    std::size_t left_out_surely(const Balance& balance) const {
        const int minutes = std::max(0, excess(balance));
        const auto by_minutes = static_cast<std::size_t>((minutes + most_saved_ - 1) / most_saved_);
        return std::max(by_minutes, trees_ - std::min(trees_, balance.room_for));
    }

 private:
    // A crew that goes out at all sets up once, and goes to one site and back at the least.
    int least_around(const Kind& kind) const {
        return std::min(kind.minutes, problem_.setup() + 2 * nearest_.to(kind.crew));
    }

    // Beside the ways into the sites it comes back from one, of whichever work. No way leads to a
    // site without a place.
    int least_way_back(const Kind& kind) const {
        if (some_without_place_) return 0;
        return std::min(kind.minutes, ways_.nearest.to(kind.crew));
    }

    std::size_t fitting_in(int minutes) const {
        int fit = 0;
        for (const auto& [each, trees] : by_minutes_) {
            const int more = std::min(trees, minutes / each);
            fit += more;
            minutes -= more * each;
            if (more < trees) break;
        }
        return static_cast<std::size_t>(fit);
    }

    const Problem& problem_;
    const Ways& ways_;
    std::size_t trees_ = 0;
    int at_trees_ = 0;
    int to_sites_ = 0;
    int most_saved_ = 1;             // by leaving a tree out
    std::map<int, int> by_minutes_;  // how many trees take so long
    std::set<int> sites_;
    Nearest nearest_;
    bool some_without_place_ = false;
};

// How many have to go, the longest first, to save so many minutes.
std::size_t fewest_to_save(std::vector<int> saved, int minutes) {
    std::ranges::sort(saved, std::ranges::greater{});
    std::size_t count = 0;
    for (const int each : saved) {
        if (minutes <= 0) break;
        minutes -= each;
        ++count;
    }
    return count;
}

class ShortfallSearch {
 public:
    ShortfallSearch(const Problem& problem, bool certified)
        : problem_(problem),
          certified_(certified),
          kinds_(kinds_of(problem, certified)),
          ways_(problem) {
        for (int i = 0; i < static_cast<int>(problem.tasks().size()); ++i) {
            if (!certified || problem.task(i).needs_certified) tasks_.push_back(i);
        }
        std::ranges::stable_sort(tasks_, {}, [&](int task) { return problem.task(task).end_slot; });
    }

    // The interval of slots that proves the most trees left out, with none from `taken`.
    std::optional<Shortfall> worst(const std::vector<std::pair<int, int>>& taken) const {
        std::set<int> firsts;
        for (const int task : tasks_) firsts.insert(problem_.task(task).first_slot);
        std::tuple<std::size_t, int> most;
        std::pair<int, int> where;
        for (const int first : firsts) {
            DueWork due(problem_, ways_);
            for (std::size_t i = 0; i < tasks_.size(); ++i) {
                const Task& task = problem_.task(tasks_[i]);
                if (task.first_slot >= first) due.add(task);
                const int end = task.end_slot;
                const bool last_of_its_day =
                    i + 1 == tasks_.size() || problem_.task(tasks_[i + 1]).end_slot != end;
                if (!last_of_its_day || due.trees() == 0) continue;
                const bool is_free = std::ranges::none_of(taken, [&](const auto& other) {
                    return first < other.second && other.first < end;
                });
                if (!is_free) continue;
                const Balance balance = due.balance(kinds_, first, end);
                const std::tuple now(due.left_out_surely(balance), due.excess(balance));
                if (std::get<0>(now) > 0 && now > most) {
                    most = now;
                    where = {first, end};
                }
            }
        }
        if (std::get<0>(most) == 0) return std::nullopt;
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
    Shortfall described(int first, int end) const {
        Shortfall shortfall;
        const auto& days = problem_.days();
        shortfall.from = days[static_cast<std::size_t>(first)].day;
        shortfall.to = days[static_cast<std::size_t>(end) - 1].day;
        shortfall.certified = certified_;
        DueWork due(problem_, ways_);
        std::vector<int> minutes;
        std::vector<int> minutes_and_way;
        for (const int index : tasks_) {
            const Task& task = problem_.task(index);
            if (task.first_slot < first || task.end_slot > end) continue;
            shortfall.jobs.push_back(task.job);
            due.add(task);
            minutes.push_back(task.minutes);
            minutes_and_way.push_back(task.minutes + due.to_site(task.site));
        }
        std::ranges::sort(shortfall.jobs);
        const Balance balance = due.balance(kinds_, first, end);
        shortfall.available = balance.available;
        shortfall.needed = balance.available + due.excess(balance);
        shortfall.room_for = std::min(balance.room_for, due.trees());
        shortfall.at_least_left_out = std::max(
            {due.trees() - shortfall.room_for,
             fewest_to_save(minutes, due.at_trees() + balance.around_by_day - balance.available),
             fewest_to_save(minutes_and_way,
                            due.at_trees() + balance.around_by_site - balance.available)});
        return shortfall;
    }

    const Problem& problem_;
    bool certified_;
    std::vector<int> tasks_;  // by the end of their windows
    std::vector<Kind> kinds_;
    Ways ways_;
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
