// A page that is handed to somebody: a title, what must be seen first, and headed lists of facts;
// as text, and as a page to be printed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::present {

struct DocumentLine {
    std::string term;  // empty: a line that stands alone
    std::string text;
};

struct DocumentSection {
    std::string heading;
    std::vector<DocumentLine> lines;

    // Nothing for an empty text: what is not known takes no line.
    void add(std::string_view term, std::string_view text);
};

struct Document {
    std::string title;
    std::vector<std::string> first;  // what must be seen before all else
    std::vector<DocumentSection> sections;
    std::vector<std::string> last;

    // Sections without a line are left out.
    void add(DocumentSection section);
};

std::string document_text(const Document& document);
// A self-contained HTML page.
std::string document_page(const Document& document);

}  // namespace ashtriage::present
