// Finding out exactly what is possible: where three-valued logic leaves something open, the facts
// it hangs on are split into their elementary cells and each case is looked at on its own.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "reason/branches.hpp"
#include "reason/model.hpp"
#include "reason/three_valued.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

class CaseSplit {
 public:
    // Looks only at the rules of `table` for which `concerned` is true, and at what they rest on.
    // All references must outlive the object; `order` holds `table` and every table it rests on.
    CaseSplit(const Model& model, const std::vector<TableIndex>& order,
              const std::vector<Branches>& branches, TableIndex table,
              std::function<bool(const Rule&)> concerned);

    // Goes through the cases. `nothing_new` is shown the estimate of each case, finer and finer,
    // and ends the splitting of that case by returning true; an estimate in which no fact is open
    // any more is shown to `settled` and is exact. False when there were too many cases to go
    // through all of them.
    bool explore(Observation observation, const std::function<bool(const Estimates&)>& nothing_new,
                 const std::function<void(const Estimates&)>& settled) const;

    // How many rules are tried, over all cases, before the rest is left: some tenths of a second.
    static constexpr std::size_t most_rules_tried = std::size_t{1} << 22U;

 private:
    bool explore_case(Observation& observation,
                      const std::function<bool(const Estimates&)>& nothing_new,
                      const std::function<void(const Estimates&)>& settled,
                      std::size_t& cases_left) const;
    std::optional<FactIndex> open_fact(const Observation& observation,
                                       const Estimates& estimates) const;
    std::optional<FactIndex> open_fact_of_test(FactIndex fact, const Observation& observation,
                                               const Estimates& estimates) const;
    std::optional<FactIndex> open_fact_in(const Condition& condition,
                                          const Observation& observation,
                                          const Estimates& estimates) const;
    std::optional<FactIndex> open_fact_of_table(TableIndex table, const Observation& observation,
                                                const Estimates& estimates) const;

    const Model& model_;
    const std::vector<TableIndex>& order_;
    const std::vector<Branches>& branches_;
    TableIndex table_;
    std::function<bool(const Rule&)> concerned_;
    std::size_t most_cases_;
};

}  // namespace ashtriage::reason
