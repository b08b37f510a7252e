// SPDX-License-Identifier: MIT
// The insert's turned pieces: pins, drive shaft, knob, rollers; and all pieces as they are printed.
#include <algorithm>
#include <cassert>
#include <numbers>

#include "parts/insert_shapes.hpp"
#include "parts/printing.hpp"
#include "parts/roll_insert.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;
constexpr Length bite = 0.5 * mm;  // how far what is joined reaches into its neighbour

// Of the drive shaft: the slot in its end that the knob's tongue enters, and the screw's hole.
constexpr Length tongue_depth = 3 * mm, thread_depth = 9 * mm;

Length cheek_outside(const RollInsert& i) { return i.spools.play + i.body.cheek; }
Length shaft_end(const RollInsert& i) {
  return i.knob.chamber_half - i.knob.clearance - spool_end(i);
}
Length tongue_width(const RollInsert& i) { return i.knob.tail / 3; }

// Stub in the spool's end, journal and collar in the cheek; `head` of the collar beyond it.
std::vector<Solid> pin_bodies(const RollInsert& i, Length head) {
  const RollInsert::Spools& s = i.spools;
  const Length step = cheek_outside(i) - s.collar_depth;
  return {cylinder(s.end_hole - 2 * i.gap, -s.stub, s.play + bite),
          cylinder(s.journal, s.play, step + bite),
          cylinder(s.collar, step, cheek_outside(i) + head)};
}

}  // namespace

Solid spool_pin(const RollInsert& i) { return union_of(pin_bodies(i, i.spools.head)); }

Solid drive_shaft(const RollInsert& i) {
  const RollInsert::Spools& s = i.spools;
  const Length tail = i.knob.tail, from = cheek_outside(i), end = shaft_end(i);
  std::vector<Solid> bodies = pin_bodies(i, {});
  // The key in the spool's slot.
  const Length half_length = s.slot_length / 2 - i.gap, half_width = s.slot_width / 2 - i.gap;
  bodies.push_back(
      box({-half_length, -half_width, -s.stub}, {half_length, half_width, s.play + bite}));
  // Under 45 degrees from the collar to the tail, so that it prints standing on its end.
  const Length cone = (s.collar - tail) / 2;
  bodies.push_back(frustum(s.collar, from, tail, from + cone));
  bodies.push_back(cylinder(tail, from - bite, end));
  const Length slot = tongue_width(i) / 2 + i.gap;
  return difference_of(
      union_of(bodies),
      {box({-slot, -s.collar, end - tongue_depth - i.gap}, {slot, s.collar, end + overshoot}),
       cylinder(i.knob.screw - 0.5 * mm, end - thread_depth, end + overshoot)});
}

Solid winding_knob(const RollInsert& i) {
  const RollInsert::Knob& k = i.knob;
  const Length end = shaft_end(i) + spool_end(i) - camera_outside(i);  // of the shaft, negative
  const Length top = k.felt + k.height, radius = k.diameter / 2;
  std::vector<Solid> bodies{cylinder(k.diameter, k.felt, top),
                            cylinder(k.tail, end + i.gap, k.felt + bite),
                            box({-tongue_width(i) / 2, -k.tail / 2 + i.gap, end - tongue_depth},
                                {tongue_width(i) / 2, k.tail / 2 - i.gap, end + i.gap + bite})};
  std::vector<Solid> cutters{
      cylinder(k.screw + 2 * i.gap, end - tongue_depth - overshoot, top + overshoot),
      cylinder(2 * k.screw + 2 * i.gap, top - k.screw, top + overshoot)};
  // Marks for counting that also give a grip; the first, wide one is where counting begins.
  for (int m = 0; m < k.marks; ++m) {
    const Angle at = m * (2 * std::numbers::pi / k.marks) * rad;
    const Length half = m == 0 ? 0.9 * mm : 0.4 * mm, deep = m == 0 ? 3 * mm : 0.8 * mm;
    const auto corner = [&](Length r, Length side) {
      return OutlineCorner{r * cos(at) - side * sin(at), r * sin(at) + side * cos(at)};
    };
    cutters.push_back(prism({corner(radius - deep, -half), corner(radius + overshoot, -half),
                             corner(radius + overshoot, half), corner(radius - deep, half)},
                            k.felt - overshoot, top + overshoot));
  }
  return difference_of(union_of(bodies), cutters);
}

Solid film_roller(const RollInsert& i, const RollInsert::Roller& r) {
  const Length half = i.body.half_width - i.spools.play, film = i.spools.film_width / 2;
  const Length wide = 2 * r.radius, hub = 2 * r.hub;
  const Solid bore = cylinder(i.rod + 2 * i.gap, -half - overshoot, half + overshoot);
  const Length step = (wide - hub) / 2;
  if (step < smallest_detail || half - film < smallest_detail) {
    return difference_of(cylinder(wide, -half, half), {bore});
  }
  // Standing, the film's part grows out of the lower hub under 45 degrees.
  return difference_of(
      union_of({cylinder(hub, -half, half), frustum(hub, -film, wide, -film + step),
                cylinder(wide, -film + step, film)}),
      {bore});
}

Solid full_spool(const RollInsert& i, SectionPoint at) {
  const RollInsert::Spools& s = i.spools;
  const Length end = spool_end(i), film = s.film_width / 2, deep = end - s.stub - 1 * mm;
  std::vector<Solid> bodies{cylinder(2 * s.full, -film - bite, film + bite),
                            cylinder(2 * s.flange, film, end), cylinder(2 * s.flange, -end, -film)};
  std::vector<Solid> cutters;
  for (const double side : {-1.0, 1.0}) {
    const Length in = side * deep, out = side * (end + overshoot);
    const Length low = std::min(in, out), high = std::max(in, out);
    cutters.push_back(cylinder(s.end_hole, low, high));
    cutters.push_back(box({-s.slot_length / 2, -s.slot_width / 2, low},
                          {s.slot_length / 2, s.slot_width / 2, high}));
  }
  return laid_across(difference_of(union_of(bodies), cutters), at, {}, i.knob.side);
}

Solid rod_of(const RollInsert& i, const RollInsert::Roller& r) {
  const Length half = i.half_width();
  return laid_across(cylinder(i.rod, -half + i.smallest_wall + i.gap, half), r.centre, {},
                     i.knob.side);
}

}  // namespace backfit
