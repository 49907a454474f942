// The walk-around as a conversation: which question comes next, and which no longer matter.
//
// No terminal, no wording: whoever shows the questions takes their text from the rule set.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "observe/records.hpp"
#include "packs/rule_set.hpp"
#include "reason/engine.hpp"

namespace ashtriage::triage {

class Interview {
 public:
    // `known` holds what is known beforehand (DBH, what the site tells), one value per fact.
    // `with_assessor`: also ask for what only a qualified tree-risk assessor can enter. The rule
    // set and the engine must outlive the interview.
    Interview(const packs::RuleSet& rules, const reason::Engine& engine, reason::Observation known,
              bool with_assessor);

    // The next question worth asking: what bears on danger first, then what settles most for the
    // trouble of finding it out: the recommendation, the flags, the evidence, and the method of a
    // tree that may be treated, in this order. Nothing when no question is left whose answer could
    // change any of them.
    std::optional<reason::FactIndex> next() const;

    // Takes an answer as a person writes it. Throws measure::InputError when the fact cannot have
    // it.
    void answer(reason::FactIndex fact, std::string_view text);

    // Takes the last answer back; false when there is none.
    bool back();

    std::size_t answered() const { return answers_.size(); }
    // The answers so far, in the order in which they were given.
    const std::vector<observe::Finding>& findings() const { return answers_; }

 private:
    reason::Observation values() const;
    bool is_answered(std::string_view fact) const;
    std::vector<std::string_view> tables_to_settle(const reason::Observation& values) const;
    bool may_be_asked(reason::FactIndex fact, const reason::Observation& now) const;

    const packs::RuleSet& rules_;
    const reason::Engine& engine_;
    reason::Observation known_;
    bool with_assessor_;
    std::vector<observe::Finding> answers_;
};

}  // namespace ashtriage::triage
