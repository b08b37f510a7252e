// SPDX-License-Identifier: MIT
// A conversion's parts as triangles to look at, where they sit in the camera.
#pragma once
#include <string>

#include "conversion/report.hpp"

namespace backfit {

// Schema "backfit.parts/1"; ends in a newline. Places in the camera's axes; those of a piece are
// base64 of little-endian 32-bit numbers, three to a point and to a triangle. No pieces where no
// part can be made yet. `report` has its insert if it is to be seen, see add_insert(). Throws
// SolidFailure.
std::string parts_json(const Report& report);

}  // namespace backfit
