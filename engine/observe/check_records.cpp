#include "observe/check_records.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "measure/input_error.hpp"

namespace ashtriage::observe {

namespace {

// What is wrong with one record, collected so that all of it is shown at once.
class Complaints {
 public:
    void add(std::string what, std::string_view hint = {}) {
        whats_.push_back(std::move(what));
        const bool known = std::find(hints_.begin(), hints_.end(), hint) != hints_.end();
        if (!hint.empty() && !known) hints_.emplace_back(hint);
    }

    // `record` names the record, such as "The tree 'A-12'".
    void throw_if_any(const std::string& record) const {
        if (whats_.empty()) return;
        throw measure::InputError(record + " cannot be recorded: " + joined(whats_, "; "), {},
                                  joined(hints_, " "));
    }

 private:
    static std::string joined(const std::vector<std::string>& parts, std::string_view between) {
        std::string text;
        for (const std::string& part : parts) {
            if (!text.empty()) text += between;
            text += part;
        }
        return text;
    }

    std::vector<std::string> whats_;
    std::vector<std::string> hints_;
};

bool is_space(char character) {
    return character == ' ' || character == '\t';
}

bool is_control(char character) {
    const auto byte = static_cast<unsigned char>(character);
    return byte < 0x20 || byte == 0x7f;
}

bool is_blank(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_space);
}

void check_line(std::string_view text, const std::string& called, Complaints& complaints) {
    if (text.empty()) return;
    if (is_space(text.front()) || is_space(text.back())) {
        complaints.add(called + " begins or ends with a space", "Remove the spaces at the ends.");
    }
    if (std::any_of(text.begin(), text.end(), is_control)) {
        complaints.add(called + " holds a tab, a line break or another control character",
                       "Write it on one line.");
    }
}

void check_needed_line(std::string_view text, const std::string& called, Complaints& complaints) {
    if (is_blank(text)) {
        complaints.add(called + " is missing");
    } else {
        check_line(text, called, complaints);
    }
}

void check_position(const std::optional<Position>& position, Complaints& complaints) {
    if (!position) return;
    constexpr std::string_view degrees =
        "Give latitude and longitude in decimal degrees, south and west negative.";
    // Written so that a value that is not a number fails too.
    if (!(std::fabs(position->latitude) <= 90.0)) {
        complaints.add("its latitude is not between -90 and 90 degrees", degrees);
    }
    if (!(std::fabs(position->longitude) <= 180.0)) {
        complaints.add("its longitude is not between -180 and 180 degrees", degrees);
    }
    if (position->latitude == 0.0 && position->longitude == 0.0) {
        complaints.add("its position is latitude 0, longitude 0, in the sea off Africa",
                       "Leave the position out when it is not known.");
    }
}

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
