#include "packs/value_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <optional>
#include <utility>

#include "measure/input_error.hpp"
#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "packs/fact_units.hpp"
#include "packs/problem.hpp"
#include "packs/words.hpp"

namespace ashtriage::packs {

namespace {

using measure::InputError;
using reason::Fact;
using reason::FactKind;
using reason::Interval;
using reason::LevelIndex;
using reason::LevelSet;
using reason::Value;
using reason::WhyUnknown;

constexpr std::size_t longest_value = 200;

constexpr std::array words_for_not_asked = {"not asked", "unknown", "not known", "?"};
constexpr std::array words_for_could_not_see = {"could not see", "cannot see", "could not tell",
                                                "cannot tell"};
constexpr std::array words_for_not_applicable = {"does not apply", "not applicable", "n/a"};

template <class Words>
bool is_one_of(const std::string& text, const Words& words) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

std::optional<Value> no_value(std::string_view text) {
    const std::string words = normalised(text);
    if (is_one_of(words, words_for_not_asked)) return Value::unknown(WhyUnknown::not_asked);
    if (is_one_of(words, words_for_could_not_see)) return Value::unknown(WhyUnknown::could_not_see);
    if (is_one_of(words, words_for_not_applicable)) return Value::not_applicable();
    return std::nullopt;
}

// Reads the values of one number fact.
class NumberReader {
 public:
    NumberReader(const Fact& fact, const FactText& fact_text)
        : fact_(fact), fact_text_(fact_text), unit_(find_fact_unit(fact_text.unit)) {}

    Value value(std::string_view text) const {
        text = trimmed(text);
        refuse_girth(text);
        if (const auto at_most = after_any(text, {"up to ", "at most ", "<=", "≤"})) {
            return in_range(text, {fact_.range.low, number(*at_most), false, false});
        }
        if (const auto ends = range_ends(text)) {
            auto [low, high] = *ends;
            const auto over = after_any(low, {"over ", "above ", "more than ", ">"});
            const auto under = after_any(high, {"under ", "below ", "less than ", "<"});
            if (over) low = *over;
            if (under) high = *under;
            return in_range(text, {number(with_unit_of(low, high)), number(high), over.has_value(),
                                   under.has_value()});
        }
        if (const auto at_least = after_any(text, {"at least ", ">=", "≥"})) {
            return in_range(text, {number(*at_least), fact_.range.high, false, false});
        }
        if (const auto over = after_any(text, {"over ", "above ", "more than ", ">"})) {
            return in_range(text, {number(*over), fact_.range.high, true, false});
        }
        if (const auto under = after_any(text, {"under ", "below ", "less than ", "<"})) {
            return in_range(text, {fact_.range.low, number(*under), false, true});
        }
        return in_range(text, Interval::point(number(text)));
    }

 private:
    [[noreturn]] void refuse(const std::string& what, std::string hint = {}) const {
        if (hint.empty()) {
            hint = fmt::format(
                "give {}, a range such as '20 to 30' where it cannot be told more "
                "closely, or 'could not see'",
                expected_text(fact_, fact_text_));
        }
        throw InputError(fmt::format("{}: {}", plain_name(fact_.name), what), {}, std::move(hint));
    }

    void refuse_girth(std::string_view text) const {
        const std::string words = normalised(text);
        for (const char* word : {"girth", "circumference", "gbh", "cbh", "around"}) {
            if (words.find(word) == std::string::npos) continue;
            refuse(fmt::format("'{}' is a girth, which is never taken for a diameter", text),
                   "enter it as the girth of a stem, so that the diameter is worked out from it");
        }
    }

    // What follows the first of `words` that the text begins with.
    static std::optional<std::string_view> after_any(
        std::string_view text, std::initializer_list<std::string_view> words) {
        for (const std::string_view word : words) {
            if (text.size() <= word.size()) continue;
            const bool same =
                std::equal(word.begin(), word.end(), text.begin(), [](char w, char t) {
                    return w == (t >= 'A' && t <= 'Z' ? static_cast<char>(t - 'A' + 'a') : t);
                });
            if (same) return trimmed(text.substr(word.size()));
        }
        return std::nullopt;
    }

    // Both sides of "to", a dash or a hyphen that is no minus sign.
    static std::optional<std::pair<std::string_view, std::string_view>> range_ends(
        std::string_view text) {
        for (const std::string_view between : {" to ", " TO ", "–", "-"}) {
            const std::size_t at = text.find(between, 1);
            if (at == std::string_view::npos) continue;
            const std::string_view low = trimmed(text.substr(0, at));
            const std::string_view high = trimmed(text.substr(at + between.size()));
            if (!low.empty() && !high.empty()) return std::pair(low, high);
        }
        return std::nullopt;
    }

    static std::size_t end_of_number(std::string_view text) {
        return std::min(text.find_first_not_of("-.0123456789"), text.size());
    }

    // "20" beside "30 cm" means 20 cm.
    static std::string with_unit_of(std::string_view text, std::string_view other) {
        std::string result(text);
        if (end_of_number(text) != text.size()) return result;
        const std::string_view unit = other.substr(end_of_number(other));
        if (unit.find_first_of("0123456789") == std::string_view::npos) result += unit;
        return result;
    }

    // One number, with or without a unit, in the fact's unit.
    double number(std::string_view text) const {
        const std::size_t end = end_of_number(text);
        const std::string_view digits = text.substr(0, end);
        const std::string_view unit = trimmed(text.substr(end));
        if (unit.empty() || (unit_ != nullptr && is_fact_unit(*unit_, unit))) {
            return own_number(text, digits);
        }
        if (unit_ == nullptr || !unit_->length) {
            refuse(fmt::format("'{}' is not understood; expected {}", text,
                               expected_text(fact_, fact_text_)));
        }
        try {
            return measure::parse_length(text).in(*unit_->length);
        } catch (const InputError& error) {
            refuse(error.what(), error.hint());
        }
    }

    double own_number(std::string_view text, std::string_view digits) const {
        try {
            return measure::require_number(digits);
        } catch (const InputError& error) {
            refuse(fmt::format("'{}' is not understood; expected {}", text,
                               expected_text(fact_, fact_text_)),
                   error.hint());
        }
    }

    Value in_range(std::string_view text, const Interval& value) const {
        for (const double end : {value.low, value.high}) {
            if (!std::isfinite(end) || !fact_.range.contains(end)) {
                refuse(fmt::format("'{}' is outside what makes sense; expected {}", text,
                                   expected_text(fact_, fact_text_)));
            }
            if (unit_ != nullptr && unit_->whole_numbers && std::floor(end) != end) {
                refuse(fmt::format("'{}' has a fraction; expected a whole number", text),
                       "give a whole number, or a range such as '2 to 3'");
            }
        }
        if (value.empty()) {
            refuse(fmt::format("'{}' leaves no number; expected the smaller number first", text),
                   "write the smaller number first");
        }
        return Value::range(value);
    }

    const Fact& fact_;
    const FactText& fact_text_;
    const FactUnit* unit_;
};

LevelIndex one_level(const Fact& fact, std::string_view text) {
    std::string words = normalised(text);
    if (fact.kind == FactKind::yes_no) {
        if (words == "y") words = "yes";
        if (words == "n") words = "no";
    }
    for (LevelIndex level = 0; level < fact.levels.size(); ++level) {
        if (normalised(fact.levels[level]) == words) return level;
    }
    std::vector<std::string> names;
    for (const std::string& level : fact.levels) names.push_back(plain_name(level));
    throw InputError(fmt::format("{}: '{}' is not one of its values; expected {}",
                                 plain_name(fact.name), text, joined(names)),
                     {}, nearest_hint(text, names));
}

LevelSet levels(const Fact& fact, std::string_view text) {
    std::string words(text);
    std::replace(words.begin(), words.end(), '\t', ' ');
    LevelSet set = 0;
    std::size_t start = 0;
    while (start <= words.size()) {
        const std::size_t comma = std::min(words.find(',', start), words.size());
        std::size_t either = words.find(" or ", start);
        if (either == std::string::npos) either = words.find(" OR ", start);
        const bool comma_first = either == std::string::npos || comma < either;
        const std::size_t end = comma_first ? comma : either;
        set |=
            reason::only_level(one_level(fact, std::string_view(words).substr(start, end - start)));
        start = end + (comma_first ? 1 : 4);
    }
    return set;
}

std::string range_text(const Fact& fact, const std::string& unit, const Interval& value) {
    if (value.single_point()) return number_with_unit(value.low, unit);
    if (value.low_open && !value.high_open && value.high == fact.range.high) {
        return "over " + number_with_unit(value.low, unit);
    }
    if (value.high_open && !value.low_open && value.low == fact.range.low) {
        return "under " + number_with_unit(value.high, unit);
    }
    return fmt::format("{}{} to {}{}", value.low_open ? "over " : "", number_text(value.low),
                       value.high_open ? "under " : "", number_with_unit(value.high, unit));
}

}  // namespace

Value parse_value(const Fact& fact, const FactText& fact_text, std::string_view text) {
    if (text.size() > longest_value) {
        throw InputError(fmt::format("{}: a value of {} characters is too long",
                                     plain_name(fact.name), text.size()),
                         {}, fmt::format("give {}", expected_text(fact, fact_text)));
    }
    text = trimmed(text);
    if (text.empty()) {
        throw InputError(fmt::format("{}: the value is missing", plain_name(fact.name)), {},
                         fmt::format("give {}, or 'unknown'", expected_text(fact, fact_text)));
    }
    if (const auto value = no_value(text)) {
        if (value->is_not_applicable() && !fact.may_not_apply) {
            throw InputError(
                fmt::format("{}: this applies to every tree", plain_name(fact.name)), {},
                "Say 'unknown' if nobody looked, 'could not see' if it could not be told.");
        }
        return *value;
    }
    if (fact.kind == FactKind::number) return NumberReader(fact, fact_text).value(text);
    return Value::levels(levels(fact, text));
}

std::string value_text(const Fact& fact, const FactText& fact_text, const Value& value) {
    if (value.is_not_applicable()) return words_for_not_applicable.front();
    if (const WhyUnknown* why = value.why_unknown()) {
        return *why == WhyUnknown::not_asked ? words_for_not_asked.front()
                                             : words_for_could_not_see.front();
    }
    if (const Interval* interval = value.interval()) {
        return range_text(fact, fact_text.unit, *interval);
    }
    std::vector<std::string> names;
    for (LevelIndex level = 0; level < fact.levels.size(); ++level) {
        if (reason::has_level(*value.level_set(), level)) {
            names.push_back(plain_name(fact.levels[level]));
        }
    }
    return joined(names);
}

std::string expected_text(const Fact& fact, const FactText& fact_text) {
    if (fact.kind == FactKind::number) {
        return fmt::format(
            "{} from {} to {}", fact_text.unit == "count" ? "a whole number" : "a number",
            number_text(fact.range.low), number_with_unit(fact.range.high, fact_text.unit));
    }
    std::vector<std::string> names;
    for (const std::string& level : fact.levels) names.push_back(plain_name(level));
    return joined(names);
}

bool means_no_value(std::string_view words) {
    return no_value(words).has_value();
}

}  // namespace ashtriage::packs
