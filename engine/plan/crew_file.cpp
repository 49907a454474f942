#include "plan/crew_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "measure/parse.hpp"
#include "measure/units.hpp"
#include "packs/problem.hpp"
#include "packs/yaml_document.hpp"
#include "packs/yaml_fields.hpp"

namespace ashtriage::plan {

using packs::Fields;
using packs::Node;

namespace {

constexpr int minutes_of_a_day = 24 * 60;
constexpr int longest_time_worked = 366;  // days
constexpr std::size_t most_crews = 50;
constexpr packs::Bounds minutes_allowed{0.0, minutes_of_a_day};
constexpr packs::Bounds percent_allowed{0.0, 90.0};

const std::vector<std::string>& weekday_names() {
    static const std::vector<std::string> names{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                "Thursday", "Friday", "Saturday"};
    return names;
}

class CrewFileReader {
 public:
    CrewFileReader(const Node& root, const std::string& file,
                   const std::vector<std::string>& methods, packs::Problems& problems)
        : source_{file, problems}, top_(root, "the crew file", source_), methods_(methods) {}

    Crews read() {
        Crews crews;
        if (const Node* node = top_.mapping("settings")) crews.settings = read_settings(*node);
        if (const Node* list = top_.list("crews")) {
            if (list->items.empty()) {
                top_.refuse("crews", "no-crew", "'crews' is an empty list; expected one or more");
            }
            if (list->items.size() > most_crews) {
                top_.refuse("crews", "too-many-crews",
                            fmt::format("'crews' lists {} crews; at most {} are planned",
                                        list->items.size(), most_crews));
            }
            for (const Node& item : list->items) add_crew(item, crews);
        }
        top_.refuse_others();
        return crews;
    }

 private:
    int whole(Fields& fields, std::string_view key, const packs::Bounds& bounds) {
        const double number = fields.number(key, bounds);
        const int whole = static_cast<int>(number);
        if (static_cast<double>(whole) != number) {
            fields.refuse(key, "not-a-whole-number",
                          fmt::format("'{}' of {} is {}; expected a whole number", key,
                                      fields.what(), number));
        }
        return whole;
    }

    CrewSettings read_settings(const Node& node) {
        CrewSettings settings;
        Fields fields(node, "'settings'", source_);
        settings.example = fields.yes_no("example");
        if (const Node* methods = fields.mapping("minutes_per_tree")) {
            for (const packs::Entry& entry : methods->entries) {
                if (std::ranges::find(methods_, entry.key) == methods_.end()) {
                    source_.refuse(
                        "unknown-method", entry.place,
                        fmt::format("'minutes_per_tree' has an unknown method '{}'", entry.key),
                        packs::nearest_hint(entry.key, methods_));
                    continue;
                }
                settings.minutes_per_tree[entry.key] = read_minutes(entry);
            }
        }
        settings.setup_minutes_per_site = whole(fields, "setup_minutes_per_site", minutes_allowed);
        if (const Node* travel = fields.mapping("travel")) read_travel(*travel, settings);
        if (const Node* reserve = fields.mapping("rain_reserve")) {
            Fields rain(*reserve, "'rain_reserve'", source_);
            settings.rain_reserve.percent = whole(rain, "percent", percent_allowed);
            settings.rain_reserve.of =
                rain.choice("of", {"hours", "days"}) == 0 ? ReserveOf::hours : ReserveOf::days;
            rain.refuse_others();
        }
        fields.refuse_others();
        return settings;
    }

    void read_travel(const Node& node, CrewSettings& settings) {
        Fields travel(node, "'travel'", source_);
        settings.travel_factor = travel.number("factor", {1.0, 5.0});
        const auto speed = travel.parsed(
            "speed", [](std::string_view text) { return measure::parse_speed(text); });
        travel.refuse_others();
        if (!speed) return;
        settings.travel_speed = *speed;
        const double kilometres_per_hour = static_cast<double>(speed->ticks()) / 1e6;
        if (kilometres_per_hour < 1.0 || kilometres_per_hour > 150.0) {
            travel.refuse("speed", "out-of-range",
                          "'speed' of 'travel' is no speed at which a crew travels; expected 1 to "
                          "150 km/h (0.6 to 93 mph)");
        }
    }

    std::vector<MinutesByDbh> read_minutes(const packs::Entry& entry) {
        std::vector<MinutesByDbh> classes;
        const std::string what = fmt::format("'{}'", entry.key);
        if (entry.value.kind != Node::Kind::sequence || entry.value.items.empty()) {
            source_.refuse(
                "wrong-kind", entry.value.place,
                fmt::format("{} of 'minutes_per_tree' is not a list of sizes; expected "
                            "one or more",
                            what),
                "write '- {dbh_up_to: 12 in, minutes: 20}' and, last, '- {minutes: 30}'");
            return classes;
        }
        for (const Node& item : entry.value.items) {
            Fields fields(item, fmt::format("a size of {}", what), source_);
            if (!fields.is_mapping()) continue;
            MinutesByDbh each;
            each.up_to = fields.parsed_if_present(
                "dbh_up_to", [](std::string_view text) { return measure::parse_length(text); });
            each.minutes = whole(fields, "minutes", {1.0, minutes_of_a_day});
            const bool is_last = &item == &entry.value.items.back();
            if (is_last && fields.has("dbh_up_to")) {
                fields.refuse("dbh_up_to", "largest-missing",
                              fmt::format("the last size of {} has a 'dbh_up_to': there is none "
                                          "for larger trees",
                                          what),
                              "add a last size without 'dbh_up_to'");
            }
            if (!is_last && !fields.has("dbh_up_to")) {
                fields.refuse(
                    "dbh_up_to", "missing-key",
                    fmt::format("{} has no 'dbh_up_to' and is not the last", fields.what()));
            }
            if (each.up_to && !classes.empty() && classes.back().up_to &&
                *each.up_to <= *classes.back().up_to) {
                fields.refuse("dbh_up_to", "sizes-out-of-order",
                              fmt::format("the sizes of {} do not rise", what));
            }
            fields.refuse_others();
            classes.push_back(each);
        }
        return classes;
    }

    void add_crew(const Node& item, Crews& crews) {
        Crew crew;
        const std::size_t problems = source_.problems.size();
        const Node* name = item.find("name");
        Fields fields(item,
                      name != nullptr && name->kind == Node::Kind::scalar && !name->text.empty()
                          ? fmt::format("the crew '{}'", name->text)
                          : "a crew",
                      source_);
        if (!fields.is_mapping()) return;
        crew.name = fields.text("name");
        if (const Node* start = fields.mapping("start")) {
            Fields place(*start, fmt::format("'start' of {}", fields.what()), source_);
            crew.start.latitude = place.number("latitude", {-90.0, 90.0});
            crew.start.longitude = place.number("longitude", {-180.0, 180.0});
            place.refuse_others();
        }
        if (const auto time = fields.parsed("starts_at", treat::parse_local_time)) {
            crew.starts_at = *time;
        }
        crew.minutes_per_day =
            static_cast<int>(fields.number("hours_per_day", {0.25, 24.0}) * 60.0 + 1e-6);
        read_days_off(fields, crew);
        crew.certified = fields.yes_no("certified_applicator");
        const auto first = fields.parsed("first_day", measure::parse_date);
        const auto last = fields.parsed("last_day", measure::parse_date);
        fields.refuse_others();
        if (source_.problems.size() != problems) return;
        crew.first_day = *first;
        crew.last_day = *last;
        check(fields, crew, crews);
        crews.crews.push_back(std::move(crew));
    }

    void read_days_off(Fields& fields, Crew& crew) {
        const Node* node = fields.mapping_or_null("days_off");
        if (node == nullptr) return;
        Fields off(*node, fmt::format("'days_off' of {}", fields.what()), source_);
        if (const Node* list = off.list_or_null("weekdays")) {
            for (const Node& item : list->items) {
                const auto day =
                    packs::read_choice(item, "a day of 'weekdays'", weekday_names(), source_);
                if (day) crew.weekday_off[*day] = true;
            }
        }
        if (const Node* list = off.list_or_null("dates")) {
            for (const Node& item : list->items) read_date_off(item, crew);
        }
        off.refuse_others();
    }

    void read_date_off(const Node& item, Crew& crew) {
        const auto text = packs::read_text(item, "a day of 'dates'", source_);
        if (!text) return;
        try {
            crew.dates_off.push_back(measure::parse_date(*text));
        } catch (const measure::InputError& error) {
            source_.refuse("bad-value", item.place,
                           fmt::format("a day of 'dates': {}", error.what()), error.hint());
        }
    }

    static void check(Fields& fields, const Crew& crew, const Crews& crews) {
        if (std::ranges::find(crews.crews, crew.name, &Crew::name) != crews.crews.end()) {
            fields.refuse("name", "name-twice",
                          fmt::format("two crews are called '{}'", crew.name));
        }
        if (crew.starts_at.minutes + crew.minutes_per_day > minutes_of_a_day) {
            fields.refuse("hours_per_day", "past-midnight",
                          fmt::format("the day of {} ends after midnight", fields.what()),
                          "start earlier or work fewer hours");
        }
        if (crew.last_day < crew.first_day) {
            fields.refuse(
                "last_day", "days-out-of-order",
                fmt::format("the last day of {}, {}, is before its first, {}", fields.what(),
                            measure::text(crew.last_day), measure::text(crew.first_day)));
            return;
        }
        if (measure::days_between(crew.first_day, crew.last_day) >= longest_time_worked) {
            fields.refuse(
                "last_day", "out-of-range",
                fmt::format("{} works for more than {} days", fields.what(), longest_time_worked),
                "describe one season at a time");
            return;
        }
        for (measure::Date day = crew.first_day; day <= crew.last_day;
             day = measure::add_days(day, 1)) {
            if (crew.works_on(day)) return;
        }
        fields.refuse(
            "days_off", "crew-without-days",
            fmt::format("{} has no day to work on: all from {} to {} are days off", fields.what(),
                        measure::text(crew.first_day), measure::text(crew.last_day)));
    }

    packs::YamlSource source_;
    Fields top_;
    const std::vector<std::string>& methods_;
};

}  // namespace

Crews read_crews(std::string_view text, const std::string& name,
                 const std::vector<std::string>& methods) {
    packs::Problems problems;
    problems.add_file(name, text);
    const Node root = packs::read_yaml(text, name, problems);
    problems.throw_if_any();
    Crews crews = CrewFileReader(root, name, methods, problems).read();
    problems.throw_if_any();
    return crews;
}

}  // namespace ashtriage::plan
