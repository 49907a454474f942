// A calendar file that was written before, which a newer one takes the place of.
#pragma once

#include <libical/ical.h>

#include <functional>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "measure/date.hpp"

namespace ashtriage::present {

using CalendarEntry = std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)>;

// The program that wrote a calendar file, as the file says.
inline constexpr const char* calendar_writer = "-//ashtriage//crew schedule//EN";

// The events and to-dos of the earlier file that a newer one has no more, marked as cancelled with
// a SEQUENCE above the one they had; without DTSTAMP and LAST-MODIFIED, which the newer file sets.
// Left as they are, and not among them: those that were over by the day `as_of`, and those whose
// UID `concerned` is not true of. Throws measure::InputError for text that this program did not
// write.
std::vector<CalendarEntry> entries_gone(const std::string& earlier,
                                        const std::set<std::string>& uids_now,
                                        const measure::Date& as_of,
                                        const std::function<bool(const std::string&)>& concerned);

}  // namespace ashtriage::present
