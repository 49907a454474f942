#include "present/document.hpp"

#include <utility>

#include "present/document_template.hpp"
#include "present/template_values.hpp"
#include "present/text_layout.hpp"

namespace ashtriage::present {

void DocumentSection::add(std::string_view term, std::string_view text) {
    if (!text.empty()) lines.push_back({std::string(term), std::string(text)});
}

void Document::add(DocumentSection section) {
    if (!section.lines.empty()) sections.push_back(std::move(section));
}

std::string document_text(const Document& document) {
    std::string text = paragraph(document.title);
    for (const std::string& line : document.first) text += "\n" + paragraph(line);
    for (const DocumentSection& section : document.sections) {
        text += "\n" + section.heading + "\n";
        for (const DocumentLine& line : section.lines) {
            text += paragraph(line.text, line.term.empty() ? "  - " : "  " + line.term + ": ");
        }
    }
    for (const std::string& line : document.last) text += "\n" + paragraph(line);
    return text;
}

std::string document_page(const Document& document) {
    ctemplate::TemplateDictionary page("document");
    set(page, "TITLE", document.title);
    for (const std::string& line : document.first) {
        set(*page.AddSectionDictionary("FIRST"), "TEXT", line);
    }
    for (const DocumentSection& section : document.sections) {
        ctemplate::TemplateDictionary& part = *page.AddSectionDictionary("SECTION");
        set(part, "HEADING", section.heading);
        for (const DocumentLine& line : section.lines) {
            ctemplate::TemplateDictionary& row = *part.AddSectionDictionary("LINE");
            set_if_any(row, "TERM", "WORDS", line.term);
            set(row, "TEXT", line.text);
        }
    }
    for (const std::string& line : document.last) {
        set(*page.AddSectionDictionary("LAST"), "TEXT", line);
    }
    return expanded("document-page", document_template, page);
}

}  // namespace ashtriage::present
