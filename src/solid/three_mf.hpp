// SPDX-License-Identifier: MIT
// A mesh as a 3MF package: unlike STL it says what its unit is and what the part is called.
#pragma once
#include <string>
#include <string_view>

#include "solid/mesh.hpp"

namespace backfit {

// The bytes of a 3MF package (core specification) with one object in millimetres, named
// `part_name`, and the model's `title`; both UTF-8. The object keeps its coordinates; the build
// item shifts it into the positive octant. Entries carry a fixed date, so that the same arguments
// give the same bytes. Requires a mesh that isn't empty.
std::string three_mf_file(const Mesh& mesh, std::string_view part_name, std::string_view title);

}  // namespace backfit
