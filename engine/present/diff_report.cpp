#include "present/diff_report.hpp"

#include <algorithm>
#include <optional>

#include "packs/words.hpp"
#include "present/csv_text.hpp"
#include "present/region_words.hpp"
#include "present/text_layout.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

using packs::RuleComparison;
using prove::ChangedAnswer;

constexpr std::size_t most_trees_listed = 20;

std::string answer_words(const std::optional<std::string>& answer, bool conflict) {
    if (conflict) return "a conflict of two rules";
    return answer ? outcome_words(*answer) : "no answer";
}

bool is_collected(const ChangedAnswer& change) {
    return change.before.has_value() != change.after.has_value() && !change.before_conflict &&
           !change.after_conflict;
}

// "treat becomes remove", "standing dead is new", "standing dead is gone".
std::string change_of(const ChangedAnswer& change) {
    if (is_collected(change)) {
        return change.after ? outcome_words(*change.after) + " is new"
                            : outcome_words(*change.before) + " is gone";
    }
    return answer_words(change.before, change.before_conflict) + " becomes " +
           answer_words(change.after, change.after_conflict);
}

// What people look at first comes first.
std::vector<const ChangedAnswer*> in_order_of_weight(const RuleComparison& comparison) {
    std::vector<const ChangedAnswer*> changes;
    for (const ChangedAnswer& change : comparison.comparison.changes) changes.push_back(&change);
    const auto weight = [](const ChangedAnswer* change) {
        if (change->table == triage::table::recommendation) return 0;
        if (change->table == triage::table::hazard) return 1;
        return change->table == triage::table::method ? 2 : 3;
    };
    std::ranges::stable_sort(changes, {}, weight);
    return changes;
}

std::string names_text(const char* what, const std::vector<std::string>& names) {
    if (names.empty()) return {};
    std::vector<std::string> plain;
    for (const std::string& name : names) plain.push_back(packs::plain_name(name));
    return paragraph(what + packs::joined(plain, "and") + ".");
}

std::string change_text(const ChangedAnswer& change, const packs::RuleSet& words) {
    std::string text = paragraph(change_of(change) + ", where", "  ");
    for (const prove::Region& region : change.where) {
        text += paragraph(region_words(words, region.values) +
                              ". For example: " + example_words(words, region.example) + ".",
                          "    - ");
    }
    if (change.more) text += paragraph("and in further cases, not listed.", "    - ");
    return text;
}

std::string book_text(const BookComparison* book) {
    if (book == nullptr) return paragraph("There is no book, so no trees were compared.");
    std::string text =
        paragraph(std::to_string(book->affected.size()) + " of the " + std::to_string(book->trees) +
                  " trees in the book get another answer.");
    for (std::size_t i = 0; i < std::min(book->affected.size(), most_trees_listed); ++i) {
        const AffectedTree& tree = book->affected[i];
        text += paragraph(
            tree.site + ", tree " + tree.tree + ": " + packs::joined(tree.changes, "and"), "  - ");
    }
    if (book->affected.size() > most_trees_listed) {
        text += paragraph(
            "and " + std::to_string(book->affected.size() - most_trees_listed) + " more.", "  - ");
    }
    return text;
}

std::vector<std::string> flags_of(const triage::Recommendation& recommended) {
    std::vector<std::string> flags;
    for (const triage::HazardFlag& flag : recommended.flags) flags.push_back(flag.flag);
    return flags;
}

void add_flags(const std::vector<std::string>& flags, const std::vector<std::string>& others,
               const char* what, std::vector<std::string>& changes) {
    for (const std::string& flag : flags) {
        if (std::ranges::find(others, flag) == others.end()) {
            changes.push_back("flag " + flag_words(flag) + what);
        }
    }
}

std::string possible_words(const triage::Recommendation& recommended) {
    if (recommended.possible.empty()) return "no answer";
    std::vector<std::string> words;
    for (const std::string& outcome : recommended.possible) words.push_back(outcome_words(outcome));
    return packs::joined(words);
}

std::string method_words(const TreeAssessment& tree) {
    return tree.treatment ? packs::plain_name(tree.treatment->method) : "no method";
}

std::vector<std::string> changes_between(const TreeAssessment& before,
                                         const TreeAssessment& after) {
    std::vector<std::string> changes;
    if (before.recommendation.possible != after.recommendation.possible) {
        changes.push_back(possible_words(before.recommendation) + " becomes " +
                          possible_words(after.recommendation));
    }
    const auto flags = flags_of(before.recommendation);
    const auto flags_now = flags_of(after.recommendation);
    add_flags(flags, flags_now, " is gone", changes);
    add_flags(flags_now, flags, " is new", changes);
    if (method_words(before) != method_words(after)) {
        changes.push_back(method_words(before) + " becomes " + method_words(after));
    }
    return changes;
}

}  // namespace

std::vector<AffectedTree> affected_trees(const PropertyAssessment& before,
                                         const PropertyAssessment& after) {
    std::vector<AffectedTree> affected;
    for (std::size_t i = 0; i < before.trees.size(); ++i) {
        auto changes = changes_between(before.trees[i], after.trees[i]);
        if (changes.empty()) continue;
        affected.push_back({before.site.name, before.trees[i].tree.label, std::move(changes)});
    }
    return affected;
}

bool differs(const RuleComparison& comparison) {
    const prove::Comparison& found = comparison.comparison;
    return !found.changes.empty() || !found.not_analysed.empty() || !found.facts_added.empty() ||
           !found.facts_removed.empty() || !found.facts_changed.empty() ||
           !found.tables_added.empty() || !found.tables_removed.empty();
}

std::string diff_text(const RuleComparison& comparison, const BookComparison* book) {
    const prove::Comparison& found = comparison.comparison;
    std::string text = names_text("New facts: ", found.facts_added) +
                       names_text("Facts that are gone: ", found.facts_removed) +
                       names_text("Facts with other values: ", found.facts_changed) +
                       names_text("New tables: ", found.tables_added) +
                       names_text("Tables that are gone: ", found.tables_removed) +
                       names_text("NOT ANALYSED, too large to compare: ", found.not_analysed);
    std::string table;
    for (const ChangedAnswer* change : in_order_of_weight(comparison)) {
        if (change->table != table) {
            text += (text.empty() ? "" : "\n") + packs::plain_name(change->table) + "\n";
            table = change->table;
        }
        text += change_text(*change, comparison.words);
    }
    if (found.changes.empty() && found.not_analysed.empty()) {
        text += paragraph("No tree gets another answer: both give the same for whatever is seen.");
    }
    return text + "\n" + book_text(book);
}

std::string diff_csv(const RuleComparison& comparison, const BookComparison* book) {
    std::string csv =
        csv_row({"table", "before", "after", "where", "example", "site", "tree", "changes"});
    for (const ChangedAnswer* change : in_order_of_weight(comparison)) {
        for (const prove::Region& region : change->where) {
            csv += csv_row(
                {csv_plain_field(change->table), csv_plain_field(change->before.value_or("")),
                 csv_plain_field(change->after.value_or("")),
                 csv_text_field(region_words(comparison.words, region.values)),
                 csv_text_field(example_words(comparison.words, region.example)), "", "", ""});
        }
    }
    if (book == nullptr) return csv;
    for (const AffectedTree& tree : book->affected) {
        csv += csv_row({"", "", "", "", "", csv_text_field(tree.site), csv_text_field(tree.tree),
                        csv_text_field(packs::joined(tree.changes, "and"))});
    }
    return csv;
}

Json diff_json(const RuleComparison& comparison, const BookComparison* book) {
    const prove::Comparison& found = comparison.comparison;
    Json json{{"differs", differs(comparison)},       {"facts_added", found.facts_added},
              {"facts_removed", found.facts_removed}, {"facts_changed", found.facts_changed},
              {"tables_added", found.tables_added},   {"tables_removed", found.tables_removed},
              {"not_analysed", found.not_analysed}};
    json["changes"] = Json::array();
    for (const ChangedAnswer* change : in_order_of_weight(comparison)) {
        Json regions = Json::array();
        for (const prove::Region& region : change->where) {
            regions.push_back({{"where", region_words(comparison.words, region.values)},
                               {"example", example_words(comparison.words, region.example)}});
        }
        json["changes"].push_back(
            {{"table", change->table},
             {"before", change->before ? Json(*change->before) : Json(nullptr)},
             {"after", change->after ? Json(*change->after) : Json(nullptr)},
             {"regions", std::move(regions)},
             {"more", change->more}});
    }
    json["book"] = nullptr;
    if (book != nullptr) {
        Json trees = Json::array();
        for (const AffectedTree& tree : book->affected) {
            trees.push_back({{"site", tree.site}, {"tree", tree.tree}, {"changes", tree.changes}});
        }
        json["book"] = {{"trees", book->trees}, {"affected", std::move(trees)}};
    }
    return json;
}

}  // namespace ashtriage::present
