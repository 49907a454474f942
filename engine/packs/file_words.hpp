// The words by which rule files say what kind of thing something is, each list in the order of the
// enumerators it stands for.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_set.hpp"
#include "reason/fact.hpp"
#include "reason/model.hpp"

namespace ashtriage::packs {

const std::vector<std::string>& kind_names();
const std::vector<std::string>& effort_names();
const std::vector<std::string>& hit_policy_names();

const std::string& kind_name(reason::FactKind kind);
const std::string& effort_name(Effort effort);
const std::string& hit_policy_name(reason::HitPolicy policy);

}  // namespace ashtriage::packs
