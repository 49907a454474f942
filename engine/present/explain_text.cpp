#include "present/explain_text.hpp"

#include <algorithm>

#include "measure/date.hpp"
#include "packs/words.hpp"
#include "present/text_layout.hpp"
#include "present/treatment_words.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

namespace {

std::string title_of(const TreeAssessment& tree) {
    std::string title = "Tree " + tree.tree.label;
    if (!tree.tree.place.empty()) title += ", " + tree.tree.place;
    std::string text = paragraph(title);
    std::string visit =
        stems_words(tree.facts) + "; walked round on " + measure::long_text(tree.walk_around.date);
    if (!tree.walk_around.observer.empty()) visit += " by " + tree.walk_around.observer;
    return text + paragraph(visit);
}

std::string source_list(const std::vector<std::string>& keys) {
    return keys.empty() ? std::string{} : "[" + packs::joined(keys, "and") + "]";
}

std::string comparison_text(const triage::Comparison& comparison) {
    std::string met = "not known whether met";
    if (comparison.met == reason::Truth::yes) met = "met";
    if (comparison.met == reason::Truth::no) met = "not met";
    return comparison.condition + ": " + comparison.observed + " (" + met + ")";
}

std::string reason_text(const triage::Reason& reason) {
    std::string text = paragraph(reason.because, "* ");
    for (const triage::Comparison& comparison : reason.comparisons) {
        // Of alternatives, the ones that were not met do not explain why the rule held.
        if (comparison.met == reason::Truth::no) continue;
        text += paragraph(comparison_text(comparison), "    - ");
    }
    text += paragraph("rule " + reason.rule + " " + source_list(reason.sources), "    ");
    return text;
}

std::string questions_text(const std::vector<triage::OpenQuestion>& questions) {
    std::string text;
    for (const triage::OpenQuestion& question : questions) {
        text += paragraph(question.ask + " (" + question.why_unknown + ")", "? ");
    }
    return text;
}

std::string flags_text(const triage::Recommendation& recommended) {
    std::string text = section_heading("Hazard flags");
    for (const triage::HazardFlag& flag : recommended.flags) {
        text += paragraph(outcome_heading(flag.flag) + ". " + flag.reason.because, "! ");
        if (!flag.reason.todo.empty()) text += paragraph(flag.reason.todo, "    Now: ");
        if (!flag.reason.who.empty()) text += paragraph(flag.reason.who, "    Who: ");
        text += paragraph(source_list(flag.reason.sources), "    ");
    }
    if (recommended.flags.empty()) text += paragraph(no_flag_noted());
    if (!recommended.hazards_not_looked_at.empty()) {
        text += paragraph("Not looked at, or not seen: " +
                          packs::joined(recommended.hazards_not_looked_at, "and") + ".");
    }
    if (!recommended.risk_rating.empty()) {
        text += paragraph("Risk rating from the assessor's entries: " +
                          outcome_words(recommended.risk_rating) + ".");
    }
    return text;
}

std::string recommendation_text(const triage::Recommendation& recommended) {
    std::string text = section_heading("Recommendation: " + verdict(recommended));
    const std::string again = measure_again_words(recommended);
    if (!again.empty()) text += paragraph(again);
    text += questions_text(recommended.open_questions);
    for (const triage::Reason& reason : recommended.reasons) text += reason_text(reason);
    const std::string forced = forced_by_words(recommended);
    if (!forced.empty()) text += paragraph(forced);
    return text;
}

std::string what_next(const TreeAssessment& tree) {
    std::string text;
    for (const triage::Reason& reason : tree.recommendation.reasons) {
        if (!reason.todo.empty()) text += paragraph(reason.todo, "* ");
    }
    return text.empty() ? text : section_heading("What to do next") + text;
}

std::string changes_text(const triage::Recommendation& recommended) {
    std::string text;
    for (const triage::WhatWouldChange& change : recommended.changes) {
        text += paragraph(change_words(change), "* ");
    }
    if (!recommended.outranked.empty()) {
        text += paragraph("Rules that hold too and give way:");
        for (const triage::Reason& reason : recommended.outranked) {
            text += paragraph(reason.rule + " (" + outcome_words(reason.outcome) + ")", "  - ");
        }
    }
    if (!recommended.not_met.empty()) {
        text += paragraph("Rules that came near:");
        for (const triage::Reason& reason : recommended.not_met) {
            std::string line = reason.rule + " (" + outcome_words(reason.outcome) + "):";
            text += paragraph(line, "  - ");
            for (const triage::Comparison& comparison : reason.comparisons) {
                text += paragraph(comparison_text(comparison), "      ");
            }
        }
    }
    return text.empty() ? text : section_heading("What would change it") + text;
}

std::string notes_text(const TreeAssessment& tree) {
    std::string text;
    for (const std::string& doubt : tree.doubts) text += paragraph(doubt, "? ");
    if (tree.not_before) text += paragraph(treated_this_season_note(), "* ");
    for (const std::string& note : tree.recommendation.notes) text += paragraph(note, "* ");
    if (!tree.recommendation.unknown_but_idle.empty()) {
        text += paragraph("Not known, and without bearing on the recommendation: " +
                              packs::joined(tree.recommendation.unknown_but_idle, "and") + ".",
                          "* ");
    }
    if (!tree.walk_around.notes.empty()) text += paragraph(tree.walk_around.notes, "Noted: ");
    return text.empty() ? text : section_heading("Notes") + text;
}

std::string sources_text(const TreeAssessment& tree, const packs::RuleSet& rules) {
    std::vector<std::string> keys;
    const auto add = [&](const triage::Reason& reason) {
        for (const std::string& key : reason.sources) {
            if (std::ranges::find(keys, key) == keys.end()) keys.push_back(key);
        }
    };
    for (const auto& flag : tree.recommendation.flags) add(flag.reason);
    for (const auto& reason : tree.recommendation.reasons) add(reason);
    for (const auto& reason : tree.recommendation.method) add(reason);
    if (tree.recommendation.treatment_waits) add(*tree.recommendation.treatment_waits);
    std::string text = section_heading("Sources");
    for (const std::string& key : keys) {
        if (const packs::Source* source = rules.find_source(key)) {
            text += paragraph("[" + key + "] " + source->citation, "");
        }
    }
    text +=
        paragraph("Rules: " + tree.recommendation.rules_edition + "; preset: " +
                  (tree.recommendation.preset.empty() ? "default" : tree.recommendation.preset) +
                  "; " + tree.recommendation.rules_hash.substr(0, 12));
    return text;
}

}  // namespace

std::string explanation(const TreeAssessment& tree, const packs::RuleSet& rules) {
    std::string text = title_of(tree);
    text += flags_text(tree.recommendation);
    text += recommendation_text(tree.recommendation);
    text += what_next(tree);
    if (tree.recommendation.treatment_waits) {
        text += section_heading("Treatment: not before the hazard has been judged");
        text += reason_text(*tree.recommendation.treatment_waits);
        text += paragraph(tree.recommendation.treatment_waits->todo);
    } else if (tree.treatment) {
        text += section_heading("Treatment");
        for (const triage::Reason& reason : tree.recommendation.method) text += reason_text(reason);
        text += treatment_text(*tree.treatment);
    } else if (tree.no_method_fits()) {
        text += section_heading("Treatment: no method fits");
        for (const triage::Reason& reason : tree.recommendation.method) {
            text += reason_text(reason);
            if (!reason.todo.empty()) text += paragraph(reason.todo, "* ");
        }
    } else if (!tree.recommendation.method_questions.empty()) {
        text += section_heading("Treatment: the method is still open");
        text += questions_text(tree.recommendation.method_questions);
    }
    text += changes_text(tree.recommendation);
    text += notes_text(tree);
    text += sources_text(tree, rules);
    text += "\n" + paragraph(general_caution());
    return text;
}

std::string explanation_for_client(const TreeAssessment& tree) {
    const triage::Recommendation& recommended = tree.recommendation;
    std::string text = title_of(tree);
    for (const triage::HazardFlag& flag : recommended.flags) {
        text += "\n" + paragraph("Take care: " + (flag.reason.client.empty() ? flag.reason.because
                                                                             : flag.reason.client));
        if (!flag.reason.todo.empty()) text += paragraph(flag.reason.todo);
    }
    text += "\n" + paragraph("Our advice: " + advice_for_client(recommended));
    for (const triage::Reason& reason : recommended.reasons) {
        if (!reason.client.empty()) text += paragraph(reason.client);
    }
    for (const triage::OpenQuestion& question : recommended.open_questions) {
        text += paragraph("Still to be found out: " + question.ask);
    }
    if (recommended.treatment_waits) text += "\n" + paragraph(recommended.treatment_waits->client);
    if (tree.treatment) {
        text += "\n";
        for (const triage::Reason& reason : recommended.method) {
            if (!reason.client.empty()) text += paragraph(reason.client);
        }
        text += paragraph(window_words(tree.treatment->window));
    } else if (tree.no_method_fits() && !recommended.treatment_waits) {
        text += "\n";
        for (const triage::Reason& reason : recommended.method) {
            if (!reason.client.empty()) text += paragraph(reason.client);
            if (!reason.todo.empty()) text += paragraph(reason.todo);
        }
    }
    return text + "\n" + paragraph(general_caution());
}

std::string treatment_text(const plan::Treatment& treatment) {
    std::string text = paragraph("Method: " + packs::plain_name(treatment.method));
    text += paragraph(window_words(treatment.window));
    if (treatment.window.window) {
        for (const std::string& caution : treatment.window.window->cautions) {
            text += paragraph(caution, "  - ");
        }
    }
    if (!treatment.card) {
        return text + paragraph(
                          "There is no label card for this method, so no amounts are given. "
                          "Type one in from the label in your hand.");
    }
    return text + dose_text(*treatment.card, *treatment.dose);
}

}  // namespace ashtriage::present
