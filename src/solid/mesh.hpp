// SPDX-License-Identifier: MIT
// A body's surface as triangles that share their corners, for printers and screens.
#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "solid/solid.hpp"

namespace backfit {

// Triangles on shared points, counterclockwise seen from outside. Coordinates are in mm, in single
// precision as the printing formats hold them (steps of 8e-6 mm at 100 mm).
struct Mesh {
  std::vector<std::array<float, 3>> points_mm;
  std::vector<std::array<std::uint32_t, 3>> triangles;  // indices into points_mm
};

// Triangles no farther than `chord` from the body's surface, their corners on it. Corners are
// welded by which vertex or edge of the body they belong to, not by distance. The same body and
// chord give the same mesh. Requires chord in [1e-4 mm, largest_size]. Throws SolidFailure.
Mesh mesh_of(const Solid& body, Length chord);

// Volume inside the triangles: sum over them of a . (b x c) / 6. Requires a watertight mesh.
Volume volume_of(const Mesh& mesh);

// Whether each edge is used exactly once in each sense and the mesh isn't empty.
bool watertight(const Mesh& mesh);

}  // namespace backfit
