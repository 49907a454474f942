#include "triage/tree_facts.hpp"

#include <algorithm>
#include <set>
#include <string_view>

#include "measure/input_error.hpp"
#include "measure/plausibility.hpp"
#include "measure/units.hpp"
#include "packs/applicability.hpp"
#include "packs/problem.hpp"
#include "packs/value_text.hpp"
#include "packs/wording.hpp"
#include "packs/words.hpp"
#include "triage/tables.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {

namespace {

using packs::RuleSet;
using reason::Observation;
using reason::Value;

std::vector<std::string> fact_names(const RuleSet& rules) {
    std::vector<std::string> names;
    for (const reason::Fact& fact : rules.model.facts) names.push_back(fact.name);
    return names;
}

void enter_findings(const RuleSet& rules, const observe::WalkAround& walk_around,
                    Observation& values) {
    std::set<reason::FactIndex> given;
    for (const observe::Finding& finding : walk_around.findings) {
        const reason::FactIndex index = fact_named(rules, finding.fact);
        if (!given.insert(index).second) {
            throw measure::InputError("\"" + finding.fact + "\" is given twice", {},
                                      "Keep the one that is right.");
        }
        values[index] =
            packs::parse_value(rules.model.facts[index], rules.facts[index], finding.value);
    }
}

// "Round holes" beside "no holes": one of the two entries must be wrong.
void refuse_contradictions(const RuleSet& rules, const Observation& values) {
    const auto contradicting = packs::contradictions(rules, values);
    if (contradicting.empty()) return;
    const reason::FactIndex fact = contradicting.front();
    throw measure::InputError(
        "\"" + packs::plain_name(rules.model.facts[fact].name) + "\" was given as " +
            packs::spoken_value(rules, fact, values[fact]) +
            ", but by the other entries there is nothing it could be said of",
        {},
        "It applies only when: " +
            packs::condition_text(*rules.model.condition_to_apply(fact), rules) +
            ". Correct one of the entries.");
}

// A number that the site, not the walk-around, tells, unless the walk-around told it too.
void enter_number(const RuleSet& rules, Observation& values, std::string_view fact, double number) {
    const auto index = rules.model.find_fact(fact);
    if (!index || !values[*index].is_unknown()) return;
    const reason::Interval& range = rules.model.facts[*index].range;
    values[*index] = Value::number(std::clamp(number, range.low, range.high));
}

void enter_site(const RuleSet& rules, const observe::Site& site, Observation& values) {
    if (site.distance_to_water) {
        enter_number(rules, values, fact::distance_to_water,
                     site.distance_to_water->in(measure::units::foot));
    }
    if (site.infestation_distance) {
        enter_number(rules, values, fact::infestation_distance,
                     site.infestation_distance->in(measure::units::mile));
    }
    const auto quarantine = rules.model.find_fact(fact::in_quarantined_county);
    if (quarantine && site.in_quarantined_county && values[*quarantine].is_unknown()) {
        values[*quarantine] = *site.in_quarantined_county ? Value::yes() : Value::no();
    }
    const auto soil = rules.model.find_fact(fact::soil);
    if (soil && !site.soil.empty() && values[*soil].is_unknown()) {
        values[*soil] = packs::parse_value(rules.model.facts[*soil], rules.facts[*soil], site.soil);
    }
}

std::string inches(measure::Length length) {
    return length.with_unit(measure::units::inch, 1);
}

std::string_view name_of(measure::StemRule rule) {
    switch (rule) {
        case measure::StemRule::root_of_sum_of_squares:
            return "root of the sum of squares";
        case measure::StemRule::sum:
            return "sum of the diameters";
        case measure::StemRule::largest:
            return "largest stem";
    }
    return {};
}

void enter_stems(const RuleSet& rules, const observe::WalkAround& walk_around,
                 measure::StemRule stem_rule, TreeFacts& facts) {
    facts.diameters = diameters_of(walk_around.stems);
    for (std::size_t i = 0; i < facts.diameters.size(); ++i) {
        const observe::Stem& stem = walk_around.stems[i];
        if (stem.measured == observe::StemMeasure::diameter) continue;
        facts.notes.push_back("A girth of " + inches(stem.length) +
                              " was measured; divided by pi that is a diameter of " +
                              inches(facts.diameters[i]) + ".");
    }
    if (facts.diameters.empty()) return;
    facts.dbh = measure::combined_diameter(facts.diameters, stem_rule);
    if (facts.diameters.size() > 1) {
        facts.notes.push_back(std::to_string(facts.diameters.size()) + " stems count as one of " +
                              inches(*facts.dbh) + " DBH, by the " +
                              std::string(name_of(stem_rule)) + ".");
    }
    if (!enter_dbh(rules, *facts.dbh, facts.values)) {
        throw measure::InputError(
            "A DBH of " + inches(*facts.dbh) + " is not one a tree can have here", {},
            "Measure again at 4.5 ft, and say \"girth\" if the tape went round the stem.");
    }
}

}  // namespace

reason::FactIndex fact_named(const RuleSet& rules, std::string_view name) {
    if (const auto index = rules.model.find_fact(name)) return *index;
    const std::string near = packs::nearest(name, fact_names(rules));
    throw measure::InputError("There is no fact called \"" + std::string(name) + "\"", {},
                              near.empty() ? "\"ashtriage rules facts\" lists them all."
                                           : "Did you mean \"" + near + "\"?");
}

std::vector<measure::Length> diameters_of(const std::vector<observe::Stem>& stems) {
    std::vector<measure::Length> diameters;
    for (const observe::Stem& stem : stems) {
        diameters.push_back(stem.measured == observe::StemMeasure::girth
                                ? measure::diameter_from_girth(stem.length)
                                : stem.length);
    }
    return diameters;
}

bool enter_dbh(const RuleSet& rules, measure::Length dbh, Observation& values) {
    const auto index = rules.model.find_fact(fact::dbh);
    if (!index) return true;
    const double number = dbh.in(measure::units::inch);
    if (!rules.model.facts[*index].range.contains(number)) return false;
    values[*index] = Value::number(number);
    return true;
}

TreeFacts tree_facts(const RuleSet& rules, const observe::Site* site,
                     const observe::WalkAround& walk_around, measure::StemRule stem_rule) {
    TreeFacts facts;
    facts.values.resize(rules.model.facts.size());
    enter_findings(rules, walk_around, facts.values);
    refuse_contradictions(rules, facts.values);
    if (site != nullptr) enter_site(rules, *site, facts.values);
    enter_stems(rules, walk_around, stem_rule, facts);
    for (std::string& note : work_out(rules, facts.values)) facts.notes.push_back(std::move(note));
    facts.values = packs::with_applicability(rules, std::move(facts.values));
    return facts;
}

std::vector<std::string> doubtful_entries(const TreeFacts& facts, const TreeFacts* previous) {
    if (!facts.dbh) return {};
    std::vector<std::string> questions;
    const auto last_visit = previous == nullptr ? std::nullopt : previous->dbh;
    for (measure::DbhQuestion& question : measure::questions_about_dbh(*facts.dbh, last_visit)) {
        questions.push_back(std::move(question.text));
    }
    return questions;
}

}  // namespace ashtriage::triage
