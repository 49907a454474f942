// What to ask next: of the facts that can still make a difference, the one whose answer is worth
// most for the trouble of finding it out.
#pragma once

#include <functional>
#include <vector>

#include "reason/engine.hpp"

namespace ashtriage::reason {

struct Question {
    FactIndex fact = 0;
    // How many of the answers still possible an answer to this question rules out, on average over
    // the cells it can fall into.
    double rules_out = 0.0;
    // How many other questions it makes idle, on the same average.
    double makes_idle = 0.0;
};

// The facts of can_matter(), the best question first: the one that rules out most for its effort;
// where two do alike, the one that makes most other questions idle for its effort; then in the
// order of the model. `effort` gives a positive weight for each fact. All of a table that is
// decided are none. Any table. Without a diagram the facts come in the order of the model.
std::vector<Question> questions(const Engine& engine, TableIndex table,
                                const Observation& observation,
                                const std::function<double(FactIndex)>& effort);

}  // namespace ashtriage::reason
