// Sheets of trees drawn at random, the same on every run: with unknown, half known and unseen
// values, several stems and girths, positions, odd spellings, and now and then a row to be refused.
#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "packs/applicability.hpp"
#include "packs/fact_units.hpp"
#include "packs/value_text.hpp"
#include "present/csv_text.hpp"
#include "triage/tables.hpp"

namespace ashtriage::present {

class RandomSheet {
 public:
    RandomSheet(const packs::RuleSet& rules, unsigned seed) : rules_(rules), random_(seed) {
        columns_ = {"Tree", "place", "date",     "observer",  "notes",  "stems",
                    "dbh",  "girth", "latitude", "longitude", "problem"};
        for (const reason::Fact& fact : rules.model.facts) {
            if (fact.name != triage::fact::dbh) columns_.push_back(fact.name);
        }
        std::ranges::shuffle(columns_, random_);
    }

    std::string header() const { return line(columns_); }

    // Of ten rows about two have something that must be refused.
    std::string row() {
        std::map<std::string, std::string> cells = facts();
        cells["Tree"] = label();
        cells["place"] = any_of({"", "by the gate", "drive, north side", "-", "\"the\" oak row"});
        cells["date"] = any_of({"", "", "2026-06-20", "2026-07-10", " 2025-12-31 "});
        cells["observer"] = any_of({"", "A. Nobody"});
        cells["notes"] = any_of({"", "two\nlines", "=1+1", "leans, a little"});
        cells["problem"] = any_of({"", "Row 7: whatever it was"});
        add_stems(cells);
        add_position(cells);
        if (below(5) == 0) spoil(cells);
        std::vector<std::string> fields;
        for (const std::string& column : columns_) fields.push_back(cells[column]);
        if (below(100) == 0) fields.pop_back();
        if (below(100) == 0) fields.emplace_back("more");
        return line(fields);
    }

    std::size_t below(std::size_t end) { return random_() % end; }

 private:
    static std::string line(const std::vector<std::string>& fields) {
        std::vector<std::string> written;
        for (const std::string& field : fields) written.push_back(csv_plain_field(field));
        return csv_row(written);
    }

    std::string any_of(const std::vector<std::string>& texts) { return texts[below(texts.size())]; }

    std::string label() {
        const std::string number = std::to_string(++rows_);
        return any_of({"T", "=", "-", "a \"b\" ", "x, ", "\xC3\x89 "}) + number;
    }

    void add_stems(std::map<std::string, std::string>& cells) {
        const std::string inches = std::to_string(1 + below(50)) + any_of({"", ".5", ".25"});
        const std::string column = any_of({"stems", "dbh", "girth", ""});
        if (column == "stems") {
            cells[column] = any_of({"", inches, inches + " in + girth 30 in", inches + " cm; 9 in",
                                    "10 in + 8 in + 7 in + 6 in + 5 1/2 in"});
        } else if (!column.empty()) {
            cells[column] = inches + any_of({"", "", " in", " cm", "\""});
        }
    }

    void add_position(std::map<std::string, std::string>& cells) {
        if (below(3) != 0) return;
        cells["latitude"] = any_of({"41.9", "42.5001", "45"});
        cells["longitude"] = any_of({"-87.7", "-88.25", "-93"});
    }

    // Something for each fact, often nothing, that goes together.
    std::map<std::string, std::string> facts() {
        std::map<std::string, std::string> cells;
        reason::Observation values(rules_.model.facts.size());
        const std::size_t known_of_ten = below(11);
        for (reason::FactIndex fact = 0; fact < rules_.model.facts.size(); ++fact) {
            const std::string& name = rules_.model.facts[fact].name;
            if (name == triage::fact::dbh || below(10) >= known_of_ten) continue;
            if (!rules_.facts[fact].asked && below(8) != 0) continue;
            cells[name] = value(fact);
            values[fact] =
                packs::parse_value(rules_.model.facts[fact], rules_.facts[fact], cells[name]);
        }
        for (const reason::FactIndex fact : packs::contradictions(rules_, values)) {
            cells.erase(rules_.model.facts[fact].name);
        }
        return cells;
    }

    std::string value(reason::FactIndex index) {
        const reason::Fact& fact = rules_.model.facts[index];
        if (below(12) == 0) {
            if (fact.may_not_apply && below(4) == 0) return "does not apply";
            return any_of({"unknown", "could not see", "Cannot tell", "?"});
        }
        if (fact.kind != reason::FactKind::number) {
            std::string level = fact.levels[below(fact.levels.size())];
            if (below(3) == 0) std::ranges::replace(level, '_', ' ');
            if (below(10) == 0) level = " " + level + "\t";
            return below(12) == 0 ? level + " or " + fact.levels[below(fact.levels.size())] : level;
        }
        const packs::FactUnit* unit = packs::find_fact_unit(rules_.facts[index].unit);
        const std::string after =
            unit->several.empty() || below(2) == 0 ? "" : " " + std::string(unit->several);
        const std::string low = number(fact, *unit);
        switch (below(10)) {
            case 0:
                return range(low, number(fact, *unit)) + after;
            case 1:
                return "at most " + low + after;
            case 2:
                return low == packs::number_text(fact.range.high) ? low : "over " + low + after;
            default:
                return low + after;
        }
    }

    static std::string range(const std::string& a, const std::string& b) {
        return std::stod(a) <= std::stod(b) ? a + "-" + b : b + " to " + a;
    }

    // In the range of the fact; small ones and multiples of five come more often, since that is
    // where thresholds lie, and where the error of the eye reaches them.
    std::string number(const reason::Fact& fact, const packs::FactUnit& unit) {
        const double high = below(3) == 0 ? fact.range.high : std::min(fact.range.high, 100.0);
        double drawn =
            fact.range.low + (high - fact.range.low) * static_cast<double>(below(2001)) / 2000.0;
        if (unit.whole_numbers || below(2) == 0) drawn = std::floor(drawn / 5.0) * 5.0;
        return packs::number_text(std::clamp(drawn, fact.range.low, fact.range.high), 2);
    }

    // One thing that cannot be, or that goes with nothing else.
    void spoil(std::map<std::string, std::string>& cells) {
        static const std::vector<std::pair<std::string, std::string>> bad{
            {"Tree", ""},           {"Tree", "two\nlines"},    {"place", "a\tb"},
            {"date", "2026-02-30"}, {"date", "2026-07-11"},    {"date", "20 June"},
            {"dbh", "0"},           {"dbh", "14 oz"},          {"girth", "-3"},
            {"stems", "300 in"},    {"stems", "9 in +"},       {"latitude", "95"},
            {"latitude", "41"},     {"longitude", "88"},       {"latitude", "-41"},
            {"exit_holes", "2.5"},  {"canopy_dieback", "101"}, {"canopy_thinning", "nan"},
            {"lean", "3 in"},       {"species", "oak"},        {"woodpecker_damage", "hevy"},
            {"conks", "perhaps"},   {"tree_height", "1e2"},    {"exit_hole_shape", "round"}};
        const auto& [column, text] = bad[below(bad.size())];
        cells[column] = text;
        if (column == "exit_hole_shape") cells["exit_holes"] = "0";
    }

    const packs::RuleSet& rules_;
    std::mt19937 random_;
    std::vector<std::string> columns_;
    int rows_ = 0;
};

}  // namespace ashtriage::present
