#include "files.hpp"

#include <iostream>

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
    std::filesystem::path beside = name;
    beside += ".part";
    std::error_code error;
    {
        std::ofstream file(beside, std::ios::binary | std::ios::trunc);
        file.write(text.data(), static_cast<std::streamsize>(text.size()));
        file.close();
        if (!file) {
            std::filesystem::remove(beside, error);
            throw measure::InputError("The file cannot be written", name.string(),
                                      "Does the folder exist, and is there room on the disk?");
        }
    }
    std::filesystem::rename(beside, name, error);
    if (error) {
        std::filesystem::remove(beside, error);
        throw measure::InputError("The file cannot be written", name.string());
    }
}

}  // namespace ashtriage::cli
