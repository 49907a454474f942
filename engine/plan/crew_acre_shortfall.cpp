// Sites that may take less of an active ingredient than the work due there needs.
#include <algorithm>
#include <vector>

#include "plan/crew_problem.hpp"

namespace ashtriage::plan {

namespace {

// The account that the task draws on whichever of its days it is done.
std::optional<std::size_t> only_account(const Problem& problem, int index) {
    const Task& task = problem.task(index);
    std::optional<std::size_t> only;
    for (int slot = task.first_slot; slot < task.end_slot; ++slot) {
        if (!problem.can(task, problem.slot(slot), slot)) continue;
        const auto account = problem.account(index, problem.slot(slot).year);
        if (!account || (only && *only != *account)) return std::nullopt;
        only = account;
    }
    return only;
}

std::size_t most_that_fit(std::vector<std::int64_t> active, std::int64_t left) {
    std::ranges::sort(active);
    std::size_t fit = 0;
    for (const std::int64_t each : active) {
        left -= each;
        if (left < 0) break;
        ++fit;
    }
    return fit;
}

}  // namespace

std::vector<AcreShortfall> acre_shortfalls(const Problem& problem) {
    std::vector<std::vector<int>> drawing(problem.account_limits().size());
    for (int task = 0; task < static_cast<int>(problem.tasks().size()); ++task) {
        if (const auto account = only_account(problem, task)) drawing[*account].push_back(task);
    }
    std::vector<AcreShortfall> found;
    for (std::size_t account = 0; account < drawing.size(); ++account) {
        AcreShortfall shortfall;
        shortfall.room = account;
        shortfall.left = measure::Mass::from_ticks(problem.account_limits()[account]);
        std::vector<std::int64_t> active;
        for (const int index : drawing[account]) {
            const Task& task = problem.task(index);
            shortfall.jobs.push_back(task.job);
            shortfall.needed += measure::Mass::from_ticks(task.active);
            active.push_back(task.active);
        }
        const std::size_t fit = most_that_fit(active, problem.account_limits()[account]);
        if (fit == active.size()) continue;
        shortfall.at_least_left_out = active.size() - fit;
        std::ranges::sort(shortfall.jobs);
        found.push_back(std::move(shortfall));
    }
    return found;
}

}  // namespace ashtriage::plan
