// A seasons file for tests: invented methods at an invented anchor.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "season/read_seasons.hpp"

namespace ashtriage::season::test {

inline const std::string two_methods = R"(seasons: ash-treatment
edition: test
anchor: {name: Anchor Town, latitude: 40.0, longitude: -90.0, elevation: 500 ft, source: test-source}
estimate_days: {days: 10, source: test-source}
methods:
  spring_drench:
    title: Drench in spring
    opens: {date: 10 April, moves: yes, source: test-source}
    best_until: {date: 20 April, moves: yes, source: test-source}
    closes: {date: 10 May, moves: yes, source: test-source}
    never_in: [autumn, winter]
    why_never: Invented.
    source: test-source
    needs:
      - {text: Moist soil., source: test-source}
  summer_injection:
    title: Injection in summer
    opens: {date: 1 June, moves: yes, source: test-source}
    best_until: {date: 1 July, moves: yes, source: test-source}
    closes: {date: 31 August, moves: no, source: test-source}
    never_in: [autumn, winter]
    why_never: Invented.
    source: test-source
    needs:
      - {text: Full leaf., source: test-source}
not_offered:
  - {title: Drench in autumn, why: Invented., source: test-source}
)";

inline std::string changed(std::string text, std::string_view old, std::string_view replacement) {
    const std::size_t at = text.find(old);
    if (at == std::string::npos || text.find(old, at + 1) != std::string::npos) {
        throw std::logic_error("not exactly once in the file: " + std::string(old));
    }
    return text.replace(at, old.size(), replacement);
}

inline Seasons seasons_of(const std::string& text) {
    return read_seasons({{"seasons.yaml", text, {}}},
                        {{"test-source", "Invented for a test.", packs::Evidence::example}});
}

}  // namespace ashtriage::season::test
