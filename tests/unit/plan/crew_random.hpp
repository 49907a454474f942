// Invented work for crews, and a second reckoning of plans: what a plan breaks, and the best plan
// by going through every one. It shares nothing with the planner but the types; ways are reckoned
// from the angle between two directions instead of the haversine formula.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <random>
#include <string>
#include <tuple>
#include <vector>

#include "measure/units.hpp"
#include "plan/crew_schedule.hpp"

namespace ashtriage::plan::test {

struct Case {
    WorkDue work;
    Crews crews;
    ScheduleOptions options;
};

struct Sizes {
    int sites = 3;
    int jobs = 5;
    int crews = 2;
    int days = 2;
};

inline const measure::Date first_day = measure::parse_date("2026-05-18");  // a Monday

inline int between(std::mt19937& random, int low, int high) {
    return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
}

inline season::Location random_place(std::mt19937& random) {
    return {41.8 + 0.05 * between(random, 0, 4), -88.0 + 0.05 * between(random, 0, 4), {}};
}

inline Crews random_crews(std::mt19937& random, const Sizes& sizes) {
    Crews crews;
    crews.settings.setup_minutes_per_site = between(random, 0, 20);
    crews.settings.travel_factor = 1.3;
    crews.settings.travel_speed = measure::Speed::of("40", measure::units::mile_per_hour);
    crews.settings.rain_reserve = {between(random, 0, 2) * 15,
                                   random() % 2 == 0 ? ReserveOf::hours : ReserveOf::days};
    crews.settings.minutes_per_tree["injection"] = {{std::nullopt, 30}};
    for (int i = 0; i < sizes.crews; ++i) {
        Crew crew;
        crew.name = "Crew " + std::to_string(i + 1);
        crew.start = random_place(random);
        crew.starts_at.minutes = 480;
        crew.minutes_per_day = between(random, 60, 200);
        crew.certified = random() % 2 == 0;
        crew.first_day = measure::add_days(first_day, between(random, 0, 1));
        crew.last_day = measure::add_days(crew.first_day, between(random, 0, sizes.days - 1));
        if (random() % 4 == 0) crew.weekday_off[2] = true;  // Tuesdays
        crews.crews.push_back(crew);
    }
    return crews;
}

inline Case random_case(std::mt19937& random, const Sizes& sizes) {
    Case result;
    result.crews = random_crews(random, sizes);
    result.options = {
        measure::add_days(first_day, between(random, 0, 5) == 0 ? 1 : 0),
        random() % 2 == 0 ? WithoutPlace::leave_out : WithoutPlace::plan_without_travel};
    std::vector<std::optional<season::Location>> places;
    for (int site = 0; site < sizes.sites; ++site) {
        places.emplace_back();
        if (between(random, 0, 7) != 0) places.back() = random_place(random);
    }
    std::vector<TreeToVisit> trees;
    for (int i = 0; i < sizes.jobs; ++i) {
        const int site = between(random, 0, sizes.sites - 1);
        const int opens = between(random, -2, sizes.days - 1);
        TreeToVisit tree;
        tree.site = "Site " + std::to_string(site);
        tree.place = places[static_cast<std::size_t>(site)];
        tree.tree = "A" + std::to_string(i);
        tree.method = "injection";
        tree.release = measure::add_days(first_day, opens);
        tree.deadline = measure::add_days(tree.release, between(random, 0, sizes.days + 2));
        if (random() % 2 == 0) {
            const int length = measure::days_between(tree.release, tree.deadline);
            tree.best_until = measure::add_days(tree.release, between(random, 0, length));
        }
        tree.priority = between(random, 1, 3);
        tree.needs_certified = random() % 3 == 0;
        if (random() % 2 == 0) {
            tree.active_ingredient = "emamectin benzoate";
            tree.active =
                measure::Mass::of(static_cast<double>(between(random, 1, 4)), measure::units::gram);
        }
        trees.push_back(tree);
    }
    std::vector<AcreRoom> rooms;
    for (int site = 0; site < sizes.sites; ++site) {
        if (random() % 2 == 0) continue;
        rooms.push_back(
            {"Site " + std::to_string(site), "emamectin benzoate", 2026,
             measure::Mass::of(static_cast<double>(between(random, 2, 8)), measure::units::gram)});
    }
    result.work = work_due(trees, rooms, result.crews.settings);
    for (Job& job : result.work.jobs) job.minutes = between(random, 10, 70);
    return result;
}

// --- a second reckoning -----------------------------------------------------------------------

inline int way(const season::Location& a, const season::Location& b, const CrewSettings& settings) {
    constexpr double degree = std::numbers::pi / 180.0;
    const auto direction = [](const season::Location& place) {
        return std::array<double, 3>{
            std::cos(place.latitude * degree) * std::cos(place.longitude * degree),
            std::cos(place.latitude * degree) * std::sin(place.longitude * degree),
            std::sin(place.latitude * degree)};
    };
    const auto p = direction(a);
    const auto q = direction(b);
    const double chord = std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
    const double km = 6371.0088 * 2.0 * std::asin(chord / 2.0) * settings.travel_factor;
    const double km_per_hour = settings.travel_speed.in(measure::units::mile_per_hour)*1.609344;
    return static_cast<int>(std::ceil(km / km_per_hour * 60.0 - 1e-6));
}

// Of the jobs on a crew's day at least, by the shortest of all orders of the sites.
inline int day_minutes(const Case& each, std::size_t crew, const std::vector<std::size_t>& jobs) {
    int minutes = 0;
    std::vector<std::size_t> sites;
    for (const std::size_t job : jobs) {
        minutes += each.work.jobs[job].minutes;
        const std::size_t site = each.work.jobs[job].site;
        if (std::ranges::find(sites, site) == sites.end()) sites.push_back(site);
    }
    const CrewSettings& settings = each.crews.settings;
    minutes += settings.setup_minutes_per_site * static_cast<int>(sites.size());
    std::erase_if(sites, [&](std::size_t site) { return !each.work.sites[site].place; });
    std::ranges::sort(sites);
    // Among more sites not every order can be gone through: then only what is not travel counts.
    if (sites.size() > 8) return minutes;
    std::optional<int> least;
    do {
        int travel = 0;
        season::Location at = each.crews.crews[crew].start;
        for (const std::size_t site : sites) {
            travel += way(at, *each.work.sites[site].place, settings);
            at = *each.work.sites[site].place;
        }
        if (!sites.empty()) travel += way(at, each.crews.crews[crew].start, settings);
        if (!least || travel < *least) least = travel;
    } while (std::ranges::next_permutation(sites).found);
    return minutes + *least;
}

struct Value {
    std::map<int, int> left_out;  // by priority
    int after_best = 0;           // trees planned after the better part of their window
    int minutes = 0;

    bool better_than(const Value& other) const {
        for (int priority = 1; priority <= 3; ++priority) {
            const auto count = [&](const Value& value) {
                const auto found = value.left_out.find(priority);
                return found == value.left_out.end() ? 0 : found->second;
            };
            if (count(*this) != count(other)) return count(*this) < count(other);
        }
        return std::tie(after_best, minutes) < std::tie(other.after_best, other.minutes);
    }
    int trees_left_out() const {
        int all = 0;
        for (const auto& [priority, count] : left_out) all += count;
        return all;
    }
};

inline bool is_after_best(const Job& job, const measure::Date& day) {
    return job.best_until && day > *job.best_until;
}

inline Value value_of(const Case& each, const CrewSchedule& schedule) {
    Value value;
    value.minutes = schedule.minutes;
    for (const PlannedDay& day : schedule.days) {
        for (const Visit& visit : day.visits) {
            for (const std::size_t job : visit.jobs) {
                value.after_best += is_after_best(each.work.jobs[job], day.day) ? 1 : 0;
            }
        }
    }
    for (const LeftOut& left : schedule.left_out) {
        ++value.left_out[each.work.jobs[left.job].priority];
    }
    return value;
}

// Whether a job may be done by a crew on a day, by itself.
inline bool allowed(const Case& each, const Job& job, const CrewDay& day) {
    if (day.day < job.release || job.deadline < day.day) return false;
    if (job.needs_certified && !each.crews.crews[day.crew].certified) return false;
    return each.work.sites[job.site].place ||
           each.options.without_place == WithoutPlace::plan_without_travel;
}

inline bool accounts_kept(const Case& each, const std::vector<bool>& done) {
    std::map<std::size_t, measure::Mass> used;
    for (std::size_t job = 0; job < done.size(); ++job) {
        if (done[job] && !each.work.jobs[job].active_ingredient.empty()) {
            used[each.work.jobs[job].site] += each.work.jobs[job].active;
        }
    }
    return std::ranges::all_of(each.work.rooms, [&](const AcreRoom& room) {
        return std::ranges::all_of(used, [&](const auto& of_site) {
            return each.work.sites[of_site.first].name != room.site || of_site.second <= room.left;
        });
    });
}

class EveryPlan {
 public:
    EveryPlan(const Case& each, std::vector<CrewDay> days)
        : case_(each), days_(std::move(days)), jobs_of_(days_.size()) {}

    Value best() {
        look(0);
        return *best_;
    }

 private:
    void look(std::size_t job) {
        if (job == case_.work.jobs.size()) return judge();
        look(job + 1);  // left out
        for (std::size_t day = 0; day < days_.size(); ++day) {
            if (!allowed(case_, case_.work.jobs[job], days_[day])) continue;
            jobs_of_[day].push_back(job);
            look(job + 1);
            jobs_of_[day].pop_back();
        }
    }

    void judge() {
        Value value;
        std::vector<bool> done(case_.work.jobs.size(), false);
        for (std::size_t day = 0; day < days_.size(); ++day) {
            if (jobs_of_[day].empty()) continue;
            const int minutes = day_minutes(case_, days_[day].crew, jobs_of_[day]);
            if (minutes > days_[day].minutes) return;
            value.minutes += minutes;
            for (const std::size_t job : jobs_of_[day]) {
                done[job] = true;
                value.after_best += is_after_best(case_.work.jobs[job], days_[day].day) ? 1 : 0;
            }
        }
        if (!accounts_kept(case_, done)) return;
        for (std::size_t job = 0; job < done.size(); ++job) {
            if (!done[job]) ++value.left_out[case_.work.jobs[job].priority];
        }
        if (!best_ || value.better_than(*best_)) best_ = value;
    }

    const Case& case_;
    std::vector<CrewDay> days_;
    std::vector<std::vector<std::size_t>> jobs_of_;
    std::optional<Value> best_;
};

// What is wrong with a plan; empty when nothing is. `reserve`: whether the rain reserve counts.
inline std::vector<std::string> faults(const Case& each, const CrewSchedule& schedule,
                                       Reserve reserve = Reserve::kept) {
    std::vector<std::string> found;
    std::vector<int> times(each.work.jobs.size(), 0);
    std::vector<bool> done(each.work.jobs.size(), false);
    const auto days = crew_days(each.crews, each.options.from, reserve, schedule.lost);
    int minutes = 0;
    for (const PlannedDay& day : schedule.days) {
        const auto same = std::ranges::find_if(days, [&](const CrewDay& other) {
            return other.crew == day.crew && other.day == day.day;
        });
        if (same == days.end() || !each.crews.crews[day.crew].works_on(day.day)) {
            found.emplace_back("a day on which the crew does not work");
            continue;
        }
        std::vector<std::size_t> jobs;
        int now = each.crews.crews[day.crew].starts_at.minutes;
        for (const Visit& visit : day.visits) {
            now += visit.travel;
            if (visit.arrives != now) found.emplace_back("an arrival that does not add up");
            now += each.crews.settings.setup_minutes_per_site;
            for (const std::size_t job : visit.jobs) {
                if (each.work.jobs[job].site != visit.site) found.emplace_back("a tree elsewhere");
                if (!allowed(each, each.work.jobs[job], *same)) {
                    found.emplace_back("a tree on a day or with a crew that is not for it");
                }
                now += each.work.jobs[job].minutes;
                ++times[job];
                done[job] = true;
                jobs.push_back(job);
            }
            if (visit.leaves != now) found.emplace_back("a visit that does not add up");
        }
        now += day.travel_back;
        if (day.minutes != now - each.crews.crews[day.crew].starts_at.minutes) {
            found.emplace_back("a day that does not add up");
        }
        if (day.minutes > same->minutes) found.emplace_back("a crew over its hours");
        if (day.minutes < day_minutes(each, day.crew, jobs)) {
            found.emplace_back("a day shorter than its shortest way");
        }
        minutes += day.minutes;
    }
    if (minutes != schedule.minutes) found.emplace_back("minutes that do not add up");
    if (!accounts_kept(each, done)) found.emplace_back("a site over its account");
    for (const LeftOut& left : schedule.left_out) ++times[left.job];
    for (const int count : times) {
        if (count != 1) found.emplace_back("a tree that is not once planned or once left out");
    }
    return found;
}

}  // namespace ashtriage::plan::test
