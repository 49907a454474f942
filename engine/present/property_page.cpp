#include "present/property_page.hpp"

#include <algorithm>
#include <map>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "packs/value_text.hpp"
#include "packs/words.hpp"
#include "present/method_comparison.hpp"
#include "present/planned_work.hpp"
#include "present/property_page_template.hpp"
#include "present/template_values.hpp"
#include "present/treatment_words.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

using ctemplate::TemplateDictionary;

std::string summary_of(const PropertyAssessment& property) {
    std::map<std::string, int> counts;
    for (const TreeAssessment& tree : property.trees) {
        const auto& recommended = tree.recommendation;
        ++counts[recommended.decided() ? outcome_words(recommended.possible.front())
                                       : std::string("still open")];
    }
    std::vector<std::string> parts;
    for (const auto& [outcome, count] : counts) {
        parts.push_back(std::to_string(count) + " " + outcome);
    }
    const std::string trees = property.trees.size() == 1 ? " tree was" : " trees were";
    return std::to_string(property.trees.size()) + trees + " looked at" +
           (parts.empty() ? "" : ": " + packs::joined(parts, "and")) + ".";
}

// Where a percentage stands on the drawn scale, in the units of the drawing.
double on_scale(double percent) {
    return 20.0 + 3.0 * percent;
}

std::string coordinate(double value) {
    std::string text = std::to_string(value);
    return text.substr(0, text.find('.') + 2);
}

void add_gauge(TemplateDictionary& section, const TreeAssessment& tree,
               const packs::RuleSet& rules) {
    const auto loss = rules.model.find_fact(triage::fact::canopy_loss);
    const packs::Setting* good = rules.find_setting("good_below");
    const packs::Setting* stop = rules.find_setting("stop_above");
    if (!loss || good == nullptr || stop == nullptr) return;
    const reason::Interval* judged = tree.recommendation.facts[*loss].interval();
    if (judged == nullptr) return;

    const reason::Fact& fact = rules.model.facts[*loss];
    const reason::Interval band = reason::widened(*judged, fact.eye_error, fact.range);
    const std::string value =
        packs::value_text(fact, rules.facts[*loss], tree.recommendation.facts[*loss]);
    const auto percent = [](double number) {
        return std::to_string(static_cast<int>(number)) + " %";
    };
    constexpr double thinnest = 4.0;  // a single figure still needs a mark that can be seen
    const double width = std::max(thinnest, on_scale(judged->high) - on_scale(judged->low));
    const double middle = (on_scale(judged->high) + on_scale(judged->low)) / 2.0;

    TemplateDictionary& gauge = *section.AddSectionDictionary("GAUGE");
    set(gauge, "VALUE", value);
    set(gauge, "GOOD", percent(good->value));
    set(gauge, "STOP", percent(stop->value));
    set(gauge, "GOOD_X", coordinate(on_scale(good->value)));
    set(gauge, "STOP_X", coordinate(on_scale(stop->value)));
    set(gauge, "BAND_X", coordinate(on_scale(band.low)));
    set(gauge, "BAND_WIDTH", coordinate(on_scale(band.high) - on_scale(band.low)));
    set(gauge, "VALUE_X", coordinate(middle - width / 2.0));
    set(gauge, "VALUE_WIDTH", coordinate(width));
    set(gauge, "ALT",
        "Crown loss " + value + " on a scale from 0 to 100 %, with lines at " +
            percent(good->value) + " and " + percent(stop->value));
}

void add_hazards(TemplateDictionary& section, const triage::Recommendation& recommended) {
    for (const triage::HazardFlag& flag : recommended.flags) {
        TemplateDictionary& hazard = *section.AddSectionDictionary("HAZARD");
        set(hazard, "FLAG", with_capital(flag_words(flag.flag)));
        set(hazard, "WHY", flag.reason.client.empty() ? flag.reason.because : flag.reason.client);
        set_if_any(hazard, "TODO_SECTION", "TODO", flag.reason.todo);
        set_if_any(hazard, "WHO_SECTION", "WHO", flag.reason.who);
    }
    if (recommended.flags.empty()) {
        set(*section.AddSectionDictionary("NO_HAZARD"), "TEXT", no_flag_noted());
    }
    set_if_any(section, "UNSEEN_SECTION", "UNSEEN",
               packs::joined(recommended.hazards_not_looked_at, "and"));
    set_if_any(
        section, "RATING_SECTION", "RATING",
        recommended.risk_rating.empty() ? std::string{} : outcome_words(recommended.risk_rating));
}

void add_treatment(TemplateDictionary& section, const TreeAssessment& tree) {
    if (!tree.treatment) return;
    const plan::Treatment& treatment = *tree.treatment;
    TemplateDictionary& part = *section.AddSectionDictionary("TREATMENT");
    set(part, "METHOD", with_capital(packs::plain_name(treatment.method)));
    set(part, "WINDOW", window_words(treatment.window));
    if (treatment.window.window) {
        for (const std::string& caution : treatment.window.window->cautions) {
            set(*part.AddSectionDictionary("CAUTION"), "TEXT", caution);
        }
    }
    for (const triage::Reason& reason : tree.recommendation.method) {
        if (!reason.client.empty()) {
            set(*part.AddSectionDictionary("METHOD_WHY"), "TEXT", reason.client);
        }
    }
    if (!treatment.card) return;
    const std::string notice = treat::example_notice(*treatment.card);
    if (!notice.empty()) set(*part.AddSectionDictionary("EXAMPLE"), "TEXT", notice);
    if (!treatment.dose->amounts.empty()) {
        TemplateDictionary& amounts = *part.AddSectionDictionary("AMOUNTS_SECTION");
        for (const treat::MeasuredAmount& amount : treatment.dose->amounts) {
            TemplateDictionary& row = *amounts.AddSectionDictionary("AMOUNT");
            set(row, "WHAT", with_capital(amount.what));
            set(row, "AMOUNT", amount.text);
            set(row, "TWIN", amount.twin);
        }
    }
    for (const treat::Finding& finding : treatment.dose->findings) {
        // That the card is an example is said above the amounts.
        if (finding.severity == treat::Severity::note || finding.id == treat::example_finding)
            continue;
        const std::string_view word =
            finding.severity == treat::Severity::stop ? "STOP: " : "WARNING: ";
        set(*part.AddSectionDictionary("FINDING"), "TEXT", std::string(word) + finding.text);
    }
}

// The methods side by side, for a tree that is to be treated; none for another.
std::vector<MethodRow> comparison_for(const TreeAssessment& tree,
                                      const PropertyAssessment& property,
                                      const Knowledge& knowledge) {
    if (!is_to_be_treated(tree)) return {};
    return method_rows(compare_methods_for(knowledge, &property.site, tree, property.as_of));
}

void add_comparison(TemplateDictionary& section, const std::vector<MethodRow>& rows) {
    if (rows.empty()) return;
    TemplateDictionary& comparison = *section.AddSectionDictionary("COMPARISON");
    for (const MethodRow& each : rows) {
        TemplateDictionary& row = *comparison.AddSectionDictionary("METHOD_ROW");
        set(row, "NAME", each.method);
        set(row, "FITS", each.mark == "-" ? "ruled out" : each.fits);
        set(row, "EVERY", each.every);
        set(row, "ACTIVE", each.active);
        set(row, "WOUND", each.wound);
        set(row, "FOUND", each.found);
    }
}

// Why the recommendation is what it is and, where it cannot be followed by any method, why not.
std::vector<triage::Reason> reasons_to_tell(const TreeAssessment& tree) {
    std::vector<triage::Reason> reasons = tree.recommendation.reasons;
    if (tree.no_method_fits() && !tree.recommendation.treatment_waits) {
        const auto& method = tree.recommendation.method;
        reasons.insert(reasons.end(), method.begin(), method.end());
    }
    return reasons;
}

std::vector<std::string> client_reasons(const std::vector<triage::Reason>& reasons) {
    std::vector<std::string> texts;
    for (const triage::Reason& reason : reasons) {
        const std::string& text = reason.client.empty() ? reason.because : reason.client;
        if (!text.empty() && std::ranges::find(texts, text) == texts.end()) texts.push_back(text);
    }
    return texts;
}

void add_tree(TemplateDictionary& page, const TreeAssessment& tree, const packs::RuleSet& rules,
              const std::vector<MethodRow>& comparison) {
    const triage::Recommendation& recommended = tree.recommendation;
    TemplateDictionary& section = *page.AddSectionDictionary("TREE");
    set(section, "LABEL", tree.tree.label);
    set_if_any(section, "PLACE_SECTION", "PLACE", tree.tree.place);
    set(section, "STEM", with_capital(stems_words(tree.facts)));
    set(section, "WALKED", measure::long_text(tree.walk_around.date));
    set_if_any(section, "OBSERVER_SECTION", "OBSERVER", tree.walk_around.observer);
    set(section, "ADVICE", advice_for_client(recommended));
    add_hazards(section, recommended);
    add_gauge(section, tree, rules);
    const std::vector<triage::Reason> reasons = reasons_to_tell(tree);
    add_list(section, "REASONS_SECTION", "REASON", client_reasons(reasons));

    std::vector<std::string> next;
    if (recommended.treatment_waits) next.push_back(recommended.treatment_waits->todo);
    for (const triage::Reason& reason : reasons) {
        if (!reason.todo.empty()) next.push_back(reason.todo);
    }
    const std::string again = measure_again_words(recommended);
    if (!again.empty()) next.push_back(again);
    add_list(section, "NEXT_SECTION", "NEXT", next);

    std::vector<std::string> open;
    for (const auto* questions : {&recommended.open_questions, &recommended.method_questions}) {
        for (const triage::OpenQuestion& question : *questions) {
            open.push_back(question.ask + " (" + question.why_unknown + ")");
        }
    }
    add_list(section, "OPEN_SECTION", "OPEN", open);

    std::vector<std::string> changes;
    for (const triage::WhatWouldChange& change : recommended.changes) {
        changes.push_back(with_capital(change_words(change)) + ".");
    }
    add_list(section, "CHANGE_SECTION", "CHANGE", changes);
    add_treatment(section, tree);
    add_comparison(section, comparison);

    std::vector<std::string> notes = tree.doubts;
    if (tree.not_before) notes.emplace_back(treated_this_season_note());
    notes.insert(notes.end(), recommended.notes.begin(), recommended.notes.end());
    if (!tree.walk_around.notes.empty()) notes.push_back(tree.walk_around.notes);
    add_list(section, "NOTES_SECTION", "NOTE", notes);
}

void add_urgent(TemplateDictionary& page, const PropertyAssessment& property,
                const packs::RuleSet& rules) {
    TemplateDictionary* list = nullptr;
    for (const std::size_t index : by_urgency(property.trees, rules)) {
        const TreeAssessment& tree = property.trees[index];
        if (tree.recommendation.flags.empty()) continue;
        if (list == nullptr) list = page.AddSectionDictionary("URGENT_SECTION");
        std::vector<std::string> flags;
        for (const auto& flag : tree.recommendation.flags) flags.push_back(flag_words(flag.flag));
        TemplateDictionary& entry = *list->AddSectionDictionary("URGENT");
        set(entry, "LABEL", tree.tree.label);
        set_if_any(entry, "PLACE_SECTION", "PLACE", tree.tree.place);
        set(entry, "FLAGS", packs::joined(flags, "and"));
        set(entry, "TODO", tree.recommendation.flags.front().reason.todo);
    }
}

void add_sources(TemplateDictionary& page, const PropertyAssessment& property,
                 const packs::RuleSet& rules, std::vector<std::string> keys) {
    const auto add = [&](const triage::Reason& reason) {
        keys.insert(keys.end(), reason.sources.begin(), reason.sources.end());
    };
    for (const TreeAssessment& tree : property.trees) {
        for (const auto& flag : tree.recommendation.flags) add(flag.reason);
        std::ranges::for_each(tree.recommendation.reasons, add);
        std::ranges::for_each(tree.recommendation.method, add);
        if (tree.recommendation.treatment_waits) add(*tree.recommendation.treatment_waits);
    }
    std::ranges::sort(keys);
    keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    for (const std::string& key : keys) {
        if (const packs::Source* source = rules.find_source(key)) {
            set(*page.AddSectionDictionary("SOURCE"), "TEXT", source->citation);
        }
    }
}

}  // namespace

std::string property_page(const PropertyAssessment& property, const Knowledge& knowledge) {
    const packs::RuleSet& rules = knowledge.judge.rules();
    TemplateDictionary page("property page");
    set(page, "SITE", property.site.name);
    set_if_any(page, "ADDRESS_SECTION", "ADDRESS", property.site.address);
    set_if_any(page, "CLIENT_SECTION", "CLIENT", property.client.name);
    set(page, "DATE", measure::long_text(property.as_of));
    set(page, "SUMMARY", summary_of(property));
    add_urgent(page, property, rules);
    std::vector<std::string> compared;  // keys of sources of the comparisons
    for (const TreeAssessment& tree : property.trees) {
        TemplateDictionary& row = *page.AddSectionDictionary("ROW");
        set(row, "LABEL", tree.tree.label);
        set(row, "PLACE", tree.tree.place);
        set(row, "STEM", stems_words(tree.facts));
        set(row, "VERDICT", with_capital(verdict(tree.recommendation)));
        const std::vector<MethodRow> comparison = comparison_for(tree, property, knowledge);
        for (const MethodRow& each : comparison) {
            compared.insert(compared.end(), each.sources.begin(), each.sources.end());
        }
        add_tree(page, tree, rules, comparison);
    }
    std::vector<std::string> labels;
    for (const observe::Tree& tree : property.not_walked) labels.push_back(tree.label);
    set_if_any(page, "NOT_WALKED_SECTION", "NOT_WALKED", packs::joined(labels, "and"));

    set(page, "GENERAL_CAUTION", general_caution());
    add_sources(page, property, rules, std::move(compared));
    set(page, "EDITIONS", editions_words(rules));
    set(page, "PRESET", rules.preset.empty() ? "default" : rules.preset);
    set(page, "HASH", rules.hash.substr(0, 12));

    return expanded("property_page", property_page_template, page);
}

}  // namespace ashtriage::present
