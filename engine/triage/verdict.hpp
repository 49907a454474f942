// The answer for one tree in numbers: what the tables come to, before any of it is put into words.
// It is what a list of many trees shows; recommend() tells the rest of it.
#pragma once

#include <optional>

#include "packs/rule_set.hpp"
#include "reason/engine.hpp"
#include "triage/cell_key.hpp"
#include "triage/recommend.hpp"
#include "triage/worked_out.hpp"

namespace ashtriage::triage {

struct Verdict {
    reason::LevelSet possible = 0;  // outcomes of the table `recommendation`
    bool firm = false;
    reason::LevelSet within_error = 0;               // what it could be within the error of the eye
    std::optional<reason::RuleIndex> deciding_rule;  // of that table; the first of several
    std::optional<reason::OutcomeIndex> evidence;    // where that table is decided
    reason::LevelSet flags = 0;                      // outcomes of the table `hazard`
};

// Finds verdicts for many trees one after the other, and remembers those it found: trees whose
// values lie in the same cells get the same verdict. Of a fixed size. Not for several threads at
// once.
class Verdicts {
 public:
    // The judge must outlive the object.
    explicit Verdicts(const Judge& judge);

    // One value per fact of the rule set's model.
    Verdict on(const reason::Observation& values);

 private:
    struct Recommended {
        reason::LevelSet possible = 0;
        reason::LevelSet within_error = 0;
        std::optional<reason::RuleIndex> deciding_rule;
        bool firm = false;
    };

    Recommended recommended(const reason::Observation& values) const;

    const Judge* judge_;
    PartlyKnownCrown crown_;
    reason::TableIndex recommendation_;
    reason::TableIndex evidence_;
    reason::TableIndex hazard_;
    AnswerMemory<Recommended> recommendations_;
    AnswerMemory<std::optional<reason::OutcomeIndex>> evidences_;
    AnswerMemory<reason::LevelSet> flags_;
};

}  // namespace ashtriage::triage
