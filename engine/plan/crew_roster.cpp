#include "plan/crew_roster.hpp"

#include <algorithm>
#include <tuple>

#include "plan/crew_route.hpp"

namespace ashtriage::plan {

namespace {

// While a plan is being made, ways through more stops than this are only ever lengthened by the
// least detour; the finished plan gets its best ways in the end.
constexpr std::size_t most_stops_rerouted = 7;

}  // namespace

Roster::Roster(const Problem& problem)
    : problem_(problem),
      days_(problem.slots().size()),
      slot_of_(problem.tasks().size(), not_planned),
      account_used_(problem.account_limits().size(), 0),
      is_touched_(problem.slots().size(), false) {
    score_.left_out.assign(static_cast<std::size_t>(problem.ranks()), 0);
    for (const Task& task : problem.tasks()) ++score_.left_out[static_cast<std::size_t>(task.rank)];
    remember();
}

bool Roster::account_allows(int task, int year) const {
    const auto account = problem_.account(task, year);
    return !account || account_used_[*account] + problem_.task(task).active <=
                           problem_.account_limits()[*account];
}

std::pair<int, std::size_t> Roster::detour(int slot, int site) const {
    const std::vector<Stop>& stops = day(slot).stops;
    const int home = problem_.start(problem_.slot(slot).crew);
    if (!problem_.has_place(site)) return {0, stops.size()};
    std::pair<int, std::size_t> least{0, 0};
    int before = home;
    bool first = true;
    for (std::size_t i = 0; i <= stops.size(); ++i) {
        if (i < stops.size() && !problem_.has_place(stops[i].site)) continue;
        const int after = i < stops.size() ? stops[i].site : home;
        const int longer =
            problem_.leg(before, site) + problem_.leg(site, after) - problem_.leg(before, after);
        if (first || longer < least.first) least = {longer, i};
        first = false;
        before = after;
    }
    return least;
}

Roster::Offer Roster::offer(int slot_index, const std::vector<int>& tasks, Prefer prefer) const {
    const Slot& slot = problem_.slot(slot_index);
    const DayWork& work = day(slot_index);
    Offer offer;
    const int site = problem_.task(tasks.front()).site;
    int around = 0;
    if (std::ranges::find(work.stops, site, &Stop::site) == work.stops.end()) {
        if (work.minutes + problem_.setup() >= slot.minutes) return offer;
        const auto [longer, position] = detour(slot_index, site);
        around = longer + problem_.setup();
        offer.position = position;
    }
    int room = slot.minutes - work.minutes - around;
    std::vector<std::pair<std::size_t, std::int64_t>> drawn;  // on accounts, by these tasks
    for (const int index : tasks) {
        const Task& task = problem_.task(index);
        if (task.minutes > room || !problem_.can(task, slot, slot_index)) continue;
        if (prefer == Prefer::best_part && slot_index >= task.best_end) continue;
        if (const auto account = problem_.account(index, slot.year)) {
            const auto drawn_on =
                std::ranges::find(drawn, *account, &std::pair<std::size_t, std::int64_t>::first);
            const std::int64_t already = drawn_on == drawn.end() ? 0 : drawn_on->second;
            if (account_used_[*account] + already + task.active >
                problem_.account_limits()[*account]) {
                continue;
            }
            if (drawn_on == drawn.end()) {
                drawn.emplace_back(*account, task.active);
            } else {
                drawn_on->second += task.active;
            }
        }
        room -= task.minutes;
        offer.minutes += task.minutes;
        offer.cost += problem_.placing_cost(task, slot_index);
        offer.tasks.push_back(index);
    }
    if (offer.tasks.empty()) return offer;
    offer.slot = slot_index;
    offer.cost.minutes += around;
    return offer;
}

std::vector<int> Roster::insert(std::vector<int> tasks, Prefer prefer) {
    while (!tasks.empty()) {
        int first = problem_.task(tasks.front()).first_slot;
        int end = 0;
        int shortest = problem_.task(tasks.front()).minutes;
        for (const int task : tasks) {
            first = std::min(first, problem_.task(task).first_slot);
            end = std::max(end, problem_.task(task).end_slot);
            shortest = std::min(shortest, problem_.task(task).minutes);
        }
        Offer best;
        for (int slot = first; slot < end; ++slot) {
            // Most days of a full season have no room for as many as the best so far: without a
            // look at the way there, that saves most of the time.
            const int room = problem_.slot(slot).minutes - day(slot).minutes;
            const std::size_t needed = std::max<std::size_t>(1, best.tasks.size());
            if (room < static_cast<int>(needed) * shortest) continue;
            Offer next = offer(slot, tasks, prefer);
            if (next.slot == not_planned) continue;
            const bool better = best.slot == not_planned ||
                                std::make_tuple(next.tasks.size(), best.cost, best.slot) >
                                    std::make_tuple(best.tasks.size(), next.cost, next.slot);
            if (better) best = std::move(next);
        }
        if (best.slot == not_planned) {
            if (prefer == Prefer::few_visits) break;
            prefer = Prefer::few_visits;  // for the rest
            continue;
        }
        take(best);
        std::erase_if(tasks, [&](int task) { return slot_of(task) != not_planned; });
    }
    return tasks;
}

void Roster::take(const Offer& offer) {
    touch(offer.slot);
    DayWork& work = days_[static_cast<std::size_t>(offer.slot)];
    const int site = problem_.task(offer.tasks.front()).site;
    auto stop = std::ranges::find(work.stops, site, &Stop::site);
    const bool is_new = stop == work.stops.end();
    if (is_new) {
        stop = work.stops.insert(work.stops.begin() + static_cast<std::ptrdiff_t>(offer.position),
                                 Stop{site, {}});
    }
    for (const int task : offer.tasks) {
        stop->tasks.push_back(task);
        set_slot(task, offer.slot);
    }
    if (is_new) reroute(offer.slot, most_stops_rerouted);
    set_minutes(offer.slot, route_minutes(offer.slot));
}

void Roster::put(int task, int slot) {
    touch(slot);
    DayWork& work = days_[static_cast<std::size_t>(slot)];
    const int site = problem_.task(task).site;
    auto stop = std::ranges::find(work.stops, site, &Stop::site);
    if (stop == work.stops.end()) {
        const std::size_t position = detour(slot, site).second;
        stop = work.stops.insert(work.stops.begin() + static_cast<std::ptrdiff_t>(position),
                                 Stop{site, {}});
    }
    stop->tasks.push_back(task);
    set_slot(task, slot);
    set_minutes(slot, route_minutes(slot));
}

void Roster::settle(int slot) {
    touch(slot);
    reroute(slot, day(slot).stops.size());
    set_minutes(slot, route_minutes(slot));
    while (day(slot).minutes > problem_.slot(slot).minutes) {
        remove_stop(slot, day(slot).stops.back().site);
    }
}

Assignment Roster::assignment() const {
    Assignment assignment{slot_of_, {}};
    for (const DayWork& work : days_) {
        assignment.sites.emplace_back();
        for (const Stop& stop : work.stops) assignment.sites.back().push_back(stop.site);
    }
    return assignment;
}

void Roster::remove_stop(int slot, int site) {
    touch(slot);
    DayWork& work = days_[static_cast<std::size_t>(slot)];
    const auto stop = std::ranges::find(work.stops, site, &Stop::site);
    for (const int task : stop->tasks) set_slot(task, not_planned);
    work.stops.erase(stop);
    set_minutes(slot, route_minutes(slot));
}

void Roster::set_slot(int index, int slot) {
    const Task& task = problem_.task(index);
    int& now = slot_of_[static_cast<std::size_t>(index)];
    touched_tasks_.emplace_back(index, now);
    const auto count = [&](int where, int sign) {
        if (where == not_planned) return;
        score_.left_out[static_cast<std::size_t>(task.rank)] -= sign;
        if (sign > 0) {
            score_.cost += problem_.placing_cost(task, where);
        } else {
            score_.cost -= problem_.placing_cost(task, where);
        }
        if (const auto account = problem_.account(index, problem_.slot(where).year)) {
            account_used_[*account] += sign * task.active;
        }
    };
    count(now, -1);
    count(slot, 1);
    now = slot;
}

void Roster::set_minutes(int slot, int minutes) {
    DayWork& work = days_[static_cast<std::size_t>(slot)];
    score_.cost.minutes += minutes - work.minutes;
    work.minutes = minutes;
}

int Roster::route_minutes(int slot) const {
    std::vector<int> sites;
    int minutes = 0;
    for (const Stop& stop : day(slot).stops) {
        sites.push_back(stop.site);
        minutes += problem_.setup();
        for (const int task : stop.tasks) minutes += problem_.task(task).minutes;
    }
    return minutes + travel_of(problem_, problem_.slot(slot).crew, sites);
}

void Roster::reroute(int slot, std::size_t most_stops) {
    DayWork& work = days_[static_cast<std::size_t>(slot)];
    // Up to two stops, no order is shorter than another.
    if (work.stops.size() < 3 || work.stops.size() > most_stops) return;
    std::vector<int> sites;
    for (const Stop& stop : work.stops) sites.push_back(stop.site);
    const Route route = route_for(problem_, problem_.slot(slot).crew, sites);
    std::vector<Stop> stops;
    for (const int site : route.sites) {
        const auto index = static_cast<std::size_t>(std::ranges::find(sites, site) - sites.begin());
        stops.push_back(std::move(work.stops[index]));
    }
    work.stops = std::move(stops);
}

void Roster::touch(int slot) {
    if (is_touched_[static_cast<std::size_t>(slot)]) return;
    is_touched_[static_cast<std::size_t>(slot)] = true;
    touched_days_.emplace_back(slot, day(slot));
}

void Roster::remember() {
    for (const auto& [slot, work] : touched_days_) {
        is_touched_[static_cast<std::size_t>(slot)] = false;
    }
    touched_days_.clear();
    touched_tasks_.clear();
    remembered_accounts_ = account_used_;
    remembered_score_ = score_;
}

void Roster::go_back() {
    for (auto& [slot, work] : touched_days_) {
        days_[static_cast<std::size_t>(slot)] = std::move(work);
        is_touched_[static_cast<std::size_t>(slot)] = false;
    }
    touched_days_.clear();
    for (auto each = touched_tasks_.rbegin(); each != touched_tasks_.rend(); ++each) {
        slot_of_[static_cast<std::size_t>(each->first)] = each->second;
    }
    touched_tasks_.clear();
    account_used_ = remembered_accounts_;
    score_ = remembered_score_;
}

}  // namespace ashtriage::plan
