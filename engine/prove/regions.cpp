#include "prove/regions.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace ashtriage::prove {

namespace {

using reason::Branch;
using reason::Branches;
using reason::Compiler;
using reason::DiagramStore;
using reason::FactIndex;
using reason::FactKind;
using reason::Interval;
using reason::Level;
using reason::LevelSet;
using reason::Model;
using reason::no_leaf;
using reason::Node;
using reason::Observation;
using reason::Value;
using reason::yes_leaf;

// A box: at each level a choice of branches. Levels that are left out may take any.
class Box {
 public:
    explicit Box(const DiagramStore& store) : allowed_(store.level_count()) {}

    // The first way through the diagram to yes.
    static Box first_of(const DiagramStore& store, Node set) {
        Box box(store);
        for (Node at = set; at != yes_leaf;) {
            const auto leads_to = store.branches(at);
            const auto taken = std::ranges::find_if(leads_to, [](Node n) { return n != no_leaf; });
            std::vector<bool> only(leads_to.size(), false);
            only[static_cast<std::size_t>(taken - leads_to.begin())] = true;
            box.allowed_[store.level(at)] = std::move(only);
            at = *taken;
        }
        return box;
    }

    const std::vector<bool>& at(Level level) const { return allowed_[level]; }
    bool restricts(Level level) const { return !allowed_[level].empty(); }
    void set(Level level, std::vector<bool> allowed) { allowed_[level] = std::move(allowed); }

    Node diagram(DiagramStore& store) const {
        Node box = yes_leaf;
        for (Level level = static_cast<Level>(allowed_.size()); level-- > 0;) {
            if (restricts(level)) box = store.both(store.test(level, allowed_[level]), box);
        }
        return box;
    }

 private:
    std::vector<std::vector<bool>> allowed_;
};

class Widening {
 public:
    Widening(Compiler& compiler, const Model& model, const std::vector<Branches>& branches,
             Node within)
        : store_(compiler.store()),
          order_(compiler.order()),
          model_(model),
          branches_(branches),
          outside_(store_.negated(within)) {}

    // Widens the box fact by fact, as far as it stays within.
    void widen(Box& box) {
        for (Level level = 0; level < order_.size(); ++level) {
            if (!box.restricts(level)) continue;
            const std::vector<bool> narrow = box.at(level);
            box.set(level, {});
            if (fits(box)) continue;
            box.set(level, narrow);
            widen_by_single_branches(box, level);
        }
    }

 private:
    bool fits(const Box& box) { return store_.both(box.diagram(store_), outside_) == no_leaf; }

    bool fits_with(Box& box, Level level, std::size_t branch) {
        const std::vector<bool> before = box.at(level);
        std::vector<bool> more = before;
        more[branch] = true;
        box.set(level, std::move(more));
        if (fits(box)) return true;
        box.set(level, before);
        return false;
    }

    void widen_by_single_branches(Box& box, Level level) {
        const FactIndex fact = order_[level];
        if (model_.facts[fact].kind != FactKind::number) {
            for (std::size_t branch = 0; branch < branches_[fact].count(); ++branch) {
                if (!box.at(level)[branch]) fits_with(box, level, branch);
            }
            return;
        }
        // A stretch grows from where it is, and "does not apply" is next to nothing.
        const auto start = static_cast<std::size_t>(std::ranges::find(box.at(level), true) -
                                                    box.at(level).begin());
        const std::size_t cells = branches_[fact].cells().size();
        if (start == cells) return;
        for (std::size_t up = start + 1; up < cells && fits_with(box, level, up);) ++up;
        for (std::size_t down = start; down > 0 && fits_with(box, level, down - 1);) --down;
    }

    DiagramStore& store_;
    const std::vector<FactIndex>& order_;
    const Model& model_;
    const std::vector<Branches>& branches_;
    Node outside_;
};

// The branches of a box as one value. "Does not apply" beside other branches has no value that says
// so; the others are named then.
Value joined_cells(const Branches& branches, const std::vector<bool>& allowed, FactKind kind) {
    const std::vector<Value>& cells = branches.cells();
    const auto end = allowed.begin() + static_cast<std::ptrdiff_t>(cells.size());
    const auto first = std::find(allowed.begin(), end, true);
    if (first == end) return Value::not_applicable();
    if (kind == FactKind::number) {
        const auto past_last = std::find(first, end, false);
        const Interval& low = *cells[static_cast<std::size_t>(first - allowed.begin())].interval();
        const Interval& high =
            *cells[static_cast<std::size_t>(past_last - allowed.begin()) - 1].interval();
        return Value::range({low.low, high.high, low.low_open, high.high_open});
    }
    LevelSet levels = 0;
    for (std::size_t cell = 0; cell < cells.size(); ++cell) {
        if (allowed[cell]) levels |= *cells[cell].level_set();
    }
    return Value::levels(levels);
}

// A number of the stretch that is easy to read: its low end if that belongs to it, else the next
// above it in as few decimals as will do.
double plain_number(const Interval& stretch) {
    if (!stretch.low_open) return stretch.low;
    constexpr int most_decimals = 6;
    for (int decimals = 0; decimals <= most_decimals; ++decimals) {
        const double scale = std::pow(10.0, decimals);
        const double next = (std::floor(stretch.low * scale) + 1.0) / scale;
        if (stretch.contains(next)) return next;
    }
    return stretch.high_open ? (stretch.low + stretch.high) / 2.0 : stretch.high;
}

Value one_of(const Value& value) {
    if (const Interval* stretch = value.interval()) return Value::number(plain_number(*stretch));
    if (const LevelSet* levels = value.level_set()) {
        return Value::levels(*levels & (~*levels + 1));
    }
    return value;
}

Region region_of(const Box& box, const Compiler& compiler, const Model& model,
                 const std::vector<Branches>& branches) {
    Region region;
    region.values.resize(model.facts.size());
    for (Level level = 0; level < compiler.order().size(); ++level) {
        if (!box.restricts(level)) continue;
        const FactIndex fact = compiler.order()[level];
        region.values[fact] = joined_cells(branches[fact], box.at(level), model.facts[fact].kind);
    }
    region.example = example_of(region.values);
    return region;
}

}  // namespace

Observation example_of(const Observation& values) {
    Observation example;
    for (const Value& value : values) {
        example.push_back(value.is_unknown() ? value : one_of(value));
    }
    return example;
}

Regions regions(Compiler& compiler, const Model& model, const std::vector<Branches>& branches,
                Node set, std::size_t most) {
    DiagramStore& store = compiler.store();
    Regions result;
    Node left = set;
    Widening widening(compiler, model, branches, set);
    while (left != no_leaf) {
        if (result.found.size() == most) {
            result.more = true;
            break;
        }
        Box box = Box::first_of(store, left);
        widening.widen(box);
        result.found.push_back(region_of(box, compiler, model, branches));
        left = store.without(left, box.diagram(store));
    }
    return result;
}

}  // namespace ashtriage::prove
