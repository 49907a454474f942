// Work that is due, site by site: what a crew may do in one visit.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "plan/crew.hpp"

namespace ashtriage::plan {

// A tree that is due for a method.
struct TreeToVisit {
    std::string site;
    std::optional<season::Location> place;  // of the site
    std::string tree;                       // its label, unique on the site
    std::string method;
    std::optional<measure::Length> dbh;
    measure::Date release{};                  // the first day of the window
    measure::Date deadline{};                 // the last; both belong to it
    std::optional<measure::Date> best_until;  // the last of its better part; none: all are as good
    int priority = 1;                         // the most important first: 1 before 2
    bool needs_certified = false;
    std::string active_ingredient;  // whose account of the acre it goes to; empty: none
    measure::Mass active;           // that the tree takes
};

// What may still be applied of an active ingredient on a site in a calendar year.
struct AcreRoom {
    std::string site;
    std::string active_ingredient;
    int year = 0;
    measure::Mass left;
};

struct WorkSite {
    std::string name;
    std::optional<season::Location> place;
};

struct Job {
    std::size_t site = 0;  // index into the sites
    std::string tree;
    std::string method;
    int minutes = 0;
    measure::Date release{};
    measure::Date deadline{};
    std::optional<measure::Date> best_until;
    int priority = 1;
    bool needs_certified = false;
    std::string active_ingredient;
    measure::Mass active;

    bool is_after_best(const measure::Date& day) const { return best_until && *best_until < day; }
};

// The jobs by site, tree and method, so that the same trees in any order are the same work.
struct WorkDue {
    std::vector<WorkSite> sites;
    std::vector<Job> jobs;
    std::vector<AcreRoom> rooms;
};

// At most so many jobs are planned at once.
inline constexpr std::size_t most_jobs = 10'000;

// Throws InputError, its where() the tree and site, for a tree that is twice due for a method, a
// window that closes before it opens, a site that lies at two places, a place that is none, a
// method of which the settings do not say how long it takes; and for more than `most_jobs`.
WorkDue work_due(const std::vector<TreeToVisit>& trees, const std::vector<AcreRoom>& rooms,
                 const CrewSettings& settings);

// One stay at one site. Times are minutes after midnight.
struct Visit {
    std::size_t site = 0;
    std::vector<std::size_t> jobs;  // in the order of the work due
    int travel = 0;                 // to here, in minutes
    int arrives = 0;
    int leaves = 0;  // set-up and work done
};

struct PlannedDay {
    std::size_t crew = 0;
    measure::Date day{};
    std::vector<Visit> visits;  // in the order of the route
    int travel_back = 0;
    int minutes = 0;  // from leaving the start to being back
    int may_use = 0;  // minutes that could be planned
};

}  // namespace ashtriage::plan
