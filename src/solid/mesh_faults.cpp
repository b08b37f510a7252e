// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solid/mesh_file.hpp"

namespace backfit {
namespace {

std::string place(const std::array<float, 3>& p) {
  const auto rounded = [](float x) { return std::round(1e3 * static_cast<double>(x)) / 1e3 + 0.0; };
  return fmt::format("({:g}, {:g}, {:g})", rounded(p[0]), rounded(p[1]), rounded(p[2]));
}

// One side of a triangle, its lower corner first.
struct Side {
  std::uint32_t low, high;
  bool forward;  // from low to high
};

// How edges are at fault, and the first of each kind by the order of the file's corners.
struct Edges {
  struct Kind {
    std::size_t count = 0;
    Side first{};
    void add(const Side& side) {
      if (count++ == 0) first = side;
    }
  };
  Kind open, flipped, crowded;
};

Edges edges_of(const Mesh& mesh) {
  std::vector<Side> sides;
  sides.reserve(3 * mesh.triangles.size());
  for (const auto& t : mesh.triangles) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t a = t.at(i), b = t.at((i + 1) % 3);
      sides.push_back({std::min(a, b), std::max(a, b), a < b});
    }
  }
  std::sort(sides.begin(), sides.end(), [](const Side& x, const Side& y) {
    return x.low != y.low ? x.low < y.low : x.high < y.high;
  });
  Edges edges;
  for (std::size_t i = 0; i < sides.size();) {
    std::size_t forward = 0, backward = 0, next = i;
    for (; next < sides.size() && sides[next].low == sides[i].low &&
           sides[next].high == sides[i].high;
         ++next) {
      ++(sides[next].forward ? forward : backward);
    }
    if (forward + backward == 1) {
      edges.open.add(sides[i]);
    } else if (forward + backward > 2) {
      edges.crowded.add(sides[i]);
    } else if (forward != backward) {
      edges.flipped.add(sides[i]);
    }
    i = next;
  }
  return edges;
}

double six_volumes(const Mesh& mesh) {
  double sum = 0;
  for (const auto& [a, b, c] : mesh.triangles) {
    const auto at = [&](std::uint32_t i, std::size_t axis) {
      return static_cast<double>(mesh.points_mm[i].at(axis));
    };
    sum += at(a, 0) * (at(b, 1) * at(c, 2) - at(b, 2) * at(c, 1)) +
           at(a, 1) * (at(b, 2) * at(c, 0) - at(b, 0) * at(c, 2)) +
           at(a, 2) * (at(b, 0) * at(c, 1) - at(b, 1) * at(c, 0));
  }
  return sum;
}

}  // namespace

std::optional<MeshFault> fault_of(const NamedMesh& part) {
  const Mesh& mesh = part.mesh;
  if (mesh.triangles.empty()) return MeshFault{fmt::format("'{}' has no triangles", part.name), {}};
  const auto farthest = static_cast<float>(largest_size / mm);
  for (const auto& p : mesh.points_mm) {
    if (std::abs(p[0]) > farthest || std::abs(p[1]) > farthest || std::abs(p[2]) > farthest) {
      return MeshFault{
          fmt::format("'{}' has a corner at {} mm, more than 10 m out", part.name, place(p)),
          "look at the file's unit"};
    }
  }
  const Edges edges = edges_of(mesh);
  const auto said = [&](const Edges::Kind& kind, const char* what, std::string help) {
    const std::string count = kind.count == 1
                                  ? fmt::format("has an edge {},", what)
                                  : fmt::format("has {} edges {}; one goes", kind.count, what);
    return MeshFault{
        fmt::format("'{}' {} from {} to {} mm", part.name, count,
                    place(mesh.points_mm[kind.first.low]), place(mesh.points_mm[kind.first.high])),
        std::move(help)};
  };
  if (edges.open.count > 0) {
    return said(edges.open, "with a triangle on one side only",
                "close the surface: light would come through");
  }
  if (edges.crowded.count > 0) {
    return said(edges.crowded, "where more than two triangles meet",
                "join or part the bodies that touch along it");
  }
  if (edges.flipped.count > 0) {
    return said(edges.flipped, "between triangles that face opposite ways",
                "turn the flipped triangles round");
  }
  if (six_volumes(mesh) <= 0) {
    return MeshFault{fmt::format("'{}' is inside out: its triangles face inwards", part.name),
                     "turn all its triangles round"};
  }
  return {};
}

}  // namespace backfit
