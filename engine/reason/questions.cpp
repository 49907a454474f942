#include "reason/questions.hpp"

#include <algorithm>
#include <tuple>

#include "reason/restricted.hpp"

namespace ashtriage::reason {

namespace {

Question judged(const Restricted& rest, FactIndex fact, std::size_t open_answers,
                std::size_t open_facts) {
    const std::vector<Branch>& branches = rest.branches_left(fact);
    double answers_left = 0.0;
    double facts_left = 0.0;
    for (const Branch branch : branches) {
        answers_left += static_cast<double>(rest.open_answers_if(fact, branch));
        facts_left += static_cast<double>(rest.open_facts_if(fact, branch));
    }
    const auto cells = static_cast<double>(branches.size());
    return {fact, static_cast<double>(open_answers) - answers_left / cells,
            static_cast<double>(open_facts) - facts_left / cells};
}

}  // namespace

std::vector<Question> questions(const Engine& engine, TableIndex table,
                                const Observation& observation,
                                const std::function<double(FactIndex)>& effort) {
    std::vector<Question> found;
    if (!engine.has_diagram(table)) {
        for (const FactIndex fact : engine.can_matter(table, observation)) {
            found.push_back({fact, 0.0, 0.0});
        }
        return found;
    }
    const Restricted rest(engine, table, observation);
    const std::vector<FactIndex> facts = rest.facts();
    const std::size_t open_answers = rest.open_answers();
    for (const FactIndex fact : facts) {
        found.push_back(judged(rest, fact, open_answers, facts.size()));
    }
    const auto worth = [&](const Question& question) {
        const double trouble = effort(question.fact);
        return std::tuple{-question.rules_out / trouble, -question.makes_idle / trouble,
                          question.fact};
    };
    std::ranges::sort(found, {}, worth);
    return found;
}

}  // namespace ashtriage::reason
