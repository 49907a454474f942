// A file of record policies for tests: invented rules.
#pragma once

#include <string>

#include "card_text.hpp"
#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "treat/read_record_policies.hpp"

namespace ashtriage::treat::test {

inline const std::string two_policies = R"(records: application-records
edition: test
remind_after: {days: [0, 5, 14, 30], source: test-source}
policies:
  strictest:
    jurisdiction: Everywhere
    about: Invented.
    applies_to: all
    written: {within_days: 0, source: test-source}
    kept: {years: 5, source: test-source}
    customer_copy: {within_days: 30, for: all, source: test-source}
    required:
      fields: [work_date, product_name, wind_speed, dilution, total_product, rate, area, assistants]
      source: test-source
    checked_on: 2026-01-15
  lenient:
    jurisdiction: Invented State
    about: Invented too.
    applies_to: restricted_use
    written: {within_days: 7, source: test-source}
    kept: not known
    customer_copy: {within_days: 40, for: restricted_use, source: test-source}
    required:
      fields:
        - product_name
        - either: [[dilution, total_product], [rate, area]]
      source: test-source
    checked_on: not checked
)";

inline RecordPolicies policies_of(const std::string& text) {
    return read_record_policies({{"records.yaml", text, {}}}, test_sources());
}

}  // namespace ashtriage::treat::test
