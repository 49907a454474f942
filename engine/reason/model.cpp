#include "reason/model.hpp"

#include <algorithm>
#include <functional>

#include "reason/visit.hpp"

namespace ashtriage::reason {

std::vector<std::string> yes_no_levels() {
    return {"no", "yes"};
}

const Condition* Model::condition_to_apply(FactIndex fact) const {
    return fact < applies_if.size() && applies_if[fact] ? &*applies_if[fact] : nullptr;
}

std::optional<FactIndex> Model::find_fact(std::string_view name) const {
    const auto found = std::ranges::find(facts, name, &Fact::name);
    if (found == facts.end()) return std::nullopt;
    return static_cast<FactIndex>(found - facts.begin());
}

std::optional<TableIndex> Model::find_table(std::string_view name) const {
    const auto found = std::ranges::find(tables, name, &Table::name);
    if (found == tables.end()) return std::nullopt;
    return static_cast<TableIndex>(found - tables.begin());
}

std::optional<std::vector<TableIndex>> evaluation_order(const Model& model) {
    enum class Mark { unseen, open, done };
    std::vector<Mark> marks(model.tables.size(), Mark::unseen);
    std::vector<TableIndex> order;
    bool cyclic = false;

    const std::function<void(TableIndex)> place = [&](TableIndex table) {
        if (marks[table] == Mark::open) cyclic = true;
        if (marks[table] != Mark::unseen) return;
        marks[table] = Mark::open;
        for (const Rule& rule : model.tables[table].rules) {
            for_each_test(rule.when, [&](const auto& test) {
                using Test = std::decay_t<decltype(test)>;
                if constexpr (std::is_same_v<Test, OutcomeTest>) place(test.table);
            });
        }
        marks[table] = Mark::done;
        order.push_back(table);
    };
    for (TableIndex table = 0; table < model.tables.size(); ++table) place(table);

    if (cyclic) return std::nullopt;
    return order;
}

std::vector<FactIndex> facts_behind(const Model& model, TableIndex table) {
    std::vector<bool> fact_seen(model.facts.size(), false);
    std::vector<bool> table_seen(model.tables.size(), false);

    const std::function<void(const Condition&)> look_into = [&](const Condition& condition) {
        for_each_test(condition, [&](const auto& test) {
            using Test = std::decay_t<decltype(test)>;
            if constexpr (std::is_same_v<Test, OutcomeTest>) {
                if (table_seen[test.table]) return;
                table_seen[test.table] = true;
                for (const Rule& rule : model.tables[test.table].rules) look_into(rule.when);
            } else {
                if (fact_seen[test.fact]) return;
                fact_seen[test.fact] = true;
                if (const auto* applies = model.condition_to_apply(test.fact)) look_into(*applies);
            }
        });
    };
    look_into(Condition::outcome(table, 0));

    std::vector<FactIndex> facts;
    for (FactIndex fact = 0; fact < fact_seen.size(); ++fact) {
        if (fact_seen[fact]) facts.push_back(fact);
    }
    return facts;
}

}  // namespace ashtriage::reason
