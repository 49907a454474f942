#include "present/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "measure/units.hpp"
#include "packs/words.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

namespace {

std::string in_capitals(std::string text) {
    std::ranges::transform(text, text.begin(),
                           [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return text;
}

std::string alternatives(const std::vector<std::string>& outcomes) {
    std::vector<std::string> words;
    for (const std::string& outcome : outcomes) words.push_back(outcome_words(outcome));
    return packs::joined(words);
}

}  // namespace

std::string outcome_words(std::string_view outcome) {
    if (outcome == triage::outcome::out_of_scope) return "outside what this program can judge";
    return packs::plain_name(outcome);
}

std::string outcome_heading(std::string_view outcome) {
    return in_capitals(outcome_words(outcome));
}

std::string_view standing(std::size_t possible, bool firm) {
    if (possible == 0) return "no rule";
    if (possible > 1) return "open";
    return firm ? "firm" : "close call";
}

std::string standing(const triage::Recommendation& recommendation) {
    return std::string(standing(recommendation.possible.size(), recommendation.firm));
}

std::string verdict(const triage::Recommendation& recommendation) {
    if (recommendation.possible.empty()) return "no rule holds for this tree";
    if (!recommendation.decided()) return "open: " + alternatives(recommendation.possible);
    const std::string& outcome = recommendation.possible.front();
    const std::string first =
        recommendation.treatment_waits ? ", once the hazard has been judged" : "";
    if (recommendation.firm) return outcome_words(outcome) + first + " (firm)";
    std::vector<std::string> others = recommendation.within_error;
    std::erase(others, outcome);
    return outcome_words(outcome) + first + " (close call: could also be " + alternatives(others) +
           ")";
}

std::string change_words(const triage::WhatWouldChange& change) {
    std::vector<std::string> needed;
    for (const triage::FactAndValue& fact : change.needed) {
        needed.push_back(fact.fact + " were " + fact.value);
    }
    return outcome_words(change.outcome) + ", if " + packs::joined(needed, "and");
}

std::string measure_again_words(const triage::Recommendation& recommendation) {
    if (recommendation.measure_again.empty()) return {};
    const bool one_of_several =
        recommendation.one_measurement_settles && recommendation.measure_again.size() > 1;
    std::string end = ".";
    if (recommendation.one_measurement_settles)
        end = "; that alone settles it.";
    else if (recommendation.measure_again.size() > 1)
        end = "; it takes all of them to settle it.";
    return "Within the error of the eye, or of what was not looked at, the answer could be "
           "another. "
           "Judge or measure: " +
           packs::joined(recommendation.measure_again, one_of_several ? "or" : "and") + end;
}

std::string forced_by_words(const triage::Recommendation& recommendation) {
    if (recommendation.forced_by.empty()) return {};
    std::vector<std::string> observed;
    for (const triage::FactAndValue& fact : recommendation.forced_by) {
        observed.push_back(fact.fact + " (" + fact.value + ")");
    }
    return "These observations alone lead to this answer, whatever the others are: " +
           packs::joined(observed, "and") + ".";
}

std::string with_capital(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

std::string editions_words(const packs::RuleSet& rules) {
    std::string text;
    for (const packs::Edition& edition : rules.editions) {
        text += (text.empty() ? "" : ", ") + edition.pack + " " + edition.edition;
    }
    return text;
}

std::string flag_words(std::string_view flag) {
    return packs::plain_name(flag);
}

std::string flag_list(const std::vector<std::string>& flags, std::string_view between) {
    std::string text;
    for (const std::string& flag : flags) {
        if (!text.empty()) text += between;
        text += flag_words(flag);
    }
    return text;
}

std::string flag_list(const triage::Recommendation& recommendation, std::string_view between) {
    std::vector<std::string> flags;
    for (const triage::HazardFlag& flag : recommendation.flags) flags.push_back(flag.flag);
    return flag_list(flags, between);
}

std::string stems_words(const triage::TreeFacts& facts) {
    if (!facts.dbh) return "DBH not measured";
    std::string dbh = facts.dbh->with_unit(measure::units::inch, 1) + " DBH";
    if (facts.diameters.size() == 1) return dbh;
    return std::to_string(facts.diameters.size()) + " stems, together " + dbh;
}

std::string day_count(int days) {
    return fmt::format("{} day{}", days, days == 1 ? "" : "s");
}

std::string comma_list(const std::vector<std::string>& words) {
    return fmt::format("{}", fmt::join(words, ", "));
}

std::string_view general_caution() {
    return "This is decision support from what was recorded, not an inspection. A look from the "
           "ground finds obvious defects only; a qualified tree-risk assessor must judge any tree "
           "that people or property are near. The product label in hand, local codes and licensed "
           "practice come before anything printed here. Keep at least 10 ft from power lines and "
           "call the utility. Nobody should climb a dead or brittle ash.";
}

std::string_view treated_this_season_note() {
    return "The tree was treated this season, so no window is looked for before next year's. The "
           "interval on the label in hand may be longer.";
}

std::string_view no_flag_noted() {
    return "No hazard was noted in what was recorded. That is not a finding that there is none.";
}

}  // namespace ashtriage::present
