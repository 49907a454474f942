// Typed, checked access to the tags of an Exif block. A tag of the wrong type or length, or one
// whose value lies outside a block that breaks off, reads as absent; a rational with the
// denominator zero makes the whole tag unreadable.
#pragma once

#include <libexif/exif-data.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace ashtriage::photo {

class ExifTags {
 public:
    // `block` begins with "Exif\0\0".
    explicit ExifTags(const std::vector<unsigned char>& block);

    bool has(ExifIfd directory, ExifTag tag) const;

    // ASCII, up to the first NUL, without trailing blanks.
    std::optional<std::string> text(ExifIfd directory, ExifTag tag) const;

    std::optional<unsigned> byte(ExifIfd directory, ExifTag tag) const;

    // Exactly `count` unsigned rationals; nothing when one of them has the denominator zero.
    std::optional<std::vector<double>> rationals(ExifIfd directory, ExifTag tag,
                                                 unsigned long count) const;

 private:
    struct Release {
        void operator()(ExifData* data) const { exif_data_unref(data); }
    };

    const ExifEntry* entry(ExifIfd directory, ExifTag tag, ExifFormat format) const;

    std::unique_ptr<ExifData, Release> data_;
};

}  // namespace ashtriage::photo
