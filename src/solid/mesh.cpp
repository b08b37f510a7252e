// SPDX-License-Identifier: MIT
#include "solid/mesh.hpp"

#include <BRepBuilderAPI_Copy.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <NCollection_DataMap.hxx>
#include <Poly_PolygonOnTriangulation.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_ShapeMapHasher.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Vertex.hxx>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <gp_Vec.hxx>
#include <limits>
#include <utility>

#include "solid/kernel_call.hpp"

namespace backfit {
namespace {

constexpr std::uint32_t not_numbered = std::numeric_limits<std::uint32_t>::max();

// Gathers the triangles of single faces into one mesh. The faces' meshes hold the points of a
// shared edge once each, in the same order along the edge.
class Welder {
 public:
  void add(const TopoDS_Face& face) {
    TopLoc_Location place;
    const Handle(Poly_Triangulation) triangles = BRep_Tool::Triangulation(face, place);
    if (triangles.IsNull()) {
      throw SolidFailure("making a mesh: a face has no triangles");
    }
    std::vector<std::uint32_t> numbers(static_cast<std::size_t>(triangles->NbNodes()) + 1,
                                       not_numbered);
    const auto point_at = [&](int node) {
      return triangles->Node(node).Transformed(place.Transformation());
    };
    for (TopExp_Explorer edge(face, TopAbs_EDGE); edge.More(); edge.Next()) {
      number_edge(TopoDS::Edge(edge.Current()), triangles, place, point_at, numbers);
    }
    for (int node = 1; node <= triangles->NbNodes(); ++node) {
      if (numbers[static_cast<std::size_t>(node)] == not_numbered) {
        numbers[static_cast<std::size_t>(node)] = add_point(point_at(node));
      }
    }
    for (int t = 1; t <= triangles->NbTriangles(); ++t) {
      int a = 0;
      int b = 0;
      int c = 0;
      triangles->Triangle(t).Get(a, b, c);
      if (face.Orientation() == TopAbs_REVERSED) {
        std::swap(b, c);
      }
      add_triangle(numbers[static_cast<std::size_t>(a)], numbers[static_cast<std::size_t>(b)],
                   numbers[static_cast<std::size_t>(c)]);
    }
  }

  Mesh mesh() && { return std::move(mesh_); }

 private:
  // Gives the face's nodes along `edge` the numbers that the body's edge and vertices have.
  template <class PointAt>
  void number_edge(const TopoDS_Edge& edge, const Handle(Poly_Triangulation) & triangles,
                   const TopLoc_Location& place, const PointAt& point_at,
                   std::vector<std::uint32_t>& numbers) {
    const Handle(Poly_PolygonOnTriangulation) polygon =
        BRep_Tool::PolygonOnTriangulation(edge, triangles, place);
    if (polygon.IsNull()) {
      throw SolidFailure("making a mesh: an edge has no points");
    }
    const int last = polygon->NbNodes();
    TopoDS_Vertex start;
    TopoDS_Vertex end;
    TopExp::Vertices(TopoDS::Edge(edge.Oriented(TopAbs_FORWARD)), start, end);
    std::vector<std::uint32_t>* inner = edges_.ChangeSeek(edge);
    if (inner == nullptr) {
      inner = edges_.Bound(edge, std::vector<std::uint32_t>{});
      const bool is_point = BRep_Tool::Degenerated(edge);
      for (int i = 2; i < last; ++i) {
        inner->push_back(is_point ? vertex_number(start, point_at(polygon->Node(i)))
                                  : add_point(point_at(polygon->Node(i))));
      }
    }
    if (static_cast<int>(inner->size()) + 2 != last) {
      throw SolidFailure("making a mesh: two faces divide their common edge differently");
    }
    const auto number = [&](int i) -> std::uint32_t& {
      return numbers[static_cast<std::size_t>(polygon->Node(i))];
    };
    number(1) = vertex_number(start, point_at(polygon->Node(1)));
    number(last) = vertex_number(end, point_at(polygon->Node(last)));
    for (int i = 2; i < last; ++i) {
      number(i) = (*inner)[static_cast<std::size_t>(i) - 2];
    }
  }

  std::uint32_t vertex_number(const TopoDS_Vertex& vertex, const gp_Pnt& point) {
    const std::uint32_t* known = vertices_.Seek(vertex);
    return known != nullptr ? *known : *vertices_.Bound(vertex, add_point(point));
  }

  std::uint32_t add_point(const gp_Pnt& p) {
    mesh_.points_mm.push_back(
        {static_cast<float>(p.X()), static_cast<float>(p.Y()), static_cast<float>(p.Z())});
    return static_cast<std::uint32_t>(mesh_.points_mm.size() - 1);
  }

  void add_triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    if (a != b && b != c && c != a) {  // a triangle at a cone's point may shrink to a line
      mesh_.triangles.push_back({a, b, c});
    }
  }

  Mesh mesh_;
  NCollection_DataMap<TopoDS_Shape, std::uint32_t, TopTools_ShapeMapHasher> vertices_;
  NCollection_DataMap<TopoDS_Shape, std::vector<std::uint32_t>, TopTools_ShapeMapHasher> edges_;
};

using Edge = std::pair<std::uint32_t, std::uint32_t>;  // from, to

// Whether each edge is met as often in one sense as in the other: a sum that is 0 then, and
// otherwise hardly ever. Much faster than looking for the edges that are not.
bool balanced(const Mesh& mesh) {
  std::uint64_t sum = 0;
  const auto add = [&](std::uint32_t from, std::uint32_t to) {
    std::uint64_t mixed = (std::uint64_t{std::min(from, to)} << 32U | std::max(from, to)) + 1;
    mixed *= 0x9e3779b97f4a7c15;
    mixed ^= mixed >> 29U;
    mixed *= 0xbf58476d1ce4e5b9;
    mixed ^= mixed >> 32U;
    sum += from < to ? mixed : std::uint64_t{0} - mixed;
  };
  for (const auto& [a, b, c] : mesh.triangles) add(a, b), add(b, c), add(c, a);
  return sum == 0;
}

// The directed edges that lack their counterparts, turned round: what would close the mesh.
std::vector<Edge> missing_edges(const Mesh& mesh) {
  std::vector<Edge> edges;
  for (const auto& [a, b, c] : mesh.triangles) {
    edges.insert(edges.end(), {{a, b}, {b, c}, {c, a}});
  }
  std::sort(edges.begin(), edges.end());
  std::vector<Edge> missing;
  for (const auto& [from, to] : edges) {
    if (!std::binary_search(edges.begin(), edges.end(), Edge(to, from)))
      missing.push_back({to, from});
  }
  return missing;
}

// A fan over the closed `loop` whose triangles all face the same way and lie in its plane; empty
// where there is none.
std::vector<std::array<std::uint32_t, 3>> fan_over(const Mesh& mesh,
                                                   const std::vector<std::uint32_t>& loop) {
  constexpr double flat_mm = 1e-4;
  const auto at = [&](std::size_t i) {
    const auto& p = mesh.points_mm[loop[i % loop.size()]];
    return gp_Pnt(static_cast<double>(p[0]), static_cast<double>(p[1]), static_cast<double>(p[2]));
  };
  gp_Vec normal(0, 0, 0);  // by Newell's sum, about the first point
  for (std::size_t i = 1; i + 1 < loop.size(); ++i) {
    normal += gp_Vec(at(0), at(i)).Crossed(gp_Vec(at(0), at(i + 1)));
  }
  if (normal.Magnitude() < flat_mm * flat_mm) return {};
  normal.Normalize();
  for (std::size_t i = 1; i < loop.size(); ++i) {
    if (std::abs(gp_Vec(at(0), at(i)).Dot(normal)) > flat_mm) return {};
  }
  for (std::size_t start = 0; start < loop.size(); ++start) {
    std::vector<std::array<std::uint32_t, 3>> fan;
    for (std::size_t i = start + 1; i + 1 < start + loop.size(); ++i) {
      const gp_Vec turn = gp_Vec(at(start), at(i)).Crossed(gp_Vec(at(start), at(i + 1)));
      if (!(turn.Dot(normal) > 0)) break;
      fan.push_back({loop[start], loop[i % loop.size()], loop[(i + 1) % loop.size()]});
    }
    if (fan.size() + 2 == loop.size()) return fan;
  }
  return {};
}

// The kernel's mesher now and then leaves out two or three triangles of a large flat face with many
// holes. They are put back where the gap is flat; what can't be closed stays open, as
// soundness_of() tells.
void close_flat_gaps(Mesh& mesh) {
  if (balanced(mesh)) return;
  std::vector<Edge> missing = missing_edges(mesh);
  while (!missing.empty()) {
    std::vector<std::uint32_t> loop{missing.back().first};
    std::uint32_t to = missing.back().second;
    missing.pop_back();
    while (to != loop.front()) {
      const auto next = std::find_if(missing.begin(), missing.end(),
                                     [&](const Edge& edge) { return edge.first == to; });
      if (next == missing.end()) return;
      loop.push_back(to);
      to = next->second;
      missing.erase(next);
    }
    const auto fan = fan_over(mesh, loop);
    mesh.triangles.insert(mesh.triangles.end(), fan.begin(), fan.end());
  }
}

}  // namespace

Mesh mesh_of(const Solid& body, Length chord) {
  assert(chord >= 1e-4 * mm && chord <= largest_size);
  return kernel_call("making a mesh", [&] {
    // The kernel stores a mesh inside the shape it meshes; the shared body must not change.
    const TopoDS_Shape copy = BRepBuilderAPI_Copy(body.kernel_shape(), /*copyGeom=*/Standard_False,
                                                  /*copyMesh=*/Standard_False)
                                  .Shape();
    const double widest_angle_rad = 0.5;
    const BRepMesh_IncrementalMesh mesher(copy, chord / mm, /*isRelative=*/Standard_False,
                                          widest_angle_rad, /*isInParallel=*/Standard_False);
    Welder welder;
    for (TopExp_Explorer face(copy, TopAbs_FACE); face.More(); face.Next()) {
      welder.add(TopoDS::Face(face.Current()));
    }
    Mesh mesh = std::move(welder).mesh();
    close_flat_gaps(mesh);
    return mesh;
  });
}

Volume volume_of(const Mesh& mesh) {
  assert(watertight(mesh));
  double six_volumes_mm3 = 0;
  for (const auto& [a, b, c] : mesh.triangles) {
    const auto& p = mesh.points_mm[a];
    const auto& q = mesh.points_mm[b];
    const auto& r = mesh.points_mm[c];
    const double px = p[0], py = p[1], pz = p[2];
    const double qx = q[0], qy = q[1], qz = q[2];
    const double rx = r[0], ry = r[1], rz = r[2];
    six_volumes_mm3 +=
        px * (qy * rz - qz * ry) + py * (qz * rx - qx * rz) + pz * (qx * ry - qy * rx);
  }
  return six_volumes_mm3 / 6 * mm3;
}

bool watertight(const Mesh& mesh) {
  std::vector<Edge> edges;
  for (const auto& [a, b, c] : mesh.triangles) {
    edges.insert(edges.end(), {{a, b}, {b, c}, {c, a}});
  }
  std::sort(edges.begin(), edges.end());
  const bool once_each = std::adjacent_find(edges.begin(), edges.end()) == edges.end();
  return !edges.empty() && once_each &&
         std::all_of(edges.begin(), edges.end(), [&edges](const Edge& edge) {
           return std::binary_search(edges.begin(), edges.end(), Edge(edge.second, edge.first));
         });
}

}  // namespace backfit
