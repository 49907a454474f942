#include "treat/read_label_card.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

#include "treat/check_label_card.hpp"
#include "treat/label_reading.hpp"

namespace ashtriage::treat {

namespace {

std::string parse_method(std::string_view text) {
    const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    });
    if (!plain) {
        throw measure::InputError(fmt::format("'{}' is not a method's name", text), {},
                                  "write it as the table of methods does, such as "
                                  "trunk_injection_emamectin");
    }
    return std::string(text);
}

// Every "..." that a blank card was begun with and nobody has filled in.
void refuse_what_is_not_filled_in(const packs::Node& node, const packs::YamlSource& source) {
    if (node.kind == packs::Node::Kind::scalar && node.text == "...") {
        source.refuse("not-filled-in", node.place, "this has not been filled in yet",
                      "copy it from the label in your hand, or put a # before the line if the "
                      "label says nothing about it");
    }
    for (const packs::Node& item : node.items) refuse_what_is_not_filled_in(item, source);
    for (const packs::Entry& entry : node.entries) {
        refuse_what_is_not_filled_in(entry.value, source);
    }
}

void read_heading(LabelReading& reading, const std::string& key) {
    packs::Fields& top = reading.top();
    LabelCard& card = reading.card();
    card.key = top.text("label");
    if (!card.key.empty() && card.key != key) {
        top.refuse("label", "label-not-file-name",
                   fmt::format("the card is called '{}' and its file '{}'", card.key, key),
                   "give both the same name");
    }
    card.example = top.yes_no("example");
    if (!card.example) reading.allow_label_as_source();
    card.title = top.text("title");
    card.method = top.parsed("method", parse_method).value_or("");
    card.application = static_cast<Application>(top.choice(
        "application",
        {"basal_trunk_spray", "soil_drench", "soil_injection", "trunk_injection", "cover_spray"}));
    card.active_ingredient = top.text("active_ingredient");
    card.product = static_cast<ProductForm>(top.choice("product", {"liquid", "dry"}));
    card.formulation = top.text_or("formulation", "");
    const std::vector<std::string> rules{"sum", "largest", "root_of_sum_of_squares"};
    constexpr std::array meanings{measure::StemRule::sum, measure::StemRule::largest,
                                  measure::StemRule::root_of_sum_of_squares};
    card.several_stems = meanings[top.choice_or("several_stems", rules, 0)];
}

}  // namespace

LabelCard read_label_card(const packs::RuleFile& file, const std::vector<packs::Source>& sources,
                          packs::Problems& problems) {
    problems.add_file(file.shown_name(), file.text);
    const std::size_t before = problems.size();
    const packs::Node root = packs::read_yaml(file.text, file.shown_name(), problems);
    // A tree that could not be read to its end would only give problems that are none.
    if (problems.size() > before) return {};
    refuse_what_is_not_filled_in(root, packs::YamlSource{file.shown_name(), problems});
    if (problems.size() > before) return {};

    LabelReading reading(root, file.shown_name(), sources, problems);
    read_heading(reading, std::filesystem::path(file.name).stem().string());
    read_amounts(reading);
    read_conditions(reading);
    read_label_itself(reading);
    reading.top().refuse_others();
    const auto refuse = [&](const std::vector<Complaint>& complaints) {
        for (const Complaint& complaint : complaints) {
            reading.top().refuse(complaint.entry, complaint.id, complaint.message, complaint.hint);
        }
    };
    refuse(complaints_about(reading.card()));
    if (problems.size() == before) refuse(complaints_about_mix(reading.card()));
    return std::move(reading.card());
}

std::vector<LabelCard> read_label_cards(const std::vector<packs::RuleFile>& files,
                                        const std::vector<packs::Source>& sources) {
    packs::Problems problems;
    std::vector<LabelCard> cards;
    for (const packs::RuleFile& file : files) {
        if (!file.name.starts_with("labels/")) continue;
        cards.push_back(read_label_card(file, sources, problems));
    }
    problems.throw_if_any();
    for (const auto& [card, complaint] : complaints_between(cards)) {
        const std::string file = fmt::format("labels/{}.yaml", cards[card].key);
        const packs::RuleFile* read = packs::find_rule_file(files, file);
        problems.add({complaint.id,
                      read == nullptr ? file : read->shown_name(),
                      {},
                      complaint.message,
                      complaint.hint,
                      {}});
    }
    problems.throw_if_any();
    return cards;
}

}  // namespace ashtriage::treat
