#include <algorithm>
#include <utility>

#include "measure/date.hpp"
#include "measure/units.hpp"
#include "packs/sources.hpp"
#include "packs/words.hpp"
#include "present/method_comparison.hpp"
#include "present/rule_tables_text.hpp"
#include "present/text_layout.hpp"
#include "present/treatment_words.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

using plan::MethodAnswer;

enum class ComparisonReader { practitioner, owner };

// "1.4 g", "1.4 to 5.6 g", to a tenth of a gram; what is less than a gram keeps its hundredths.
std::string gram_range(measure::Mass from, measure::Mass to, std::string_view between = " to ") {
    const auto text = [](measure::Mass mass) {
        const bool tiny = mass < measure::Mass::of("1", measure::units::gram);
        return mass.text(measure::units::gram, tiny ? 2 : 1);
    };
    const std::string least = text(from);
    const std::string most = text(to);
    return (least == most ? least : least + std::string(between) + most) + " g";
}

std::string year_range(const plan::Interval& interval) {
    if (interval.from_years == interval.to_years) {
        return std::to_string(interval.from_years) + " yr";
    }
    return std::to_string(interval.from_years) + "-" + std::to_string(interval.to_years) + " yr";
}

// "good", "good to doubtful".
std::string fit_range(const MethodAnswer& answer) {
    if (answer.fits.empty()) return "no rule";
    if (answer.fits.size() == 1) return answer.fits.front();
    return answer.fits.front() + " to " + answer.fits.back();
}

std::string active_a_year(const MethodAnswer& answer, const triage::TreeFacts& facts) {
    if (answer.facts->rates.empty()) return "by the label";
    if (!answer.active) return facts.dbh ? "by the label" : "DBH unknown";
    return gram_range(answer.active->from_a_year, answer.active->to_a_year, "-");
}

std::string short_name(const MethodAnswer& answer) {
    return packs::plain_name(answer.facts->method);
}

std::string overview(const ComparedTree& tree) {
    TextTable table({"#", "Method", "Fits", "Every", "Active a year", "Wound"});
    for (const MethodRow& row : method_rows(tree)) {
        table.add({row.mark, row.method, row.fits, row.every, row.active, row.wound});
    }
    return table.text();
}

std::string keys_of(const std::vector<std::string>& sources, ComparisonReader reader) {
    if (reader == ComparisonReader::owner || sources.empty()) return {};
    return " [" + packs::joined(sources, "and") + "]";
}

std::string said_line(const std::string& label, const plan::Said& said, ComparisonReader reader) {
    return paragraph(said.says + keys_of(said.sources, reader), "  " + label);
}

std::string active_text(const MethodAnswer& answer, const triage::TreeFacts& facts,
                        ComparisonReader reader) {
    std::string text = answer.facts->active_ingredient;
    if (answer.active) {
        const plan::ActivePerYear& active = *answer.active;
        text += ": " + gram_range(active.from_a_year, active.to_a_year) + " a year";
        if (answer.facts->interval.to_years > 1) {
            text += ", " + gram_range(active.from_once, active.to_once) + " each time";
        }
        text += active.from_memory ? ", by a rate from memory that nobody checked,"
                                   : ", by published rates";
        text += " for a DBH of " + facts.dbh->with_unit(measure::units::inch, 1) + "." +
                keys_of(active.sources, reader);
    } else if (answer.facts->rates.empty()) {
        text += ": as much as the label says; no published rate is relied upon here.";
    } else {
        text += ": so much by the inch of DBH, which was not measured.";
    }
    return paragraph(text, "  Active: ");
}

std::string reasons_text(const std::vector<triage::Reason>& reasons, const std::string& label,
                         ComparisonReader reader) {
    std::string text;
    for (const triage::Reason& reason : reasons) {
        if (reader == ComparisonReader::owner) {
            if (!reason.client.empty()) text += paragraph(reason.client, "  " + label);
            continue;
        }
        text +=
            paragraph(reason.because + " (" + reason.rule + ")" + keys_of(reason.sources, reader),
                      "  " + label);
        if (!reason.todo.empty()) text += paragraph(reason.todo, "  To do: ");
    }
    return text;
}

std::string questions_text(const MethodAnswer& answer, ComparisonReader reader) {
    std::string text;
    for (const triage::OpenQuestion& question : answer.questions) {
        text += paragraph(reader == ComparisonReader::owner ? question.ask
                                                            : question.ask + " (" + question.fact +
                                                                  ", " + question.why_unknown + ")",
                          "  ? ");
    }
    return text;
}

std::string dates_text(const MethodAnswer& answer, ComparisonReader reader) {
    if (answer.facts->dates) return said_line("Dates: ", *answer.facts->dates, reader);
    if (!answer.window) return {};
    return paragraph(window_words(*answer.window), "  Dates: ");
}

std::string method_text(const MethodAnswer& answer, const std::string& title,
                        const triage::TreeFacts& facts, ComparisonReader reader) {
    std::string text = "\n" + paragraph(title);
    if (reader == ComparisonReader::practitioner) text += paragraph(fit_range(answer), "  Fits: ");
    text += reasons_text(answer.in_favour, "For: ", reader);
    text += reasons_text(answer.against, "Against: ", reader);
    text += reasons_text(answer.wait_for, "Not today: ", reader);
    text += said_line("How often: ", answer.facts->interval.words, reader);
    text += active_text(answer, facts, reader);
    text += said_line("Wound: ", answer.facts->wound, reader);
    if (answer.evidence != nullptr) {
        text += said_line("Found for this size: ", answer.evidence->words, reader);
    }
    text += dates_text(answer, reader);
    if (!answer.questions.empty()) {
        text += paragraph("Not known, and bears on it:", "  ");
        text += questions_text(answer, reader);
    }
    return text;
}

std::string ruled_out_text(const MethodAnswer& answer, ComparisonReader reader) {
    return "\n" + paragraph(answer.facts->title) +
           reasons_text(answer.ruled_out_by, "No: ", reader);
}

std::string notes_text(const plan::MethodComparison& methods) {
    std::string text;
    if (!methods.contradiction.empty()) text += paragraph(methods.contradiction, "WARNING: ");
    if (methods.ranked.empty()) {
        text += paragraph(methods.open.empty()
                              ? "Every method is ruled out."
                              : "No method is certain yet; what is still to be found out decides.",
                          "* ");
    }
    if (methods.fits_better) {
        text += paragraph(
            "The first choice goes by what every walk-around records. Something "
            "beyond that speaks against it, and \"" +
                methods.ranked[*methods.fits_better].facts->title +
                "\" fits better: weigh the two before anything is ordered.",
            "* ");
    }
    if (methods.still_in_time) {
        text += paragraph("The dates of the first choice are over for this year; \"" +
                              methods.ranked[*methods.still_in_time].facts->title +
                              "\" need not wait for the next.",
                          "* ");
    }
    return text;
}

std::string comparison_title(const TreeAssessment& tree) {
    std::string title = "Tree " + tree.tree.label;
    if (!tree.tree.place.empty()) title += ", " + tree.tree.place;
    title += ": " + stems_words(tree.facts);
    return underlined(title, '=');
}

// What comes before any method is talked about.
std::string standing_of(const ComparedTree& tree, ComparisonReader reader) {
    const triage::Recommendation& recommended = tree.tree.recommendation;
    std::string text = reader == ComparisonReader::owner
                           ? paragraph("Our advice: " + advice_for_client(recommended))
                           : paragraph("Recommendation: " + verdict(recommended));
    for (const triage::HazardFlag& flag : recommended.flags) {
        text += paragraph(reader == ComparisonReader::owner && !flag.reason.client.empty()
                              ? flag.reason.client
                              : flag.reason.because,
                          "Take care: ");
    }
    if (recommended.treatment_waits) {
        text += paragraph(reader == ComparisonReader::owner ? recommended.treatment_waits->client
                                                            : recommended.treatment_waits->because,
                          "Not before: ");
    }
    if (tree.tree.not_before) text += paragraph(treated_this_season_note(), "* ");
    if (tree.methods && recommended.decided() &&
        recommended.possible.front() != triage::outcome::treat) {
        text += paragraph("Nothing is to be treated now. This is what treatment would be.", "* ");
    }
    return text;
}

std::string tree_text(const ComparedTree& tree, ComparisonReader reader) {
    std::string text = comparison_title(tree.tree) + standing_of(tree, reader);
    if (!tree.methods) return text + paragraph(why_not_compared(tree));
    const plan::MethodComparison& methods = *tree.methods;
    text += notes_text(methods);
    text += "\n" + overview(tree);
    for (std::size_t i = 0; i < methods.ranked.size(); ++i) {
        std::string title = std::to_string(i + 1) + ". " + methods.ranked[i].facts->title;
        if (methods.ranked[i].first_choice) title += " (first choice)";
        text += method_text(methods.ranked[i], title, tree.tree.facts, reader);
    }
    if (!methods.open.empty())
        text += section_heading("Open: what is not known may still rule these out");
    for (const MethodAnswer& answer : methods.open) {
        text += method_text(answer, answer.facts->title, tree.tree.facts, reader);
    }
    if (!methods.ruled_out.empty()) text += section_heading("Ruled out");
    for (const MethodAnswer& answer : methods.ruled_out) text += ruled_out_text(answer, reader);
    return text;
}

std::string closing() {
    return "\n" +
           paragraph(
               "Amounts of active ingredient are for comparing methods. What to measure out "
               "comes from the label in hand, never from this page.") +
           paragraph(general_caution());
}

// The keys used anywhere, in the order of their first use.
class UsedSources {
 public:
    void add(const MethodAnswer& answer) {
        for (const auto* reasons :
             {&answer.ruled_out_by, &answer.against, &answer.in_favour, &answer.wait_for}) {
            for (const triage::Reason& reason : *reasons) add(reason.sources);
        }
        if (answer.standing == plan::Standing::ruled_out) return;
        add(answer.facts->interval.words.sources);
        add(answer.facts->wound.sources);
        if (answer.active) add(answer.active->sources);
        if (answer.evidence != nullptr) add(answer.evidence->words.sources);
        if (answer.facts->dates) add(answer.facts->dates->sources);
    }

    std::string text(const packs::RuleSet& rules) const {
        std::string text = section_heading("Sources");
        for (const std::string& key : keys_) {
            if (const packs::Source* source = rules.find_source(key)) {
                text += paragraph(source->citation + " (" +
                                      std::string(packs::evidence_text(source->evidence)) + ")",
                                  "[" + key + "] ");
            }
        }
        return text;
    }

 private:
    void add(const std::vector<std::string>& keys) {
        for (const std::string& key : keys) {
            if (std::ranges::find(keys_, key) == keys_.end()) keys_.push_back(key);
        }
    }

    std::vector<std::string> keys_;
};

}  // namespace

std::vector<MethodRow> method_rows(const ComparedTree& tree) {
    std::vector<MethodRow> rows;
    if (!tree.methods) return rows;
    const auto add = [&](const MethodAnswer& answer, std::string mark) {
        const bool open = answer.standing == plan::Standing::open;
        std::vector<std::string> sources = answer.facts->interval.words.sources;
        const auto take = [&](const std::vector<std::string>& keys) {
            sources.insert(sources.end(), keys.begin(), keys.end());
        };
        take(answer.facts->wound.sources);
        if (answer.active) take(answer.active->sources);
        if (answer.evidence != nullptr) take(answer.evidence->words.sources);
        rows.push_back({std::move(mark), short_name(answer), open ? "open" : fit_range(answer),
                        year_range(answer.facts->interval), active_a_year(answer, tree.tree.facts),
                        answer.facts->wounds ? "yes" : "no",
                        answer.evidence == nullptr ? "" : answer.evidence->words.says,
                        std::move(sources)});
    };
    for (std::size_t i = 0; i < tree.methods->ranked.size(); ++i) {
        add(tree.methods->ranked[i], std::to_string(i + 1));
    }
    for (const MethodAnswer& answer : tree.methods->open) add(answer, "?");
    for (const MethodAnswer& answer : tree.methods->ruled_out) add(answer, "-");
    return rows;
}

std::string methods_text(const std::vector<ComparedTree>& trees, const packs::RuleSet& rules) {
    std::string text;
    UsedSources used;
    for (const ComparedTree& tree : trees) {
        if (!text.empty()) text += "\n";
        text += tree_text(tree, ComparisonReader::practitioner);
        if (!tree.methods) continue;
        for (const auto* answers :
             {&tree.methods->ranked, &tree.methods->open, &tree.methods->ruled_out}) {
            for (const MethodAnswer& answer : *answers) used.add(answer);
        }
    }
    text += used.text(rules);
    text += paragraph("Rules: " + editions_words(rules));
    return text + closing();
}

std::string methods_for_owner(const std::vector<ComparedTree>& trees) {
    std::string text;
    for (const ComparedTree& tree : trees) {
        if (!text.empty()) text += "\n";
        text += tree_text(tree, ComparisonReader::owner);
    }
    return text + closing();
}

}  // namespace ashtriage::present
