#include "plan/visits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "measure/input_error.hpp"

namespace ashtriage::plan {

using measure::InputError;

namespace {

std::string named(const TreeToVisit& tree) {
    return fmt::format("tree '{}' of site '{}'", tree.tree, tree.site);
}

bool is_place(const season::Location& place) {
    return place.latitude >= -90.0 && place.latitude <= 90.0 && place.longitude >= -180.0 &&
           place.longitude <= 180.0;
}

bool same(const std::optional<season::Location>& a, const std::optional<season::Location>& b) {
    if (a.has_value() != b.has_value()) return false;
    return !a || (a->latitude == b->latitude && a->longitude == b->longitude);
}

void check(const TreeToVisit& tree) {
    if (tree.deadline < tree.release) {
        throw InputError(fmt::format("The window closes on {}, before it opens on {}",
                                     measure::text(tree.deadline), measure::text(tree.release)),
                         named(tree));
    }
    if (tree.place && !is_place(*tree.place)) {
        throw InputError(fmt::format("There is no place at latitude {}, longitude {}",
                                     tree.place->latitude, tree.place->longitude),
                         named(tree), "Latitude is from -90 to 90, longitude from -180 to 180.");
    }
    if (tree.active < measure::Mass()) {
        throw InputError("The active ingredient that a tree takes cannot be less than nothing",
                         named(tree));
    }
}

}  // namespace

WorkDue work_due(const std::vector<TreeToVisit>& trees, const std::vector<AcreRoom>& rooms,
                 const CrewSettings& settings) {
    if (trees.size() > most_jobs) {
        throw InputError(fmt::format("{} trees are due; at most {} are planned at once",
                                     trees.size(), most_jobs),
                         {}, "Plan some of the sites at a time.");
    }
    std::vector<const TreeToVisit*> sorted;
    for (const TreeToVisit& tree : trees) sorted.push_back(&tree);
    std::ranges::stable_sort(sorted, [](const TreeToVisit* a, const TreeToVisit* b) {
        return std::tie(a->site, a->tree, a->method) < std::tie(b->site, b->tree, b->method);
    });

    WorkDue work;
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        const TreeToVisit& tree = *sorted[i];
        check(tree);
        if (i > 0 && std::tie(sorted[i - 1]->site, sorted[i - 1]->tree, sorted[i - 1]->method) ==
                         std::tie(tree.site, tree.tree, tree.method)) {
            throw InputError(fmt::format("The tree is due twice for '{}'", tree.method),
                             named(tree));
        }
        if (work.sites.empty() || work.sites.back().name != tree.site) {
            work.sites.push_back({tree.site, tree.place});
        } else if (!same(work.sites.back().place, tree.place)) {
            throw InputError("The site is given at two places", named(tree));
        }
        int minutes = 0;
        try {
            minutes = settings.minutes_for(tree.method, tree.dbh);
        } catch (const InputError& error) {
            throw error.at(named(tree));
        }
        work.jobs.push_back({work.sites.size() - 1, tree.tree, tree.method, minutes, tree.release,
                             tree.deadline, tree.best_until, tree.priority, tree.needs_certified,
                             tree.active_ingredient, tree.active});
    }
    std::set<std::tuple<std::string, std::string, int>> accounts;
    for (const AcreRoom& room : rooms) {
        if (!accounts.insert({room.site, room.active_ingredient, room.year}).second) {
            throw InputError(fmt::format("The account of {} in {} is given twice",
                                         room.active_ingredient, room.year),
                             fmt::format("site '{}'", room.site));
        }
    }
    work.rooms = rooms;
    return work;
}

}  // namespace ashtriage::plan
