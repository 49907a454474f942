// Every method of treatment there is, held against one tree: in which order they come into
// question, what speaks for and against each, and which are ruled out.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "measure/quantity.hpp"
#include "packs/rule_set.hpp"
#include "plan/method_facts.hpp"
#include "reason/engine.hpp"
#include "season/window.hpp"
#include "triage/recommendation.hpp"
#include "triage/tree_facts.hpp"

namespace ashtriage::plan {

enum class Standing {
    ranked,    // whatever is still unknown, it is not ruled out
    open,      // something that is not known may still rule it out
    ruled_out  // the rules exclude it
};

// Active ingredient in one tree of a known size, by the published rates.
struct ActivePerYear {
    measure::Mass from_once;  // in one application
    measure::Mass to_once;
    measure::Mass from_a_year;  // spread over the interval
    measure::Mass to_a_year;
    bool from_memory = false;  // the rate was not checked against a source
    std::vector<std::string> sources;
};

struct MethodAnswer {
    const MethodFacts* facts = nullptr;
    Standing standing = Standing::open;
    bool first_choice = false;         // the table `method` comes to it
    bool may_be_first_choice = false;  // it still may
    std::vector<std::string> fits;     // the outcomes still possible, the best first
    std::vector<triage::Reason> ruled_out_by;
    std::vector<triage::Reason> against;  // rules that hold and let it fit no better than doubtful
    std::vector<triage::Reason> in_favour;  // rules that hold and let it fit well or fairly
    // What is not known and bears on it, the most worth finding out first.
    std::vector<triage::OpenQuestion> questions;
    std::vector<triage::Reason> wait_for;      // the day does not allow it
    std::optional<season::NextWindow> window;  // none: no dates are worked out for the method
    std::optional<ActivePerYear> active;       // none: by the label, or no DBH
    const Evidence* evidence = nullptr;        // for this size; null without a DBH

    // Its dates of this year are over. False for a method without dates: nothing is known then.
    bool too_late_this_year() const;
    // Its dates are known, and those of this year not over.
    bool in_time_this_year() const;
};

struct MethodComparison {
    // The first choice, if there is one, before all others; then the methods that can still be used
    // this year, those without dates, and those that are too late for it; then by how well they
    // fit; then by the least active ingredient a year.
    std::vector<MethodAnswer> ranked;
    std::vector<MethodAnswer> open;       // in the same order among themselves
    std::vector<MethodAnswer> ruled_out;  // in the order of the file
    // Places among the ranked, where there is a first choice: another that fits better, by
    // something that the first choice does not look at; and, when the first choice is too late for
    // this year, the first that is not.
    std::optional<std::size_t> fits_better;
    std::optional<std::size_t> still_in_time;
    // The rules make a first choice of a method that they also rule out. Empty for rules that agree
    // with themselves.
    std::string contradiction;
};

// `methods` must outlive the answer, which points into it. Throws measure::InputError for a place
// that the seasons are not meant for.
MethodComparison compare_methods(const std::vector<MethodFacts>& methods,
                                 const packs::RuleSet& rules, const reason::Engine& engine,
                                 const season::Seasons& seasons, const triage::TreeFacts& tree,
                                 const std::optional<season::Location>& location,
                                 const measure::Date& as_of, const season::KnownYear& known = {});

// By the rate for a stem of this size; nothing where the label alone gives one.
std::optional<ActivePerYear> active_per_year(const MethodFacts& method, measure::Length dbh);

}  // namespace ashtriage::plan
