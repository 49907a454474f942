// Reading the window of one method from rules/seasons.yaml.
#pragma once

#include <string>
#include <vector>

#include "packs/rule_set.hpp"
#include "packs/yaml_fields.hpp"
#include "season/calendar.hpp"
#include "season/seasons.hpp"

namespace ashtriage::season {

// `what` names it in messages: "the method 'cover_spray'". What is wrong goes to the problems of
// `source`: ends out of order, by the calendar as by degree days or leaf-out; a day in a time of
// the year in which the method is never used; a cue that the calendar does not have; a source that
// is not there.
MethodSeason read_method_season(const std::string& method, const packs::Node& node,
                                const std::string& what, const Calendar& calendar,
                                const std::vector<packs::Source>& known_sources,
                                const packs::YamlSource& source);

}  // namespace ashtriage::season
