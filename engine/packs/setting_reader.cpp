#include <fmt/format.h>

#include <utility>

#include "measure/input_error.hpp"
#include "packs/fact_units.hpp"
#include "packs/readers.hpp"
#include "packs/sources.hpp"
#include "packs/value_text.hpp"

namespace ashtriage::packs {

namespace {

double read_switch(const Node& node, const std::string& name, const YamlSource& source) {
    return read_yes_no(node, name, source).value_or(false) ? 1.0 : 0.0;
}

void read_setting(const Entry& entry, const PackFile& file, Draft& draft) {
    const YamlSource& source = file.source;
    if (!draft.check_new_name("a setting", entry, source)) {
        draft.broken.insert(entry.key);
        return;
    }
    const std::string what = fmt::format("the setting '{}'", entry.key);
    Fields fields(entry.value, what, source);

    const std::size_t problems_before = source.problems.size();
    Setting setting;
    setting.name = entry.key;
    const Node* value = fields.required("value");
    const bool looks_like_switch =
        value != nullptr && (value->text == "yes" || value->text == "no");
    if (looks_like_switch) {
        setting.is_switch = true;
        setting.value = read_switch(*value, what, source);
        if (fields.optional("unit") != nullptr) {
            fields.refuse("unit", "not-for-this-kind",
                          fmt::format("{} is a switch (yes or no) and has no unit", what));
        }
    } else {
        const std::vector<std::string> units = fact_unit_names();
        setting.unit = units[fields.choice("unit", units)];
        if (value != nullptr) setting.value = read_number(*value, what, source).value_or(0.0);
    }
    if (source.problems.size() > problems_before) draft.broken.insert(setting.name);
    setting.about = fields.text("about");
    setting.sources = read_source_keys(fields, "source", draft.set.sources);
    fields.refuse_others();

    draft.settings_by_name.emplace(setting.name, draft.set.settings.size());
    const Place place = fields.place("value");
    draft.settings.push_back(
        {source, entry.place, false, {SettingValue{{}, setting.value, source, place, false}}});
    draft.set.settings.push_back(std::move(setting));
}

void read_preset(const Entry& entry, const PackFile& file, Draft& draft) {
    const YamlSource& source = file.source;
    if (!check_id("a preset", entry.key, entry.place, source)) return;
    if (draft.presets.count(entry.key) != 0) {
        source.refuse("duplicate-name", entry.place,
                      fmt::format("there is already a preset '{}'", entry.key),
                      "put all its settings in one place, or choose another name");
        return;
    }
    Fields fields(entry.value, fmt::format("the preset '{}'", entry.key), source);
    Preset preset;
    preset.name = entry.key;
    preset.about = fields.text("about");
    preset.sources = read_source_keys(fields, "source", draft.set.sources);
    if (const Node* values = fields.mapping("settings")) {
        for (const Entry& given : values->entries) {
            const auto found = draft.settings_by_name.find(given.key);
            if (found == draft.settings_by_name.end()) {
                source.refuse(
                    "unknown-setting", given.place,
                    fmt::format("{} names the unknown setting '{}'", fields.what(), given.key),
                    nearest_hint(given.key, draft.setting_names()));
                continue;
            }
            const std::string name = fmt::format("'{}' of {}", given.key, fields.what());
            const Setting& setting = draft.set.settings[found->second];
            const double value =
                setting.is_switch ? read_switch(given.value, name, source)
                                  : read_number(given.value, name, source).value_or(setting.value);
            preset.values.emplace_back(given.key, value);
            draft.settings[found->second].values.push_back(
                {preset.name, value, source, given.value.place, false});
        }
    }
    fields.refuse_others();
    draft.presets.emplace(preset.name, draft.set.presets.size());
    draft.set.presets.push_back(std::move(preset));
}

}  // namespace

void read_settings(const Node& settings, const PackFile& file, Draft& draft) {
    for (const Entry& entry : settings.entries) read_setting(entry, file, draft);
}

void read_presets(const Node& presets, const PackFile& file, Draft& draft) {
    for (const Entry& entry : presets.entries) read_preset(entry, file, draft);
}

void use_preset(std::string_view name, Draft& draft) {
    if (name.empty()) return;
    const auto found = draft.presets.find(std::string(name));
    if (found == draft.presets.end()) {
        std::vector<std::string> names;
        for (const Preset& preset : draft.set.presets) names.push_back(preset.name);
        throw measure::InputError(fmt::format("there is no preset '{}' in the rules", name), {},
                                  nearest_hint(name, names));
    }
    draft.set.preset = name;
    for (const auto& [setting, value] : draft.set.presets[found->second].values) {
        draft.set.settings[draft.settings_by_name.at(setting)].value = value;
    }
}

void check_setting_range(reason::FactIndex index, const std::string& name, Draft& draft) {
    const reason::Fact& fact = draft.set.model.facts[index];
    for (SettingValue& value : draft.settings[draft.settings_by_name.at(name)].values) {
        if (value.reported || fact.range.contains(value.value)) continue;
        value.reported = true;
        value.source.refuse(
            "outside-range", value.place,
            fmt::format("the setting '{}' is {}, but '{}' is compared with it", name, value.value,
                        fact.name),
            fmt::format("'{}' is {}", fact.name, expected_text(fact, draft.set.facts[index])));
    }
}

void check_settings_used(const Draft& draft) {
    for (std::size_t i = 0; i < draft.settings.size(); ++i) {
        const SettingDraft& setting = draft.settings[i];
        if (setting.used) continue;
        setting.source.refuse(
            "unused-setting", setting.place,
            fmt::format("no condition uses the setting '{}'", draft.set.settings[i].name),
            "use it in a condition, or leave it out: a figure that decides nothing misleads");
    }
}

}  // namespace ashtriage::packs
