// The template of the client's page, in the language of the template library: markup and style
// only, every value escaped for the place where it stands.
#pragma once

namespace ashtriage::present {

extern const char* const property_page_template;

}  // namespace ashtriage::present
