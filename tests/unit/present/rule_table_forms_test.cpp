// Rule tables as text, Markdown, a page and JSON: whole, readable, and with nothing taken for
// markup.
#include <gmock/gmock.h>

#include <regex>
#include <sstream>

#include "demo_property.hpp"
#include "present/rule_tables_json.hpp"
#include "present/rule_tables_markdown.hpp"
#include "present/rule_tables_page.hpp"
#include "present/rule_tables_text.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"

namespace ashtriage::present {
namespace {

using testing::HasSubstr;
using testing::Not;

const RuleTables& built_in() {
    static const RuleTables tables = rule_tables(built_in_rules());
    return tables;
}

// Tables whose every text is full of what markup is made of.
RuleTables hostile() {
    const std::string text = "<script>x</script> a|b *c* _d_ [e](f) `g` & \"h\"\n# i {{NAME}}";
    RuleTables tables;
    WordedRule rule{"r-1", {text, {{text, {}}}}, text, text, text, text, text, {"k"}};
    tables.tables.push_back({"t",
                             text,
                             "f.yaml",
                             text,
                             {text},
                             {},
                             {},
                             "first",
                             text,
                             {text},
                             {text},
                             {std::move(rule)}});
    tables.settings.push_back({"s", text, text, {"k"}});
    tables.sources.push_back({"k", text, text});
    tables.preset = "default";
    return tables;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

// The borders of a row of a Markdown table: every '|' that no '\' stands before.
std::size_t borders_of(const std::string& line) {
    std::size_t count = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '\\') {
            ++i;
        } else if (line[i] == '|') {
            ++count;
        }
    }
    return count;
}

TEST(RuleTableForms, HaveEveryRuleSettingAndSource) {
    const std::string text = rule_tables_text(built_in());
    const std::string markdown = rule_tables_markdown(built_in());
    const std::string page = rule_tables_page(built_in());
    std::size_t rules = 0;
    for (const WordedTable& table : built_in().tables) {
        EXPECT_THAT(page, HasSubstr("<h2 id=\"table-" + table.name + "\">"));
        for (const WordedRule& rule : table.rules) {
            EXPECT_EQ(count_of("\n" + rule.id + "\n    When", text), 1U) << rule.id;
            EXPECT_EQ(count_of("\n| `" + rule.id + "` |", markdown), 1U) << rule.id;
            EXPECT_EQ(count_of("<tr><td><code>" + rule.id + "</code></td>", page), 1U) << rule.id;
            ++rules;
        }
    }
    EXPECT_GT(rules, 50U);
    for (const std::string* form : {&text, &markdown, &page}) {
        EXPECT_GE(count_of("Never a milder answer", *form), 3U);
        EXPECT_THAT(*form, HasSubstr("Except stem crack, leaving out defect to watch: A crack"));
    }
    for (const WordedSetting& setting : built_in().settings) {
        const std::string line = "\n" + setting.name + ": " + setting.value + "\n";
        EXPECT_EQ(count_of(line, text), 1U);
        EXPECT_EQ(count_of("\n| `" + setting.name + "` |", markdown), 1U);
    }
    EXPECT_EQ(built_in().settings.size(), built_in_rules().settings.size());
    for (const WordedSource& source : built_in().sources) {
        EXPECT_EQ(count_of("\n" + source.key + " (", text), 1U) << source.key;
        EXPECT_EQ(count_of("<tr id=\"source-" + source.key + "\">", page), 1U) << source.key;
        EXPECT_GE(count_of("<a href=\"#source-" + source.key + "\">", page), 1U) << source.key;
    }
    for (const std::string* form : {&text, &markdown, &page}) {
        EXPECT_THAT(*form, HasSubstr("decision support"));
    }
}

TEST(RuleTableText, FitsThePageAndIndentsTheParts) {
    for (const std::string& line : lines_of(rule_tables_text(built_in()))) {
        EXPECT_LE(width_of(line), page_width) << line;
    }
    const WordedCondition nested = {
        "all of these:", {{"a is yes", {}}, {"at least one of these:", {{"b is yes", {}}}}}};
    EXPECT_EQ(condition_lines(nested, "  When "),
              "  When all of these:\n"
              "       - a is yes\n"
              "       - at least one of these:\n"
              "         - b is yes\n");
}

// GitHub Flavored Markdown, "Tables (extension)": a delimiter row under the heading with as many
// cells; a pipe inside a cell is escaped, also in code.
TEST(RuleTableMarkdown, HasTablesWhoseRowsAreAllAsWideAsTheirHeading) {
    for (const RuleTables& tables : {built_in(), hostile()}) {
        std::size_t width = 0;
        std::size_t rows = 0;
        std::string before;
        for (const std::string& line : lines_of(rule_tables_markdown(tables))) {
            if (!line.starts_with("|")) {
                width = 0;
                EXPECT_EQ(borders_of(line), 0U) << line;
            } else if (width == 0) {
                EXPECT_EQ(before, "");  // a table begins after an empty line
                width = borders_of(line);
            } else {
                EXPECT_EQ(borders_of(line), width) << line;
                EXPECT_TRUE(line.ends_with(" |")) << line;
                ++rows;
            }
            before = line;
        }
        EXPECT_GE(rows, 6U);
    }
}

// CommonMark, "Backslash escapes": any of these after a backslash is itself and nothing else.
TEST(RuleTableMarkdown, TakesNothingInATextForMarkup) {
    EXPECT_EQ(markdown_text("a|b <i> *c* `d` [e] \\ f_g # ~h~ & !\n{i}"),
              "a\\|b \\<i\\> \\*c\\* \\`d\\` \\[e\\] \\\\ f\\_g \\# \\~h\\~ \\& \\! \\{i\\}");
    EXPECT_EQ(markdown_text("30 %, D-shaped"), "30 %, D-shaped");
}

TEST(RuleTablePage, IsOneWholePageThatNeedsNothingElse) {
    const std::string page = rule_tables_page(built_in());
    EXPECT_TRUE(page.starts_with("<!DOCTYPE html>"));
    EXPECT_TRUE(page.ends_with("</html>\n"));
    EXPECT_THAT(page, HasSubstr("name=\"viewport\""));
    EXPECT_THAT(page, HasSubstr("@media print"));
    for (const char* outside : {"http", "<script", "src=", "url(", "@import", "{{"}) {
        EXPECT_THAT(page, Not(HasSubstr(outside)));
    }
    for (const char* element : {"section", "table", "tr", "td", "ul", "li", "p", "code", "a"}) {
        const std::string name = element;
        EXPECT_EQ(count_of("<" + name + ">", page) + count_of("<" + name + " ", page),
                  count_of("</" + name + ">", page))
            << name;
    }
}

TEST(RuleTablePage, HasAListInsideAListForEachStepOfNesting) {
    RuleTables tables = hostile();
    tables.tables[0].rules[0].when = {
        "all of these:", {{"a", {}}, {"at least one of these:", {{"b", {}}, {"c", {}}}}}};
    EXPECT_THAT(rule_tables_page(tables),
                HasSubstr("all of these:<ul><li>a</li><li>at least one of these:<ul><li>b</li>"
                          "<li>c</li></ul></li></ul>"));
}

TEST(RuleTablePage, EscapesWhateverTheRulesSay) {
    const std::string page = rule_tables_page(hostile());
    EXPECT_THAT(page, Not(HasSubstr("<script")));
    EXPECT_THAT(page, Not(HasSubstr("\"h\"")));
    EXPECT_THAT(page, HasSubstr("&lt;script&gt;"));
    EXPECT_THAT(page, HasSubstr("{{NAME}}"));  // not filled in
}

TEST(RuleTableJson, HasTheSameTablesWithTheirConditionsAsTrees) {
    const Json json = rule_tables_json(built_in());
    EXPECT_EQ(json["preset"], "default");
    EXPECT_EQ(json["hash"], built_in_rules().hash);
    ASSERT_EQ(json["tables"].size(), built_in().tables.size());
    for (std::size_t i = 0; i < built_in().tables.size(); ++i) {
        const WordedTable& table = built_in().tables[i];
        EXPECT_EQ(json["tables"][i]["table"], table.name);
        ASSERT_EQ(json["tables"][i]["rules"].size(), table.rules.size());
        for (std::size_t r = 0; r < table.rules.size(); ++r) {
            const Json& rule = json["tables"][i]["rules"][r];
            EXPECT_EQ(rule["rule"], table.rules[r].id);
            EXPECT_EQ(rule["when"]["text"], table.rules[r].when.text);
            EXPECT_EQ(rule["when"].value("parts", Json::array()).size(),
                      table.rules[r].when.parts.size());
        }
    }
}

}  // namespace
}  // namespace ashtriage::present
