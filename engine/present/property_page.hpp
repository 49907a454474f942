// The page for the client: one property, one self-contained HTML file that reads on a phone and
// prints on letter or A4 paper. No network, no scripts.
#pragma once

#include <string>

#include "packs/rule_set.hpp"
#include "present/assessment.hpp"

namespace ashtriage::present {

std::string property_page(const PropertyAssessment& property, const Knowledge& knowledge);

}  // namespace ashtriage::present
