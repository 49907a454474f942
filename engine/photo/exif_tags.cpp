#include "photo/exif_tags.hpp"

#include <libexif/exif-utils.h>

#include <algorithm>
#include <cstddef>
#include <new>

namespace ashtriage::photo {

ExifTags::ExifTags(const std::vector<unsigned char>& block) : data_(exif_data_new()) {
    if (!data_) throw std::bad_alloc();
    // By default the library mends a block that departs from the standard, and fills in tags of its
    // own. Here only what the camera wrote counts.
    exif_data_unset_option(data_.get(), EXIF_DATA_OPTION_FOLLOW_SPECIFICATION);
    exif_data_load_data(data_.get(), block.data(), static_cast<unsigned>(block.size()));
}

bool ExifTags::has(ExifIfd directory, ExifTag tag) const {
    return exif_content_get_entry(data_->ifd[directory], tag) != nullptr;
}

const ExifEntry* ExifTags::entry(ExifIfd directory, ExifTag tag, ExifFormat format) const {
    const ExifEntry* found = exif_content_get_entry(data_->ifd[directory], tag);
    if (found == nullptr || found->data == nullptr || found->format != format) return nullptr;
    if (found->components > found->size / exif_format_get_size(format)) return nullptr;
    return found;
}

std::optional<std::string> ExifTags::text(ExifIfd directory, ExifTag tag) const {
    const ExifEntry* found = entry(directory, tag, EXIF_FORMAT_ASCII);
    if (found == nullptr) return std::nullopt;
    std::string content(reinterpret_cast<const char*>(found->data), found->size);
    content.erase(std::min(content.find('\0'), content.size()));
    content.erase(content.find_last_not_of(' ') + 1);
    return content;
}

std::optional<unsigned> ExifTags::byte(ExifIfd directory, ExifTag tag) const {
    const ExifEntry* found = entry(directory, tag, EXIF_FORMAT_BYTE);
    if (found == nullptr || found->components != 1) return std::nullopt;
    return found->data[0];
}

std::optional<std::vector<double>> ExifTags::rationals(ExifIfd directory, ExifTag tag,
                                                       unsigned long count) const {
    const ExifEntry* found = entry(directory, tag, EXIF_FORMAT_RATIONAL);
    if (found == nullptr || found->components != count) return std::nullopt;
    const ExifByteOrder order = exif_data_get_byte_order(data_.get());
    const std::size_t width = exif_format_get_size(EXIF_FORMAT_RATIONAL);
    std::vector<double> values;
    for (std::size_t i = 0; i < count; ++i) {
        const ExifRational rational = exif_get_rational(found->data + i * width, order);
        if (rational.denominator == 0) return std::nullopt;
        values.push_back(static_cast<double>(rational.numerator) /
                         static_cast<double>(rational.denominator));
    }
    return values;
}

}  // namespace ashtriage::photo
