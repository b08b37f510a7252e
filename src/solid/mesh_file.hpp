// SPDX-License-Identifier: MIT
// Parts drawn elsewhere, read from STL and 3MF, and what is wrong with them.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "solid/mesh.hpp"

namespace backfit {

struct NamedMesh {
  std::string name;
  Mesh mesh;
};

// What is wrong, where in the file or in space, and a remedy that may be empty.
struct MeshFault {
  std::string text, help;
};

using ReadMeshes = std::variant<std::vector<NamedMesh>, MeshFault>;

// The parts of a file by its bytes, at most 2^26 triangles in all. A 3MF package is known by its
// first two bytes, binary STL by its length, text STL by its first word. Equal corners become one;
// triangles with two like corners are left out. Nothing is repaired.
ReadMeshes meshes_of(std::string_view bytes);

// STL, binary or text: the format has no unit, the numbers count as mm. Names are those of the text
// form's solids, else "part", with a number where there are more.
ReadMeshes stl_meshes(std::string_view bytes);

// The build items of a 3MF package (core specification), each where its item and components put
// it, named by its object; units honoured. Packages that demand an extension are refused.
ReadMeshes three_mf_meshes(std::string_view bytes);

// Why light can't be kept apart by such a surface; empty when it is whole: some triangles, no
// corner farther out than `largest_size`, each edge between exactly two triangles that run round it
// the same way, the inside within. Says how many edges are guilty and where the first is.
std::optional<MeshFault> fault_of(const NamedMesh& part);

}  // namespace backfit
