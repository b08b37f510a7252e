// SPDX-License-Identifier: MIT
#include "documents/plate_cut.hpp"

#include <algorithm>

namespace backfit::paper {
namespace {

// A stretch along the cut where the material ends: at the front face (z = 0) and, where a head is
// sunk in, farther at one of the faces.
struct Gap {
  Length middle;
  Length half_front, half_rear;  // at the two faces
  Length half;                   // in the hole itself
};

std::vector<Gap> gaps_in(const BackPlate& plate, Along along) {
  const bool x = along == Along::x;
  const Length window = (x ? plate.window_width : plate.window_height) / 2;
  std::vector<Gap> gaps{{0 * mm, window, window, window}};
  const auto add = [&](const BackPlate::CountersunkHoles& holes, bool heads_behind) {
    for (const PlatePoint& place : holes.places) {
      const Length aside = abs(x ? place.y : place.x), middle = x ? place.x : place.y;
      const auto half_chord = [&](Length diameter) {
        return sqrt(diameter * diameter / 4 - aside * aside);
      };
      if (aside >= holes.hole_diameter / 2) continue;
      const Length hole = half_chord(holes.hole_diameter), head = half_chord(holes.head_diameter);
      gaps.push_back({middle, heads_behind ? hole : head, heads_behind ? head : hole, hole});
    }
  };
  add(plate.screws, true);
  add(plate.fence, false);
  std::ranges::sort(gaps, {}, &Gap::middle);
  return gaps;
}

// The end of a piece from the front face to the rear one; `way` 1 where the gap begins above it,
// -1 where the gap ends below it.
void add_end(std::vector<PartPoint>& outline, const Gap& gap, Length thickness, double way) {
  const auto at = [&](Length z, Length half) { return PartPoint{z, gap.middle - way * half}; };
  outline.push_back(at(0 * mm, gap.half_front));
  if (gap.half_front > gap.half) outline.push_back(at(gap.half_front - gap.half, gap.half));
  if (gap.half_rear > gap.half) {
    outline.push_back(at(thickness - (gap.half_rear - gap.half), gap.half));
  }
  outline.push_back(at(thickness, gap.half_rear));
}

// Steps out of the plate's front face (the tongue) or into its rear face (the groove).
struct Step {
  Length low, high, z;
};

void add_steps(std::vector<PartPoint>& outline, Length face, const std::vector<Step>& steps,
               Length from, Length to) {
  for (const Step& s : steps) {
    if (s.low <= from || s.high >= to) continue;
    outline.insert(outline.end(), {{face, s.low}, {s.z, s.low}, {s.z, s.high}, {face, s.high}});
  }
}

}  // namespace

std::vector<std::vector<PartPoint>> cut_pieces(const BackPlate& plate, Along along) {
  const bool x = along == Along::x;
  const Length edge = (x ? plate.width : plate.height) / 2, t = plate.thickness;
  const Length inside = (x ? plate.tongue.inner_width : plate.tongue.inner_height) / 2;
  const Length outside = inside + plate.tongue.wall;
  const std::vector<Step> front{{-outside, -inside, -plate.tongue.depth},
                                {inside, outside, -plate.tongue.depth}};
  const BackPlate::RibGroove& g = plate.rib_groove;
  const Length middle = x ? g.centre.x : g.centre.y, half = (x ? g.size_x : g.size_y) / 2;
  const bool crossed = 2 * abs(x ? g.centre.y : g.centre.x) < (x ? g.size_y : g.size_x);
  std::vector<Step> rear;
  if (crossed) rear.push_back({middle - half, middle + half, t - g.depth});

  std::vector<Gap> gaps = gaps_in(plate, along);
  gaps.insert(gaps.begin(), {-edge, 0 * mm, 0 * mm, 0 * mm});
  gaps.push_back({edge, 0 * mm, 0 * mm, 0 * mm});
  std::vector<std::vector<PartPoint>> pieces;
  for (std::size_t i = 1; i < gaps.size(); ++i) {
    const Gap &below = gaps[i - 1], &above = gaps[i];
    std::vector<PartPoint> outline;
    add_steps(outline, 0 * mm, front, below.middle + below.half, above.middle - above.half);
    add_end(outline, above, t, 1);
    std::vector<PartPoint> behind;
    add_end(behind, below, t, -1);
    add_steps(behind, t, rear, below.middle + below.half, above.middle - above.half);
    outline.insert(outline.end(), behind.rbegin(), behind.rend());  // walked downwards
    pieces.push_back(std::move(outline));
  }
  return pieces;
}

}  // namespace backfit::paper
