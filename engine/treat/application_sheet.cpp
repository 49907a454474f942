#include "treat/application_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "measure/number.hpp"
#include "measure/parse.hpp"
#include "packs/yaml_fields.hpp"
#include "treat/record_entries.hpp"
#include "treat/record_fields.hpp"

namespace ashtriage::treat {

using packs::Fields;
using packs::Node;

namespace {

constexpr std::string_view last_entry = "does_not_apply";

// In double quotes, in which YAML and JSON write text alike.
std::string in_quotes(std::string_view text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string line(std::string_view name, const std::string& text, std::string_view form,
                 std::string_view indent = {}) {
    const std::string start = fmt::format("{}{}:", indent, name);
    if (!text.empty()) return fmt::format("{} {}\n", start, in_quotes(text));
    return form.empty() ? start + "\n" : fmt::format("{:<28}# {}\n", start, form);
}

std::string list_line(std::string_view name, const std::vector<std::string>& texts,
                      std::string_view form) {
    if (texts.empty()) return line(name, "", form);
    std::string list;
    for (const std::string& text : texts) list += (list.empty() ? "" : ", ") + in_quotes(text);
    return fmt::format("{}: [{}]\n", name, list);
}

std::string trees_part(const std::vector<TreatedTree>& trees) {
    if (trees.empty()) return "trees: []\n";
    std::string text = "trees:\n";
    for (const TreatedTree& tree : trees) {
        text += "  - tree: " + in_quotes(tree.label) + "\n";
        text += line("dbh", tree.dbh ? exact_text(*tree.dbh) : "", "14 in", "    ");
        text += line("product", tree.product ? exact_text(*tree.product) : "",
                     "undiluted, that this tree got: 6 fl oz", "    ");
        text += line("mix", tree.mix ? exact_text(*tree.mix) : "",
                     "product, surfactant and water together: 116 fl oz", "    ");
        text += line("rate", tree.rate ? treat::text(*tree.rate) : "",
                     "only where it is not the one below", "    ");
    }
    return text;
}

std::string actives_part(const std::vector<AppliedActive>& actives) {
    if (actives.empty())
        return "active_ingredients: []        # [{name: dinotefuran, mass: 70.5 g}]\n";
    std::string text = "active_ingredients:\n";
    for (const AppliedActive& active : actives) {
        text += "  - name: " + in_quotes(active.name) + "\n";
        text += line("mass", active.mass ? exact_text(*active.mass) : "",
                     "in all of the product used; worked out when left empty", "    ");
    }
    return text;
}

std::string assistants_part(const std::vector<Person>& assistants) {
    std::vector<std::string> names;
    for (const Person& person : assistants) names.push_back(person.name);
    return list_line("assistants", names, "[a name, a name]: not certified, under supervision");
}

std::string correction_part(const Correction& correction) {
    return fmt::format("correction:\n  of: {}\n", correction.of) +
           line("by", correction.by, "your name", "  ") +
           line("date", measure::text(correction.on), "", "  ") +
           line("why", correction.why, "why it is corrected", "  ");
}

class SheetReader {
 public:
    SheetReader(const Node& root, const std::string& file, packs::Problems& problems)
        : source_{file, problems}, top_(root, "the sheet", source_) {}

    ApplicationSheet read() {
        if (!top_.is_mapping()) return {};
        sheet_.site = top_.text("site");
        if (const Node* node = top_.mapping_or_null("correction")) read_correction(*node);
        for (const RecordEntry& entry : record_entries()) {
            read_entry(top_, entry.name,
                       [&](std::string_view text) { entry.read(sheet_.record, text); });
        }
        read_trees();
        read_actives();
        for (const std::string& name : texts("assistants")) {
            sheet_.record.assistants.push_back({name, "", "", {}});
        }
        sheet_.record.photos = texts("photos");
        read_what_does_not_apply();
        refuse_if_cut_off();
        top_.refuse_others();
        return std::move(sheet_);
    }

 private:
    // An entry that is left empty is not given.
    template <class Read>
    void read_entry(Fields& fields, std::string_view key, Read read) {
        const Node* node = fields.optional(key);
        if (node == nullptr || node->is_empty_scalar()) return;
        fields.parsed_if_present(key, [&](std::string_view text) {
            read(text);
            return true;
        });
    }

    std::vector<std::string> texts(std::string_view key) {
        const Node* node = top_.optional(key);
        if (node == nullptr || node->is_empty_scalar()) return {};
        return top_.texts(key);
    }

    void read_correction(const Node& node) {
        Fields fields(node, "the correction", source_);
        Correction correction;
        correction.of = static_cast<std::int64_t>(fields.number("of", {1, 1e9}));
        correction.by = fields.text("by");
        correction.on = fields.parsed("date", measure::parse_date).value_or(measure::Date{});
        correction.why = fields.text("why");
        fields.refuse_others();
        sheet_.record.correction = correction;
    }

    void read_trees() {
        const Node* list = top_.list_or_null("trees");
        if (list == nullptr) return;
        for (const Node& item : list->items) {
            Fields fields(item, "a tree", source_);
            TreatedTree tree;
            tree.label = fields.text("tree");
            read_entry(fields, "dbh",
                       [&](std::string_view text) { tree.dbh = measure::parse_length(text); });
            read_entry(fields, "product",
                       [&](std::string_view text) { tree.product = parse_amount(text); });
            read_entry(fields, "mix",
                       [&](std::string_view text) { tree.mix = measure::parse_volume(text); });
            read_entry(fields, "rate",
                       [&](std::string_view text) { tree.rate = parse_labelled_rate(text); });
            fields.refuse_others();
            sheet_.record.trees.push_back(std::move(tree));
        }
    }

    void read_actives() {
        const Node* list = top_.list_or_null("active_ingredients");
        if (list == nullptr) return;
        for (const Node& item : list->items) {
            Fields fields(item, "an active ingredient", source_);
            AppliedActive active;
            active.name = fields.text("name");
            read_entry(fields, "mass",
                       [&](std::string_view text) { active.mass = measure::parse_mass(text); });
            fields.refuse_others();
            sheet_.record.actives.push_back(std::move(active));
        }
    }

    void read_what_does_not_apply() {
        sheet_.record.does_not_apply = texts(last_entry);
        std::vector<std::string> names;
        for (const RecordField& field : record_fields()) {
            if (field.may_not_apply) names.emplace_back(field.name);
        }
        for (const std::string& name : sheet_.record.does_not_apply) {
            if (std::ranges::find(names, name) != names.end()) continue;
            top_.refuse(last_entry, "unknown-value",
                        fmt::format("'{}' is no entry that may not apply", name),
                        packs::nearest_hint(name, names));
        }
    }

    // The first half of a sheet reads as well as a whole one, and what was used and by whom would
    // be lost without a word.
    void refuse_if_cut_off() {
        if (top_.optional(last_entry) != nullptr) return;
        top_.refuse(
            last_entry, "cut-off",
            fmt::format("the last entry of every sheet, '{}', is not there: the sheet may be "
                        "cut off",
                        last_entry),
            fmt::format("If it is whole, add the line \"{}:\" at its end.", last_entry));
    }

    packs::YamlSource source_;
    Fields top_;
    ApplicationSheet sheet_;
};

}  // namespace

std::string application_sheet(const ApplicationSheet& sheet) {
    const ApplicationRecord& record = sheet.record;
    std::string text =
        "# The record of an application, as it was done. Fill in what is empty; write amounts "
        "with\n"
        "# their units. What there was none of goes by its name into \"does_not_apply\". Then:\n"
        "#   ashtriage record add THIS-FILE\n";
    text += line("site", sheet.site, "its name in the book");
    if (record.correction) text += correction_part(*record.correction);
    std::optional<EntryGroup> group;
    for (const RecordEntry& entry : record_entries()) {
        if (group != entry.group) {
            group = entry.group;
            text += fmt::format("\n# {}\n", words(*group));
            if (*group == EntryGroup::what) text += trees_part(record.trees);
            if (*group == EntryGroup::product) text += actives_part(record.actives);
            if (*group == EntryGroup::who) text += assistants_part(record.assistants);
        }
        text += line(entry.name, entry.text(record), entry.form);
    }
    text += list_line("photos", record.photos, "[a.jpg, b.jpg]");
    text += list_line(last_entry, record.does_not_apply,
                      "[assistants, supervisor_name, permit_number]");
    return text;
}

ApplicationSheet read_application_sheet(std::string_view text, const std::string& file) {
    packs::Problems problems;
    problems.add_file(file, text);
    const Node root = packs::read_yaml(text, file, problems);
    problems.throw_if_any();
    ApplicationSheet sheet = SheetReader(root, file, problems).read();
    problems.throw_if_any();
    return sheet;
}

}  // namespace ashtriage::treat
