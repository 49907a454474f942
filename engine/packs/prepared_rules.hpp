// The rules under each preset, read and compiled once each, for whoever runs the packs' cases.
#pragma once

#include <memory>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "packs/read_rule_set.hpp"
#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "reason/engine.hpp"

namespace ashtriage::packs {

// The rule set with one preset, ready to decide. All presets have the same facts, tables and cases.
struct PreparedRules {
    RuleSet rule_set;
    reason::Engine engine;

    explicit PreparedRules(RuleSet read) : rule_set(std::move(read)), engine(rule_set.model) {}
};

class RulesByPreset {
 public:
    // The files must outlive this object.
    explicit RulesByPreset(const std::vector<RuleFile>& files) : files_(files) {}

    // Throws as read_rule_set does.
    const PreparedRules& under(const std::string& preset) {
        std::unique_ptr<PreparedRules>& prepared = prepared_[preset];
        if (!prepared) prepared = std::make_unique<PreparedRules>(read_rule_set(files_, preset));
        return *prepared;
    }

 private:
    const std::vector<RuleFile>& files_;
    std::unordered_map<std::string, std::unique_ptr<PreparedRules>> prepared_;
};

}  // namespace ashtriage::packs
