// SPDX-License-Identifier: MIT
// Cones about where the light on a place comes from, to aim walks at. For the walks of this room.
#pragma once
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

#include "lighttrap/room.hpp"

namespace backfit::ray {

// The sky's cones stand about ways to it, those of goals about places. A goal of radius r at the
// distance d has a cone of 2 pi r^2 / 2 (d^2 + r^2) sr, that of its disc where it is far; so it
// takes no root to find it.
class Aim {
 public:
  struct Goal {
    Vec middle;
    double radius_mm = 0, light = 0;
  };

  // A rectangle far away, by its half sides, for what lies along a line or close together: a slit
  // seen from afar would take a hundred cones.
  struct Pane {
    Vec middle, one, two;
    double light = 0;
  };

  Aim() = default;
  // Light from the sky by any of `ways`, each with a cone of `cone` sr, from goals and by panes.
  Aim(double sky, std::vector<Vec> ways, double cone, std::vector<Goal> goals,
      const std::vector<Pane>& panes);

  double light() const { return light_; }

 private:
  friend class Sight;
  static constexpr std::size_t pack_size = 8;
  // Single precision, so that more of a map stays near at hand: it only says where cones stand.
  using Lanes = std::array<float, pack_size>;
  struct Pack {
    Lanes x{}, y{}, z{}, square{};  // of the radius
    Lanes strength{};               // part of the light over pi r^2
  };
  // That a pack's goals lie in; a direction that misses it misses them all.
  struct Ball {
    float x = 0, y = 0, z = 0, square = 0;
  };
  void pack(std::vector<Goal>& goals, std::size_t first, std::size_t end);

  double light_ = 0;
  std::vector<Vec> ways_;
  double cap_ = 0;       // each way's cone over 2 pi
  double strength_ = 0;  // part of the light by each way over its cone
  std::vector<Ball> balls_;
  std::vector<Pack> packs_;
  std::size_t goals_ = 0;
  struct Window {
    std::array<float, 3> middle{}, one{}, two{};  // one, two: half sides
    float strength = 0;                           // part of the light over the area
  };
  std::vector<Window> windows_;
  // Walker's alias method: any of all ways and goals alike, or else another in its stead.
  struct Choice {
    float own = 1;
    std::uint32_t other = 0;
  };
  std::vector<Choice> choices_;
};

// An aim seen from one place: what all directions from there share is worked out once, and only of
// the cones that one of them comes near.
class Sight {
 public:
  // Requires an aim that outlives it.
  void look(const Aim& aim, Vec from);
  // Density per sr of a direction by which some cone, chosen by its light, is aimed at.
  double density(Vec direction);
  // By a number evenly between 0 and 1, which chooses the cone. Requires some light.
  Vec direction(double choice, Random& random) const;

 private:
  // Two goals at once, as every processor can; left alone, compilers take them one by one.
  using Two = double __attribute__((vector_size(2 * sizeof(double))));
  struct Pair {
    Two x, y, z;  // the way there
    Two limit;    // least square of it along a direction in the goal's cone
    Two density;
  };
  using Pack = std::array<Pair, Aim::pack_size / 2>;
  struct Ball {
    double x = 0, y = 0, z = 0;
    double least = 0;  // along it of a direction that meets it
    bool seen = false;
  };
  const Pack& seen(std::size_t pack);
  void look_at_panes();
  // A pane as seen: places on it count from -1 to 1 along both sides.
  struct Pane {
    Vec normal, one, two;
    double off = 0, along_one = 0, along_two = 0;  // of its middle
    double strength = 0;                           // density where a direction is square to it
  };

  const Aim* aim_ = nullptr;
  Vec from_;
  std::vector<Ball> balls_;
  std::vector<Pack> packs_;
  std::vector<Pane> panes_;
};

// A direction evenly within the cone of 2 pi `cap` sr. Requires an axis of length 1.
inline Vec within_cone(Vec axis, double cap, Random& random) {
  const OnDisc disc = on_disc(random);
  const double below = disc.square * cap;            // 1 less the cosine
  const double sine = std::sqrt(cap * (2 - below));  // over the place's distance from the middle
  const auto [along, beside] = across(axis);
  return (1 - below) * axis + sine * disc.x * along + sine * disc.y * beside;
}

}  // namespace backfit::ray
