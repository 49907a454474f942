// The plan of little work against the best there is: found by going through every plan, and by a
// mixed-integer solver (COIN-OR CBC) that is given the same aim as a linear program.
#include <coin/Cbc_C_Interface.h>
#include <gmock/gmock.h>

#include <cmath>

#include "crew_random.hpp"
#include "plan/crew_schedule.hpp"

namespace ashtriage::plan {
namespace {

using test::between;
using test::Case;
using test::random_case;
using test::Value;
using testing::IsEmpty;

// By the plan of these jobs alone that leaves out as few trees as can be, whatever their priority.
std::size_t fewest_left_out(const Case& each, const std::vector<CrewDay>& days,
                            const std::vector<std::size_t>& jobs) {
    Case only = each;
    only.work.jobs.clear();
    for (const std::size_t job : jobs) {
        only.work.jobs.push_back(each.work.jobs[job]);
        only.work.jobs.back().priority = 1;
    }
    return static_cast<std::size_t>(test::EveryPlan(only, days).best().trees_left_out());
}

TEST(CrewOptimum, IsWhatGoingThroughEveryPlanFinds) {
    std::mt19937 random(1);
    int some_left_out = 0;
    int some_after_best = 0;
    int with_shortfall = 0;
    int not_by_minutes = 0;
    int with_acre_shortfall = 0;
    for (int round = 0; round < 4000; ++round) {
        const Case each = random_case(random, {3, between(random, 1, 6), 2, 2});
        const auto days = crew_days(each.crews, each.options.from, Reserve::kept);
        const Value best = test::EveryPlan(each, days).best();
        const CrewSchedule schedule = crew_schedule(each.work, each.crews, each.options);
        ASSERT_EQ(schedule.standing, ScheduleStanding::best);
        ASSERT_THAT(test::faults(each, schedule), IsEmpty()) << "round " << round;
        const Value found = test::value_of(each, schedule);
        ASSERT_EQ(found.left_out, best.left_out) << "round " << round;
        ASSERT_EQ(found.after_best, best.after_best) << "round " << round;
        ASSERT_EQ(found.minutes, best.minutes) << "round " << round;
        some_after_best += best.after_best > 0 ? 1 : 0;

        some_left_out += best.trees_left_out() > 0 ? 1 : 0;
        with_shortfall += schedule.shortfalls.empty() ? 0 : 1;
        for (const Shortfall& shortfall : schedule.shortfalls) {
            EXPECT_TRUE(shortfall.needed > shortfall.available ||
                        shortfall.room_for < shortfall.jobs.size());
            EXPECT_GE(shortfall.at_least_left_out, 1U);
            not_by_minutes += shortfall.needed > shortfall.available ? 0 : 1;
            EXPECT_GE(fewest_left_out(each, days, shortfall.jobs), shortfall.at_least_left_out)
                << "round " << round;
        }
        with_acre_shortfall += schedule.acre_shortfalls.empty() ? 0 : 1;
        for (const AcreShortfall& shortfall : schedule.acre_shortfalls) {
            EXPECT_GT(shortfall.needed, shortfall.left);
            EXPECT_GE(shortfall.at_least_left_out, 1U);
            EXPECT_GE(fewest_left_out(each, days, shortfall.jobs), shortfall.at_least_left_out)
                << "round " << round;
        }
    }
    // The cases are such that there is something to get wrong.
    EXPECT_GT(some_left_out, 200);
    EXPECT_GT(some_after_best, 200);
    EXPECT_GT(with_shortfall, 50);
    EXPECT_GT(not_by_minutes, 20);
    EXPECT_GT(with_acre_shortfall, 50);
}

// The same choice as a linear program: x tree on day, v site on day, a way taken from place to
// place.
class LinearProgram {
 public:
    LinearProgram(const Case& each, const std::vector<CrewDay>& days)
        : case_(each), days_(days), model_(Cbc_newModel()) {
        Cbc_setLogLevel(model_, 0);
        Cbc_setParameter(model_, "log", "0");
    }
    LinearProgram(const LinearProgram&) = delete;
    LinearProgram& operator=(const LinearProgram&) = delete;
    ~LinearProgram() { Cbc_deleteModel(model_); }

    double solve() {
        build();
        Cbc_setAllowableGap(model_, 0.5);  // every value of the aim is whole
        Cbc_setAllowableFractionGap(model_, 0.0);
        Cbc_solve(model_);
        EXPECT_EQ(Cbc_isProvenOptimal(model_), 1);
        return Cbc_getObjValue(model_);
    }

    // Two crews work at most three days of 200 minutes. One tree after the better part of its
    // window weighs more than these; one of eight that is left out weighs more than that and all
    // that are less important.
    static constexpr double after_best = 1'300.0;
    static double weight(int priority) { return std::pow(9.0, 3 - priority) * 12'000.0; }

 private:
    struct Row {
        std::vector<int> columns;
        std::vector<double> factors;

        void add(int column, double factor) {
            columns.push_back(column);
            factors.push_back(factor);
        }
    };

    int column(double cost, double high, bool whole) {
        Cbc_addCol(model_, "c", 0.0, high, cost, whole ? 1 : 0, 0, nullptr, nullptr);
        return columns_++;
    }
    void row(const Row& row, char sense, double right) {
        Cbc_addRow(model_, "r", static_cast<int>(row.columns.size()), row.columns.data(),
                   row.factors.data(), sense, right);
    }

    season::Location place(std::size_t day, std::size_t node) const {
        return node == 0 ? case_.crews.crews[days_[day].crew].start
                         : *case_.work.sites[node - 1].place;
    }

    void build() {
        const std::size_t sites = case_.work.sites.size();
        std::vector<Row> once(case_.work.jobs.size());
        for (std::size_t job = 0; job < once.size(); ++job) {
            once[job].add(column(weight(case_.work.jobs[job].priority), 1.0, true), 1.0);
        }
        std::map<std::size_t, Row> of_account;
        for (std::size_t day = 0; day < days_.size(); ++day) {
            Row minutes;
            std::vector<int> visited;
            for (std::size_t site = 0; site < sites; ++site) {
                const int setup = case_.crews.settings.setup_minutes_per_site;
                visited.push_back(column(setup, 1.0, true));
                minutes.add(visited.back(), setup);
            }
            for (std::size_t job = 0; job < once.size(); ++job) {
                const Job& work = case_.work.jobs[job];
                if (!test::allowed(case_, work, days_[day])) continue;
                const bool late = test::is_after_best(work, days_[day].day);
                const int done = column(work.minutes + (late ? after_best : 0.0), 1.0, true);
                once[job].add(done, 1.0);
                minutes.add(done, work.minutes);
                Row with_visit;
                with_visit.add(done, 1.0);
                with_visit.add(visited[work.site], -1.0);
                row(with_visit, 'L', 0.0);
                if (work.active_ingredient.empty()) continue;
                of_account[work.site].add(done, work.active.in(measure::units::gram));
            }
            add_ways(day, visited, minutes);
            row(minutes, 'L', days_[day].minutes);
        }
        for (const Row& each : once) row(each, 'E', 1.0);
        for (const AcreRoom& room : case_.work.rooms) {
            for (const auto& [site, used] : of_account) {
                if (case_.work.sites[site].name == room.site) {
                    row(used, 'L', room.left.in(measure::units::gram));
                }
            }
        }
    }

    // Every visited place is come to once and left once, and rising numbers forbid closed rounds
    // that leave out the start (Miller, Tucker and Zemlin 1960).
    void add_ways(std::size_t day, const std::vector<int>& visited, Row& minutes) {
        const std::size_t nodes = case_.work.sites.size() + 1;
        const auto has_place = [&](std::size_t node) {
            return node == 0 || case_.work.sites[node - 1].place.has_value();
        };
        std::vector<Row> in(nodes);
        std::vector<Row> out(nodes);
        std::vector<int> number;
        for (std::size_t node = 0; node < nodes; ++node) {
            number.push_back(column(0.0, static_cast<double>(nodes), false));
        }
        for (std::size_t a = 0; a < nodes; ++a) {
            for (std::size_t b = 0; b < nodes; ++b) {
                if (a == b || !has_place(a) || !has_place(b)) continue;
                const int cost = test::way(place(day, a), place(day, b), case_.crews.settings);
                const int taken = column(cost, 1.0, true);
                minutes.add(taken, cost);
                out[a].add(taken, 1.0);
                in[b].add(taken, 1.0);
                if (a == 0 || b == 0) continue;
                Row rising;
                rising.add(number[a], 1.0);
                rising.add(number[b], -1.0);
                rising.add(taken, static_cast<double>(nodes));
                row(rising, 'L', static_cast<double>(nodes) - 1.0);
            }
        }
        for (std::size_t node = 1; node < nodes; ++node) {
            if (!has_place(node)) continue;
            for (Row* each : {&in[node], &out[node]}) {
                each->add(visited[node - 1], -1.0);
                row(*each, 'E', 0.0);
            }
        }
        Row once_from_start = out[0];
        row(once_from_start, 'L', 1.0);
    }

    const Case& case_;
    const std::vector<CrewDay>& days_;
    Cbc_Model* model_;
    int columns_ = 0;
};

TEST(CrewOptimum, IsWhatAMixedIntegerSolverFinds) {
    std::mt19937 random(2);
    for (int round = 0; round < 100; ++round) {
        const Case each = random_case(random, {4, between(random, 3, 8), 2, 3});
        const auto days = crew_days(each.crews, each.options.from, Reserve::kept);
        if (days.empty()) continue;
        const CrewSchedule schedule = crew_schedule(each.work, each.crews, each.options);
        ASSERT_EQ(schedule.standing, ScheduleStanding::best);
        const Value found = test::value_of(each, schedule);
        double aim = found.minutes + LinearProgram::after_best * found.after_best;
        for (const auto& [priority, count] : found.left_out) {
            aim += LinearProgram::weight(priority) * count;
        }
        ASSERT_NEAR(aim, LinearProgram(each, days).solve(), 0.4) << "round " << round;
    }
}

}  // namespace
}  // namespace ashtriage::plan
