#include "present/template_values.hpp"

namespace ashtriage::present {

using ctemplate::TemplateDictionary;

void set(TemplateDictionary& dictionary, const char* name, std::string_view value) {
    dictionary.SetValue(name, ctemplate::TemplateString(value.data(), value.size()));
}

void set_if_any(TemplateDictionary& dictionary, const char* section, const char* name,
                std::string_view value) {
    if (value.empty()) return;
    set(*dictionary.AddSectionDictionary(section), name, value);
}

void add_list(TemplateDictionary& dictionary, const char* section, const char* item,
              const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    TemplateDictionary* list = dictionary.AddSectionDictionary(section);
    for (const std::string& text : texts) set(*list->AddSectionDictionary(item), "TEXT", text);
}

std::string expanded(const char* name, const char* text, const TemplateDictionary& values) {
    ctemplate::StringToTemplateCache(name, text, ctemplate::DO_NOT_STRIP);
    std::string html;
    ctemplate::ExpandTemplate(name, ctemplate::DO_NOT_STRIP, &values, &html);
    return html;
}

}  // namespace ashtriage::present
