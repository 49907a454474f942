#include "observe/check_records.hpp"

#include <cstddef>
#include <set>
#include <string>
#include <string_view>

#include "observe/complaints.hpp"

namespace ashtriage::observe {

namespace {

std::string named(std::string_view kind, std::string_view name) {
    if (is_blank(name)) return "A " + std::string{kind} + " without a name";
    return "The " + std::string{kind} + " '" + std::string{name} + "'";
}

void check_walk_around(const WalkAround& walk_around, Complaints& complaints) {
    if (!walk_around.date.ok()) complaints.add("its date is not a date of the calendar");
    check_needed_line(walk_around.observer, "the name of the observer", complaints);
    for (std::size_t i = 0; i < walk_around.stems.size(); ++i) {
        if (walk_around.stems[i].length <= measure::Length{}) {
            complaints.add("stem " + std::to_string(i + 1) + " has no thickness",
                           "Give each stem a diameter or girth above 0, or leave it out.");
        }
    }
    std::set<std::string_view> facts;
    for (const Finding& finding : walk_around.findings) {
        check_needed_line(finding.fact, "the name of a finding", complaints);
        check_needed_line(finding.value, "the value of '" + finding.fact + "'", complaints);
        if (!facts.insert(finding.fact).second) {
            complaints.add("'" + finding.fact + "' is given more than once",
                           "Give each finding once; a second look is a walk-around of its own.");
        }
    }
}

std::string name_of(const WalkAround& walk_around) {
    if (!walk_around.date.ok()) return "A walk-around";
    return "The walk-around of " + measure::text(walk_around.date);
}

}  // namespace

void check(const Client& client) {
    Complaints complaints;
    check_needed_line(client.name, "its name", complaints);
    check_line(client.telephone, "its telephone number", complaints);
    check_line(client.email, "its e-mail address", complaints);
    complaints.throw_if_any(named("client", client.name));
}

void check(const Site& site) {
    Complaints complaints;
    check_needed_line(site.name, "its name", complaints);
    check_line(site.soil, "its soil", complaints);
    if (site.area && *site.area <= measure::Area{}) {
        complaints.add("its area is not above 0", "Leave the area out when it is not known.");
    }
    const measure::Length nothing;
    if (site.distance_to_water && *site.distance_to_water < nothing) {
        complaints.add("its distance to water is below 0");
    }
    if (site.infestation_distance && *site.infestation_distance < nothing) {
        complaints.add("its distance to the nearest infestation is below 0");
    }
    check_position(site.position, complaints);
    complaints.throw_if_any(named("site", site.name));
}

void check(const Tree& tree) {
    Complaints complaints;
    check_needed_line(tree.label, "its label", complaints);
    check_line(tree.place, "its place", complaints);
    check_position(tree.position, complaints);
    complaints.throw_if_any(named("tree", tree.label));
}

void check(const WalkAround& walk_around) {
    Complaints complaints;
    check_walk_around(walk_around, complaints);
    complaints.throw_if_any(name_of(walk_around));
}

void check(const WalkAround& walk_around, const measure::Date& as_of) {
    Complaints complaints;
    check_walk_around(walk_around, complaints);
    if (walk_around.date.ok() && walk_around.date > as_of) {
        complaints.add("it lies after " + measure::text(as_of), "Check the year and the month.");
    }
    complaints.throw_if_any(name_of(walk_around));
}

}  // namespace ashtriage::observe
