// A seasons file for tests: invented methods at an invented anchor.
#pragma once

#include <chrono>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "packs/rule_files.hpp"
#include "packs/rule_set.hpp"
#include "season/read_seasons.hpp"
#include "weather/degree_days.hpp"

namespace ashtriage::season::test {

inline const std::string two_methods = R"(seasons: ash-treatment
edition: test
anchor: {name: Anchor Town, latitude: 40.0, longitude: -90.0, elevation: 500 ft, source: test-source}
estimate_days: {days: 10, source: test-source}
calendar:
  degree_days: {base: 50 F, from: 1 January, says: Invented., source: test-source}
  give_or_take: {days: 7, source: test-source}
  leaf_out: {says: Ask., source: test-source}
  events:
    beetles: {title: Beetles, of: borer, from: 450, to: 550, source: test-source, figures: [{from: 450, to: 500, source: test-source}]}
    blossom: {title: Blossom, of: plant, from: 470, to: 550, cue: yes, source: test-source, figures: [{from: 470, to: 470, source: test-source}]}
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

// The same with ends that go by degree days, leaves and a plant in bloom. Degree days of ten a day
// from 1 January bring 100 on 10 January, so the totals here stand for days of spring.
inline const std::string known_methods = R"(seasons: ash-treatment
edition: test
anchor: {name: Anchor Town, latitude: 40.0, longitude: -90.0, elevation: 500 ft, source: test-source}
estimate_days: {days: 10, source: test-source}
calendar:
  degree_days: {base: 50 F, from: 1 January, says: Invented., source: test-source}
  give_or_take: {days: 7, source: test-source}
  leaf_out: {says: Ask., source: test-source}
  events:
    beetles: {title: Beetles, of: borer, from: 450, to: 550, source: test-source, figures: [{from: 450, to: 500, source: test-source}]}
    blossom: {title: Blossom, of: plant, from: 470, to: 550, cue: yes, source: test-source, figures: [{from: 470, to: 470, source: test-source}]}
methods:
  drench:
    title: Drench
    opens: {date: 10 April, moves: yes, source: test-source, by_heat: {degree_days: 900, included: yes, source: test-source}}
    best_until: {date: 20 April, moves: yes, source: test-source, by_heat: {degree_days: 1000, included: yes, source: test-source}}
    closes: {date: 10 May, moves: yes, source: test-source, by_heat: {degree_days: 1200, included: no, source: test-source}}
    larger_stems: {over: 12 in, best_until: {degree_days: 1200, days: -28, included: yes, source: test-source}}
    never_in: [autumn, winter]
    why_never: Invented.
    source: test-source
    needs: [{text: Moist soil., source: test-source}]
  injection:
    title: Injection
    opens: {date: 15 May, moves: yes, source: test-source, by_leaf_out: {included: yes, source: test-source}}
    best_until: {date: 15 June, moves: yes, source: test-source, by_heat: {degree_days: 1500, included: no, source: test-source}}
    closes: {date: 31 August, moves: no, source: test-source}
    never_in: [autumn, winter]
    why_never: Invented.
    source: test-source
    needs: [{text: Full leaf., source: test-source}]
  leaf_spray:
    title: Leaf spray
    opens: {date: 1 June, moves: yes, source: test-source, by_heat: {degree_days: 1400, days: -14, included: no, source: test-source}, by_leaf_out: {days: 3, included: yes, source: test-source}}
    best_until: {date: 10 June, moves: yes, source: test-source}
    closes: {date: 20 June, moves: yes, source: test-source, by_leaf_out: {days: 30, included: no, source: test-source}}
    never_in: [autumn, winter]
    why_never: Invented.
    source: test-source
    needs: [{text: Full leaf., source: test-source}]
  cover_spray:
    title: Cover spray
    opens: {date: 25 May, moves: yes, source: test-source, by_heat: {degree_days: 1450, included: yes, source: test-source}, by_cue: {cue: blossom, included: yes, source: test-source}}
    best_until: {date: 31 May, moves: yes, source: test-source, by_cue: {cue: blossom, days: 7, included: yes, source: test-source}}
    closes: {date: 10 July, moves: yes, source: test-source, by_heat: {degree_days: 1800, included: yes, source: test-source}}
    again: {days: 28, source: test-source}
    never_in: [autumn, winter]
    why_never: Invented.
    source: test-source
    needs: [{text: None., source: test-source}]
not_offered:
  - title: Drench in autumn
    why: Sources disagree.
    source: test-source
    on_request:
      autumn_drench:
        title: Drench in autumn
        opens: {date: 15 October, moves: no, source: test-source}
        best_until: {date: 15 November, moves: no, source: test-source}
        closes: {date: 15 November, moves: no, source: test-source}
        never_in: [winter]
        why_never: Invented.
        source: test-source
        needs: [{text: Soil that is not frozen., source: test-source}]
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

// A season with the same degree days every day, known up to its day number `days`.
inline weather::HeatTotals steady_heat(int year, double each_day, int days) {
    weather::HeatTotals totals;
    totals.station = "Anchor Town";
    totals.first =
        measure::Date(std::chrono::year(year), std::chrono::January, std::chrono::day{1});
    for (int i = 0; i < days; ++i) {
        totals.days.push_back(
            {measure::add_days(totals.first, i), each_day, each_day * (i + 1), false});
    }
    return totals;
}

inline weather::HeatTotals whole_year(int year, double each_day) {
    return steady_heat(year, each_day, std::chrono::year(year).is_leap() ? 366 : 365);
}

}  // namespace ashtriage::season::test
