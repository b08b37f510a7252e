// SPDX-License-Identifier: MIT
// The JSON Schema of a file, from the same description that reads it, so that editors complete
// and check while one types.
#pragma once
#include <string>
#include <string_view>

#include "files/reader.hpp"

namespace backfit {

// A JSON Schema, draft 4, of files read by `description`, indented, ending in a newline.
std::string json_schema(std::string_view title, const Description& description);

}  // namespace backfit
