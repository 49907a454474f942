// Why a rule decided, worded for many trees one after the other: the texts of the rules are cut up
// once, and the words for values that came before are remembered. Not for several threads at once.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "packs/wording.hpp"
#include "triage/cell_key.hpp"
#include "triage/recommend.hpp"

namespace ashtriage::present {

class BecauseWords {
 public:
    // The judge must outlive the object.
    BecauseWords(const triage::Judge& judge, reason::TableIndex table);

    // The reason that the rule of the table gives, as triage::reason_of words it. Valid until the
    // next call.
    const std::string& of(reason::RuleIndex rule, const reason::Observation& values);

 private:
    struct SpokenValue {
        reason::FactIndex fact = 0;
        reason::Value value;
        std::string words;  // empty: the place is free
    };

    const std::string& spoken(reason::FactIndex fact, const reason::Value& value);
    const std::string& table_words(reason::TableIndex table, const reason::Observation& values);

    const triage::Judge* judge_;
    std::vector<std::vector<packs::WordedPiece>> rules_;
    std::vector<SpokenValue> spoken_;
    std::map<reason::TableIndex, triage::AnswerMemory<std::string>> tables_;
    std::string text_;
};

}  // namespace ashtriage::present
