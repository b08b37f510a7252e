// SPDX-License-Identifier: MIT
// Triangles as mirrors show them, for walks to be aimed at. For the walks of this room.
#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "lighttrap/room.hpp"

namespace backfit::ray {

class Images {
 public:
  static constexpr std::size_t most = 64;

  // Requires fewer than `most` so far.
  void add(const Room& room, std::uint32_t triangle, const Mirrors& mirrors);
  std::size_t count() const { return shown_.size(); }
  const Mirrors& mirrors(std::size_t image) const { return shown_[image].mirrors; }

  // A place on a triangle that a ray would lead to if the mirrors were all in its way, and nothing
  // else.
  struct Seen {
    std::size_t image = 0;
    std::uint32_t triangle = 0;
    double u = 0, v = 0, far_mm = 0;
    double cosine = 0;  // to the side in front, less than 0 behind
  };
  // All images from one place.
  class Sight {
   public:
    Sight(const Images& images, Vec from);
    // Calls see(seen) for each that a ray meets.
    template <class See>
    void along(Vec direction, const See& see) const {
      std::array<double, most> cosine, one, two;
      std::array<bool, most> meets;
      const std::size_t count = images_.count();
      for (std::size_t i = 0; i < count; ++i) {
        const auto product = [&](const std::array<Row, 3>& rows) {
          return rows[0][i] * direction.x + rows[1][i] * direction.y + rows[2][i] * direction.z;
        };
        const double c = product(images_.out_);
        const double u = (one_[i] * c + above_[i] * product(images_.by_one_)) * c;
        const double v = (two_[i] * c + above_[i] * product(images_.by_two_)) * c;
        cosine[i] = c;
        one[i] = u;
        two[i] = v;
        meets[i] = (above_[i] * c > 0) & (u >= 0) & (v >= 0) & (u + v <= c * c);
      }
      for (std::size_t i = 0; i < count; ++i) {
        if (!meets[i]) continue;
        const double c = cosine[i];
        see(Seen{i, images_.shown_[i].triangle, one[i] / (c * c), two[i] / (c * c), above_[i] / c,
                 -c});
      }
    }

   private:
    const Images& images_;
    // Of that place: how far from each image's plane, and which parts of its edges.
    std::array<double, most> above_, one_, two_;
  };

 private:
  struct Shown {
    std::uint32_t triangle;
    Mirrors mirrors;
  };
  std::vector<Shown> shown_;
  // Of all images one coordinate after the other: square to each; where; and parts of its edges
  // from a corner, by products.
  using Row = std::vector<double>;
  std::array<Row, 3> out_, by_one_, by_two_;
  Row out_at_, one_at_, two_at_;
};

}  // namespace backfit::ray
