// Files named on the command line.
#pragma once

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

namespace ashtriage::cli {

// Opened for reading. Throws measure::InputError when there is no such file or it is a folder.
std::ifstream open_file(const std::string& name);

// The whole of a file, or of standard input for "-". Throws measure::InputError when it cannot be
// read or is larger than `most` bytes.
std::string read_file(const std::string& name, std::size_t most = std::size_t{256} << 20U);

// A file that is written bit by bit, beside its place; keep() puts it there. Until then what stood
// there stays, and without keep() nothing is left behind. Both this and keep() throw
// measure::InputError when it cannot be written.
class NewFile {
 public:
    explicit NewFile(std::filesystem::path name);
    ~NewFile();
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    std::ostream& stream() { return file_; }
    void keep();

 private:
    std::filesystem::path name_;
    std::ofstream file_;
    bool kept_ = false;
};

// Writes a file as a whole or not at all: first beside it, then in its place. Throws
// measure::InputError.
void write_file(const std::filesystem::path& name, std::string_view text);

struct NamedText {
    std::filesystem::path name;
    std::string text;
};

// Writes several files, and the folders they are in. Each is written beside its place first, and
// only when all of them are does any take its place, so a full disk leaves everything as it was.
// Throws measure::InputError.
void write_files(const std::vector<NamedText>& files);

// A name as it has to be typed at a shell: in quotes where it holds more than letters, digits and
// what is common in names of files.
std::string shell_word(const std::string& name);

}  // namespace ashtriage::cli
