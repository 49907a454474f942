// Whether a worse case ever gets a milder answer.
#pragma once

#include <optional>

#include "prove/check.hpp"
#include "reason/compiler.hpp"

namespace ashtriage::prove {

// Looks through all pairs of possible cases that differ only in the claim's fact. Nothing when the
// claim holds for every one of them that it covers. The table and the claim's condition must be
// compiled.
std::optional<Counterexample> counterexample(reason::Compiler& compiler, const reason::Model& model,
                                             const std::vector<reason::Branches>& branches,
                                             reason::TableIndex table,
                                             const reason::WorseClaim& claim);

}  // namespace ashtriage::prove
