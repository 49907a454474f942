#include "present/rule_tables_json.hpp"

namespace ashtriage::present {

namespace {

Json condition_json(const WordedCondition& condition) {
    Json json = {{"text", condition.text}};
    if (condition.parts.empty()) return json;
    json["parts"] = Json::array();
    for (const WordedCondition& part : condition.parts) {
        json["parts"].push_back(condition_json(part));
    }
    return json;
}

Json rule_json(const WordedRule& rule) {
    return {{"rule", rule.id},       {"when", condition_json(rule.when)},
            {"gives", rule.gives},   {"because", rule.because},
            {"client", rule.client}, {"todo", rule.todo},
            {"who", rule.who},       {"sources", rule.sources}};
}

Json table_json(const WordedTable& table) {
    Json rules = Json::array();
    for (const WordedRule& rule : table.rules) rules.push_back(rule_json(rule));
    return {{"table", table.name},
            {"file", table.file},
            {"about", table.about},
            {"gives", table.gives},
            {"fed_by", table.fed_by},
            {"feeds", table.feeds},
            {"hit_policy", table.hit_policy},
            {"how_it_answers", table.how_it_answers},
            {"claims", table.claims},
            {"exceptions", table.exceptions},
            {"rules", std::move(rules)}};
}

}  // namespace

Json rule_tables_json(const RuleTables& shown) {
    Json json = {{"preset", shown.preset}, {"editions", shown.editions}, {"hash", shown.hash}};
    json["tables"] = Json::array();
    for (const WordedTable& table : shown.tables) json["tables"].push_back(table_json(table));
    json["settings"] = Json::array();
    for (const WordedSetting& setting : shown.settings) {
        json["settings"].push_back({{"setting", setting.name},
                                    {"value", setting.value},
                                    {"about", setting.about},
                                    {"sources", setting.sources}});
    }
    json["sources"] = Json::array();
    for (const WordedSource& source : shown.sources) {
        json["sources"].push_back(
            {{"source", source.key}, {"citation", source.citation}, {"evidence", source.evidence}});
    }
    return json;
}

}  // namespace ashtriage::present
