#include "present/rule_tables_markdown.hpp"

#include "packs/words.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

namespace {

// A line of a list inside a cell: cells hold no blocks, so depth is shown by blanks that stay.
void add_condition(const WordedCondition& condition, std::size_t depth, std::string& cell) {
    if (depth > 0) {
        cell += "<br>";
        for (std::size_t i = 1; i < depth; ++i) cell += "&nbsp;&nbsp;&nbsp;";
        cell += "– ";
    }
    cell += markdown_text(condition.text);
    for (const WordedCondition& part : condition.parts) add_condition(part, depth + 1, cell);
}

std::string row(const std::vector<std::string>& cells) {
    std::string text = "|";
    for (const std::string& cell : cells) text += " " + cell + " |";
    return text + "\n";
}

std::string heading_rows(const std::vector<std::string>& headings) {
    return row(headings) + row(std::vector<std::string>(headings.size(), "---"));
}

std::string code(std::string_view name) {
    return "`" + std::string(name) + "`";
}

std::string codes(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + code(name);
    return text;
}

std::string codes_or_none(const std::vector<std::string>& names) {
    return names.empty() ? "no other table" : codes(names);
}

std::string table_markdown(const WordedTable& table) {
    std::string text = "## " + markdown_text(table.title) + "\n\n";
    text += markdown_text(table.about) + "\n\n";
    text += "- Written: table " + code(table.name) + " in " + code(table.file) + "\n";
    text += "- Gives: " + markdown_text(packs::joined(table.gives)) + "\n";
    text += "- Fed by: " + codes_or_none(table.fed_by) + "\n";
    text += "- Feeds: " + codes_or_none(table.feeds) + "\n";
    text += "- " + markdown_text(table.how_it_answers) + "\n";
    if (!table.claims.empty()) text += "- Claims: " + markdown_text(claims_sentence(table)) + "\n";
    for (const std::string& exception : table.exceptions) {
        text += "  - Except " + markdown_text(exception) + "\n";
    }
    text += "\n";
    text += heading_rows({"Rule", "When", "Gives", "Because", "Source"});
    for (const WordedRule& rule : table.rules) {
        std::string when;
        add_condition(rule.when, 0, when);
        text += row({code(rule.id), when, markdown_text(rule.gives), markdown_text(rule.because),
                     codes(rule.sources)});
    }
    return text + "\n";
}

}  // namespace

std::string markdown_text(std::string_view text) {
    constexpr std::string_view markup = "\\`*_{}[]<>#|~&!";
    std::string result;
    for (const char c : text) {
        if (markup.find(c) != std::string_view::npos) result += '\\';
        result += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
    return result;
}

std::string rule_tables_markdown(const RuleTables& shown) {
    std::string text = "# The rules in words\n\n" + markdown_text(rules_in_use(shown)) + "\n\n" +
                       markdown_text(brackets_note()) + "\n\n";
    for (const WordedTable& table : shown.tables) text += table_markdown(table);
    if (!shown.settings.empty()) {
        text += "## Settings used\n\n" + heading_rows({"Setting", "Value", "About", "Source"});
        for (const WordedSetting& setting : shown.settings) {
            text += row({code(setting.name), markdown_text(setting.value),
                         markdown_text(setting.about), codes(setting.sources)});
        }
        text += "\n";
    }
    if (!shown.sources.empty()) {
        text += "## Sources\n\n" + heading_rows({"Source", "Citation", "How it was had"});
        for (const WordedSource& source : shown.sources) {
            text += row(
                {code(source.key), markdown_text(source.citation), markdown_text(source.evidence)});
        }
        text += "\n";
    }
    return text + markdown_text(general_caution()) + "\n";
}

}  // namespace ashtriage::present
