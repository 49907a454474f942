#include "reason/diagram_store.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace ashtriage::reason {

namespace {

constexpr Node empty_slot = std::numeric_limits<Node>::max();
constexpr std::size_t first_index_size = 1024;

std::uint64_t mixed(std::uint64_t bits) {
    bits ^= bits >> 31U;
    bits *= 0x9e3779b97f4a7c15ULL;
    return bits ^ bits >> 29U;
}

}  // namespace

// What has been found out about pairs of nodes during one operation.
class DiagramStore::PairMemo {
 public:
    PairMemo() : entries_(64) {}

    const Node* find(Node a, Node b) const {
        for (std::size_t at = slot(a, b);; at = (at + 1) & (entries_.size() - 1)) {
            const Entry& entry = entries_[at];
            if (entry.result == empty_slot) return nullptr;
            if (entry.a == a && entry.b == b) return &entry.result;
        }
    }

    void add(Node a, Node b, Node result) {
        if (++used_ * 2 > entries_.size()) grow();
        place({a, b, result});
    }

 private:
    struct Entry {
        Node a = 0;
        Node b = 0;
        Node result = empty_slot;
    };

    std::size_t slot(Node a, Node b) const {
        return mixed(std::uint64_t{a} << 32U | b) & (entries_.size() - 1);
    }
    void place(const Entry& entry) {
        std::size_t at = slot(entry.a, entry.b);
        while (entries_[at].result != empty_slot) at = (at + 1) & (entries_.size() - 1);
        entries_[at] = entry;
    }
    void grow() {
        std::vector<Entry> old(entries_.size() * 2);
        old.swap(entries_);
        for (const Entry& entry : old) {
            if (entry.result != empty_slot) place(entry);
        }
    }

    std::vector<Entry> entries_;
    std::size_t used_ = 0;
};

DiagramStore::DiagramStore(std::vector<std::uint32_t> branch_counts)
    : branch_counts_(std::move(branch_counts)),
      index_(first_index_size, empty_slot),
      most_worked_out_(std::numeric_limits<std::size_t>::max()) {}

std::uint64_t DiagramStore::hash_of(Level level, std::span<const Node> branches) const {
    std::uint64_t hash = level;
    for (const Node branch : branches) hash = mixed(hash + branch);
    return hash;
}

void DiagramStore::grow_index() {
    index_.assign(index_.size() * 2, empty_slot);
    for (Node node = 0; node < nodes_.size(); ++node) {
        std::size_t at = hash_of(nodes_[node].level, branches(node)) & (index_.size() - 1);
        while (index_[at] != empty_slot) at = (at + 1) & (index_.size() - 1);
        index_[at] = node;
    }
}

Node DiagramStore::node(Level level, std::span<const Node> wanted) {
    const auto differs = [&](Node branch) { return branch != wanted.front(); };
    if (std::none_of(wanted.begin() + 1, wanted.end(), differs)) return wanted.front();

    std::size_t at = hash_of(level, wanted) & (index_.size() - 1);
    for (; index_[at] != empty_slot; at = (at + 1) & (index_.size() - 1)) {
        const Node stored = index_[at];
        if (nodes_[stored].level == level && std::ranges::equal(branches(stored), wanted)) {
            return stored;
        }
    }
    const auto made = static_cast<Node>(nodes_.size());
    nodes_.push_back({level, branches_.size()});
    branches_.insert(branches_.end(), wanted.begin(), wanted.end());
    index_[at] = made;
    if (nodes_.size() * 2 > index_.size()) grow_index();
    return made;
}

void DiagramStore::allow(std::size_t more) {
    most_worked_out_ = std::min(worked_out_ + more, most_in_all);
}

void DiagramStore::work_out(std::size_t branches) {
    if (worked_out_ + branches > most_worked_out_) throw DiagramTooLarge();
    worked_out_ += branches;
}

Node DiagramStore::test(Level level, const std::vector<bool>& accepted) {
    work_out(accepted.size());
    std::vector<Node> wanted;
    for (const bool is_accepted : accepted) wanted.push_back(is_accepted ? yes_leaf : no_leaf);
    return node(level, wanted);
}

Node DiagramStore::combine(Node a, Node b, const Known& known) {
    PairMemo memo;
    return combine_nodes(a, b, known, memo);
}

Node DiagramStore::combine_nodes(Node a, Node b, const Known& known, PairMemo& memo) {
    if (const auto result = known(a, b)) return *result;
    if (const Node* found = memo.find(a, b)) return *found;

    const Level at = std::min(level(a), level(b));
    work_out(branch_counts_[at]);
    std::vector<Node> wanted(branch_counts_[at]);
    for (std::uint32_t taken = 0; taken < wanted.size(); ++taken) {
        wanted[taken] = combine_nodes(branch(a, at, taken), branch(b, at, taken), known, memo);
    }
    const Node result = node(at, wanted);
    memo.add(a, b, result);
    return result;
}

Node DiagramStore::with_leaves(Node root, const std::function<Node(std::uint32_t)>& replaced) {
    return combine(root, no_leaf, [&](Node node, Node) -> std::optional<Node> {
        if (!is_leaf(node)) return std::nullopt;
        return replaced(leaf_value(node));
    });
}

Node DiagramStore::both(Node a, Node b) {
    return combine(a, b, [](Node x, Node y) -> std::optional<Node> {
        if (x == no_leaf || y == no_leaf) return no_leaf;
        if (x == yes_leaf || x == y) return y;
        if (y == yes_leaf) return x;
        return std::nullopt;
    });
}

Node DiagramStore::either(Node a, Node b) {
    return combine(a, b, [](Node x, Node y) -> std::optional<Node> {
        if (x == yes_leaf || y == yes_leaf) return yes_leaf;
        if (x == no_leaf || x == y) return y;
        if (y == no_leaf) return x;
        return std::nullopt;
    });
}

Node DiagramStore::negated(Node a) {
    return with_leaves(a, [](std::uint32_t value) { return value == 0 ? yes_leaf : no_leaf; });
}

Node DiagramStore::choose(Node condition, Node then, Node otherwise) {
    if (is_leaf(then)) {
        return combine(condition, otherwise, [then](Node x, Node y) -> std::optional<Node> {
            if (x == no_leaf || y == then) return y;
            if (x == yes_leaf) return then;
            return std::nullopt;
        });
    }
    // Where the condition fails, a mark that no caller uses holds the place of `otherwise`.
    static constexpr Node failed = leaf(leaf_bit - 1);
    const Node held = combine(condition, then, [](Node x, Node y) -> std::optional<Node> {
        if (x == no_leaf) return failed;
        if (x == yes_leaf) return y;
        return std::nullopt;
    });
    return combine(held, otherwise, [](Node x, Node y) -> std::optional<Node> {
        if (x == failed) return y;
        if (is_leaf(x)) return x;
        return std::nullopt;
    });
}

}  // namespace ashtriage::reason
