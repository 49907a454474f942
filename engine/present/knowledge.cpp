#include "present/knowledge.hpp"

#include <utility>

#include "packs/read_rule_set.hpp"
#include "plan/read_method_facts.hpp"
#include "season/read_seasons.hpp"
#include "treat/read_label_card.hpp"

namespace ashtriage::present {

Knowledge read_knowledge(const std::vector<packs::RuleFile>& files, const std::string& preset) {
    packs::RuleSet rules = packs::read_rule_set(files, preset);
    auto cards = treat::read_label_cards(files, rules.sources);
    auto seasons = season::read_seasons(files, rules.sources);
    auto methods = plan::read_method_facts(files, rules, seasons);
    return {triage::Judge(std::move(rules)), std::move(cards), std::move(seasons),
            std::move(methods)};
}

}  // namespace ashtriage::present
