#include "photo/jpeg_header.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>

#include "measure/input_error.hpp"

namespace ashtriage::photo {
namespace {

// Marker codes of ITU-T T.81 (JPEG), table B.1; each follows a byte 0xFF.
constexpr int marker_prefix = 0xFF;
constexpr int start_of_image = 0xD8;
constexpr int end_of_image = 0xD9;
constexpr int start_of_scan = 0xDA;
constexpr int application_segment_1 = 0xE1;
constexpr int temporary = 0x01;
constexpr int first_restart = 0xD0;
constexpr int last_restart = 0xD7;

constexpr std::array<unsigned char, 6> exif_signature = {'E', 'x', 'i', 'f', 0, 0};

bool stands_alone(int marker) {
    return marker == temporary || (marker >= first_restart && marker <= last_restart);
}

class HeaderReader {
 public:
    HeaderReader(std::istream& jpeg, std::string_view name) : jpeg_(jpeg), name_(name) {}

    void require_start_of_image() {
        if (jpeg_.get() != marker_prefix || jpeg_.get() != start_of_image) {
            throw measure::InputError("\"" + name_ + "\" is not a JPEG photograph", name_,
                                      "Date and place are read from JPEG files (.jpg). If the "
                                      "camera saved another format, "
                                      "such as HEIC or PNG, export the picture as JPEG first.");
        }
    }

    int next_marker() {
        if (next_byte() != marker_prefix) {
            throw measure::InputError("The header of \"" + name_ + "\" is damaged", name_,
                                      "Copy the photograph from the camera again.");
        }
        int code = marker_prefix;
        while (code == marker_prefix)
            code = next_byte();  // any number of fill bytes may stand here
        return code;
    }

    std::vector<unsigned char> segment_content() {
        const int high = next_byte();
        const int length = high * 256 + next_byte();  // counts its own two bytes
        if (length < 2) {
            throw measure::InputError("The header of \"" + name_ + "\" is damaged", name_,
                                      "Copy the photograph from the camera again.");
        }
        std::vector<unsigned char> content(static_cast<std::size_t>(length - 2));
        jpeg_.read(reinterpret_cast<char*>(content.data()), length - 2);
        if (jpeg_.gcount() != length - 2) throw broken_off();
        return content;
    }

 private:
    int next_byte() {
        const int byte = jpeg_.get();
        if (byte == std::istream::traits_type::eof()) throw broken_off();
        return byte;
    }

    measure::InputError broken_off() const {
        return measure::InputError("\"" + name_ + "\" breaks off inside its header", name_,
                                   "The file was not copied whole. Copy the photograph again.");
    }

    std::istream& jpeg_;
    std::string name_;
};

bool is_exif(const std::vector<unsigned char>& content) {
    return content.size() >= exif_signature.size() &&
           std::equal(exif_signature.begin(), exif_signature.end(), content.begin());
}

}  // namespace

std::optional<std::vector<unsigned char>> find_exif_block(std::istream& jpeg,
                                                          std::string_view name) {
    HeaderReader header(jpeg, name);
    header.require_start_of_image();
    while (true) {
        const int marker = header.next_marker();
        if (marker == start_of_scan || marker == end_of_image) return std::nullopt;
        if (stands_alone(marker)) continue;
        std::vector<unsigned char> content = header.segment_content();
        if (marker == application_segment_1 && is_exif(content)) return content;
    }
}

}  // namespace ashtriage::photo
