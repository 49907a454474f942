#include "reason/compiler.hpp"

#include <algorithm>
#include <utility>

namespace ashtriage::reason {

namespace {

std::vector<std::uint32_t> branch_counts(const std::vector<Branches>& branches,
                                         const std::vector<FactIndex>& order) {
    std::vector<std::uint32_t> counts;
    for (const FactIndex fact : order) counts.push_back(branches[fact].count());
    return counts;
}

// A table whose answer could not be compiled is asked for.
DiagramTooLarge rests_on_what_was_left_out() {
    return {};
}

}  // namespace

Compiler::Compiler(const Model& model, const std::vector<Branches>& branches,
                   std::vector<FactIndex> order)
    : model_(model),
      branches_(branches),
      order_(std::move(order)),
      level_of_(model.facts.size(), 0),
      store_(branch_counts(branches, order_)),
      tables_(model.tables.size()) {
    for (Level level = 0; level < order_.size(); ++level) level_of_[order_[level]] = level;
}

bool Compiler::compile(TableIndex table, std::size_t budget) {
    const Table& source = model_.tables[table];
    store_.allow(budget);
    try {
        CompiledTable made;
        for (const Rule& rule : source.rules) made.rules.push_back(condition(rule.when));
        made.answers = answers_of(source, made.rules);
        tables_[table] = std::move(made);
    } catch (const DiagramTooLarge&) {
        return false;
    }
    return true;
}

const CompiledTable* Compiler::compiled(TableIndex table) const {
    return tables_[table] ? &*tables_[table] : nullptr;
}

Node Compiler::condition(const Condition& condition) {
    switch (condition.kind) {
        case Condition::Kind::all: {
            Node result = yes_leaf;
            for (const Condition& part : condition.parts) {
                result = store_.both(result, this->condition(part));
            }
            return result;
        }
        case Condition::Kind::any: {
            Node result = no_leaf;
            for (const Condition& part : condition.parts) {
                result = store_.either(result, this->condition(part));
            }
            return result;
        }
        case Condition::Kind::negation:
            return store_.negated(this->condition(condition.parts.front()));
        case Condition::Kind::number:
            return test_of(std::get<NumberTest>(condition.test));
        case Condition::Kind::level:
            return test_of(std::get<LevelTest>(condition.test));
        case Condition::Kind::outcome:
            return test_of(std::get<OutcomeTest>(condition.test));
    }
    return no_leaf;
}

Node Compiler::applies(FactIndex fact) {
    const Condition* applies = model_.condition_to_apply(fact);
    return applies == nullptr ? yes_leaf : condition(*applies);
}

Node Compiler::fact_test(FactIndex fact, std::vector<bool> accepted) {
    if (branches_[fact].with_does_not_apply()) accepted.push_back(false);  // meets no test
    return store_.both(applies(fact), store_.test(level_of_[fact], accepted));
}

Node Compiler::test_of(const NumberTest& test) {
    std::vector<bool> accepted;
    for (const Value& cell : branches_[test.fact].cells()) {
        accepted.push_back(test.accepted.contains(*cell.interval()));
    }
    return fact_test(test.fact, std::move(accepted));
}

Node Compiler::test_of(const LevelTest& test) {
    std::vector<bool> accepted;
    for (const Value& cell : branches_[test.fact].cells()) {
        accepted.push_back((*cell.level_set() & test.accepted) != 0);
    }
    return fact_test(test.fact, std::move(accepted));
}

Node Compiler::test_of(const OutcomeTest& test) {
    if (!tables_[test.table]) throw rests_on_what_was_left_out();
    const std::vector<Node>& answers = tables_[test.table]->answers;
    if (model_.tables[test.table].hit_policy == HitPolicy::collect) {
        Node result = no_leaf;
        for (OutcomeIndex outcome = 0; outcome < answers.size(); ++outcome) {
            if (has_level(test.accepted, outcome)) result = store_.either(result, answers[outcome]);
        }
        return result;
    }
    return store_.with_leaves(answers.front(), [&](std::uint32_t value) {
        return value < most_outcomes && has_level(test.accepted, value) ? yes_leaf : no_leaf;
    });
}

std::vector<Node> Compiler::answers_of(const Table& table, const std::vector<Node>& rules) {
    const auto outcome_leaf = [&](RuleIndex rule) {
        return leaf(static_cast<std::uint32_t>(table.rules[rule].gives));
    };
    if (table.hit_policy == HitPolicy::collect) {
        std::vector<Node> answers(table.gives.size(), no_leaf);
        for (RuleIndex rule = 0; rule < rules.size(); ++rule) {
            Node& answer = answers[table.rules[rule].gives];
            answer = store_.either(answer, rules[rule]);
        }
        return answers;
    }

    Node answer = leaf(no_rule_leaf);
    if (table.hit_policy == HitPolicy::unique) {
        for (RuleIndex rule = 0; rule < rules.size(); ++rule) {
            const Node gives = outcome_leaf(rule);
            answer =
                store_.combine(answer, rules[rule], [gives](Node x, Node y) -> std::optional<Node> {
                    if (y == no_leaf || x == leaf(conflict_leaf)) return x;
                    if (y != yes_leaf || !is_leaf(x)) return std::nullopt;
                    return x == leaf(no_rule_leaf) ? gives : leaf(conflict_leaf);
                });
        }
        return {answer};
    }

    // The rule that wins over all others is laid on top last.
    std::vector<RuleIndex> weakest_first;
    for (RuleIndex rule = rules.size(); rule-- > 0;) weakest_first.push_back(rule);
    if (table.hit_policy == HitPolicy::priority) {
        std::ranges::stable_sort(weakest_first, std::ranges::greater{},
                                 [&](RuleIndex rule) { return table.rules[rule].gives; });
    }
    for (const RuleIndex rule : weakest_first) {
        answer = store_.choose(rules[rule], outcome_leaf(rule), answer);
    }
    return {answer};
}

}  // namespace ashtriage::reason
