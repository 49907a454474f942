#include "packs/rule_set.hpp"

#include <algorithm>

#include "packs/sources.hpp"

namespace ashtriage::packs {

const Setting* RuleSet::find_setting(std::string_view name) const {
    const auto found = std::find_if(settings.begin(), settings.end(),
                                    [&](const Setting& setting) { return setting.name == name; });
    return found == settings.end() ? nullptr : &*found;
}

const Source* RuleSet::find_source(std::string_view key) const {
    return packs::find_source(sources, key);
}

}  // namespace ashtriage::packs
