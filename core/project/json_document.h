#pragma once
#include <string>

#include "core/comparison/json_text.h"

namespace waybench {

/// JSON text read strictly: no comments, no key twice in one object, no number beyond a double, at most 64 levels deep.
/// A leading UTF-8 byte order mark is passed over.
/// @throws InputFault "not_json" (place "line 3, column 7"), "key_twice", "value_out_of_range"
Json parseJsonDocument(const std::string& text);

}  // namespace waybench
