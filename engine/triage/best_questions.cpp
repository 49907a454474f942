#include "triage/best_questions.hpp"

#include "reason/questions.hpp"

namespace ashtriage::triage {

namespace {

// How many glances a question is worth asking instead of: the program's own reckoning, since a
// tape costs a minute, a spade several, and a climb a crew.
double trouble(packs::Effort effort) {
    switch (effort) {
        case packs::Effort::glance:
            return 1.0;
        case packs::Effort::measure:
            return 3.0;
        case packs::Effort::dig:
            return 10.0;
        case packs::Effort::climb:
            return 30.0;
    }
    return 1.0;
}

}  // namespace

std::vector<reason::FactIndex> best_questions(const packs::RuleSet& rules,
                                              const reason::Engine& engine,
                                              reason::TableIndex table,
                                              const reason::Observation& values) {
    const auto effort = [&](reason::FactIndex fact) { return trouble(rules.facts[fact].effort); };
    std::vector<reason::FactIndex> facts;
    for (const reason::Question& question : reason::questions(engine, table, values, effort)) {
        facts.push_back(question.fact);
    }
    return facts;
}

}  // namespace ashtriage::triage
