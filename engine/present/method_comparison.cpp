#include "present/method_comparison.hpp"

#include <algorithm>
#include <utility>

#include "measure/units.hpp"
#include "present/csv_text.hpp"
#include "present/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

// Places after the point: a milligram, finer than any rate is published.
constexpr int gram_places = 3;

std::string grams(measure::Mass mass) {
    return mass.text(measure::units::gram, gram_places);
}

std::string_view state_words(season::WindowState state) {
    switch (state) {
        case season::WindowState::open_now:
            return "open now";
        case season::WindowState::opens_later_this_year:
            return "opens later this year";
        case season::WindowState::passed_so_next_year:
            return "over for this year";
        case season::WindowState::none_here:
            return "none here";
    }
    return {};
}

bool may_come_to(const triage::Recommendation& recommended, std::string_view outcome) {
    return std::ranges::find(recommended.possible, outcome) != recommended.possible.end();
}

// Each method of the tree with its place among the ranked, 0 for the others.
template <class Visit>
void for_each_method(const plan::MethodComparison& methods, Visit&& visit) {
    for (std::size_t i = 0; i < methods.ranked.size(); ++i) visit(methods.ranked[i], i + 1);
    for (const plan::MethodAnswer& answer : methods.open) visit(answer, std::size_t{0});
    for (const plan::MethodAnswer& answer : methods.ruled_out) visit(answer, std::size_t{0});
}

std::string becauses(const plan::MethodAnswer& answer) {
    std::string text;
    for (const auto* reasons :
         {&answer.ruled_out_by, &answer.against, &answer.in_favour, &answer.wait_for}) {
        for (const triage::Reason& reason : *reasons) {
            text += (text.empty() ? "" : " ") + reason.because;
        }
    }
    return text;
}

std::string to_find_out(const plan::MethodAnswer& answer) {
    std::string text;
    for (const triage::OpenQuestion& question : answer.questions) {
        text += (text.empty() ? "" : "; ") + question.fact;
    }
    return text;
}

std::string method_row(const std::string& label, const plan::MethodAnswer& answer,
                       std::size_t place) {
    const plan::MethodFacts& facts = *answer.facts;
    const season::NextWindow* next = answer.window ? &*answer.window : nullptr;
    const season::Window* window = next != nullptr && next->window ? &*next->window : nullptr;
    std::string fits;
    for (const std::string& fit : answer.fits) fits += (fits.empty() ? "" : " or ") + fit;
    return csv_row({
        csv_text_field(label),
        place == 0 ? std::string() : std::to_string(place),
        csv_plain_field(facts.method),
        csv_plain_field(standing_words(answer.standing)),
        answer.first_choice ? "yes" : "no",
        csv_plain_field(fits),
        std::to_string(facts.interval.from_years),
        std::to_string(facts.interval.to_years),
        csv_text_field(facts.active_ingredient),
        answer.active ? grams(answer.active->from_a_year) : std::string(),
        answer.active ? grams(answer.active->to_a_year) : std::string(),
        facts.wounds ? "yes" : "no",
        next == nullptr ? std::string() : csv_plain_field(state_words(next->state)),
        window == nullptr ? std::string() : measure::text(window->opens),
        window == nullptr ? std::string() : measure::text(window->closes),
        csv_text_field(answer.evidence == nullptr ? "" : answer.evidence->words.says),
        csv_text_field(becauses(answer)),
        csv_plain_field(to_find_out(answer)),
    });
}

// A row of a tree whose methods were not compared, as wide as the others.
std::string row_without_methods(const ComparedTree& tree) {
    return csv_row({csv_text_field(tree.tree.tree.label), "", "", "not compared", "", "", "", "",
                    "", "", "", "", "", "", "", "", csv_text_field(why_not_compared(tree)), ""});
}

Json reasons_json(const std::vector<triage::Reason>& reasons) {
    Json json = Json::array();
    for (const triage::Reason& reason : reasons) json.push_back(reason_json(reason));
    return json;
}

Json said_json(const plan::Said& said) {
    return {{"says", said.says}, {"sources", said.sources}};
}

Json active_json(const std::optional<plan::ActivePerYear>& active) {
    if (!active) return nullptr;
    return {{"grams_once_from", grams(active->from_once)},
            {"grams_once_to", grams(active->to_once)},
            {"grams_a_year_from", grams(active->from_a_year)},
            {"grams_a_year_to", grams(active->to_a_year)},
            {"from_memory", active->from_memory},
            {"sources", active->sources}};
}

Json dates_json(const plan::MethodAnswer& answer) {
    Json json = Json::object();
    if (answer.facts->dates) json["in_words"] = said_json(*answer.facts->dates);
    if (!answer.window) return json;
    json["state"] = state_words(answer.window->state);
    if (const auto& window = answer.window->window) {
        json["opens"] = measure::text(window->opens);
        json["best_until"] = measure::text(window->best_until);
        json["closes"] = measure::text(window->closes);
        json["give_or_take_days"] = window->give_or_take_days;
    }
    return json;
}

Json method_json(const plan::MethodAnswer& answer, std::size_t place) {
    const plan::MethodFacts& facts = *answer.facts;
    Json json{{"method", facts.method}, {"title", facts.title}};
    json["standing"] = standing_words(answer.standing);
    json["rank"] = place == 0 ? Json(nullptr) : Json(place);
    json["first_choice"] = answer.first_choice;
    json["may_be_first_choice"] = answer.may_be_first_choice;
    json["fits"] = answer.fits;
    json["interval"] = {{"from_years", facts.interval.from_years},
                        {"to_years", facts.interval.to_years},
                        {"says", facts.interval.words.says},
                        {"sources", facts.interval.words.sources}};
    json["active_ingredient"] = facts.active_ingredient;
    json["active"] = active_json(answer.active);
    json["wounds"] = facts.wounds;
    json["wound"] = said_json(facts.wound);
    json["evidence"] =
        answer.evidence == nullptr ? Json(nullptr) : said_json(answer.evidence->words);
    json["dates"] = dates_json(answer);
    json["ruled_out_by"] = reasons_json(answer.ruled_out_by);
    json["against"] = reasons_json(answer.against);
    json["in_favour"] = reasons_json(answer.in_favour);
    json["wait_for"] = reasons_json(answer.wait_for);
    json["to_find_out"] = Json::array();
    for (const triage::OpenQuestion& question : answer.questions) {
        json["to_find_out"].push_back(
            {{"fact", question.fact}, {"ask", question.ask}, {"why", question.why_unknown}});
    }
    return json;
}

}  // namespace

ComparedTree compare_methods_for(const Knowledge& knowledge, const observe::Site* site,
                                 TreeAssessment tree, const measure::Date& as_of) {
    ComparedTree compared{std::move(tree), std::nullopt};
    const TreeAssessment& assessed = compared.tree;
    const triage::Recommendation& recommended = assessed.recommendation;
    if (may_come_to(recommended, triage::outcome::treat) ||
        may_come_to(recommended, triage::outcome::monitor)) {
        compared.methods = plan::compare_methods(
            knowledge.methods, knowledge.judge.rules(), knowledge.judge.engine(), knowledge.seasons,
            assessed.facts, location_of(site, assessed.tree), assessed.not_before.value_or(as_of),
            knowledge.year);
    }
    return compared;
}

bool has_ranked_method(const ComparedTree& tree) {
    return tree.methods && !tree.methods->ranked.empty();
}

std::string_view standing_words(plan::Standing standing) {
    switch (standing) {
        case plan::Standing::ranked:
            return "ranked";
        case plan::Standing::open:
            return "open";
        case plan::Standing::ruled_out:
            return "ruled out";
    }
    return {};
}

std::string why_not_compared(const ComparedTree& tree) {
    return "Not compared, since treatment does not come into question: " +
           verdict(tree.tree.recommendation) + ".";
}

std::string methods_csv(const std::vector<ComparedTree>& trees) {
    std::string text = csv_row({"tree", "rank", "method", "standing", "first_choice", "fits",
                                "interval_from_years", "interval_to_years", "active_ingredient",
                                "active_grams_a_year_from", "active_grams_a_year_to", "wounds",
                                "window", "opens", "closes", "evidence", "because", "to_find_out"});
    for (const ComparedTree& tree : trees) {
        if (!tree.methods) {
            text += row_without_methods(tree);
            continue;
        }
        for_each_method(*tree.methods, [&](const plan::MethodAnswer& answer, std::size_t place) {
            text += method_row(tree.tree.tree.label, answer, place);
        });
    }
    return text;
}

Json methods_json(const std::vector<ComparedTree>& trees, const packs::RuleSet& rules) {
    Json list = Json::array();
    for (const ComparedTree& tree : trees) {
        Json json{{"tree", tree.tree.tree.label},
                  {"recommendation", verdict(tree.tree.recommendation)}};
        json["dbh_inches"] = tree.tree.facts.dbh
                                 ? Json(tree.tree.facts.dbh->in(measure::units::inch))
                                 : Json(nullptr);
        json["treatment_waits"] = tree.tree.recommendation.treatment_waits
                                      ? reason_json(*tree.tree.recommendation.treatment_waits)
                                      : Json(nullptr);
        if (!tree.methods) json["not_compared"] = why_not_compared(tree);
        json["methods"] = Json::array();
        if (tree.methods) {
            if (!tree.methods->contradiction.empty()) {
                json["contradiction"] = tree.methods->contradiction;
            }
            for_each_method(*tree.methods,
                            [&](const plan::MethodAnswer& answer, std::size_t place) {
                                json["methods"].push_back(method_json(answer, place));
                            });
        }
        list.push_back(std::move(json));
    }
    return {{"trees", std::move(list)},
            {"rules", editions_words(rules)},
            {"caution", general_caution()}};
}

}  // namespace ashtriage::present
