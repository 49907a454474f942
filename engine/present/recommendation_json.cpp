#include "present/recommendation_json.hpp"

#include "measure/units.hpp"
#include "packs/value_text.hpp"
#include "present/words.hpp"

namespace ashtriage::present {

namespace {

Json flag_json(const triage::HazardFlag& flag) {
    Json json = reason_json(flag.reason);
    json["flag"] = flag.flag;
    return json;
}

Json values_json(const std::vector<triage::FactAndValue>& values) {
    Json json = Json::array();
    for (const triage::FactAndValue& value : values) {
        json.push_back({{"fact", value.fact}, {"value", value.value}});
    }
    return json;
}

Json window_json(const season::NextWindow& next) {
    if (!next.window) return nullptr;
    return {{"opens", measure::text(next.window->opens)},
            {"best_until", measure::text(next.window->best_until)},
            {"closes", measure::text(next.window->closes)},
            {"give_or_take_days", next.window->give_or_take_days}};
}

Json treatment_json(const plan::Treatment& treatment) {
    Json json{{"method", treatment.method}, {"window", window_json(treatment.window)}};
    if (!treatment.card) return json;
    json["card"] = treatment.card->key;
    json["example_card"] = treatment.card->example;
    Json amounts = Json::array();
    for (const treat::MeasuredAmount& amount : treatment.dose->amounts) {
        amounts.push_back({{"what", amount.what}, {"amount", amount.text}, {"twin", amount.twin}});
    }
    json["amounts"] = std::move(amounts);
    Json findings = Json::array();
    for (const treat::Finding& finding : treatment.dose->findings) {
        findings.push_back({{"id", finding.id},
                            {"stop", finding.severity == treat::Severity::stop},
                            {"text", finding.text}});
    }
    json["findings"] = std::move(findings);
    return json;
}

std::vector<std::pair<std::string, std::string>> known_facts(const reason::Observation& values,
                                                             const packs::RuleSet& rules) {
    std::vector<std::pair<std::string, std::string>> known;
    for (reason::FactIndex fact = 0; fact < values.size(); ++fact) {
        if (values[fact] == reason::Value()) continue;  // nobody asked
        known.emplace_back(
            rules.model.facts[fact].name,
            packs::value_text(rules.model.facts[fact], rules.facts[fact], values[fact]));
    }
    return known;
}

}  // namespace

Json reason_json(const triage::Reason& reason) {
    Json comparisons = Json::array();
    for (const triage::Comparison& comparison : reason.comparisons) {
        Json met = nullptr;
        if (comparison.met != reason::Truth::maybe) met = comparison.met == reason::Truth::yes;
        comparisons.push_back(
            {{"condition", comparison.condition}, {"observed", comparison.observed}, {"met", met}});
    }
    return {{"rule", reason.rule},
            {"table", reason.table},
            {"outcome", reason.outcome},
            {"because", reason.because},
            {"client", reason.client},
            {"todo", reason.todo},
            {"who", reason.who},
            {"sources", reason.sources},
            {"comparisons", std::move(comparisons)}};
}

Json assessment_json(const TreeAssessment& tree, const packs::RuleSet& rules) {
    const triage::Recommendation& recommended = tree.recommendation;
    Json json{{"tree", tree.tree.label}, {"date", measure::text(tree.walk_around.date)}};
    json["dbh_inches"] =
        tree.facts.dbh ? Json(tree.facts.dbh->in(measure::units::inch)) : Json(nullptr);
    json["recommendation"] =
        recommended.decided() ? Json(recommended.possible.front()) : Json(nullptr);
    json["possible"] = recommended.possible;
    json["standing"] = standing(recommended);
    json["within_eye_error"] = recommended.within_error;
    json["judge_again"] = recommended.measure_again;
    json["one_judgment_settles"] = recommended.one_measurement_settles;
    json["evidence"] = recommended.evidence.empty() ? Json(nullptr) : Json(recommended.evidence);
    json["risk_rating"] =
        recommended.risk_rating.empty() ? Json(nullptr) : Json(recommended.risk_rating);
    json["flags"] = Json::array();
    for (const auto& flag : recommended.flags) json["flags"].push_back(flag_json(flag));
    json["hazards_not_looked_at"] = recommended.hazards_not_looked_at;
    json["reasons"] = Json::array();
    for (const auto& reason : recommended.reasons) json["reasons"].push_back(reason_json(reason));
    json["outranked"] = Json::array();
    for (const auto& reason : recommended.outranked) {
        json["outranked"].push_back(reason_json(reason));
    }
    json["came_near"] = Json::array();
    for (const auto& reason : recommended.not_met) json["came_near"].push_back(reason_json(reason));
    json["would_change"] = Json::array();
    for (const auto& change : recommended.changes) {
        json["would_change"].push_back(
            {{"outcome", change.outcome}, {"needed", values_json(change.needed)}});
    }
    json["forced_by"] = values_json(recommended.forced_by);
    json["open_questions"] = Json::array();
    for (const auto& question : recommended.open_questions) {
        json["open_questions"].push_back(
            {{"fact", question.fact}, {"ask", question.ask}, {"why", question.why_unknown}});
    }
    json["treatment_waits"] =
        recommended.treatment_waits ? reason_json(*recommended.treatment_waits) : Json(nullptr);
    json["method_questions"] = Json::array();
    for (const auto& question : recommended.method_questions) {
        json["method_questions"].push_back(
            {{"fact", question.fact}, {"ask", question.ask}, {"why", question.why_unknown}});
    }
    json["notes"] = recommended.notes;
    json["doubtful_entries"] = tree.doubts;
    json["treatment"] = tree.treatment ? treatment_json(*tree.treatment) : Json(nullptr);
    json["facts"] = Json::object();
    for (auto& [name, value] : known_facts(recommended.facts, rules)) json["facts"][name] = value;
    json["rules"] = {{"editions", recommended.rules_edition},
                     {"preset", recommended.preset},
                     {"hash", recommended.rules_hash}};
    return json;
}

book::StoredRecommendation to_be_stored(const TreeAssessment& tree, const packs::RuleSet& rules,
                                        const measure::Date& date) {
    const triage::Recommendation& recommended = tree.recommendation;
    book::StoredRecommendation stored;
    stored.tree = tree.tree.id;
    stored.walk_around = tree.walk_around.id;
    stored.date = date;
    stored.edition = recommended.rules_edition;
    stored.hash = recommended.rules_hash;
    stored.preset = recommended.preset;
    stored.possible = recommended.possible;
    stored.firm = recommended.firm;
    stored.facts = known_facts(recommended.facts, rules);
    Json reasons = Json::array();
    for (const auto& reason : recommended.reasons) reasons.push_back(reason_json(reason));
    stored.reasons_json = reasons.dump();
    Json flags = Json::array();
    for (const auto& flag : recommended.flags) flags.push_back(flag_json(flag));
    stored.flags_json = flags.dump();
    return stored;
}

bool same_answer(const book::StoredRecommendation& a, const book::StoredRecommendation& b) {
    return a.tree == b.tree && a.walk_around == b.walk_around && a.edition == b.edition &&
           a.hash == b.hash && a.preset == b.preset && a.possible == b.possible &&
           a.firm == b.firm && a.facts == b.facts && a.reasons_json == b.reasons_json &&
           a.flags_json == b.flags_json;
}

}  // namespace ashtriage::present
