#include "packs/rule_files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

#include "measure/input_error.hpp"
#include "packs/problem.hpp"
#include "packs/yaml_document.hpp"

namespace ashtriage::packs {

namespace {

namespace fs = std::filesystem;
using measure::InputError;

constexpr std::string_view labels_folder = "labels/";
constexpr std::array not_packs = {
    std::string_view("sources.yaml"), std::string_view("seasons.yaml"),
    std::string_view("records.yaml"), std::string_view("method_facts.yaml"),
    std::string_view("day_rules.yaml")};

// The text of a file. A file over the limit is cut off just beyond it: that is enough for the
// reader to refuse it.
std::string file_text(const fs::path& path) {
    errno = 0;
    std::ifstream stream(path, std::ios::binary);
    std::string text(largest_yaml_file + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (!stream.is_open() || stream.bad()) {
        throw InputError(fmt::format("the rule file '{}' cannot be read: {}", path.string(),
                                     std::strerror(errno)),
                         {}, "check that the file exists and that you may read it");
    }
    text.resize(static_cast<std::size_t>(stream.gcount()));
    return text;
}

std::vector<std::string> names_of(const std::vector<RuleFile>& files) {
    std::vector<std::string> names;
    names.reserve(files.size());
    for (const RuleFile& file : files) names.push_back(file.name);
    return names;
}

bool looks_like_rule_file(const fs::path& path) {
    const std::string name = path.filename().string();
    return !name.starts_with('.') && (name.ends_with(".yaml") || name.ends_with(".yml"));
}

void refuse_wrong_name(const std::string& name, const fs::path& path,
                       const std::vector<std::string>& known) {
    if (std::find(known.begin(), known.end(), name) != known.end()) return;
    if (name.starts_with(labels_folder) && name.ends_with(".yaml") &&
        name.find('/', labels_folder.size()) == std::string::npos) {
        return;
    }
    std::string hint = nearest_hint(name, known);
    if (hint.empty()) {
        hint = "give it the name of the file whose rules it replaces, or move it out of the folder";
    }
    throw InputError(fmt::format("'{}' is not the name of a rule file", name), path.string(),
                     std::move(hint));
}

// The names of all rule files below the folder, sorted.
std::vector<std::string> names_in(const fs::path& folder) {
    std::vector<std::string> names;
    std::error_code error;
    fs::recursive_directory_iterator entry(folder, error);
    const fs::recursive_directory_iterator end;
    while (!error && entry != end) {
        const bool hidden = entry->path().filename().string().starts_with('.');
        if (entry->is_directory(error)) {
            if (hidden || entry.depth() > 0) entry.disable_recursion_pending();
        } else if (!error && looks_like_rule_file(entry->path())) {
            names.push_back(entry->path().lexically_relative(folder).generic_string());
        }
        entry.increment(error);
    }
    if (error) {
        throw InputError(fmt::format("the rules folder '{}' cannot be read: {}", folder.string(),
                                     error.message()),
                         {}, "give an existing folder, or none to use the built-in rules");
    }
    std::sort(names.begin(), names.end());
    return names;
}

}  // namespace

std::vector<RuleFile> rule_files(const std::optional<fs::path>& folder) {
    std::vector<RuleFile> files = built_in_rule_files();
    if (!folder) return files;

    const std::vector<std::string> known = names_of(files);
    for (const std::string& name : names_in(*folder)) {
        const fs::path path = *folder / name;
        refuse_wrong_name(name, path, known);
        RuleFile file{name, file_text(path), path.string()};
        const auto built_in = std::find_if(files.begin(), files.end(),
                                           [&](const RuleFile& f) { return f.name == name; });
        if (built_in == files.end()) {
            files.push_back(std::move(file));
        } else {
            *built_in = std::move(file);
        }
    }
    std::sort(files.begin(), files.end(),
              [](const RuleFile& a, const RuleFile& b) { return a.name < b.name; });
    return files;
}

const RuleFile* find_rule_file(const std::vector<RuleFile>& files, std::string_view name) {
    const auto found = std::find_if(files.begin(), files.end(),
                                    [&](const RuleFile& file) { return file.name == name; });
    return found == files.end() ? nullptr : &*found;
}

bool is_pack(std::string_view name) {
    return name.find('/') == std::string_view::npos &&
           std::find(not_packs.begin(), not_packs.end(), name) == not_packs.end();
}

bool holds_only_cases(std::string_view name) {
    return name.ends_with("_cases") || name.ends_with("_cases.yaml");
}

}  // namespace ashtriage::packs
