// Reads the many values of one fact in a long table. It means exactly what parse_value means, and
// is faster: plain numbers are read at once, and texts that came before are remembered.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "packs/rule_set.hpp"
#include "packs/text_memory.hpp"
#include "reason/fact.hpp"
#include "reason/value.hpp"

namespace ashtriage::packs {

class ValueReader {
 public:
    // Both must outlive the reader.
    ValueReader(const reason::Fact& fact, const FactText& fact_text);

    // As parse_value(fact, fact_text, text); throws as it does.
    reason::Value read(std::string_view text);

 private:
    std::optional<reason::Value> plain_number(std::string_view text) const;

    const reason::Fact* fact_;
    const FactText* fact_text_;
    bool whole_numbers_ = false;
    std::vector<std::string_view> unit_forms_;  // what may follow a number, without a blank before
    TextMemory<reason::Value> known_;
};

}  // namespace ashtriage::packs
