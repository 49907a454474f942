#include "exported.hpp"

#include <stdexcept>
#include <utility>
#include <vector>

namespace ashtriage::peers {

namespace {

using nlohmann::json;
using reason::Condition;

// A comparison of a number fact with one end of a stretch.
struct Comparison {
    double threshold = 0.0;
    bool from_below = false;  // the number must be above the threshold
    bool open = false;        // the threshold itself does not count
};

// An end that the fact's range has anyway needs no comparison.
std::vector<Comparison> comparisons(const reason::Interval& accepted,
                                    const reason::Interval& range) {
    std::vector<Comparison> needed;
    if (accepted.low != range.low || accepted.low_open) {
        needed.push_back({accepted.low, true, accepted.low_open});
    }
    if (accepted.high != range.high || accepted.high_open) {
        needed.push_back({accepted.high, false, accepted.high_open});
    }
    return needed;
}

std::vector<std::string> names_of(const reason::Fact& fact, reason::LevelSet accepted) {
    std::vector<std::string> names;
    for (reason::LevelIndex level = 0; level < fact.levels.size(); ++level) {
        if (reason::has_level(accepted, level)) names.push_back(fact.levels[level]);
    }
    return names;
}

// One form of JSON for conditions: how it joins them and how it writes the tests.
class Form {
 public:
    Form() = default;
    Form(const Form&) = delete;
    Form& operator=(const Form&) = delete;
    virtual ~Form() = default;

    virtual json all(std::vector<json> parts) const = 0;
    virtual json any(std::vector<json> parts) const = 0;
    virtual json negation(json part) const = 0;
    virtual json compared(const std::string& fact, const Comparison& comparison) const = 0;
    virtual json one_of(const std::string& fact, const std::vector<std::string>& names) const = 0;

    json condition(const Condition& written, const reason::Model& model) const {
        switch (written.kind) {
            case Condition::Kind::all:
                return all(parts(written, model));
            case Condition::Kind::any:
                return any(parts(written, model));
            case Condition::Kind::negation:
                return negation(condition(written.parts.front(), model));
            case Condition::Kind::number: {
                const auto& test = std::get<reason::NumberTest>(written.test);
                const reason::Fact& fact = model.facts[test.fact];
                std::vector<json> both;
                for (const Comparison& needed : comparisons(test.accepted, fact.range)) {
                    both.push_back(compared(fact.name, needed));
                }
                return both.size() == 1 ? both.front() : all(std::move(both));
            }
            case Condition::Kind::level: {
                const auto& test = std::get<reason::LevelTest>(written.test);
                const reason::Fact& fact = model.facts[test.fact];
                return one_of(fact.name, names_of(fact, test.accepted));
            }
            case Condition::Kind::outcome:
                break;
        }
        throw std::invalid_argument("a test of another table cannot be exported");
    }

 private:
    std::vector<json> parts(const Condition& joined, const reason::Model& model) const {
        std::vector<json> written;
        for (const Condition& part : joined.parts) written.push_back(condition(part, model));
        return written;
    }
};

class RulesEngineForm final : public Form {
 public:
    json all(std::vector<json> parts) const override { return {{"all", std::move(parts)}}; }
    json any(std::vector<json> parts) const override { return {{"any", std::move(parts)}}; }
    json negation(json part) const override { return {{"not", std::move(part)}}; }
    json compared(const std::string& fact, const Comparison& comparison) const override {
        std::string op = comparison.from_below ? "greaterThan" : "lessThan";
        if (!comparison.open) op += "Inclusive";
        return test(fact, op, comparison.threshold);
    }
    json one_of(const std::string& fact, const std::vector<std::string>& names) const override {
        return names.size() == 1 ? test(fact, "equal", names.front()) : test(fact, "in", names);
    }

 private:
    static json test(const std::string& fact, const std::string& op, const json& value) {
        return {{"fact", fact}, {"operator", op}, {"value", value}};
    }
};

class LogicForm final : public Form {
 public:
    // A bare value is simply true or false there.
    json all(std::vector<json> parts) const override {
        if (parts.empty()) return true;
        return {{"and", std::move(parts)}};
    }
    json any(std::vector<json> parts) const override {
        if (parts.empty()) return false;
        return {{"or", std::move(parts)}};
    }
    json negation(json part) const override { return {{"!", json::array({std::move(part)})}}; }
    json compared(const std::string& fact, const Comparison& comparison) const override {
        std::string op = comparison.from_below ? ">" : "<";
        if (!comparison.open) op += "=";
        return {{op, json::array({variable(fact), comparison.threshold})}};
    }
    json one_of(const std::string& fact, const std::vector<std::string>& names) const override {
        if (names.size() == 1) return {{"===", json::array({variable(fact), names.front()})}};
        return {{"in", json::array({variable(fact), names})}};
    }

 private:
    static json variable(const std::string& fact) { return {{"var", fact}}; }
};

void require_first(const reason::Table& table) {
    if (table.hit_policy != reason::HitPolicy::first) {
        throw std::invalid_argument("only a table with the hit policy first can be exported");
    }
}

}  // namespace

json rules_engine_rules(const reason::Model& model, const reason::Table& table) {
    require_first(table);
    const RulesEngineForm form;
    json rules = json::array();
    for (const reason::Rule& rule : table.rules) {
        json conditions = form.condition(rule.when, model);
        // At the top of a rule the library wants conditions joined.
        if (conditions.contains("fact")) conditions = form.all({std::move(conditions)});
        rules.push_back({{"conditions", std::move(conditions)},
                         {"event", {{"type", table.gives[rule.gives]}}}});
    }
    return rules;
}

json logic(const reason::Model& model, const reason::Table& table) {
    require_first(table);
    const LogicForm form;
    json chain = json::array();
    for (const reason::Rule& rule : table.rules) {
        chain.push_back(form.condition(rule.when, model));
        chain.push_back(table.gives[rule.gives]);
    }
    return {{"if", std::move(chain)}};
}

json tree_json(const reason::Model& model, const reason::Observation& tree) {
    json written = json::object();
    for (reason::FactIndex fact = 0; fact < tree.size(); ++fact) {
        const reason::Fact& about = model.facts[fact];
        if (const reason::Interval* number = tree[fact].interval()) {
            written[about.name] = number->low;
        } else {
            written[about.name] = names_of(about, *tree[fact].level_set()).front();
        }
    }
    return written;
}

}  // namespace ashtriage::peers
