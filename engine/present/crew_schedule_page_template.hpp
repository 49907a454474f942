// The page of the crews' season.
#pragma once

namespace ashtriage::present {

extern const char* const crew_schedule_page_template;

}  // namespace ashtriage::present
