#include "prove/box_check.hpp"

#include <algorithm>
#include <bit>
#include <unordered_set>
#include <utility>

namespace ashtriage::prove {

namespace {

using reason::Branch;
using reason::Branches;
using reason::Condition;
using reason::FactIndex;
using reason::FactKind;
using reason::Interval;
using reason::RuleIndex;
using reason::Value;

}  // namespace

BoxTable::BoxTable(const reason::Model& model, const std::vector<Branches>& branches,
                   reason::TableIndex table)
    : model_(model),
      branches_(branches),
      table_(model.tables[table]),
      columns_(reason::facts_behind(model, table)) {}

std::optional<BoxTable> BoxTable::of(const reason::Model& model,
                                     const std::vector<Branches>& branches,
                                     reason::TableIndex table) {
    BoxTable boxes(model, branches, table);
    for (const FactIndex fact : boxes.columns_) {
        const bool always_applies = model.condition_to_apply(fact) == nullptr &&  //
                                    !model.facts[fact].may_not_apply;
        const bool fits = model.facts[fact].kind == FactKind::number ||
                          branches[fact].cells().size() <= reason::most_levels;
        if (!always_applies || !fits) return std::nullopt;
    }
    for (const reason::Rule& rule : boxes.table_.rules) {
        Box box;
        for (std::size_t column = 0; column < boxes.columns_.size(); ++column) {
            box.push_back(boxes.anything(column));
        }
        if (!boxes.narrow(box, rule.when)) return std::nullopt;
        boxes.boxes_.push_back(std::move(box));
    }
    return boxes;
}

bool BoxTable::is_number(std::size_t column) const {
    return model_.facts[columns_[column]].kind == FactKind::number;
}

BoxTable::Side BoxTable::anything(std::size_t column) const {
    const std::size_t cells = branches_[columns_[column]].cells().size();
    if (is_number(column)) return {0, static_cast<Branch>(cells - 1), 0};
    return {0, 0, reason::all_levels(cells)};
}

bool BoxTable::empty(const Side& side, bool number) {
    return number ? side.first > side.last : side.levels == 0;
}

BoxTable::Side BoxTable::shared(const Side& a, const Side& b, std::size_t column) const {
    if (is_number(column)) return {std::max(a.first, b.first), std::min(a.last, b.last), 0};
    return {0, 0, a.levels & b.levels};
}

bool BoxTable::narrow(Box& box, const Condition& condition) const {
    if (condition.kind == Condition::Kind::all) {
        return std::ranges::all_of(condition.parts,
                                   [&](const Condition& part) { return narrow(box, part); });
    }
    const auto column_of = [&](FactIndex fact) {
        return static_cast<std::size_t>(std::ranges::find(columns_, fact) - columns_.begin());
    };
    if (const auto* number = std::get_if<reason::NumberTest>(&condition.test)) {
        const std::size_t column = column_of(number->fact);
        const auto& cells = branches_[number->fact].cells();
        Side accepted{1, 0, 0};
        for (Branch cell = 0; cell < cells.size(); ++cell) {
            if (!number->accepted.contains(*cells[cell].interval())) continue;
            if (accepted.first > accepted.last) accepted.first = cell;
            accepted.last = cell;
        }
        box[column] = shared(box[column], accepted, column);
        return true;
    }
    if (const auto* level = std::get_if<reason::LevelTest>(&condition.test)) {
        const std::size_t column = column_of(level->fact);
        const auto& cells = branches_[level->fact].cells();
        Side accepted;
        for (Branch cell = 0; cell < cells.size(); ++cell) {
            if ((*cells[cell].level_set() & level->accepted) != 0) {
                accepted.levels |= reason::only_level(cell);
            }
        }
        box[column] = shared(box[column], accepted, column);
        return true;
    }
    return false;
}

Region BoxTable::region_of(const Box& box, std::size_t columns) const {
    Region region;
    region.values.resize(model_.facts.size());
    for (std::size_t column = 0; column < columns; ++column) {
        const FactIndex fact = columns_[column];
        const auto& cells = branches_[fact].cells();
        const Side& side = box[column];
        if (is_number(column)) {
            if (side.first == 0 && side.last + 1 == cells.size()) continue;
            const Interval& low = *cells[side.first].interval();
            const Interval& high = *cells[side.last].interval();
            region.values[fact] = Value::range({low.low, high.high, low.low_open, high.high_open});
        } else {
            if (side.levels == reason::all_levels(cells.size())) continue;
            reason::LevelSet levels = 0;
            for (Branch cell = 0; cell < cells.size(); ++cell) {
                if (reason::has_level(side.levels, cell)) levels |= *cells[cell].level_set();
            }
            region.values[fact] = Value::levels(levels);
        }
    }
    region.example = example_of(region.values);
    return region;
}

void BoxTable::find_overlaps(TableCheck& check, std::size_t most_examples) const {
    const bool unique = table_.hit_policy == reason::HitPolicy::unique;
    Box common(columns_.size());
    for (RuleIndex second = 0; second < boxes_.size(); ++second) {
        for (RuleIndex first = 0; first < second; ++first) {
            bool meet = true;
            for (std::size_t column = 0; column < columns_.size() && meet; ++column) {
                common[column] = shared(boxes_[first][column], boxes_[second][column], column);
                meet = !empty(common[column], is_number(column));
            }
            if (!meet) continue;
            ++check.overlap_count;
            if (unique) ++check.conflict_count;
            if (check.overlaps.size() == most_examples) continue;
            const bool same = table_.rules[first].gives == table_.rules[second].gives;
            check.overlaps.push_back(
                {first, second, unique, same, region_of(common, columns_.size())});
        }
    }
    check.overlaps_analysed = true;
}

class BoxTable::GapSearch {
 public:
    GapSearch(const BoxTable& boxes, TableCheck& check, std::size_t steps,
              std::size_t most_examples)
        : boxes_(boxes),
          check_(check),
          steps_left_(steps),
          most_examples_(most_examples),
          place_(boxes.columns_.size()),
          last_restricted_(boxes.boxes_.size(), 0) {
        for (RuleIndex rule = 0; rule < boxes.boxes_.size(); ++rule) {
            for (std::size_t column = 0; column < boxes.columns_.size(); ++column) {
                const Side& side = boxes.boxes_[rule][column];
                const Side any = boxes.anything(column);
                const bool restricted =
                    side.first != any.first || side.last != any.last || side.levels != any.levels;
                if (restricted) last_restricted_[rule] = column + 1;
            }
        }
    }

    // False when the steps or the room for examples ended.
    bool search() {
        Rules all;
        for (RuleIndex rule = 0; rule < boxes_.boxes_.size(); ++rule) {
            bool can_hold = true;
            for (std::size_t column = 0; column < place_.size(); ++column) {
                can_hold =
                    can_hold && !empty(boxes_.boxes_[rule][column], boxes_.is_number(column));
            }
            if (can_hold) all.push_back(static_cast<std::uint32_t>(rule));
        }
        return search(0, all);
    }

 private:
    using Rules = std::vector<std::uint32_t>;

    struct Hash {
        std::size_t operator()(const std::pair<std::size_t, Rules>& key) const {
            std::uint64_t hash = key.first;
            for (const std::uint32_t rule : key.second) {
                hash = (hash ^ rule) * 0x9e3779b97f4a7c15ULL;
                hash ^= hash >> 29U;
            }
            return hash;
        }
    };

    bool search(std::size_t column, const Rules& covering) {
        if (covering.empty()) {
            if (check_.gaps.size() == most_examples_) {
                check_.more_gaps = true;
                return false;
            }
            check_.gaps.push_back(boxes_.region_of(place_, column));
            return true;
        }
        // A rule that restricts nothing further covers everything from here on.
        for (const std::uint32_t rule : covering) {
            if (last_restricted_[rule] <= column) return true;
        }
        if (!seen_.emplace(column, covering).second) return true;
        return boxes_.is_number(column) ? along_numbers(column, covering)
                                        : over_levels(column, covering);
    }

    bool spend(std::size_t steps) {
        if (steps > steps_left_) return false;
        steps_left_ -= steps;
        return true;
    }

    bool along_numbers(std::size_t column, const Rules& covering) {
        const Side whole = boxes_.anything(column);
        std::vector<Branch> starts{whole.first};
        for (const std::uint32_t rule : covering) {
            const Side& side = boxes_.boxes_[rule][column];
            starts.push_back(side.first);
            if (side.last < whole.last) starts.push_back(side.last + 1);
        }
        std::ranges::sort(starts);
        starts.erase(std::unique(starts.begin(), starts.end()), starts.end());

        for (std::size_t i = 0; i < starts.size(); ++i) {
            if (!spend(covering.size())) return false;
            Rules here;
            for (const std::uint32_t rule : covering) {
                const Side& side = boxes_.boxes_[rule][column];
                if (side.first <= starts[i] && starts[i] <= side.last) here.push_back(rule);
            }
            const Branch last = i + 1 < starts.size() ? starts[i + 1] - 1 : whole.last;
            place_[column] = {starts[i], last, 0};
            if (!search(column + 1, here)) return false;
        }
        return true;
    }

    bool over_levels(std::size_t column, const Rules& covering) {
        // Levels that the same rules cover are looked at together.
        std::vector<std::pair<Rules, std::uint64_t>> groups;
        for (std::uint64_t left = boxes_.anything(column).levels; left != 0; left &= left - 1) {
            if (!spend(covering.size())) return false;
            const std::uint64_t level = left & (~left + 1);
            Rules here;
            for (const std::uint32_t rule : covering) {
                if ((boxes_.boxes_[rule][column].levels & level) != 0) here.push_back(rule);
            }
            const auto same =
                std::ranges::find(groups, here, &std::pair<Rules, std::uint64_t>::first);
            if (same != groups.end()) {
                same->second |= level;
            } else {
                groups.emplace_back(std::move(here), level);
            }
        }
        for (const auto& [here, levels] : groups) {
            place_[column] = {0, 0, levels};
            if (!search(column + 1, here)) return false;
        }
        return true;
    }

    const BoxTable& boxes_;
    TableCheck& check_;
    std::size_t steps_left_;
    std::size_t most_examples_;
    Box place_;                                 // where the search is
    std::vector<std::size_t> last_restricted_;  // by rule: no column from here on is restricted
    std::unordered_set<std::pair<std::size_t, Rules>, Hash> seen_;
};

void BoxTable::find_gaps(TableCheck& check, std::size_t steps, std::size_t most_examples) const {
    const bool all = GapSearch(*this, check, steps, most_examples).search();
    check.gaps_analysed = all || check.more_gaps;
}

}  // namespace ashtriage::prove
