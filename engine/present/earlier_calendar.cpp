#include "present/earlier_calendar.hpp"

#include <cstring>

#include "measure/input_error.hpp"

namespace ashtriage::present {

namespace {

void remove(icalcomponent* component, icalproperty_kind kind) {
    while (icalproperty* property = icalcomponent_get_first_property(component, kind)) {
        icalcomponent_remove_property(component, property);
        icalproperty_free(property);
    }
}

// The last day that an entry is about; a to-do without a window is never over.
bool is_over(icalcomponent* entry, const measure::Date& as_of) {
    const bool is_event = icalcomponent_isa(entry) == ICAL_VEVENT_COMPONENT;
    const icaltimetype last =
        is_event ? icalcomponent_get_dtstart(entry) : icalcomponent_get_due(entry);
    if (icaltime_is_null_time(last) != 0) return false;
    const measure::Date day{std::chrono::year{last.year},
                            std::chrono::month{static_cast<unsigned>(last.month)},
                            std::chrono::day{static_cast<unsigned>(last.day)}};
    return day < as_of;
}

CalendarEntry cancelled(icalcomponent* entry) {
    CalendarEntry copy(icalcomponent_new_clone(entry), icalcomponent_free);
    // One that was cancelled before stays as it is, for whoever has not read that file.
    const bool already = icalcomponent_get_status(copy.get()) == ICAL_STATUS_CANCELLED;
    const int sequence = icalcomponent_get_sequence(copy.get()) + (already ? 0 : 1);
    for (const icalproperty_kind kind : {ICAL_STATUS_PROPERTY, ICAL_SEQUENCE_PROPERTY,
                                         ICAL_DTSTAMP_PROPERTY, ICAL_LASTMODIFIED_PROPERTY}) {
        remove(copy.get(), kind);
    }
    icalcomponent_add_property(copy.get(), icalproperty_new_status(ICAL_STATUS_CANCELLED));
    icalcomponent_add_property(copy.get(), icalproperty_new_sequence(sequence));
    return copy;
}

}  // namespace

std::vector<CalendarEntry> entries_gone(const std::string& earlier,
                                        const std::set<std::string>& uids_now,
                                        const measure::Date& as_of,
                                        const std::function<bool(const std::string&)>& concerned) {
    const CalendarEntry calendar(icalparser_parse_string(earlier.c_str()), icalcomponent_free);
    icalproperty* writer =
        calendar && icalcomponent_isa(calendar.get()) == ICAL_VCALENDAR_COMPONENT
            ? icalcomponent_get_first_property(calendar.get(), ICAL_PRODID_PROPERTY)
            : nullptr;
    if (writer == nullptr || std::strcmp(icalproperty_get_prodid(writer), calendar_writer) != 0) {
        throw measure::InputError("It is no calendar file that this program wrote", {},
                                  "What is in it would be lost: choose another name.");
    }
    std::vector<CalendarEntry> gone;
    for (const icalcomponent_kind kind : {ICAL_VEVENT_COMPONENT, ICAL_VTODO_COMPONENT}) {
        for (icalcomponent* entry = icalcomponent_get_first_component(calendar.get(), kind);
             entry != nullptr; entry = icalcomponent_get_next_component(calendar.get(), kind)) {
            const char* uid = icalcomponent_get_uid(entry);
            if (uid == nullptr || uids_now.contains(uid) || !concerned(uid) ||
                is_over(entry, as_of)) {
                continue;
            }
            gone.push_back(cancelled(entry));
        }
    }
    return gone;
}

}  // namespace ashtriage::present
