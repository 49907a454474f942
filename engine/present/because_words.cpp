#include "present/because_words.hpp"

#include <bit>
#include <cstdint>

namespace ashtriage::present {

namespace {

constexpr std::size_t values_remembered = 2048;  // a power of two
constexpr std::size_t table_words_remembered = 1024;

std::size_t place_of(reason::FactIndex fact, const reason::Value& value) {
    std::uint64_t mixed = fact;
    const auto mix = [&](std::uint64_t bits) {
        mixed = (mixed ^ bits) * std::uint64_t{0x9E3779B97F4A7C15};
        mixed ^= mixed >> 32U;
    };
    if (const reason::Interval* stretch = value.interval()) {
        mix(std::bit_cast<std::uint64_t>(stretch->low));
        mix(std::bit_cast<std::uint64_t>(stretch->high));
    } else if (const reason::LevelSet* levels = value.level_set()) {
        mix(*levels);
    }
    return static_cast<std::size_t>(mixed) & (values_remembered - 1);
}

}  // namespace

BecauseWords::BecauseWords(const triage::Judge& judge, reason::TableIndex table)
    : judge_(&judge), spoken_(values_remembered) {
    for (const packs::RuleText& rule : judge.rules().tables[table].rules) {
        rules_.push_back(packs::worded_pieces(rule.because, judge.rules()));
        for (const packs::WordedPiece& piece : rules_.back()) {
            if (!piece.table) continue;
            tables_.try_emplace(
                *piece.table,
                triage::CellKey(judge.engine(), *piece.table, triage::EyeError::ignored),
                table_words_remembered);
        }
    }
}

const std::string& BecauseWords::of(reason::RuleIndex rule, const reason::Observation& values) {
    text_.clear();
    for (const packs::WordedPiece& piece : rules_[rule]) {
        if (piece.fact) {
            text_ += spoken(*piece.fact, values[*piece.fact]);
        } else if (piece.table) {
            text_ += table_words(*piece.table, values);
        } else {
            text_ += piece.words;
        }
    }
    return text_;
}

const std::string& BecauseWords::spoken(reason::FactIndex fact, const reason::Value& value) {
    SpokenValue& place = spoken_[place_of(fact, value)];
    if (place.words.empty() || place.fact != fact || place.value != value) {
        place = {fact, value, packs::spoken_value(judge_->rules(), fact, value)};
    }
    return place.words;
}

const std::string& BecauseWords::table_words(reason::TableIndex table,
                                             const reason::Observation& values) {
    return tables_.at(table).answer(values, [&] {
        return packs::table_words(judge_->rules(), judge_->engine(), table, values);
    });
}

}  // namespace ashtriage::present
