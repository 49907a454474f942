// The templates of the page of rule tables: markup and style only, every value escaped for the
// place where it stands.
#pragma once

namespace ashtriage::present {

extern const char* const rule_tables_page_template;

// A condition and, under it, its parts, each with this same template.
extern const char* const rule_condition_template;

}  // namespace ashtriage::present
