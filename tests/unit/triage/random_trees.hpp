// Trees of which everything that can be asked is known, drawn at random but the same on every run.
#pragma once

#include <cmath>
#include <random>
#include <string>

#include "trees.hpp"
#include "triage/tables.hpp"

namespace ashtriage::triage {

class RandomTrees {
 public:
    RandomTrees(const packs::RuleSet& rules, unsigned seed) : rules_(rules), random_(seed) {}

    // An answer for every fact that is asked, except those that `known` answers.
    Entries findings(const Entries& known = {}) {
        Entries all = known;
        for (reason::FactIndex fact = 0; fact < rules_.model.facts.size(); ++fact) {
            const std::string& name = rules_.model.facts[fact].name;
            const bool given =
                std::ranges::find(known, name, &observe::Finding::fact) != known.end();
            if (rules_.facts[fact].asked && !given) all.push_back({name, answer(fact)});
        }
        leave_out_what_does_not_apply(all, known);
        return all;
    }

    std::string stems() { return std::to_string(1 + below(60)) + " in"; }

    std::string answer(reason::FactIndex index) {
        const reason::Fact& fact = rules_.model.facts[index];
        if (fact.kind != reason::FactKind::number) return fact.levels[below(fact.levels.size())];
        // Thresholds lie in the lower part of the wide ranges, so small numbers come more often.
        const double share = static_cast<double>(below(1001)) / 1000.0;
        const double bent = rules_.facts[index].unit == "percent" ? share : share * share * share;
        const double span = fact.range.high - fact.range.low;
        return std::to_string(static_cast<int>(std::ceil(fact.range.low + bent * span)));
    }

    std::size_t below(std::size_t end) { return random_() % end; }

 private:
    // Nobody measures the shell of a stem that is not hollow.
    void leave_out_what_does_not_apply(Entries& all, const Entries& known) const {
        reason::Observation values(rules_.model.facts.size());
        for (const observe::Finding& finding : all) {
            const auto fact = fact_named(rules_, finding.fact);
            values[fact] =
                packs::parse_value(rules_.model.facts[fact], rules_.facts[fact], finding.value);
        }
        std::erase_if(all, [&](const observe::Finding& finding) {
            return reason::applies(fact_named(rules_, finding.fact), rules_.model, values) !=
                       reason::Truth::yes &&
                   std::ranges::find(known, finding) == known.end();
        });
    }

    const packs::RuleSet& rules_;
    std::mt19937 random_;
};

}  // namespace ashtriage::triage
