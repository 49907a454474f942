#include "reason/condition.hpp"

#include <utility>

namespace ashtriage::reason {

namespace {

Condition joined(Condition::Kind kind, std::vector<Condition> parts) {
    Condition condition;
    condition.kind = kind;
    condition.parts = std::move(parts);
    return condition;
}

template <typename Test>
Condition tested(Condition::Kind kind, Test test) {
    Condition condition;
    condition.kind = kind;
    condition.test = std::move(test);
    return condition;
}

}  // namespace

Condition Condition::all(std::vector<Condition> parts) {
    return joined(Kind::all, std::move(parts));
}

Condition Condition::any(std::vector<Condition> parts) {
    return joined(Kind::any, std::move(parts));
}

Condition Condition::negation(Condition part) {
    std::vector<Condition> parts;
    parts.push_back(std::move(part));
    return joined(Kind::negation, std::move(parts));
}

Condition Condition::number(FactIndex fact, const Interval& accepted, std::string setting) {
    return tested(Kind::number, NumberTest{fact, accepted, std::move(setting)});
}

Condition Condition::level(FactIndex fact, LevelSet accepted) {
    return tested(Kind::level, LevelTest{fact, accepted});
}

Condition Condition::outcome(TableIndex table, LevelSet accepted) {
    return tested(Kind::outcome, OutcomeTest{table, accepted});
}

}  // namespace ashtriage::reason
