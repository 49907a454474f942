#include "present/calendar_file.hpp"

#include <fmt/format.h>
#include <libical/ical.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <set>
#include <string_view>

#include "present/crew_schedule_text.hpp"
#include "present/earlier_calendar.hpp"

namespace ashtriage::present {

namespace {

// Letters, digits, '.' and '_' stay; every other byte is written as = and two digits, so that no
// two names come to the same. (Some readers take % and two digits for an escaped character.)
std::string encoded(std::string_view name) {
    std::string text;
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == '.' || c == '_';
        if (plain) {
            text += c;
        } else {
            text += fmt::format("={:02X}", static_cast<unsigned char>(c));
        }
    }
    return text;
}

// RFC 5545 knows no control character in a text but the line break.
std::string printable(std::string_view text) {
    std::string result;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        result += (byte < 0x20U && c != '\n') || byte == 0x7FU ? ' ' : c;
    }
    return result;
}

// The lines folded anew: libical 3.0 ends a line whose last part is full with a bare line feed. A
// line has at most 75 octets and no character is split (RFC 5545, section 3.1).
std::string folded_anew(std::string_view text) {
    constexpr std::size_t longest = 75;
    std::string lines;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\r') continue;
        const bool is_fold = text[i] == '\n' && i + 1 < text.size() && text[i + 1] == ' ';
        if (is_fold) {
            ++i;
        } else {
            lines += text[i];
        }
    }
    std::string folded;
    std::size_t length = 0;
    for (std::size_t i = 0; i < lines.size();) {
        if (lines[i] == '\n') {
            folded += "\r\n";
            length = 0;
            ++i;
            continue;
        }
        std::size_t end = i + 1;
        while (end < lines.size() && (static_cast<unsigned char>(lines[end]) & 0xC0U) == 0x80U) {
            ++end;
        }
        if (length + (end - i) > longest) {
            folded += "\r\n ";
            length = 1;
        }
        folded.append(lines, i, end - i);
        length += end - i;
        i = end;
    }
    return folded;
}

icaltimetype date_of(const measure::Date& date) {
    icaltimetype time = icaltime_null_time();
    time.year = static_cast<int>(date.year());
    time.month = static_cast<int>(static_cast<unsigned>(date.month()));
    time.day = static_cast<int>(static_cast<unsigned>(date.day()));
    time.is_date = 1;
    return time;
}

// A time of the place, without a zone.
icaltimetype time_of(const measure::Date& date, int minutes) {
    icaltimetype time = date_of(date);
    time.is_date = 0;
    icaltime_adjust(&time, 0, 0, minutes, 0);
    return time;
}

icaltimetype midnight_utc(const measure::Date& date) {
    icaltimetype time = time_of(date, 0);
    time.zone = icaltimezone_get_utc_timezone();
    return time;
}

class CalendarWriter {
 public:
    CalendarWriter(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                   const plan::Crews& crews, const CalendarOptions& options)
        : schedule_(schedule),
          work_(work),
          crews_(crews),
          options_(options),
          calendar_(icalcomponent_new(ICAL_VCALENDAR_COMPONENT), icalcomponent_free) {}

    std::string text() {
        add(calendar_.get(), icalproperty_new_version("2.0"));
        add(calendar_.get(), icalproperty_new_prodid(calendar_writer));
        std::set<std::string> visits;
        std::vector<std::string> visit_of(work_.jobs.size());
        for (const NumberedVisit& each : numbered_visits(schedule_)) {
            visits.insert(each.uid);
            for (const std::size_t job : each.visit->jobs) visit_of[job] = each.uid;
            add_visit(each, ICAL_STATUS_CONFIRMED);
        }
        if (options_.before != nullptr) cancel_all_but(visits);
        for (std::size_t job = 0; job < work_.jobs.size(); ++job) {
            add_to_do(to_do_about(work_.jobs[job]), visit_of[job]);
        }
        for (const TreeWithoutADay& each : options_.without_a_day) {
            if (each.is_due && !each.method.empty()) add_to_do(to_do_about(each), {});
        }
        if (!options_.earlier.empty()) cancel_what_is_gone();

        const std::unique_ptr<char, decltype(&std::free)> written(
            icalcomponent_as_ical_string_r(calendar_.get()), std::free);
        return folded_anew(written.get());
    }

 private:
    static void add(icalcomponent* component, icalproperty* property) {
        icalcomponent_add_property(component, property);
    }

    struct NumberedVisit {
        const plan::PlannedDay* day = nullptr;
        const plan::Visit* visit = nullptr;
        std::string uid;
    };

    static std::string visit_uid(int year, const std::string& site, int number) {
        return fmt::format("visit-{}-{}-{}", year, encoded(site), number);
    }

    std::vector<NumberedVisit> numbered_visits(const plan::CrewSchedule& schedule) const {
        std::vector<NumberedVisit> visits;
        auto numbers = options_.visits_made;
        for (const plan::PlannedDay& day : schedule.days) {
            for (const plan::Visit& visit : day.visits) {
                const std::string& site = work_.sites[visit.site].name;
                const int year = static_cast<int>(day.day.year());
                const int number = ++numbers[{site, year}];
                visits.push_back({&day, &visit, visit_uid(year, site, number)});
            }
        }
        return visits;
    }

    struct ToDo {
        plan::WorkSite site;
        std::string tree;
        std::string method;
        std::optional<measure::Date> opens;
        std::optional<measure::Date> closes;
        std::optional<int> priority;
        std::string why_not_planned;
    };

    ToDo to_do_about(const plan::Job& job) const {
        return {work_.sites[job.site], job.tree,     job.method, job.release,
                job.deadline,          job.priority, {}};
    }
    static ToDo to_do_about(const TreeWithoutADay& each) {
        return {{each.tree.site, each.place},
                each.tree.tree,
                each.method,
                each.opens,
                each.closes,
                each.priority,
                each.tree.why};
    }

    // Without a window the year is that of the file.
    std::string to_do_uid(const ToDo& to_do) const {
        return fmt::format("tree-{}-{}-{}-{}",
                           static_cast<int>(to_do.opens.value_or(options_.as_of).year()),
                           encoded(to_do.site.name), encoded(to_do.tree), encoded(to_do.method));
    }

    icalcomponent* begin(icalcomponent_kind kind, const std::string& uid) {
        icalcomponent* component = icalcomponent_new(kind);
        icalcomponent_add_component(calendar_.get(), component);
        add(component, icalproperty_new_uid(uid.c_str()));
        uids_.insert(uid);
        add_time_of_writing(component);
        // It grows from day to day, and with every lost day after which was planned anew.
        constexpr measure::Date first{std::chrono::year{2000}, std::chrono::January,
                                      std::chrono::day{1}};
        const int sequence = measure::days_between(first, options_.planned_on) * 100 +
                             static_cast<int>(std::min<std::size_t>(schedule_.lost.size(), 99));
        add(component, icalproperty_new_sequence(std::max(0, sequence)));
        return component;
    }

    void add_time_of_writing(icalcomponent* component) const {
        add(component, icalproperty_new_dtstamp(midnight_utc(options_.as_of)));
        add(component, icalproperty_new_lastmodified(midnight_utc(options_.planned_on)));
    }

    static void describe(icalcomponent* component, const std::string& summary,
                         const std::string& description) {
        add(component, icalproperty_new_summary(printable(summary).c_str()));
        add(component, icalproperty_new_description(printable(description).c_str()));
    }

    void add_place(icalcomponent* component, const plan::WorkSite& site) const {
        add(component, icalproperty_new_location(printable(site.name).c_str()));
        if (!site.place) return;
        icalgeotype place{};
        place.lat = site.place->latitude;
        place.lon = site.place->longitude;
        add(component, icalproperty_new_geo(place));
    }

    void add_visit(const NumberedVisit& numbered, icalproperty_status status) {
        const plan::PlannedDay& day = *numbered.day;
        const plan::Visit& visit = *numbered.visit;
        icalcomponent* event = begin(ICAL_VEVENT_COMPONENT, numbered.uid);
        add(event, icalproperty_new_dtstart(time_of(day.day, visit.arrives)));
        add(event, icalproperty_new_dtend(time_of(day.day, visit.leaves)));
        const plan::WorkSite& site = work_.sites[visit.site];
        const plan::Crew& crew = crews_.crews[day.crew];
        std::string trees;
        for (const std::size_t job : visit.jobs) {
            trees += fmt::format("Tree {}: {}\n", work_.jobs[job].tree,
                                 method_words(work_.jobs[job].method));
        }
        describe(
            event,
            fmt::format("{}: {} {} ({})", site.name, visit.jobs.size(),
                        visit.jobs.size() == 1 ? "tree" : "trees", crew.name),
            fmt::format(
                "{}Crew: {}\n{}{}", trees, crew.name, label_comes_first(),
                crews_.settings.example ? "\nThe minutes are example figures, nobody's own." : ""));
        add_place(event, site);
        add(event, icalproperty_new_status(status));
    }

    void cancel_all_but(const std::set<std::string>& visits) {
        for (const NumberedVisit& each : numbered_visits(*options_.before)) {
            if (visits.count(each.uid) == 0) add_visit(each, ICAL_STATUS_CANCELLED);
        }
    }

    // Visits that were made are gone from the plan, and took place all the same.
    void cancel_what_is_gone() {
        std::set<std::string> known = uids_;
        for (const auto& [site_and_year, visits] : options_.visits_made) {
            for (int number = 1; number <= visits; ++number) {
                known.insert(visit_uid(site_and_year.second, site_and_year.first, number));
            }
        }
        const std::string of_site = fmt::format("-{}-", encoded(options_.only_site));
        const auto concerned = [&](const std::string& uid) {
            const std::size_t after_year = uid.find('-', uid.find('-') + 1);
            return options_.only_site.empty() ||
                   (after_year != std::string::npos &&
                    uid.compare(after_year, of_site.size(), of_site) == 0);
        };
        for (CalendarEntry& entry :
             entries_gone(options_.earlier, known, options_.as_of, concerned)) {
            add_time_of_writing(entry.get());
            icalcomponent_add_component(calendar_.get(), entry.release());
        }
    }

    static std::string description_of(const ToDo& about, bool planned) {
        std::string text = planned ? "Planned." : "Not planned.";
        if (!about.why_not_planned.empty()) text = "Not planned: " + about.why_not_planned + ".";
        if (about.opens && about.closes) {
            text +=
                fmt::format(" Window: {} to {}, both included.", measure::long_text(*about.opens),
                            measure::long_text(*about.closes));
        }
        return fmt::format("{}\n{}", text, label_comes_first());
    }

    void add_to_do(const ToDo& about, const std::string& visit) {
        icalcomponent* to_do = begin(ICAL_VTODO_COMPONENT, to_do_uid(about));
        // What is due must be later than its start; a window of one day has no start of its own.
        if (about.opens && about.closes && *about.opens < *about.closes) {
            add(to_do, icalproperty_new_dtstart(date_of(*about.opens)));
        }
        if (about.closes) add(to_do, icalproperty_new_due(date_of(*about.closes)));
        describe(to_do,
                 fmt::format("Tree {} at {}: {}", about.tree, about.site.name,
                             method_words(about.method)),
                 description_of(about, !visit.empty()));
        add_place(to_do, about.site);
        if (about.priority) {
            add(to_do, icalproperty_new_priority(std::clamp(*about.priority, 1, 9)));
        }
        add(to_do, icalproperty_new_status(ICAL_STATUS_NEEDSACTION));
        if (!visit.empty()) add(to_do, icalproperty_new_relatedto(visit.c_str()));
    }

    const plan::CrewSchedule& schedule_;
    const plan::WorkDue& work_;
    const plan::Crews& crews_;
    const CalendarOptions& options_;
    std::set<std::string> uids_;  // of what is in the file
    std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> calendar_;
};

}  // namespace

std::string calendar_text(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                          const plan::Crews& crews, const CalendarOptions& options) {
    return CalendarWriter(schedule, work, crews, options).text();
}

}  // namespace ashtriage::present
