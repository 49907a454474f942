// Filling in the pages of the template library.
#pragma once

#include <ctemplate/template.h>

#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::present {

void set(ctemplate::TemplateDictionary& dictionary, const char* name, std::string_view value);

// A value inside a section that is shown only when there is one.
void set_if_any(ctemplate::TemplateDictionary& dictionary, const char* section, const char* name,
                std::string_view value);

// A heading with a list under it, shown only when the list is not empty.
void add_list(ctemplate::TemplateDictionary& dictionary, const char* section, const char* item,
              const std::vector<std::string>& texts);

// The page: the template, which is kept under `name`, with its values filled in and escaped.
std::string expanded(const char* name, const char* text,
                     const ctemplate::TemplateDictionary& values);

}  // namespace ashtriage::present
