// Reading the part of rules/seasons.yaml that says when borer and plants are where in their year.
#pragma once

#include <vector>

#include "packs/rule_set.hpp"
#include "packs/yaml_fields.hpp"
#include "season/calendar.hpp"

namespace ashtriage::season {

// What is wrong goes to the problems of `source`: a band or a figure that ends before it begins, a
// name that stands twice, an event without a figure, a source that is not there.
Calendar read_calendar(const packs::Node& node, const std::vector<packs::Source>& known_sources,
                       const packs::YamlSource& source);

}  // namespace ashtriage::season
