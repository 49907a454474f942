// libFuzzer's entry point for the function ASHTRIAGE_FUZZ_ENTRY.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "entries.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    ashtriage::fuzz::ASHTRIAGE_FUZZ_ENTRY({reinterpret_cast<const char*>(bytes), size});
    return 0;
}
