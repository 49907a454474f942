#include "packs/cases.hpp"

#include <fmt/format.h>

#include <optional>
#include <utility>

#include "packs/applicability.hpp"
#include "packs/prepared_rules.hpp"
#include "packs/wording.hpp"
#include "reason/engine.hpp"

namespace ashtriage::packs {

namespace {

std::string or_nothing(std::string words) {
    return words.empty() ? "nothing" : std::move(words);
}

std::string came_out_as(const reason::Table& table, const reason::Outcomes& outcomes) {
    std::string words = or_nothing(outcomes_text(table, outcomes.possible));
    if (outcomes.none_possible) words += ", and perhaps no rule holds";
    if (outcomes.conflict_possible) words += ", and perhaps two rules hold";
    return words;
}

std::optional<std::string> difference(const Expectation& expected, const reason::Engine& engine,
                                      const reason::Observation& given) {
    const reason::Table& table = engine.model().tables[expected.table];
    if (table.hit_policy != reason::HitPolicy::collect) {
        const reason::Outcomes outcomes = engine.decide(expected.table, given);
        if (outcomes.possible == expected.exactly && !outcomes.none_possible &&
            !outcomes.conflict_possible) {
            return std::nullopt;
        }
        return fmt::format("{}: expected {}, came out as {}", plain_name(table.name),
                           outcomes_text(table, expected.exactly), came_out_as(table, outcomes));
    }
    const reason::Collected collected = engine.collect(expected.table, given);
    const reason::LevelSet missing = expected.includes & ~collected.certain;
    const reason::LevelSet unwanted = expected.excludes & collected.possible;
    if (missing == 0 && unwanted == 0) return std::nullopt;
    std::string text = plain_name(table.name) + ":";
    if (missing != 0) text += fmt::format(" {} is missing;", outcomes_text(table, missing, "and"));
    if (unwanted != 0) {
        text += fmt::format(" {} should not be possible;", outcomes_text(table, unwanted, "and"));
    }
    return text + fmt::format(" collected: {}",
                              or_nothing(outcomes_text(table, collected.certain, "and")));
}

}  // namespace

std::vector<CaseResult> run_cases(const std::vector<RuleFile>& files) {
    const RuleSet all = read_rule_set(files, {}, Reading::rules_and_cases);
    RulesByPreset by_preset(files);
    std::vector<CaseResult> results;
    for (const Case& tested : all.cases) {
        const PreparedRules& prepared = by_preset.under(tested.preset);
        const reason::Observation given = with_applicability(prepared.rule_set, tested.given);
        CaseResult result{tested, {}};
        for (const Expectation& expected : tested.expected) {
            if (auto text = difference(expected, prepared.engine, given)) {
                result.differences.push_back(std::move(*text));
            }
        }
        results.push_back(std::move(result));
    }
    return results;
}

}  // namespace ashtriage::packs
