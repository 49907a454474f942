#include "prove/monotone.hpp"

#include <algorithm>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

namespace ashtriage::prove {

namespace {

using reason::Branch;
using reason::Branches;
using reason::Compiler;
using reason::FactIndex;
using reason::is_leaf;
using reason::leaf_value;
using reason::Level;
using reason::Model;
using reason::Node;
using reason::Observation;
using reason::WorseClaim;

// What is followed at once: the answers to the two cases, and whether the claim makes an exception
// of either.
struct Pair {
    Node better;
    Node worse;
    Node better_excepted;
    Node worse_excepted;

    friend bool operator<(const Pair& a, const Pair& b) {
        return std::tie(a.better, a.worse, a.better_excepted, a.worse_excepted) <
               std::tie(b.better, b.worse, b.better_excepted, b.worse_excepted);
    }
};

class PairSearch {
 public:
    PairSearch(Compiler& compiler, const Model& model, const std::vector<Branches>& branches,
               const WorseClaim& claim, bool collects)
        : compiler_(compiler),
          model_(model),
          branches_(branches),
          claim_(claim),
          collects_(collects),
          badness_(badness_of_branches()),
          better_(model.facts.size()),
          worse_(model.facts.size()) {}

    std::optional<Counterexample> search(Node answer) {
        const Node excepted = claim_.unless ? compiler_.condition(*claim_.unless) : reason::no_leaf;
        search(Pair{answer, answer, excepted, excepted});
        return found_;
    }

 private:
    // How bad the values of a branch are, from the least to the most; nothing where none of them is
    // compared. Levels that no rule tells apart share a branch, however far apart they stand.
    struct Badness {
        std::size_t least = 0;
        reason::Value least_bad;
        std::size_t most = 0;
        reason::Value most_bad;
    };

    std::vector<std::optional<Badness>> badness_of_branches() const {
        const std::vector<reason::Value>& cells = branches_[claim_.fact].cells();
        std::vector<std::optional<Badness>> badness(branches_[claim_.fact].count());
        for (std::size_t cell = 0; cell < cells.size(); ++cell) {
            if (cells[cell].interval() != nullptr) {
                const std::size_t rank = claim_.falling ? cells.size() - cell : cell;
                badness[cell] = Badness{rank, cells[cell], rank, cells[cell]};
                continue;
            }
            const std::vector<reason::LevelIndex> best_first = levels_best_first();
            for (std::size_t rank = 0; rank < best_first.size(); ++rank) {
                if (!reason::has_level(*cells[cell].level_set(), best_first[rank])) continue;
                const auto value = reason::Value::level(best_first[rank]);
                if (!badness[cell]) badness[cell] = Badness{rank, value, rank, value};
                badness[cell]->most = rank;
                badness[cell]->most_bad = value;
            }
        }
        return badness;
    }

    std::vector<reason::LevelIndex> levels_best_first() const {
        std::vector<reason::LevelIndex> levels = claim_.order;
        if (!levels.empty()) return levels;
        levels.resize(model_.facts[claim_.fact].levels.size());
        std::iota(levels.begin(), levels.end(), reason::LevelIndex{0});
        if (claim_.falling) std::ranges::reverse(levels);
        return levels;
    }

    bool is_worse(Branch better, Branch worse) const {
        return badness_[better] && badness_[worse] &&
               badness_[better]->least < badness_[worse]->most;
    }

    bool wrong_way_round(std::uint32_t better, std::uint32_t worse) const {
        if (collects_) return better > worse;  // collected in the better case only
        const bool both_answered = better < reason::most_outcomes && worse < reason::most_outcomes;
        return both_answered && worse > better;  // the earlier in `gives`, the more severe
    }

    // True when a pair was found. What was looked through in vain is not looked through again.
    bool search(const Pair& pair) {
        const auto& store = compiler_.store();
        if (pair.better == pair.worse && !still_to_come(pair)) return false;
        if (pair.better_excepted == reason::yes_leaf || pair.worse_excepted == reason::yes_leaf) {
            return false;
        }
        if (is_leaf(pair.better) && is_leaf(pair.worse) &&
            !wrong_way_round(leaf_value(pair.better), leaf_value(pair.worse))) {
            return false;
        }
        const Level at =
            std::min({store.level(pair.better), store.level(pair.worse),
                      store.level(pair.better_excepted), store.level(pair.worse_excepted)});
        if (at == store.level_count()) {
            found_ =
                Counterexample{better_, worse_, leaf_value(pair.better), leaf_value(pair.worse)};
            return true;
        }
        if (!seen_.insert(pair).second) return false;

        const FactIndex fact = compiler_.order()[at];
        const Branch count = store.branch_count(at);
        for (Branch better = 0; better < count; ++better) {
            for (Branch worse = 0; worse < count; ++worse) {
                const bool wanted = fact == claim_.fact ? is_worse(better, worse) : better == worse;
                if (!wanted) continue;
                const bool compared = fact == claim_.fact;
                better_[fact] = compared ? badness_[better]->least_bad  //
                                         : branches_[fact].value(better);
                worse_[fact] = compared ? badness_[worse]->most_bad  //
                                        : branches_[fact].value(worse);
                if (search({store.branch(pair.better, at, better),
                            store.branch(pair.worse, at, worse),
                            store.branch(pair.better_excepted, at, better),
                            store.branch(pair.worse_excepted, at, worse)})) {
                    return true;
                }
            }
        }
        better_[fact] = worse_[fact] = reason::Value{};
        return false;
    }

    // Whether the two cases can still come to differ further down.
    bool still_to_come(const Pair& pair) const {
        const auto& order = compiler_.order();
        const auto at = std::ranges::find(order, claim_.fact) - order.begin();
        return compiler_.store().level(pair.better) <= static_cast<Level>(at);
    }

    Compiler& compiler_;
    const Model& model_;
    const std::vector<Branches>& branches_;
    const WorseClaim& claim_;
    bool collects_;
    std::vector<std::optional<Badness>> badness_;  // by branch of the claim's fact
    Observation better_;
    Observation worse_;
    std::set<Pair> seen_;
    std::optional<Counterexample> found_;
};

}  // namespace

std::optional<Counterexample> counterexample(Compiler& compiler, const Model& model,
                                             const std::vector<Branches>& branches,
                                             reason::TableIndex table, const WorseClaim& claim) {
    const bool collects = model.tables[table].hit_policy == reason::HitPolicy::collect;
    const std::vector<Node>& answers = compiler.compiled(table)->answers;
    for (reason::OutcomeIndex outcome = 0; outcome < answers.size(); ++outcome) {
        if (reason::has_level(claim.excepted, outcome)) continue;
        PairSearch search(compiler, model, branches, claim, collects);
        auto found = search.search(answers[outcome]);
        if (!found) continue;
        if (collects) found->better_gives = found->worse_gives = outcome;
        return found;
    }
    return std::nullopt;
}

}  // namespace ashtriage::prove
