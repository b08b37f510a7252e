// SPDX-License-Identifier: MIT
#include "lighttrap/images.hpp"

#include <cassert>

namespace backfit::ray {
namespace {

void push(std::array<std::vector<double>, 3>& rows, Vec v) {
  rows[0].push_back(v.x);
  rows[1].push_back(v.y);
  rows[2].push_back(v.z);
}

Vec at(const std::array<std::vector<double>, 3>& rows, std::size_t i) {
  return {rows[0][i], rows[1][i], rows[2][i]};
}

}  // namespace

void Images::add(const Room& room, std::uint32_t triangle, const Mirrors& mirrors) {
  assert(count() < most);
  shown_.push_back({triangle, mirrors});
  const auto& corners = room.surfaces.triangles[triangle].corners;
  const auto corner = [&](std::size_t i) { return vec_mm(room.surfaces.points[corners.at(i)]); };
  const auto shown = [&](Vec place) { return shown_at(room, place, mirrors); };
  const Vec first = shown(corner(0)), one = shown(corner(1)) - first;
  const Vec two = shown(corner(2)) - first;
  const Vec out = shown(corner(0) + room.faces[triangle].out) - first;
  const Vec across = cross(one, two);
  const double square = dot(across, across);
  const Vec by_one = 1 / square * cross(two, across), by_two = 1 / square * cross(across, one);
  push(out_, out);
  push(by_one_, by_one);
  push(by_two_, by_two);
  out_at_.push_back(dot(out, first));
  one_at_.push_back(dot(by_one, first));
  two_at_.push_back(dot(by_two, first));
}

Images::Sight::Sight(const Images& images, Vec from) : images_(images) {
  for (std::size_t i = 0; i < images.count(); ++i) {
    above_[i] = images.out_at_[i] - dot(at(images.out_, i), from);
    one_[i] = dot(at(images.by_one_, i), from) - images.one_at_[i];
    two_[i] = dot(at(images.by_two_, i), from) - images.two_at_[i];
  }
}

}  // namespace backfit::ray
