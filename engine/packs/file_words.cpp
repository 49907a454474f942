#include "packs/file_words.hpp"

#include <cstddef>

namespace ashtriage::packs {

const std::vector<std::string>& kind_names() {
    static const std::vector<std::string> names = {"number", "ordered", "choice", "yes_no"};
    return names;
}

const std::vector<std::string>& effort_names() {
    static const std::vector<std::string> names = {"glance", "measure", "dig", "climb"};
    return names;
}

const std::vector<std::string>& hit_policy_names() {
    static const std::vector<std::string> names = {"unique", "first", "priority", "collect"};
    return names;
}

const std::string& kind_name(reason::FactKind kind) {
    return kind_names()[static_cast<std::size_t>(kind)];
}

const std::string& effort_name(Effort effort) {
    return effort_names()[static_cast<std::size_t>(effort)];
}

const std::string& hit_policy_name(reason::HitPolicy policy) {
    return hit_policy_names()[static_cast<std::size_t>(policy)];
}

}  // namespace ashtriage::packs
