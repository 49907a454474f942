#include "present/claim_words.hpp"

#include "packs/wording.hpp"
#include "packs/words.hpp"

namespace ashtriage::present {

std::string direction_words(const packs::RuleSet& rules, const reason::WorseClaim& claim) {
    const reason::Fact& fact = rules.model.facts[claim.fact];
    const std::string name = packs::plain_name(fact.name);
    if (claim.order.empty()) return name + (claim.falling ? " falling" : " rising");
    std::string words = name + " going from ";
    for (std::size_t i = 0; i < claim.order.size(); ++i) {
        words += (i == 0 ? "" : " to ") + packs::plain_name(fact.levels[claim.order[i]]);
    }
    return words;
}

std::string exception_words(const packs::RuleSet& rules, reason::TableIndex table,
                            std::size_t claim) {
    const reason::Table& claiming = rules.model.tables[table];
    const reason::WorseClaim& claimed = claiming.worse[claim];
    if (claimed.excepted == 0 && !claimed.unless) return {};
    const std::string left_out = claimed.unless
                                     ? "where " + packs::condition_text(*claimed.unless, rules)
                                     : packs::outcomes_text(claiming, claimed.excepted, "and");
    return packs::plain_name(rules.model.facts[claimed.fact].name) + ", leaving out " + left_out +
           ": " + rules.tables[table].claims[claim].because;
}

}  // namespace ashtriage::present
