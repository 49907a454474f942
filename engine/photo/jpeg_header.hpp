// Finds the Exif block in the header of a JPEG file without reading the picture behind it.
#pragma once

#include <istream>
#include <optional>
#include <string_view>
#include <vector>

namespace ashtriage::photo {

// The block with its leading "Exif\0\0"; nothing when the header holds none. At most 64 KiB, the
// most that a JPEG segment can hold. Throws measure::InputError when this is no JPEG or its header
// breaks off; `name` stands for the file in the message.
std::optional<std::vector<unsigned char>> find_exif_block(std::istream& jpeg,
                                                          std::string_view name);

}  // namespace ashtriage::photo
