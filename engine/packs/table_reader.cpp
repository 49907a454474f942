#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <type_traits>
#include <utility>

#include "packs/file_words.hpp"
#include "packs/placeholder.hpp"
#include "packs/readers.hpp"
#include "packs/sources.hpp"
#include "packs/words.hpp"
#include "reason/visit.hpp"

namespace ashtriage::packs {

namespace {

using reason::HitPolicy;
using reason::TableIndex;

void read_table(const Entry& entry, const PackFile& file, Draft& draft) {
    if (!draft.check_new_name("a table", entry, file.source)) {
        draft.broken.insert(entry.key);
        return;
    }
    const std::size_t problems_before = file.source.problems.size();
    Fields fields(entry.value, fmt::format("the table '{}'", entry.key), file.source);
    reason::Table table;
    TableText text;
    table.name = entry.key;
    text.pack = file.pack;
    if (const Node* gives = fields.required("gives")) {
        const std::vector<PlacedName> names =
            names_in(*gives, fmt::format("'gives' of {}", fields.what()), file.source);
        check_names(names, 1, reason::most_outcomes, fields.what(), *gives, file.source);
        for (const PlacedName& outcome : names) table.gives.push_back(outcome.name);
    }
    table.hit_policy = static_cast<HitPolicy>(fields.choice("hit_policy", hit_policy_names()));
    if (file.source.problems.size() > problems_before) draft.broken.insert(table.name);

    text.about = fields.text("about");
    fields.mapping_or_null("worse");           // read when all names are known
    const Node* rules = fields.list("rules");  // likewise
    if (rules != nullptr && rules->items.empty()) {
        fields.refuse("rules", "empty-value", fmt::format("{} has no rules", fields.what()),
                      "write at least one, '{id: ..., when: always, gives: ...}', or leave the "
                      "whole table out");
    }
    fields.refuse_others();

    draft.tables.emplace(table.name, draft.set.model.tables.size());
    draft.table_nodes.push_back(&entry.value);
    draft.table_files.push_back(&file);
    draft.set.model.tables.push_back(std::move(table));
    draft.set.tables.push_back(std::move(text));
}

void check_new_rule_id(const std::string& id, Place place, const YamlSource& source, Draft& draft) {
    if (id.empty() || !check_id("a rule", id, place, source)) return;
    const auto [other, is_new] = draft.rule_ids.emplace(id, place_text(source, place));
    if (is_new) return;
    source.refuse("duplicate-id", place,
                  fmt::format("the rule id '{}' is taken by the rule at {}", id, other->second),
                  "give every rule of all files an id of its own");
}

// A text must not clear a tree: that nothing was seen does not mean that nothing is there.
void check_clears_no_tree(const std::string& text, const std::string& what, Place place,
                          const YamlSource& source) {
    const std::string words = normalised(text);
    for (const char* claim : {"is safe", "are safe", "looks safe", "safe tree", "tree safe"}) {
        if (words.find(claim) == std::string::npos) continue;
        source.refuse("clears-a-tree", place, fmt::format("{} calls something safe", what),
                      "say what was looked for and not found, or what to do");
        return;
    }
}

std::string read_worded(Fields& fields, std::string_view key, bool required, const Draft& draft) {
    std::string text = required ? fields.text(key) : fields.text_or(key, "");
    const std::string what = fmt::format("'{}' of {}", key, fields.what());
    check_placeholders(text, what, fields.place(key), fields.source(), draft);
    check_clears_no_tree(text, what, fields.place(key), fields.source());
    return text;
}

void read_rule(const Node& node, TableIndex table_index, const YamlSource& source, Draft& draft) {
    reason::Table& table = draft.set.model.tables[table_index];
    const Node* id = node.find("id");
    const std::string what = id != nullptr && id->kind == Node::Kind::scalar
                                 ? fmt::format("the rule '{}'", id->text)
                                 : fmt::format("a rule of '{}'", table.name);
    Fields fields(node, what, source);
    reason::Rule rule;
    RuleText text;
    text.place = node.place;
    rule.id = fields.text("id");
    check_new_rule_id(rule.id, fields.place("id"), source, draft);
    if (const Node* when = fields.required("when")) {
        ReadCondition read = read_condition(*when, what, source, draft);
        rule.when = std::move(read.condition);
        text.settled = std::move(read.settled);
        text.tests = std::move(read.tests);
    }
    if (draft.is_broken(table.name)) {
        fields.optional("gives");
    } else {
        rule.gives = fields.choice("gives", table.gives);
    }
    text.because = read_worded(fields, "because", true, draft);
    text.client = read_worded(fields, "client", false, draft);
    text.todo = read_worded(fields, "todo", false, draft);
    text.who = read_worded(fields, "who", false, draft);
    text.sources = read_source_keys(fields, "source", draft.set.sources);
    fields.refuse_others();
    table.rules.push_back(std::move(rule));
    draft.set.tables[table_index].rules.push_back(std::move(text));
}

// Looks for a way from a table back to itself.
class CycleSearch {
 public:
    explicit CycleSearch(const Draft& draft)
        : draft_(draft), marks_(draft.set.model.tables.size(), Mark::unseen) {}

    void search_all() {
        for (TableIndex table = 0; table < marks_.size(); ++table) visit(table);
    }

 private:
    enum class Mark { unseen, open, done };

    // No deeper than there are tables.
    void visit(TableIndex table) {
        if (marks_[table] == Mark::open) report(table);
        if (marks_[table] != Mark::unseen) return;
        marks_[table] = Mark::open;
        path_.push_back(table);
        std::size_t rule_index = 0;
        for (const reason::Rule& rule : draft_.set.model.tables[table].rules) {
            reason::for_each_test(rule.when, [&](const auto& test) {
                if constexpr (std::is_same_v<std::decay_t<decltype(test)>, reason::OutcomeTest>) {
                    rule_place_ = draft_.set.tables[table].rules[rule_index].place;
                    visit(test.table);
                }
            });
            ++rule_index;
        }
        path_.pop_back();
        marks_[table] = Mark::done;
    }

    // Once for each circle, however many of its rules close it.
    void report(TableIndex table) {
        std::vector<std::string> names;
        const auto start = std::find(path_.begin(), path_.end(), table);
        for (auto step = start; step != path_.end(); ++step) {
            names.push_back(draft_.set.model.tables[*step].name);
        }
        if (!reported_.insert({start, path_.end()}).second) return;
        names.push_back(draft_.set.model.tables[table].name);
        draft_.table_files[path_.back()]->source.refuse(
            "cycle", rule_place_,
            fmt::format("the table '{}' rests on its own outcome: {}", names.front(),
                        fmt::join(names, " -> ")),
            "a table can test only tables that do not test it, not even by way of others");
    }

    const Draft& draft_;
    std::vector<Mark> marks_;
    std::vector<TableIndex> path_;
    std::set<std::vector<TableIndex>> reported_;
    Place rule_place_;  // of the rule whose condition is being followed
};

}  // namespace

void read_tables(const Node& tables, const PackFile& file, Draft& draft) {
    for (const Entry& entry : tables.entries) {
        if (draft.set.model.tables.size() == most_tables) {
            file.source.refuse("too-many-tables", entry.place,
                               fmt::format("the rule set has more than {} tables", most_tables));
            return;
        }
        read_table(entry, file, draft);
    }
}

void read_rules(Draft& draft) {
    for (TableIndex table = 0; table < draft.table_nodes.size(); ++table) {
        const Node* rules = draft.table_nodes[table]->find("rules");
        if (rules == nullptr) continue;
        for (const Node& rule : rules->items) {
            read_rule(rule, table, draft.table_files[table]->source, draft);
        }
    }
}

void check_cycles(const Draft& draft) {
    CycleSearch(draft).search_all();
}

void check_placeholders(const std::string& text, const std::string& what, Place place,
                        const YamlSource& source, const Draft& draft) {
    const TextPieces pieces = text_pieces(text);
    if (!pieces.ok) {
        source.refuse(
            "bad-placeholder", place,
            fmt::format("{} has a brace that does not belong to a pair with a name inside", what),
            "write the name of a fact, a setting or a table in braces: {canopy_loss}");
    }
    for (const TextPiece& piece : pieces.pieces) {
        const std::string name(piece.text);
        if (!piece.is_name || draft.is_broken(name) || draft.facts.count(name) != 0 ||
            draft.tables.count(name) != 0 || draft.settings_by_name.count(name) != 0) {
            continue;
        }
        source.refuse("unknown-placeholder", place,
                      fmt::format("{} names '{}', which is no fact, setting or table", what, name),
                      nearest_hint(name, draft.all_names()));
    }
}

}  // namespace ashtriage::packs
