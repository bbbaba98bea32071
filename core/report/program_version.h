#pragma once

namespace waybench {

/// Version of the program as in CMakeLists.txt (a test compares the two); stands on every page.
inline constexpr const char* kProgramVersion = "0.1.0";

}  // namespace waybench
