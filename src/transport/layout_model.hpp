// SPDX-License-Identifier: MIT
// A layout, or one half of it, as numbers to be varied: what they place and what that breaks.
#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "quantity/random.hpp"
#include "transport/fit.hpp"
#include "transport/layout.hpp"

namespace backfit {

inline constexpr Length lip_radius = 1 * mm;  // of a small lip that ends the rails

// Which way the room may grow, at a cost, so that what it lacks can be told.
enum class Growth { none, width, behind, in_front };

// Shapes of the halves to be placed; the other end of the gate of a half alone is a plain lip.
struct Halves {
  std::optional<HalfShape> supply, take_up;
};

class LayoutModel {
 public:
  // Keeps a reference to `problem`. Requires one half or both.
  LayoutModel(const LayoutProblem& problem, Halves halves, Growth growth = Growth::none);

  // Each variable is a length in mm; outwards from the gate's middle counts as positive in both
  // halves, so that a half and its mirror image have the same numbers. First the supply half's,
  // then the take-up half's, then growth.
  const Ranges& bounds() const { return bounds_; }
  // The bounds with spools in a part of the room only: a search from one into another gets stuck
  // where a spool stands over the frame's end.
  enum class Spools { beside_the_frame, behind_or_before_it };
  Ranges bounds(Spools where) const;
  // A point inside such bounds from which to start: guides near the gate's end.
  std::vector<double> drawn(Random& random, const Ranges& bounds) const;
  // What the numbers cost and break: see docs/derivations/film-path.md.
  void evaluate(std::span<const double> x, Evaluation& out) const;
  Model model() const {
    return [this](std::span<const double> x, Evaluation& out) { evaluate(x, out); };
  }
  // The layout that the numbers place. Requires both halves.
  Layout layout(std::span<const double> x) const;
  // Growth of the whole room.
  Length growth(std::span<const double> x) const;
  std::size_t growth_variables() const { return grows_; }

  // A spool or guide in its place, in the order in which the film meets it.
  struct Body {
    enum class Kind { spool, roller, post, lip } kind = Kind::spool;
    Support support;
    bool counted = true;  // not the plain lip of a missing half
    bool rail_end = false;
  };
  struct Obstacle {
    Region region;
    // Kept free beside the clearance of what comes near; empty: does not hinder it.
    std::optional<Length> spool, roller, rail_end, film;
    SectionPoint low, high;  // its bounding corners
    double end = 0;          // of a rim: the end of the room with which it moves
  };

 private:
  struct Placed {
    std::vector<Body> bodies;
    std::size_t gate = 0;
    SectionPoint low, high;  // the room with its growth
  };
  struct State;
  void add_half(const HalfShape& shape);
  void add_growth();
  void add_obstacle(Region region, std::optional<Length> spool, std::optional<Length> roller,
                    std::optional<Length> rail_end, std::optional<Length> film, double end = 0);
  std::vector<Body> half(const HalfShape& shape, std::span<const double> x, double side) const;
  Placed placed(std::span<const double> x) const;
  void keep_in_room(const Placed& p, SectionPoint at, Length radius, Evaluation& out) const;
  void keep_bodies_apart(const Placed& p, Evaluation& out) const;
  void keep_printable(const Placed& p, Evaluation& out) const;
  void keep_loadable(const Placed& p, Evaluation& out) const;
  void keep_film_free(const Placed& p, double wound, Evaluation& out) const;
  double effort(const Placed& p) const;
  // Gaps to an obstacle where the room has grown to.
  Length gap_to(const Obstacle& o, const Placed& p, SectionPoint at) const;
  Length gap_to(const Obstacle& o, const Placed& p, const Strand& strand) const;
  SectionPoint shift_of(const Obstacle& o, const Placed& p) const;
  // How far a fixed rail end stands from a place: a printed one carries on towards the lens.
  Length from_guide(const Body& guide, SectionPoint at) const;
  // What of a guide flanges pass beside the film.
  Length beside(const Body& guide) const;

  const LayoutProblem& problem_;
  Halves halves_;
  Growth growth_;
  std::vector<std::size_t> spools_;  // variables that place spools along the film
  std::size_t supply_size_ = 0, take_up_size_ = 0, grows_ = 0;
  Ranges bounds_;
  std::vector<Obstacle> obstacles_;
  std::vector<bool> keep_out_;  // of each obstacle: the chamber's own
};

// The obstacles of a problem beside the walls and keep-outs: light, plate, rails, the printed rim
// at either end.
Region light_of(const GateShape& gate);
Region plate_of(const LayoutProblem& problem);
std::vector<Region> rails_of(const GateShape& gate);
std::vector<Region> rims_of(const LayoutProblem& problem);
// How far from the gate's middle a printed floor carries rails, or how far it must even where the
// old gate is too short for it. Requires problem.printed.
Length farthest_rail(const LayoutProblem& problem);

}  // namespace backfit
