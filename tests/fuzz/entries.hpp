// The places where bytes from outside enter the program, each as one function. The fuzzer calls
// them with whatever it makes up; the corpus test calls them with the files of the folder corpus.
//
// Bytes are either well or refused with packs::BadFile or measure::InputError. Everything else that
// is thrown, and every crash, hang and leak, is a fault of the program. So is an answer that
// contradicts itself, for which these functions throw std::logic_error.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ashtriage::fuzz {

// What the program says of bytes that it refuses; nothing when they are well.
using Refusal = std::optional<std::string>;

// The bytes as rule files. A line "#file NAME" begins the file of that name; what stands before the
// first such line is "pack.yaml". A few small files are there already, and each is replaced by one
// of its name. What reads well is compiled, and a tree is judged by it.
Refusal read_rules(std::string_view bytes);

// The bytes as a sheet of walk-arounds: CSV, or YAML after a line "#yaml".
Refusal read_sheet(std::string_view bytes);

// The bytes as a file of the work itself: crews after a line "#crews", daily weather after a line
// "#weather", else the sheet of an application, which must come back the same when it is written
// again.
Refusal read_job(std::string_view bytes);

// Each line of the bytes as every kind of value that people write: well if one line is any of them.
Refusal read_values(std::string_view bytes);

}  // namespace ashtriage::fuzz
