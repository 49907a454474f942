#include "present/emergency.hpp"

namespace ashtriage::present {

std::string_view emergency_numbers() {
    // Numbers of 2011 (USDA manual).
    return "United States: poison help 1-800-222-1222; spills 1-800-424-9300. Check these numbers "
           "before the day, and add your own.";
}

}  // namespace ashtriage::present
