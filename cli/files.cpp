#include "files.hpp"

#include <iostream>
#include <utility>

#include "measure/input_error.hpp"

namespace ashtriage::cli {

namespace {

std::string read_stream(std::istream& stream, const std::string& name, std::size_t most) {
    std::string text;
    std::string block(std::size_t{1} << 16U, '\0');
    while (stream.read(block.data(), static_cast<std::streamsize>(block.size())) ||
           stream.gcount() > 0) {
        text.append(block, 0, static_cast<std::size_t>(stream.gcount()));
        if (text.size() > most) {
            throw measure::InputError(
                "The file is larger than " + std::to_string(most >> 20U) + " MiB", name,
                "Is this the file you meant?");
        }
    }
    if (stream.bad()) throw measure::InputError("The file cannot be read", name);
    return text;
}

std::filesystem::path beside(std::filesystem::path name) {
    name += ".part";
    return name;
}

// Takes away what was written beside.
[[noreturn]] void give_up(const std::filesystem::path& name) {
    std::error_code error;
    std::filesystem::remove(beside(name), error);
    throw measure::InputError("The file cannot be written", name.string(),
                              "Does the folder exist, and is there room on the disk?");
}

void write_beside(const std::filesystem::path& name, std::string_view text) {
    std::ofstream file(beside(name), std::ios::binary | std::ios::trunc);
    file.write(text.data(), static_cast<std::streamsize>(text.size()));
    file.close();
    if (!file) give_up(name);
}

void put_in_place(const std::filesystem::path& name) {
    std::error_code error;
    std::filesystem::rename(beside(name), name, error);
    if (!error) return;
    std::filesystem::remove(beside(name), error);
    throw measure::InputError("The file cannot be written", name.string());
}

// Those that are made are added to `made`, each after the one it is in.
void make_folders(const std::filesystem::path& folder, std::vector<std::filesystem::path>& made) {
    std::error_code error;
    if (folder.empty() || std::filesystem::exists(folder, error)) return;
    make_folders(folder.parent_path(), made);
    if (std::filesystem::create_directory(folder, error)) {
        made.push_back(folder);
    } else if (error) {
        throw measure::InputError("The folder cannot be made", folder.string(), error.message());
    }
}

}  // namespace

std::ifstream open_file(const std::string& name) {
    std::error_code error;
    if (std::filesystem::is_directory(name, error)) {
        throw measure::InputError("This is a folder, not a file", name);
    }
    std::ifstream file(name, std::ios::binary);
    if (!file) {
        throw measure::InputError("There is no such file, or it may not be read", name,
                                  "Check the name and the folder you are in.");
    }
    return file;
}

std::string read_file(const std::string& name, std::size_t most) {
    if (name == "-") return read_stream(std::cin, "standard input", most);
    std::ifstream file = open_file(name);
    return read_stream(file, name, most);
}

void write_file(const std::filesystem::path& name, std::string_view text) {
    write_beside(name, text);
    put_in_place(name);
}

void write_files(const std::vector<NamedText>& files) {
    std::vector<std::filesystem::path> folders;  // those that were made, outermost first
    std::size_t written = 0;
    try {
        for (const NamedText& file : files) make_folders(file.name.parent_path(), folders);
        for (; written < files.size(); ++written) {
            write_beside(files[written].name, files[written].text);
        }
    } catch (const measure::InputError&) {
        std::error_code error;
        for (std::size_t i = 0; i < written; ++i) {
            std::filesystem::remove(beside(files[i].name), error);
        }
        for (auto folder = folders.rbegin(); folder != folders.rend(); ++folder) {
            std::filesystem::remove(*folder, error);
        }
        throw;
    }
    for (const NamedText& file : files) put_in_place(file.name);
}

NewFile::NewFile(std::filesystem::path name)
    : name_(std::move(name)), file_(beside(name_), std::ios::binary | std::ios::trunc) {
    if (!file_) give_up(name_);
}

NewFile::~NewFile() {
    std::error_code error;
    if (!kept_) std::filesystem::remove(beside(name_), error);
}

void NewFile::keep() {
    file_.close();
    if (!file_) give_up(name_);
    put_in_place(name_);
    kept_ = true;
}

std::string shell_word(const std::string& name) {
    constexpr std::string_view plain =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-/+,:@%";
    if (!name.empty() && name.find_first_not_of(plain) == std::string::npos) return name;
    std::string word = "'";
    for (const char c : name) word += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return word + "'";
}

}  // namespace ashtriage::cli
