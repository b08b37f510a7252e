// SPDX-License-Identifier: MIT
// A mesh as a binary STL file, for printers that read nothing better.
#pragma once
#include <string>
#include <string_view>

#include "solid/mesh.hpp"

namespace backfit {

// The bytes of a binary STL file: 80 bytes of header with as much of `part_name` as fits, the
// number of triangles, and 50 bytes a triangle, little-endian. The format has no unit; the numbers
// are mm.
std::string stl_file(const Mesh& mesh, std::string_view part_name);

}  // namespace backfit
