// Files named on the command line.
#pragma once

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

namespace ashtriage::cli {

// Opened for reading. Throws measure::InputError when there is no such file or it is a folder.
std::ifstream open_file(const std::string& name);

// The whole of a file, or of standard input for "-". Throws measure::InputError when it cannot be
// read or is larger than `most` bytes.
std::string read_file(const std::string& name, std::size_t most = std::size_t{256} << 20U);

// Writes a file as a whole or not at all: first beside it, then in its place. Throws
// measure::InputError.
void write_file(const std::filesystem::path& name, std::string_view text);

}  // namespace ashtriage::cli
