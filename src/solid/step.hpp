// SPDX-License-Identifier: MIT
// A body as a STEP file (ISO 10303-21), exact, for other design programs.
#pragma once
#include <string>
#include <string_view>

#include "solid/solid.hpp"

namespace backfit {

// The bytes of a STEP file of `body` in millimetres after application protocol AP214. `part_name`
// is UTF-8 and names the product; `time_stamp` is what the header says, ISO 8601 such as
// "2001-02-03T04:05:06". The same arguments give the same bytes in every process, whatever was
// exported before. Not for two threads at once: the kernel's settings are process-wide.
// Throws SolidFailure.
std::string step_file(const Solid& body, std::string_view part_name, std::string_view time_stamp);

}  // namespace backfit
