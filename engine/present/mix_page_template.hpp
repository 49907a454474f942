// The page of the mix sheet; filled in by mix_sheet.cpp.
#pragma once

namespace ashtriage::present {

extern const char* const mix_page_template;

}  // namespace ashtriage::present
