#include "present/calendar_file.hpp"

#include <fmt/format.h>
#include <libical/ical.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <set>
#include <string_view>

#include "present/crew_schedule_text.hpp"

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
        add(calendar_.get(), icalproperty_new_prodid("-//ashtriage//crew schedule//EN"));
        std::set<std::string> visits;
        std::vector<std::string> visit_of(work_.jobs.size());
        for (const plan::PlannedDay& day : schedule_.days) {
            for (const plan::Visit& visit : day.visits) {
                visits.insert(visit_uid(visit));
                for (const std::size_t job : visit.jobs) visit_of[job] = visit_uid(visit);
                add_visit(day, visit, ICAL_STATUS_CONFIRMED);
            }
        }
        if (options_.before != nullptr) cancel_all_but(visits);
        for (std::size_t job = 0; job < work_.jobs.size(); ++job) add_to_do(job, visit_of[job]);

        const std::unique_ptr<char, decltype(&std::free)> written(
            icalcomponent_as_ical_string_r(calendar_.get()), std::free);
        return folded_anew(written.get());
    }

 private:
    static void add(icalcomponent* component, icalproperty* property) {
        icalcomponent_add_property(component, property);
    }

    std::string job_id(const plan::Job& job) const {
        return fmt::format("{}-{}-{}-{}", static_cast<int>(job.release.year()),
                           encoded(work_.sites[job.site].name), encoded(job.tree),
                           encoded(job.method));
    }
    std::string to_do_uid(std::size_t job) const { return "tree-" + job_id(work_.jobs[job]); }
    std::string visit_uid(const plan::Visit& visit) const {
        return "visit-" + job_id(work_.jobs[std::ranges::min(visit.jobs)]);
    }

    icalcomponent* begin(icalcomponent_kind kind, const std::string& uid) {
        icalcomponent* component = icalcomponent_new(kind);
        icalcomponent_add_component(calendar_.get(), component);
        add(component, icalproperty_new_uid(uid.c_str()));
        add(component, icalproperty_new_dtstamp(midnight_utc(options_.as_of)));
        add(component, icalproperty_new_lastmodified(midnight_utc(options_.planned_on)));
        // It grows from day to day, and with every lost day after which was planned anew.
        constexpr measure::Date first{std::chrono::year{2000}, std::chrono::January,
                                      std::chrono::day{1}};
        const int sequence = measure::days_between(first, options_.planned_on) * 100 +
                             static_cast<int>(std::min<std::size_t>(schedule_.lost.size(), 99));
        add(component, icalproperty_new_sequence(std::max(0, sequence)));
        return component;
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

    void add_visit(const plan::PlannedDay& day, const plan::Visit& visit,
                   icalproperty_status status) {
        icalcomponent* event = begin(ICAL_VEVENT_COMPONENT, visit_uid(visit));
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
        for (const plan::PlannedDay& day : options_.before->days) {
            for (const plan::Visit& visit : day.visits) {
                if (visits.count(visit_uid(visit)) != 0) continue;
                add_visit(day, visit, ICAL_STATUS_CANCELLED);
            }
        }
    }

    void add_to_do(std::size_t index, const std::string& visit) {
        const plan::Job& job = work_.jobs[index];
        const plan::WorkSite& site = work_.sites[job.site];
        icalcomponent* to_do = begin(ICAL_VTODO_COMPONENT, to_do_uid(index));
        // What is due must be later than its start; a window of one day has no start of its own.
        if (job.release < job.deadline) {
            add(to_do, icalproperty_new_dtstart(date_of(job.release)));
        }
        add(to_do, icalproperty_new_due(date_of(job.deadline)));
        describe(to_do,
                 fmt::format("Tree {} at {}: {}", job.tree, site.name, method_words(job.method)),
                 fmt::format("{} Window: {} to {}, both included.\n{}",
                             visit.empty() ? "Not planned." : "Planned.",
                             measure::long_text(job.release), measure::long_text(job.deadline),
                             label_comes_first()));
        add_place(to_do, site);
        add(to_do, icalproperty_new_priority(std::clamp(job.priority, 1, 9)));
        add(to_do, icalproperty_new_status(ICAL_STATUS_NEEDSACTION));
        if (!visit.empty()) add(to_do, icalproperty_new_relatedto(visit.c_str()));
    }

    const plan::CrewSchedule& schedule_;
    const plan::WorkDue& work_;
    const plan::Crews& crews_;
    const CalendarOptions& options_;
    std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> calendar_;
};

}  // namespace

std::string calendar_text(const plan::CrewSchedule& schedule, const plan::WorkDue& work,
                          const plan::Crews& crews, const CalendarOptions& options) {
    return CalendarWriter(schedule, work, crews, options).text();
}

}  // namespace ashtriage::present
