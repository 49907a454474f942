#include "prove/check.hpp"

#include <algorithm>
#include <utility>

#include "prove/box_check.hpp"
#include "prove/monotone.hpp"
#include "reason/compiler.hpp"
#include "reason/diagram.hpp"
#include "reason/variable_order.hpp"
#include "reason/visit.hpp"

namespace ashtriage::prove {

namespace {

using reason::Branches;
using reason::CompiledTable;
using reason::Compiler;
using reason::DiagramStore;
using reason::DiagramTooLarge;
using reason::FactIndex;
using reason::HitPolicy;
using reason::Model;
using reason::no_leaf;
using reason::Node;
using reason::RuleIndex;
using reason::Table;
using reason::TableIndex;

// The check of one compiled table.
class DiagramCheck {
 public:
    DiagramCheck(Compiler& compiler, const Model& model, const std::vector<Branches>& branches,
                 const CheckLimits& limits, TableCheck& check)
        : compiler_(compiler),
          store_(compiler.store()),
          model_(model),
          branches_(branches),
          limits_(limits),
          check_(check),
          table_(model.tables[check.table]),
          compiled_(*compiler.compiled(check.table)) {}

    // Each part has an allowance of its own, so that one that is too hard leaves the others be.
    void run() {
        check_.gaps_analysed = within_allowance([&] { find_gaps(); });
        check_.overlaps_analysed = within_allowance([&] { find_overlaps(); });
        check_.dead_rules_analysed = within_allowance([&] { find_dead_rules(); });
        check_.claims_analysed = within_allowance([&] { check_claims(); });
    }

 private:
    template <typename Part>
    bool within_allowance(Part&& part) {
        store_.allow(limits_.diagram);
        try {
            part();
        } catch (const DiagramTooLarge&) {
            return false;
        }
        return true;
    }

    void find_gaps() {
        if (table_.hit_policy == HitPolicy::collect) return;
        const Node unanswered =
            store_.with_leaves(compiled_.answers.front(), [](std::uint32_t value) {
                return value == reason::no_rule_leaf ? reason::yes_leaf : no_leaf;
            });
        Regions gaps = regions(compiler_, model_, branches_, unanswered, limits_.most_examples);
        check_.gaps = std::move(gaps.found);
        check_.more_gaps = gaps.more;
    }

    void find_overlaps() {
        const bool unique = table_.hit_policy == HitPolicy::unique;
        for (RuleIndex second = 0; second < table_.rules.size(); ++second) {
            for (RuleIndex first = 0; first < second; ++first) {
                const Node both = store_.both(compiled_.rules[first], compiled_.rules[second]);
                if (both == no_leaf) continue;
                ++check_.overlap_count;
                if (unique) ++check_.conflict_count;
                if (check_.overlaps.size() == limits_.most_examples) continue;
                const bool same = table_.rules[first].gives == table_.rules[second].gives;
                check_.overlaps.push_back(
                    {first, second, unique, same,
                     regions(compiler_, model_, branches_, both, 1).found.front()});
            }
        }
    }

    void find_dead_rules() {
        for (RuleIndex rule = 0; rule < table_.rules.size(); ++rule) {
            Node left = compiled_.rules[rule];
            if (left == no_leaf) {
                check_.dead_rules.push_back({rule, WhyDead::never_met, {}});
                continue;
            }
            std::vector<RuleIndex> taken_instead;
            for (RuleIndex other = 0; other < table_.rules.size(); ++other) {
                if (!outranks(other, rule)) continue;
                const Node before = left;
                left = store_.without(left, compiled_.rules[other]);
                if (left != before) taken_instead.push_back(other);
            }
            if (left == no_leaf) {
                check_.dead_rules.push_back({rule, WhyDead::outranked, std::move(taken_instead)});
            }
        }
    }

    bool outranks(RuleIndex other, RuleIndex rule) const {
        switch (table_.hit_policy) {
            case HitPolicy::first:
                return other < rule;
            case HitPolicy::priority:
                return table_.rules[other].gives < table_.rules[rule].gives;
            case HitPolicy::unique:
            case HitPolicy::collect:
                return false;
        }
        return false;
    }

    void check_claims() {
        std::vector<ClaimCheck> claims;
        for (std::size_t claim = 0; claim < table_.worse.size(); ++claim) {
            claims.push_back(
                {claim,
                 counterexample(compiler_, model_, branches_, check_.table, table_.worse[claim]),
                 says_nothing(table_.worse[claim])});
        }
        check_.claims = std::move(claims);
    }

    bool says_nothing(const reason::WorseClaim& claim) {
        const std::vector<FactIndex> behind = reason::facts_behind(model_, check_.table);
        if (std::ranges::find(behind, claim.fact) == behind.end()) return true;
        return claim.unless && compiler_.condition(*claim.unless) == reason::yes_leaf;
    }

    Compiler& compiler_;
    DiagramStore& store_;
    const Model& model_;
    const std::vector<Branches>& branches_;
    const CheckLimits& limits_;
    TableCheck& check_;
    const Table& table_;
    const CompiledTable& compiled_;
};

void check_by_boxes(const Model& model, const std::vector<Branches>& branches,
                    const CheckLimits& limits, TableCheck& check) {
    const auto boxes = BoxTable::of(model, branches, check.table);
    if (!boxes) return;
    boxes->find_overlaps(check, limits.most_examples);
    if (model.tables[check.table].hit_policy == HitPolicy::collect) {
        check.gaps_analysed = true;
    } else {
        boxes->find_gaps(check, limits.search_steps, limits.most_examples);
    }
}

void mark_facts_of(const DiagramStore& store, Node root, const std::vector<FactIndex>& order,
                   std::vector<bool>& marks) {
    for (const reason::Diagram::Look& look : reason::finished(store, root, order).looks) {
        marks[look.fact] = true;
    }
}

// Facts whose value makes no difference to any table, and facts that no condition names.
void find_idle_facts(const Compiler& compiler, const Model& model, ModelCheck& check) {
    std::vector<bool> tested(model.facts.size(), false);
    const auto mark = [&](const auto& test) {
        using Test = std::decay_t<decltype(test)>;
        if constexpr (!std::is_same_v<Test, reason::OutcomeTest>) tested[test.fact] = true;
    };
    std::vector<bool> needed(model.facts.size(), false);
    bool all_compiled = true;
    for (TableIndex table = 0; table < model.tables.size(); ++table) {
        for (const reason::Rule& rule : model.tables[table].rules) for_each_test(rule.when, mark);
        const CompiledTable* compiled = compiler.compiled(table);
        all_compiled = all_compiled && compiled != nullptr;
        if (compiled == nullptr) continue;
        for (const Node answer : compiled->answers) {
            mark_facts_of(compiler.store(), answer, compiler.order(), needed);
        }
    }
    for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
        const reason::Condition* applies = model.condition_to_apply(fact);
        if (applies != nullptr) for_each_test(*applies, mark);
    }
    check.tested_in_vain_analysed = all_compiled;
    for (FactIndex fact = 0; fact < model.facts.size(); ++fact) {
        if (!tested[fact]) check.never_tested.push_back(fact);
        if (all_compiled && tested[fact] && !needed[fact]) check.tested_in_vain.push_back(fact);
    }
}

}  // namespace

bool TableCheck::analysed() const {
    return gaps_analysed && overlaps_analysed && dead_rules_analysed && claims_analysed;
}

bool TableCheck::passed() const {
    return analysed() && gaps.empty() && conflict_count == 0 && dead_rules.empty() &&
           std::ranges::none_of(claims, [](const ClaimCheck& claim) {
               return claim.refuted_by.has_value() || claim.says_nothing;
           });
}

ModelCheck check(const Model& model, const CheckLimits& limits) {
    const std::vector<Branches> branches =
        reason::branches_of(model, reason::DoesNotApply::where_it_can_be);
    Compiler compiler(model, branches, reason::variable_order(model));
    ModelCheck result;
    result.tables.resize(model.tables.size());
    const auto order = reason::evaluation_order(model);
    for (const TableIndex table : order.value()) {
        TableCheck& check = result.tables[table];
        check.table = table;
        if (compiler.compile(table, limits.diagram)) {
            DiagramCheck(compiler, model, branches, limits, check).run();
        } else {
            check_by_boxes(model, branches, limits, check);
        }
    }
    find_idle_facts(compiler, model, result);
    return result;
}

}  // namespace ashtriage::prove
