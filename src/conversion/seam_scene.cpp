// SPDX-License-Identifier: MIT
#include "conversion/seam_scene.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>

namespace backfit {
namespace {

// A rectangle square to the axis.
void add_flat(Surfaces& s, Length x0, Length x1, Length y0, Length y1, Length z,
              std::uint32_t stuff, std::uint32_t piece = 0) {
  if (!(x1 > x0 && y1 > y0)) return;
  // Counterclockwise seen from behind.
  add_face(s, {{{x0, y0, z}, {x1, y0, z}, {x1, y1, z}, {x0, y1, z}}}, stuff, piece);
}

// What of the end of `room` at `z` the opening of the other doesn't take.
void add_step(Surfaces& s, const HollowRoom& room, const HollowRoom& other, Length z) {
  const Length x = room.width / 2, y = room.height / 2;
  const Length open_x = std::min(x, other.width / 2), open_y = std::min(y, other.height / 2);
  add_flat(s, -x, -open_x, -y, y, z, other.stuff);
  add_flat(s, open_x, x, -y, y, z, other.stuff);
  add_flat(s, -open_x, open_x, -y, -open_y, z, other.stuff);
  add_flat(s, -open_x, open_x, open_y, y, z, other.stuff);
}

}  // namespace

void add_face(Surfaces& s, const std::array<SpacePoint, 4>& corners, std::uint32_t stuff,
              std::uint32_t piece) {
  const auto first = static_cast<std::uint32_t>(s.points.size());
  s.points.insert(s.points.end(), corners.begin(), corners.end());
  s.triangles.push_back({{first, first + 1, first + 2}, stuff, piece});
  s.triangles.push_back({{first, first + 2, first + 3}, stuff, piece});
}

Surfaces hollow_of(const std::vector<HollowRoom>& rooms, const std::vector<Wall>& walls) {
  Surfaces s;
  for (const Wall& wall : walls) s.stuffs.push_back({wall});
  add_rooms(s, rooms, {});
  return s;
}

void add_rooms(Surfaces& s, const std::vector<HollowRoom>& rooms, const SpacePoint& middle) {
  assert(!rooms.empty());
  const std::size_t before = s.points.size();
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    const HollowRoom& r = rooms[i];
    assert(r.rear > r.front && r.stuff < s.stuffs.size());
    const Length x = r.width / 2, y = r.height / 2;
    for (const double side : {-1.0, 1.0}) {
      const Length at_x = side * x, at_y = side * y;
      add_face(s,
               {{{at_x, -y, r.front}, {at_x, y, r.front}, {at_x, y, r.rear}, {at_x, -y, r.rear}}},
               r.stuff);
      add_face(s,
               {{{-x, at_y, r.front}, {x, at_y, r.front}, {x, at_y, r.rear}, {-x, at_y, r.rear}}},
               r.stuff);
    }
    if (i == 0) {
      add_flat(s, -x, x, -y, y, r.front, r.stuff, r.front_piece);
    } else {
      assert(rooms[i - 1].rear == r.front);
      add_step(s, rooms[i - 1], r, r.front);
      add_step(s, r, rooms[i - 1], r.front);
    }
    if (i + 1 == rooms.size()) add_flat(s, -x, x, -y, y, r.rear, r.stuff);
  }
  for (std::size_t i = before; i < s.points.size(); ++i) {
    SpacePoint& p = s.points[i];
    p = {p.x + middle.x, p.y + middle.y, p.z + middle.z};
  }
}

std::optional<std::string> fault_of(const SeamScene& scene) {
  if (scene.seams.empty() && !scene.counts_walls()) return "there is no seam";
  for (const LeakSeam& seam : scene.seams) {
    if (const auto fault = fault_of(seam.profile)) {
      return fmt::format("{}, {}: {}", seam.name, seam.side, *fault);
    }
  }
  return fault_of(scene.hollow, scene.film);
}

void set_mouth(LeakSeam& seam, const SpacePoint& in, const SpacePoint& left, const SpacePoint& low,
               const SpacePoint& high) {
  const auto cross = [](const SpacePoint& a, const SpacePoint& b) {
    return SpacePoint{a.y / mm * b.z - a.z / mm * b.y, a.z / mm * b.x - a.x / mm * b.z,
                      a.x / mm * b.y - a.y / mm * b.x};
  };
  const SpacePoint along = cross(in, left);
  const SpacePoint size{high.x - low.x, high.y - low.y, high.z - low.z};
  const auto part = [&](const SpacePoint& direction) {
    return SpacePoint{direction.x / mm * size.x, direction.y / mm * size.y,
                      direction.z / mm * size.z};
  };
  seam.across = part(left);
  seam.along = part(along);
  // From the corner where both start.
  const auto start = [&](Length l, Length h, Length a, Length b) {
    return a + b < Length{} ? h : l;
  };
  seam.corner = {start(low.x, high.x, left.x, along.x), start(low.y, high.y, left.y, along.y),
                 start(low.z, high.z, left.z, along.z)};
}

}  // namespace backfit
