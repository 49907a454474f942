// What holds for every plan, new or changed after a lost day, over thousands of random cases.
#include <gmock/gmock.h>

#include <set>

#include "crew_random.hpp"
#include "plan/crew_problem.hpp"
#include "plan/replan.hpp"

namespace ashtriage::plan {
namespace {

using test::between;
using test::Case;
using test::faults;
using test::random_case;
using testing::IsEmpty;
using testing::IsSupersetOf;

CrewSchedule schedule_of(const Case& each) {
    return crew_schedule(each.work, each.crews, each.options);
}

TEST(CrewProperties, HoldForLittleWork) {
    std::mt19937 random(3);
    for (int round = 0; round < 3000; ++round) {
        const Case each = random_case(random, {4, between(random, 1, 9), 2, 4});
        ASSERT_THAT(faults(each, schedule_of(each)), IsEmpty()) << "round " << round;
    }
}

TEST(CrewProperties, HoldForMoreWorkThanIsGoneThrough) {
    std::mt19937 random(4);
    int left_out = 0;
    for (int round = 0; round < 60; ++round) {
        const Case each = random_case(random, {8, between(random, 14, 40), 3, 8});
        const CrewSchedule schedule = schedule_of(each);
        ASSERT_THAT(faults(each, schedule), IsEmpty()) << "round " << round;
        left_out += schedule.standing == ScheduleStanding::some_left_out ? 1 : 0;
    }
    EXPECT_GT(left_out, 10);
}

// Where a tree is left out, none of less value at its own site, on a day and with a crew that would
// do for it, takes as long.
TEST(CrewProperties, LetTreesOfLessValueGiveWayAtTheirSite) {
    std::mt19937 random(12);
    int looked_at = 0;
    for (int round = 0; round < 150; ++round) {
        const Case each = random_case(random, {6, between(random, 40, 80), 3, 6});
        const CrewSchedule schedule = schedule_of(each);
        for (const LeftOut& left : schedule.left_out) {
            const Job& job = each.work.jobs[left.job];
            if (!job.active_ingredient.empty()) continue;
            for (const PlannedDay& day : schedule.days) {
                const bool would_do =
                    job.release <= day.day && day.day <= job.deadline &&
                    (!job.needs_certified || each.crews.crews[day.crew].certified);
                for (const Visit& visit : day.visits) {
                    if (!would_do || visit.site != job.site) continue;
                    for (const std::size_t index : visit.jobs) {
                        const Job& planned = each.work.jobs[index];
                        if (planned.priority <= job.priority) continue;
                        ++looked_at;
                        EXPECT_LT(planned.minutes, job.minutes) << "round " << round;
                    }
                }
            }
        }
    }
    EXPECT_GT(looked_at, 20);
}

// Days with more stops than the shortest way is looked for among all.
TEST(CrewProperties, HoldForDaysOfManyStops) {
    std::mt19937 random(9);
    std::size_t most_stops = 0;
    for (int round = 0; round < 6; ++round) {
        Case each = random_case(random, {40, 60, 2, 3});
        each.crews.settings.setup_minutes_per_site = 2;
        each.options.without_place = WithoutPlace::plan_without_travel;
        for (Crew& crew : each.crews.crews) crew.minutes_per_day = 600;
        for (Job& job : each.work.jobs) job.minutes = between(random, 5, 10);
        const CrewSchedule schedule = schedule_of(each);
        std::vector<std::string> found = faults(each, schedule);
        ASSERT_THAT(found, IsEmpty()) << "round " << round;
        for (const PlannedDay& day : schedule.days) {
            most_stops = std::max(most_stops, day.visits.size());
        }
        const LostDay lost{schedule.days.front().day, std::nullopt};
        const Replanned after = replan(schedule, each.work, each.crews, each.options, lost);
        ASSERT_THAT(faults(each, after.schedule, Reserve::used), IsEmpty()) << "round " << round;
    }
    EXPECT_GT(most_stops, 12U);
}

// The same trees in another order, and another run, give the same plan.
TEST(CrewProperties, DoNotDependOnTheOrderOfTheTrees) {
    std::mt19937 random(5);
    for (int round = 0; round < 20; ++round) {
        const Case each = random_case(random, {6, round % 2 == 0 ? 8 : 25, 3, 6});
        std::vector<TreeToVisit> trees;
        for (const Job& job : each.work.jobs) {
            const WorkSite& site = each.work.sites[job.site];
            trees.push_back({site.name, site.place, job.tree, job.method, std::nullopt, job.release,
                             job.deadline, job.best_until, job.priority, job.needs_certified,
                             job.active_ingredient, job.active});
        }
        const auto days_of = [&](const std::vector<TreeToVisit>& order) {
            const WorkDue work = work_due(order, each.work.rooms, each.crews.settings);
            std::vector<std::string> planned;
            for (const PlannedDay& day : crew_schedule(work, each.crews, each.options).days) {
                for (const Visit& visit : day.visits) {
                    for (const std::size_t job : visit.jobs) {
                        planned.push_back(measure::text(day.day) + std::to_string(day.crew) +
                                          work.jobs[job].tree);
                    }
                }
            }
            return planned;
        };
        const auto planned = days_of(trees);
        std::shuffle(trees.begin(), trees.end(), random);
        EXPECT_EQ(days_of(trees), planned) << "round " << round;
    }
}

// The search for much work is held against the one that goes through all of it.
TEST(CrewProperties, KeepTheSearchForMuchWorkNearTheBestPlan) {
    std::mt19937 random(6);
    int as_good = 0;
    constexpr int rounds = 150;
    for (int round = 0; round < rounds; ++round) {
        const Case each = random_case(random, {4, between(random, 4, 9), 2, 4});
        const Problem problem(each.work, each.crews,
                              crew_days(each.crews, each.options.from, Reserve::kept),
                              each.options);
        const CrewSchedule best = schedule_of(problem, each.crews, best_assignment(problem));
        const CrewSchedule good = schedule_of(problem, each.crews, good_assignment(problem));
        const test::Value best_value = test::value_of(each, best);
        const test::Value good_value = test::value_of(each, good);
        ASSERT_FALSE(good_value.better_than(best_value)) << "round " << round;
        as_good += best_value.better_than(good_value) ? 0 : 1;
    }
    RecordProperty("as_good_as_the_best", as_good);
    EXPECT_GE(as_good, rounds * 95 / 100);
}

std::string hours_words(const CrewOnDay& on, const Visit& visit) {
    return std::to_string(visit.site) + " " + measure::text(on.day) + " " +
           std::to_string(on.crew) + ": " + std::to_string(visit.arrives) + " to " +
           std::to_string(visit.leaves);
}

std::optional<CrewOnDay> place_of(const CrewSchedule& schedule, std::size_t job) {
    for (const PlannedDay& day : schedule.days) {
        for (const Visit& visit : day.visits) {
            if (std::ranges::find(visit.jobs, job) != visit.jobs.end()) {
                return CrewOnDay{day.crew, day.day};
            }
        }
    }
    return std::nullopt;
}

// Every way to do what was planned and is open after the lost day, for the fewest trees that move.
class EveryChange {
 public:
    EveryChange(const Case& each, const CrewSchedule& before, const LostDay& lost)
        : case_(each), before_(before), lost_(lost) {
        for (const CrewDay& day :
             crew_days(each.crews, measure::add_days(lost.day, 1), Reserve::used)) {
            if (day.day >= each.options.from) days_.push_back(day);
        }
        jobs_of_.resize(days_.size());
    }

    // Left out by priority, then moved.
    std::pair<std::vector<int>, int> best() {
        look(0, 0, {0, 0, 0});
        return *best_;
    }

 private:
    void look(std::size_t job, int moved, std::vector<int> left_out) {
        if (job == case_.work.jobs.size()) return judge(moved, left_out);
        const auto place = place_of(before_, job);
        const bool kept = place && place->day <= lost_.day && !lost_.takes(place->crew, place->day);
        if (kept || !place) return look(job + 1, moved, left_out);
        const bool has_place = place && !lost_.takes(place->crew, place->day);
        for (std::size_t day = 0; day < days_.size(); ++day) {
            if (!test::allowed(case_, case_.work.jobs[job], days_[day])) continue;
            const bool stays =
                has_place && place->crew == days_[day].crew && place->day == days_[day].day;
            jobs_of_[day].push_back(job);
            look(job + 1, moved + (has_place && !stays ? 1 : 0), left_out);
            jobs_of_[day].pop_back();
        }
        ++left_out[static_cast<std::size_t>(case_.work.jobs[job].priority) - 1];
        look(job + 1, moved, left_out);
    }

    void judge(int moved, const std::vector<int>& left_out) {
        std::vector<bool> done(case_.work.jobs.size(), true);
        for (std::size_t job = 0; job < done.size(); ++job) {
            const auto place = place_of(before_, job);
            done[job] = place && place->day <= lost_.day && !lost_.takes(place->crew, place->day);
        }
        for (std::size_t day = 0; day < days_.size(); ++day) {
            for (const std::size_t job : jobs_of_[day]) done[job] = true;
            if (test::day_minutes(case_, days_[day].crew, jobs_of_[day]) > days_[day].minutes) {
                return;
            }
        }
        if (!test::accounts_kept(case_, done)) return;
        const std::pair<std::vector<int>, int> value{left_out, moved};
        if (!best_ || value < *best_) best_ = value;
    }

    const Case& case_;
    const CrewSchedule& before_;
    LostDay lost_;
    std::vector<CrewDay> days_;
    std::vector<std::vector<std::size_t>> jobs_of_;
    std::optional<std::pair<std::vector<int>, int>> best_;
};

// "3 2026-05-19 0: 480 to 520" for each visit: site, day, crew and hours.
std::vector<std::string> hours_of(const CrewSchedule& schedule) {
    std::vector<std::string> hours;
    for (const PlannedDay& day : schedule.days) {
        for (const Visit& visit : day.visits) {
            hours.push_back(hours_words({day.crew, day.day}, visit));
        }
    }
    return hours;
}

std::set<std::size_t> jobs_of(const PlannedDay& day) {
    std::set<std::size_t> jobs;
    for (const Visit& visit : day.visits) jobs.insert(visit.jobs.begin(), visit.jobs.end());
    return jobs;
}

struct Told {
    int kept_days = 0;
    int changed_hours = 0;
};

// A day with the same trees has the same hours; every visit that was there before and has others is
// told, with the hours it had, and nothing else is.
Told expect_every_change_is_told(const CrewSchedule& before, const Replanned& after) {
    Told told;
    std::vector<std::string> was;
    std::vector<std::string> now;
    for (const ChangedHours& each : after.changed_hours) {
        was.push_back(hours_words(each.on, each.before));
        now.push_back(hours_words(each.on, each.now));
    }
    EXPECT_THAT(hours_of(before), IsSupersetOf(was));
    EXPECT_THAT(hours_of(after.schedule), IsSupersetOf(now));
    for (const PlannedDay& day : after.schedule.days) {
        for (const PlannedDay& other : before.days) {
            if (other.crew != day.crew || other.day != day.day) continue;
            CrewSchedule one;
            CrewSchedule two;
            one.days = {other};
            two.days = {day};
            if (jobs_of(day) == jobs_of(other)) {
                EXPECT_EQ(hours_of(one), hours_of(two));
                ++told.kept_days;
                continue;
            }
            for (const Visit& visit : day.visits) {
                const auto found = std::ranges::find(other.visits, visit.site, &Visit::site);
                if (found == other.visits.end()) continue;
                const bool changed =
                    found->arrives != visit.arrives || found->leaves != visit.leaves;
                EXPECT_EQ(std::ranges::count(now, hours_words({day.crew, day.day}, visit)),
                          changed ? 1 : 0);
                told.changed_hours += changed ? 1 : 0;
            }
        }
    }
    EXPECT_EQ(static_cast<std::size_t>(told.changed_hours), after.changed_hours.size());
    return told;
}

TEST(CrewProperties, MoveAsFewTreesAsCanBeAfterALostDay) {
    std::mt19937 random(7);
    int moves = 0;
    int beyond_the_lost_day = 0;
    for (int round = 0; round < 3000; ++round) {
        const Case each = random_case(random, {3, between(random, 2, 6), 2, 3});
        const CrewSchedule before = schedule_of(each);
        if (before.days.empty()) continue;
        LostDay lost{before.days.front().day, std::nullopt};
        if (random() % 2 == 0) lost.crew = before.days.front().crew;
        const Replanned after = replan(before, each.work, each.crews, each.options, lost);

        // The days before the lost one keep their reserve, the others may use it.
        ASSERT_THAT(faults(each, after.schedule, Reserve::used), IsEmpty()) << "round " << round;
        std::vector<int> left_out(3, 0);
        for (const LeftOut& left : after.lost_place) {
            ++left_out[static_cast<std::size_t>(each.work.jobs[left.job].priority) - 1];
        }
        int moved = 0;
        for (const Move& move : after.moved) {
            EXPECT_EQ(move.from, place_of(before, move.job));
            EXPECT_EQ(move.to, place_of(after.schedule, move.job));
            moved += move.from && !lost.takes(move.from->crew, move.from->day) ? 1 : 0;
        }
        const auto best = EveryChange(each, before, lost).best();
        ASSERT_EQ(left_out, best.first) << "round " << round;
        ASSERT_EQ(moved, best.second) << "round " << round;
        moves += after.moved.empty() ? 0 : 1;
        beyond_the_lost_day += moved;

        for (const LeftOut& left : after.lost_place) {
            EXPECT_TRUE(place_of(before, left.job));
            EXPECT_FALSE(place_of(after.schedule, left.job));
        }
    }
    EXPECT_GT(moves, 100);
    EXPECT_GT(beyond_the_lost_day, 10);
}

// Days of several sites, so that there are ways to turn round.
TEST(CrewProperties, KeepTheHoursOfDaysWhoseTreesStayAndTellAllOthersThatChange) {
    std::mt19937 random(12);
    Told all;
    for (int round = 0; round < 400; ++round) {
        Case each = random_case(random, {5, round % 40 == 0 ? 30 : between(random, 6, 12), 2, 4});
        for (Crew& crew : each.crews.crews) crew.minutes_per_day += 150;
        const CrewSchedule before = schedule_of(each);
        if (before.days.empty()) continue;
        LostDay lost{before.days.front().day, std::nullopt};
        if (random() % 2 == 0) lost.crew = before.days.front().crew;
        const Replanned after = replan(before, each.work, each.crews, each.options, lost);
        ASSERT_THAT(faults(each, after.schedule, Reserve::used), IsEmpty()) << "round " << round;
        const Told told = expect_every_change_is_told(before, after);
        all.kept_days += told.kept_days;
        all.changed_hours += told.changed_hours;
    }
    EXPECT_GT(all.kept_days, 100);
    EXPECT_GT(all.changed_hours, 50);
}

TEST(CrewProperties, HoldAfterSeveralLostDaysOfMuchWork) {
    std::mt19937 random(8);
    for (int round = 0; round < 12; ++round) {
        const Case each = random_case(random, {8, 30, 3, 10});
        CrewSchedule schedule = schedule_of(each);
        for (int lost = 0; lost < 3 && schedule.days.size() > 4; ++lost) {
            const LostDay day{schedule.days[static_cast<std::size_t>(lost) * 2].day, std::nullopt};
            const Replanned after = replan(schedule, each.work, each.crews, each.options, day);
            expect_every_change_is_told(schedule, after);
            schedule = after.schedule;
            ASSERT_THAT(faults(each, schedule, Reserve::used), IsEmpty()) << "round " << round;
            EXPECT_TRUE(std::ranges::none_of(
                schedule.days, [&](const PlannedDay& planned) { return planned.day == day.day; }));
        }
    }
}

}  // namespace
}  // namespace ashtriage::plan
