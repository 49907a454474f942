// The answer for one tree: what is recommended, how firmly, why, and what is dangerous about it.
//
// Structured, not worded: texts are filled in here from the rule set, but how they are laid out is
// for engine/present.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/quantity.hpp"
#include "reason/decision.hpp"
#include "reason/value.hpp"

namespace ashtriage::triage {

// An observed value beside the condition it was held against.
struct Comparison {
    std::string subject;    // "canopy loss"
    std::string observed;   // "35 %", "not known"
    std::string condition;  // "canopy loss above 50 %"
    reason::Truth met = reason::Truth::maybe;
    bool threshold = false;  // a number held against a threshold
};

struct Reason {
    std::string rule;  // id in the rule set
    std::string table;
    std::string outcome;
    std::string because;
    std::string client;  // the same for the owner, in plain words; may be empty
    std::string todo;
    std::string who;
    std::vector<std::string> sources;  // keys
    std::vector<Comparison> comparisons;
};

struct HazardFlag {
    std::string flag;  // outcome name in the table `hazard`
    Reason reason;
};

// A fact as it was observed, or as it would have to be.
struct FactAndValue {
    std::string fact;   // plain name
    std::string value;  // "below 30 %"
};

// "Treat if canopy loss were below 30 %": the smallest change to what was observed that leads to
// another outcome.
struct WhatWouldChange {
    std::string outcome;
    std::vector<FactAndValue> needed;  // all of them together
};

struct OpenQuestion {
    std::string fact;  // name in the rule set
    std::string ask;
    std::string why_unknown;  // "not asked", "could not see", "only known as 20-60 %"
};

struct Recommendation {
    std::vector<std::string> possible;  // outcomes still possible; one alone is the recommendation
    bool firm = false;                  // false with one outcome: a close call
    std::vector<std::string> within_error;   // what it could be within the error of the eye
    std::vector<std::string> measure_again;  // facts (plain names) to judge or measure again
    bool one_measurement_settles = false;    // any one of them would do
    std::string evidence;  // of infestation: none, possible, probable, definite, or "not known"
    std::vector<HazardFlag> flags;                   // in the order of urgency of the rule set
    std::vector<std::string> hazards_not_looked_at;  // facts (plain names) a flag may still hang on
    std::string risk_rating;        // from the assessor's entries; empty when not rated
    std::vector<Reason> reasons;    // rules that held, the deciding one first
    std::vector<Reason> outranked;  // rules that held too, and gave way to the one that decides
    std::vector<Reason> not_met;    // the nearest rules for other outcomes that did not hold
    std::vector<WhatWouldChange> changes;
    // Observations that alone force the recommendation, whatever everything else might be; none of
    // them can be left out.
    std::vector<FactAndValue> forced_by;
    std::vector<OpenQuestion> open_questions;   // unknowns that matter
    std::vector<std::string> unknown_but_idle;  // plain names; these cannot change the answer
    std::vector<std::string> notes;  // how entries were read: girth / pi, worst of two measures ...
    std::string rules_edition;
    std::string rules_hash;
    std::string preset;
    std::optional<Reason> treatment_waits;  // a hazard has to be judged before the tree is treated
    std::vector<Reason>
        method;  // where the tree is to be treated: the rule that chose it, and more
    std::vector<OpenQuestion> method_questions;  // unknowns that keep the method open
    std::string who_applies;                     // outcome of that table, or empty
    reason::Observation facts;                   // exactly what was decided on
    bool decided() const { return possible.size() == 1; }
};

}  // namespace ashtriage::triage
