#include "judged_tree.hpp"

#include <algorithm>
#include <cstddef>
#include <random>
#include <stdexcept>
#include <string>

#include "packs/applicability.hpp"
#include "packs/value_text.hpp"
#include "packs/wording.hpp"
#include "prove/check.hpp"
#include "prove/compare.hpp"
#include "reason/engine.hpp"

namespace ashtriage::fuzz {

namespace {

// Small, so that made-up rules cannot take long.
constexpr std::size_t branch_budget = std::size_t{1} << 12U;
constexpr std::size_t search_steps = std::size_t{1} << 12U;

[[noreturn]] void contradicts(const std::string& what) {
    throw std::logic_error("contradiction: " + what);
}

// One value out of each fact's cells.
reason::Observation some_tree(const reason::Engine& engine, std::mt19937_64& random) {
    reason::Observation tree;
    for (const reason::Branches& branches : engine.branches()) {
        const reason::Value& cell = branches.cells()[random() % branches.cells().size()];
        if (const reason::Interval* stretch = cell.interval()) {
            const double ends[] = {stretch->low, stretch->high};
            const double end = ends[random() % 2];
            const double middle = stretch->low + (stretch->high - stretch->low) / 2;
            tree.push_back(reason::Value::number(stretch->contains(end) ? end : middle));
        } else {
            const reason::LevelSet levels = cell.level_set() != nullptr ? *cell.level_set() : 1;
            reason::LevelIndex level = 0;
            while (!reason::has_level(levels, level)) ++level;
            tree.push_back(reason::Value::level(level));
        }
    }
    return tree;
}

void check_value_texts(const packs::RuleSet& rules, const reason::Observation& tree) {
    for (std::size_t fact = 0; fact < tree.size(); ++fact) {
        const reason::Fact& about = rules.model.facts[fact];
        const std::string text = packs::value_text(about, rules.facts[fact], tree[fact]);
        // A count may be a fraction in the middle of a cell only.
        const reason::Interval* number = tree[fact].interval();
        if (number != nullptr && rules.facts[fact].unit == "count") continue;
        if (packs::parse_value(about, rules.facts[fact], text) != tree[fact]) {
            contradicts("'" + text + "' is not read back as the same value of " + about.name);
        }
    }
}

void check_words(const packs::RuleSet& rules, const reason::Engine& engine,
                 const reason::Observation& tree) {
    for (std::size_t table = 0; table < rules.tables.size(); ++table) {
        for (std::size_t rule = 0; rule < rules.tables[table].rules.size(); ++rule) {
            packs::worded(rules.tables[table].rules[rule].because, rules, engine, tree);
            packs::condition_text(rules.model.tables[table].rules[rule].when, rules);
        }
    }
}

// `known` is wholly known and `open` is the same tree with one fact less.
void check_table(const reason::Engine& engine, const reason::Engine& slow, reason::TableIndex table,
                 const reason::Observation& known, const reason::Observation& open) {
    const std::string& name = engine.model().tables[table].name;
    engine.explain(table, open);
    if (engine.model().tables[table].hit_policy == reason::HitPolicy::collect) {
        const reason::Collected collected = engine.collect(table, known);
        if (collected.certain != collected.possible) contradicts(name + " is open");
        if (collected != slow.collect(table, known)) contradicts(name + " is collected two ways");
        if ((collected.possible & ~engine.collect(table, open).possible) != 0) {
            contradicts(name + ": what is collected should not have been possible");
        }
        return;
    }
    const reason::Outcomes decided = engine.decide(table, known);
    if (decided != slow.decide(table, known)) contradicts(name + " is decided two ways");
    if (!engine.decide(table, open).contains(decided)) {
        contradicts(name + ": the outcome should not have been possible");
    }
    if (!engine.has_diagram(table)) return;
    if (engine.decide(table, engine.cut(known)) != decided.outcome()) {
        contradicts(name + " is decided otherwise when it was cut before");
    }
    const reason::Firmness firmness = engine.firmness(table, known);
    if (!firmness.within_error.contains(decided)) contradicts(name + " is firm on something else");
}

// What was proved of the rules must be true of the tree, and what was refuted of the example given.
void check_proofs(const reason::Engine& engine, const reason::Observation& known) {
    const reason::Model& model = engine.model();
    const prove::ModelCheck proofs =
        prove::check(model, {.diagram = branch_budget, .search_steps = search_steps});
    for (const prove::TableCheck& proved : proofs.tables) {
        const reason::Table& table = model.tables[proved.table];
        for (const reason::RuleTrace& rule : engine.explain(proved.table, known)) {
            const auto dead =
                std::ranges::find(proved.dead_rules, rule.rule, &prove::DeadRule::rule);
            if (dead == proved.dead_rules.end()) continue;
            if (rule.decides)
                contradicts("the dead rule " + table.rules[rule.rule].id + " decides");
        }
        if (table.hit_policy == reason::HitPolicy::collect) continue;
        const reason::Outcomes decided = engine.decide(proved.table, known);
        if (proved.gaps_analysed && proved.gaps.empty() && decided.none_possible) {
            contradicts(table.name + " has a gap that was not found");
        }
        for (const prove::ClaimCheck& claim : proved.claims) {
            if (!claim.refuted_by) continue;
            const auto better = engine.decide(proved.table, claim.refuted_by->better).outcome();
            const auto worse = engine.decide(proved.table, claim.refuted_by->worse).outcome();
            if (better != claim.refuted_by->better_gives ||
                worse != claim.refuted_by->worse_gives) {
                contradicts(table.name + ": a claim is refuted by an example that does not");
            }
        }
    }
    if (!prove::compare(model, model, 1, branch_budget).changes.empty()) {
        contradicts("the rules differ from themselves");
    }
}

}  // namespace

void judge_a_tree(const packs::RuleSet& rules, std::uint64_t number) {
    const reason::Engine engine(rules.model, branch_budget);
    const reason::Engine slow(rules.model, 0);
    std::mt19937_64 random(number);
    const reason::Observation seen = some_tree(engine, random);
    check_value_texts(rules, seen);

    const reason::Observation known = packs::with_applicability(rules, seen);
    reason::Observation open = known;
    if (!open.empty()) open[random() % open.size()] = reason::Value();
    check_words(rules, engine, open);
    for (std::size_t table = 0; table < rules.tables.size(); ++table) {
        check_table(engine, slow, table, known, open);
    }
    check_proofs(engine, known);
}

}  // namespace ashtriage::fuzz
