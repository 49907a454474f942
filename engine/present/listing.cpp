#include "present/listing.hpp"

#include <algorithm>
#include <map>

#include "present/csv_text.hpp"
#include "present/recommendation_json.hpp"
#include "present/text_layout.hpp"
#include "present/triage_row.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

// Trees with a flag, and trees that are to be removed: what must not be overlooked.
std::vector<const TreeAssessment*> urgent(const std::vector<TreeAssessment>& trees,
                                          const packs::RuleSet& rules) {
    std::vector<const TreeAssessment*> chosen;
    for (const std::size_t index : by_urgency(trees, rules)) {
        const triage::Recommendation& recommended = trees[index].recommendation;
        const bool removal = std::ranges::find(recommended.possible, triage::outcome::remove) !=
                             recommended.possible.end();
        if (!recommended.flags.empty() || removal) chosen.push_back(&trees[index]);
    }
    return chosen;
}

std::vector<TreeAssessment> copies(const std::vector<const TreeAssessment*>& trees) {
    std::vector<TreeAssessment> copied;
    for (const TreeAssessment* tree : trees) copied.push_back(*tree);
    return copied;
}

}  // namespace

std::string triage_text(const std::vector<TreeAssessment>& trees) {
    TextTable table({"Tree", "DBH in", "Recommendation", "", "Hazard flags"});
    std::map<std::string, int> counts;
    for (const TreeAssessment& tree : trees) {
        const triage::Recommendation& recommended = tree.recommendation;
        const std::string outcome = outcome_cell(recommended.possible);
        const std::string shown =
            recommended.treatment_waits ? outcome + ", hazard first" : outcome;
        table.add({tree.tree.label, dbh_cell(tree.facts.dbh), shown, standing(recommended),
                   flag_list(recommended, ", ")});
        ++counts[recommended.decided() ? outcome : "open"];
    }
    std::string text = table.text();
    std::string summary = std::to_string(trees.size()) + (trees.size() == 1 ? " tree:" : " trees:");
    for (const auto& [outcome, count] : counts) {
        summary += " " + std::to_string(count) + " " + outcome + ",";
    }
    summary.pop_back();
    text += "\n" + paragraph(summary + ".");
    return text + paragraph(general_caution());
}

std::string triage_csv(const std::vector<TreeAssessment>& trees) {
    std::string text = triage_csv_header();
    for (const TreeAssessment& tree : trees) append_triage_row(text, tree);
    return text;
}

std::string triage_json(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules) {
    Json json = Json::array();
    for (const TreeAssessment& tree : trees) json.push_back(assessment_json(tree, rules));
    return json.dump(2) + "\n";
}

std::string flags_text(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules) {
    std::string text;
    for (const TreeAssessment* tree : urgent(trees, rules)) {
        const triage::Recommendation& recommended = tree->recommendation;
        std::string title = "Tree " + tree->tree.label;
        if (!tree->tree.place.empty()) title += ", " + tree->tree.place;
        text += paragraph(title + ": " + verdict(recommended));
        for (const triage::HazardFlag& flag : recommended.flags) {
            text += paragraph(outcome_heading(flag.flag) + ". " + flag.reason.because, "  ! ");
            if (!flag.reason.todo.empty()) text += paragraph(flag.reason.todo, "      Now: ");
            if (!flag.reason.who.empty()) text += paragraph(flag.reason.who, "      Who: ");
        }
        if (recommended.flags.empty() && !recommended.reasons.empty()) {
            text += paragraph(recommended.reasons.front().because, "  * ");
        }
        text += '\n';
    }
    if (text.empty()) text = paragraph(no_flag_noted()) + "\n";
    return text + paragraph(general_caution());
}

std::string flags_csv(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules) {
    std::string text =
        csv_row({"tree", "place", "recommendation", "standing", "flag", "because", "now", "who"});
    for (const TreeAssessment* tree : urgent(trees, rules)) {
        const triage::Recommendation& recommended = tree->recommendation;
        const std::vector<std::string> front{csv_text_field(tree->tree.label),
                                             csv_text_field(tree->tree.place),
                                             csv_plain_field(outcome_cell(recommended.possible)),
                                             csv_plain_field(standing(recommended))};
        const auto add = [&](std::string_view flag, const triage::Reason& reason) {
            std::vector<std::string> row = front;
            row.push_back(csv_plain_field(flag));
            row.push_back(csv_text_field(reason.because));
            row.push_back(csv_text_field(reason.todo));
            row.push_back(csv_text_field(reason.who));
            text += csv_row(row);
        };
        for (const triage::HazardFlag& flag : recommended.flags) add(flag.flag, flag.reason);
        if (recommended.flags.empty() && !recommended.reasons.empty()) {
            add({}, recommended.reasons.front());
        }
    }
    return text;
}

std::string flags_json(const std::vector<TreeAssessment>& trees, const packs::RuleSet& rules) {
    return triage_json(copies(urgent(trees, rules)), rules);
}

}  // namespace ashtriage::present
