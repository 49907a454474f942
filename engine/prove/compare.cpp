#include "prove/compare.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "reason/compiler.hpp"
#include "reason/variable_order.hpp"

namespace ashtriage::prove {

namespace {

using reason::Compiler;
using reason::Condition;
using reason::DiagramStore;
using reason::DiagramTooLarge;
using reason::Fact;
using reason::FactIndex;
using reason::HitPolicy;
using reason::LevelSet;
using reason::Model;
using reason::Node;
using reason::Table;
using reason::TableIndex;

// One of the two models, carried over into the model of both.
struct Side {
    const Model* source = nullptr;
    std::vector<FactIndex> facts;                         // by fact of the source
    std::vector<std::vector<reason::LevelIndex>> levels;  // by fact, by level of the source
    TableIndex first_table = 0;                           // its tables stand together
};

std::vector<reason::LevelIndex> merge_levels(Fact& into, const Fact& from) {
    std::vector<reason::LevelIndex> places;
    for (const std::string& level : from.levels) {
        const auto known = std::ranges::find(into.levels, level);
        places.push_back(static_cast<reason::LevelIndex>(known - into.levels.begin()));
        if (known == into.levels.end()) into.levels.push_back(level);
    }
    return places;
}

LevelSet carried(LevelSet set, const std::vector<reason::LevelIndex>& places) {
    LevelSet carried = 0;
    for (reason::LevelIndex level = 0; level < places.size(); ++level) {
        if (reason::has_level(set, level)) carried |= reason::only_level(places[level]);
    }
    return carried;
}

Side merge_facts(Model& both, const Model& source) {
    Side side;
    side.source = &source;
    for (const Fact& fact : source.facts) {
        auto known = std::ranges::find_if(both.facts, [&](const Fact& other) {
            return other.name == fact.name && other.kind == fact.kind;
        });
        if (known == both.facts.end()) {
            both.facts.push_back(fact);
            known = both.facts.end() - 1;
        }
        known->range.low = std::min(known->range.low, fact.range.low);
        known->range.high = std::max(known->range.high, fact.range.high);
        known->may_not_apply = known->may_not_apply || fact.may_not_apply;
        side.levels.push_back(merge_levels(*known, fact));
        side.facts.push_back(static_cast<FactIndex>(known - both.facts.begin()));
    }
    return side;
}

// The condition over the facts and tables of both models. Whether a fact applies may be told
// differently by the two, so it is written into each test.
Condition carried(const Condition& condition, const Side& side) {
    Condition made = condition;
    for (Condition& part : made.parts) part = carried(part, side);
    FactIndex fact = 0;
    if (auto* number = std::get_if<reason::NumberTest>(&made.test)) {
        fact = std::exchange(number->fact, side.facts[number->fact]);
    } else if (auto* level = std::get_if<reason::LevelTest>(&made.test)) {
        level->accepted = carried(level->accepted, side.levels[level->fact]);
        fact = std::exchange(level->fact, side.facts[level->fact]);
    } else {
        if (auto* outcome = std::get_if<reason::OutcomeTest>(&made.test)) {
            outcome->table += side.first_table;
        }
        return made;
    }
    const Condition* applies = side.source->condition_to_apply(fact);
    if (applies == nullptr) return made;
    return Condition::all({carried(*applies, side), std::move(made)});
}

void merge_tables(Model& both, Side& side) {
    side.first_table = both.tables.size();
    for (const Table& table : side.source->tables) {
        Table made = table;
        made.worse.clear();
        for (reason::Rule& rule : made.rules) rule.when = carried(rule.when, side);
        both.tables.push_back(std::move(made));
    }
}

class TableComparison {
 public:
    TableComparison(Compiler& compiler, const Model& both,
                    const std::vector<reason::Branches>& branches, std::size_t most_regions,
                    std::vector<ChangedAnswer>& changes)
        : compiler_(compiler),
          store_(compiler.store()),
          both_(both),
          branches_(branches),
          most_regions_(most_regions),
          changes_(changes) {}

    void compare(TableIndex before, TableIndex after) {
        const bool collected = both_.tables[before].hit_policy == HitPolicy::collect;
        const bool collects = both_.tables[after].hit_policy == HitPolicy::collect;
        if (collected || collects) {
            compare_collected(before, after);
        } else {
            compare_outcomes(before, after);
        }
    }

 private:
    // Where the table comes to the outcome, or collects it; nowhere when it knows no such outcome.
    Node where(TableIndex table, const std::string& outcome) {
        const Table& described = both_.tables[table];
        const auto found = std::ranges::find(described.gives, outcome);
        if (found == described.gives.end()) return reason::no_leaf;
        const auto index = static_cast<reason::OutcomeIndex>(found - described.gives.begin());
        return compiler_.condition(Condition::outcome(table, reason::only_level(index)));
    }

    void compare_collected(TableIndex before, TableIndex after) {
        std::vector<std::string> outcomes = both_.tables[before].gives;
        for (const std::string& outcome : both_.tables[after].gives) {
            if (std::ranges::find(outcomes, outcome) == outcomes.end()) outcomes.push_back(outcome);
        }
        for (const std::string& outcome : outcomes) {
            const Node was = where(before, outcome);
            const Node is = where(after, outcome);
            ChangedAnswer change;
            change.table = both_.tables[before].name;
            change.after = outcome;
            report(change, store_.without(is, was));
            std::swap(change.before, change.after);
            report(change, store_.without(was, is));
        }
    }

    void compare_outcomes(TableIndex before, TableIndex after) {
        const Node was = compiler_.compiled(before)->answers.front();
        const Node is = compiler_.compiled(after)->answers.front();
        // Each pair of leaves gets a number, so that where the pair is met can be asked for.
        std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
        const Node paired = store_.combine(was, is, [&](Node a, Node b) -> std::optional<Node> {
            if (!reason::is_leaf(a) || !reason::is_leaf(b)) return std::nullopt;
            const std::pair pair{reason::leaf_value(a), reason::leaf_value(b)};
            const auto known = std::ranges::find(pairs, pair);
            const auto number = static_cast<std::uint32_t>(known - pairs.begin());
            if (known == pairs.end()) pairs.push_back(pair);
            return reason::leaf(number);
        });
        for (std::uint32_t number = 0; number < pairs.size(); ++number) {
            ChangedAnswer change;
            change.table = both_.tables[before].name;
            change.before = outcome_of(before, pairs[number].first);
            change.after = outcome_of(after, pairs[number].second);
            change.before_conflict = pairs[number].first == reason::conflict_leaf;
            change.after_conflict = pairs[number].second == reason::conflict_leaf;
            if (change.before == change.after && change.before_conflict == change.after_conflict) {
                continue;
            }
            report(change, store_.with_leaves(paired, [&](std::uint32_t value) {
                return value == number ? reason::yes_leaf : reason::no_leaf;
            }));
        }
    }

    std::optional<std::string> outcome_of(TableIndex table, std::uint32_t leaf) const {
        if (leaf >= reason::most_outcomes) return std::nullopt;
        return both_.tables[table].gives[leaf];
    }

    void report(ChangedAnswer change, Node where) {
        Regions found = regions(compiler_, both_, branches_, where, most_regions_);
        if (found.found.empty()) return;
        change.where = std::move(found.found);
        change.more = found.more;
        changes_.push_back(std::move(change));
    }

    Compiler& compiler_;
    DiagramStore& store_;
    const Model& both_;
    const std::vector<reason::Branches>& branches_;
    std::size_t most_regions_;
    std::vector<ChangedAnswer>& changes_;
};

std::vector<std::string> missing_from(const std::vector<std::string>& names,
                                      const std::vector<std::string>& others) {
    std::vector<std::string> missing;
    for (const std::string& name : names) {
        if (std::ranges::find(others, name) == others.end()) missing.push_back(name);
    }
    return missing;
}

template <typename Named>
std::vector<std::string> names_of(const std::vector<Named>& named) {
    std::vector<std::string> names;
    for (const Named& one : named) names.push_back(one.name);
    return names;
}

void compare_names(const Model& before, const Model& after, Comparison& comparison) {
    comparison.facts_removed = missing_from(names_of(before.facts), names_of(after.facts));
    comparison.facts_added = missing_from(names_of(after.facts), names_of(before.facts));
    comparison.tables_removed = missing_from(names_of(before.tables), names_of(after.tables));
    comparison.tables_added = missing_from(names_of(after.tables), names_of(before.tables));
    for (const Fact& fact : before.facts) {
        const auto other = after.find_fact(fact.name);
        if (!other) continue;
        const Fact& now = after.facts[*other];
        if (fact.kind != now.kind || fact.levels != now.levels || !(fact.range == now.range)) {
            comparison.facts_changed.push_back(fact.name);
        }
    }
}

}  // namespace

Comparison compare(const Model& before, const Model& after, std::size_t most_regions,
                   std::size_t budget) {
    Comparison comparison;
    compare_names(before, after, comparison);

    Model& both = comparison.facts;
    Side first = merge_facts(both, before);
    Side second = merge_facts(both, after);
    merge_tables(both, first);
    merge_tables(both, second);

    const std::vector<reason::Branches> branches =
        reason::branches_of(both, reason::DoesNotApply::where_it_can_be);
    Compiler compiler(both, branches, reason::variable_order(both));
    const auto order = reason::evaluation_order(both);
    for (const TableIndex table : order.value()) compiler.compile(table, budget);

    TableComparison tables(compiler, both, branches, most_regions, comparison.changes);
    for (TableIndex old_table = 0; old_table < before.tables.size(); ++old_table) {
        const auto new_table = after.find_table(before.tables[old_table].name);
        if (!new_table) continue;
        const TableIndex was = first.first_table + old_table;
        const TableIndex is = second.first_table + *new_table;
        if (compiler.compiled(was) == nullptr || compiler.compiled(is) == nullptr) {
            comparison.not_analysed.push_back(before.tables[old_table].name);
            continue;
        }
        compiler.store().allow(budget);
        try {
            tables.compare(was, is);
        } catch (const DiagramTooLarge&) {
            comparison.not_analysed.push_back(before.tables[old_table].name);
        }
    }
    both.tables.clear();
    return comparison;
}

}  // namespace ashtriage::prove
