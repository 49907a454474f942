// The claims of tables, `worse:`, that a worse fact never leads to a milder answer.
#include <fmt/format.h>

#include <utility>

#include "packs/readers.hpp"

namespace ashtriage::packs {

namespace {

using reason::Fact;
using reason::FactKind;
using reason::TableIndex;
using reason::WorseClaim;

const std::vector<std::string>& direction_names() {
    static const std::vector<std::string> names = {"up", "down"};
    return names;
}

// Which way is worse: up or down, or for a choice its levels, the best first. False after a
// problem.
bool read_direction(const Node& node, const std::string& what, const Fact& fact,
                    const YamlSource& source, WorseClaim& claim) {
    if (fact.kind != FactKind::choice) {
        const auto direction = read_choice(node, what, direction_names(), source);
        claim.falling = direction == std::size_t{1};
        return direction.has_value();
    }
    if (node.kind != Node::Kind::sequence || node.items.size() < 2) {
        source.refuse(
            "wrong-kind", node.place,
            fmt::format("{} needs two levels or more: '{}' is a choice, whose levels have "
                        "no order of their own",
                        what, fact.name),
            "list the levels that are compared, the best first");
        return false;
    }
    for (const Node& item : node.items) {
        const auto level = read_choice(item, what, fact.levels, source);
        if (!level) return false;
        claim.order.push_back(*level);
    }
    return true;
}

// The outcomes of a collect table that a claim leaves out.
reason::LevelSet read_excepted(const Node& node, const std::string& what,
                               const reason::Table& table, const YamlSource& source) {
    reason::LevelSet excepted = 0;
    if (table.hit_policy != reason::HitPolicy::collect) {
        source.refuse(
            "not-for-this-kind", node.place,
            fmt::format("{} leaves out an outcome, but '{}' gives only one", what, table.name),
            "'except' is for tables that collect; use 'unless'");
        return excepted;
    }
    const auto read = [&](const Node& item) {
        const auto outcome = read_choice(item, what, table.gives, source);
        if (outcome) excepted |= reason::only_level(*outcome);
    };
    if (node.kind == Node::Kind::sequence) {
        for (const Node& item : node.items) read(item);
    } else {
        read(node);
    }
    return excepted;
}

void read_claim(const Entry& entry, TableIndex table_index, const YamlSource& source,
                Draft& draft) {
    reason::Table& table = draft.set.model.tables[table_index];
    const auto known = draft.facts.find(entry.key);
    if (known == draft.facts.end()) {
        if (draft.is_broken(entry.key)) return;
        source.refuse("unknown-fact", entry.place,
                      fmt::format("'worse' of the table '{}' names '{}', which is no fact",
                                  table.name, entry.key),
                      nearest_hint(entry.key, draft.fact_names()));
        return;
    }
    if (draft.is_broken(entry.key)) return;
    const Fact& fact = draft.set.model.facts[known->second];
    const std::string what =
        fmt::format("'worse' of the table '{}' for '{}'", table.name, fact.name);
    WorseClaim claim;
    ClaimText text;
    claim.fact = known->second;
    if (entry.value.kind != Node::Kind::mapping) {
        if (!read_direction(entry.value, what, fact, source, claim)) return;
    } else {
        Fields fields(entry.value, what, source);
        const Node* direction = fields.required("direction");
        const bool readable =
            direction != nullptr && read_direction(*direction, what, fact, source, claim);
        if (const Node* unless = fields.optional("unless")) {
            claim.unless = read_condition(*unless, what, source, draft).condition;
        }
        if (const Node* except = fields.optional("except")) {
            claim.excepted = read_excepted(*except, what, table, source);
        }
        if (!fields.has("unless") && !fields.has("except")) {
            source.refuse("missing-key", entry.place,
                          fmt::format("{} says neither 'unless' nor 'except'", what),
                          fmt::format("write '{}: up' or '{}: down' if it makes no exception",
                                      fact.name, fact.name));
        }
        text.because = fields.text("because");
        fields.refuse_others();
        if (!readable) return;
    }
    table.worse.push_back(std::move(claim));
    draft.set.tables[table_index].claims.push_back(std::move(text));
}

}  // namespace

void read_claims(Draft& draft) {
    for (TableIndex table = 0; table < draft.table_nodes.size(); ++table) {
        const Node* worse = draft.table_nodes[table]->find("worse");
        if (worse == nullptr || worse->kind != Node::Kind::mapping) continue;
        for (const Entry& entry : worse->entries) {
            read_claim(entry, table, draft.table_files[table]->source, draft);
        }
    }
}

}  // namespace ashtriage::packs
