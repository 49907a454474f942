// What is wrong with rules, found without any tree: cases that no rule answers, rules that
// contradict each other or can never matter, and claims that do not hold. Every finding comes with
// an example; what could not be looked into is said to be so.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "prove/regions.hpp"
#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::prove {

// Two rules of one table that hold together in some case.
struct Overlap {
    reason::RuleIndex first = 0;
    reason::RuleIndex second = 0;
    bool conflict = false;  // the hit policy has no answer to it; otherwise it settles the matter
    bool same_outcome = false;
    Region where;
};

// Two cases that differ only as `fact` gets worse, and that come out the wrong way round.
struct Counterexample {
    reason::Observation better;
    reason::Observation worse;
    // Single-hit tables: what they come to. Collect tables: the outcome that the worse one lacks,
    // in both.
    reason::OutcomeIndex better_gives = 0;
    reason::OutcomeIndex worse_gives = 0;
};

struct ClaimCheck {
    std::size_t claim = 0;                     // index into Table::worse
    std::optional<Counterexample> refuted_by;  // nothing: proved
    // True without saying anything: the table does not depend on the fact, or the exception takes
    // in every case.
    bool says_nothing = false;
};

enum class WhyDead {
    never_met,  // no case meets its condition
    outranked,  // wherever it is met, the hit policy takes another rule
};

struct DeadRule {
    reason::RuleIndex rule = 0;
    WhyDead why = WhyDead::never_met;
    std::vector<reason::RuleIndex> outranked_by;  // the rules that are taken instead
};

// Each part of a check is done or, where the budget ended, not analysed; nothing found only means
// something for what was analysed.
struct TableCheck {
    reason::TableIndex table = 0;

    bool gaps_analysed = false;
    std::vector<Region> gaps;  // cases in which no rule holds; single-hit tables only
    bool more_gaps = false;

    bool overlaps_analysed = false;
    std::vector<Overlap> overlaps;  // the first `most_examples`; conflicts before others
    std::size_t overlap_count = 0;
    std::size_t conflict_count = 0;

    bool dead_rules_analysed = false;
    std::vector<DeadRule> dead_rules;

    bool claims_analysed = false;
    std::vector<ClaimCheck> claims;  // one for each of Table::worse

    // No gap, no conflict, no dead rule and no refuted claim, and all of it analysed.
    bool passed() const;
    bool analysed() const;
};

struct ModelCheck {
    std::vector<TableCheck> tables;  // one for each table of the model
    // Facts that rules test although no answer of any table depends on them.
    std::vector<reason::FactIndex> tested_in_vain;
    bool tested_in_vain_analysed = false;  // false while some table is not

    // Facts that nothing tests.
    std::vector<reason::FactIndex> never_tested;
};

struct CheckLimits {
    // Diagram branches worked out for each part of a table's check, then steps of the search that
    // stands in for it where the rules of a table are plain enough.
    std::size_t diagram = std::size_t{1} << 22U;
    std::size_t search_steps = std::size_t{1} << 26U;
    std::size_t most_examples = 100;
};

// The model must be one that reason::Engine takes.
ModelCheck check(const reason::Model& model, const CheckLimits& limits = {});

}  // namespace ashtriage::prove
