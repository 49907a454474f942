#pragma once

namespace ashtriage::present {

extern const char* const season_page_template;

}  // namespace ashtriage::present
