// SPDX-License-Identifier: MIT
// The insert's large pieces: body, lid, pressure plate.
#include "parts/roll_insert.hpp"

#include <algorithm>
#include <cassert>

#include "parts/insert_shapes.hpp"
#include "parts/printing.hpp"
#include "solid/lettering.hpp"

namespace backfit {
namespace {

// Cutters reach past the faces they open; what is joined reaches into what it joins.
constexpr Length overshoot = 1 * mm;
constexpr Length bite = 1 * mm;

using Bodies = std::vector<Solid>;

Solid upright_cylinder(Length diameter, Length x, Length y, Length low, Length high) {
  return translated(cylinder(diameter, low, high), {x, y, {}});
}

// One end wall, its upper part thickened inwards under 45 degrees to carry the groove.
Solid end_wall(const RollInsert& i, double end) {
  const RollInsert::Body& b = i.body;
  const Length outside = i.half_length(), inside = b.half_length;
  const Length rim = std::min(inside, outside - i.rim());
  const Length under = b.back - i.trap.depth - i.gap - i.smallest_wall;
  std::vector<OutlineCorner> outline{{end * outside, b.front}, {end * outside, b.back}};
  if (inside - rim >= smallest_detail) {
    outline.insert(
        outline.end(),
        {{end * rim, b.back}, {end * rim, under}, {end * inside, under - (inside - rim)}});
  } else {
    outline.push_back({end * inside, b.back});
  }
  outline.push_back({end * inside, b.front});
  return across(outline, -b.half_width - bite, b.half_width + bite);
}

void add_gate(const RollInsert& i, Bodies& bodies) {
  const RollInsert::Gate& g = i.gate;
  const RollInsert::Body& b = i.body;
  const Length x = g.spigot_half_length, y = g.spigot_half_width;
  bodies.push_back(box({-x, -y, g.front}, {x, y, g.floor}));
  bodies.push_back(across({{g.rails_low, {}, g.radius_low},
                           {g.rails_low, g.front},
                           {g.rails_high, g.front},
                           {g.rails_high, {}, g.radius_high}},
                          -y, y));
  for (const double side : {-1.0, 1.0}) {
    const auto strip = [&](Length half, Length from, Length to, Length low, Length high) {
      const Length one = side * from, other = side * to;
      bodies.push_back(box({-half, std::min(one, other), low}, {half, std::max(one, other), high}));
    };
    // The cheeks stand on the floor's edges; beside the film they carry the pressure plate's seat.
    strip(x, b.half_width, y, g.front, std::max(b.front, g.floor) + bite);
    strip(i.plate.half_length, b.half_width - i.smallest_wall, b.half_width + bite, g.front / 2,
          g.seat);
  }
}

Solid boss(const RollInsert& i, double side) {
  const Length from = side * (i.half_width() - bite), to = side * (i.half_width() + i.boss());
  return box({i.screws.x - i.boss() / 2, std::min(from, to), i.body.front},
             {i.screws.x + i.boss() / 2, std::max(from, to), i.body.back - i.ear_drop()});
}

Length boss_middle(const RollInsert& i) { return i.half_width() + i.boss() / 2; }

void add_bores(const RollInsert& i, Bodies& cutters) {
  const RollInsert::Spools& s = i.spools;
  const Length in = s.play, out = s.play + i.body.cheek;
  const Solid bore =
      union_of({cylinder(s.journal + 2 * i.gap, in - overshoot, out + overshoot),
                cylinder(s.collar + 2 * i.gap, out - s.collar_depth, out + overshoot)});
  for (const SectionPoint at : {s.supply, s.take_up}) {
    for (const double side : {-1.0, 1.0}) {
      cutters.push_back(laid_across(bore, at, side * spool_end(i), side));
    }
  }
  // Rods go in from the knob's side and stop in the other cheek.
  const Length deep = i.half_width() - i.smallest_wall, open = i.half_width() + overshoot;
  const Solid rod_hole = cylinder(i.rod + 2 * i.gap, -deep, open);
  for (const RollInsert::Roller& r : i.rollers) {
    cutters.push_back(laid_across(rod_hole, r.centre, {}, i.knob.side));
  }
  const Solid pad =
      cylinder(s.pad, i.body.half_width - overshoot / 2, i.body.half_width + s.pad_depth);
  cutters.push_back(laid_across(pad, s.pad_at, {}, -i.knob.side));
}

void add_ear_grooves(const RollInsert& i, Bodies& cutters) {
  constexpr Length past = 0.2 * mm;
  for (const Length x : i.plate.ears) {
    for (const double side : {-1.0, 1.0}) {
      const Length from = side * (i.body.half_width - past);
      const Length to = side * (i.body.half_width + i.ear_groove());
      cutters.push_back(
          box({x - i.plate.ear_width / 2, std::min(from, to), i.gate.seat - i.gap},
              {x + i.plate.ear_width / 2, std::max(from, to), i.body.back + overshoot}));
    }
  }
}

void add_notches(const RollInsert& i, Bodies& cutters) {
  for (const RollInsert::Notch& n : i.notches) cutters.push_back(box(n.low, n.high));
}

// The ring in the middle of the rim, `wall` thick.
Solid rim_ring(const RollInsert& i, Length inset, Length wall, Length low, Length high) {
  return rounded_ring(2 * (i.half_length() - inset - wall), 2 * (i.half_width() - inset - wall),
                      Length{}, wall, low, high);
}

// Outlines of the words on the lid, in their places.
std::vector<std::vector<OutlineCorner>> words_of(const RollInsert& i) {
  const RollInsert::Words& w = i.words;
  const Lettering lettering = lettering_for(w.height);
  const Length line = 1.6 * w.height;
  std::size_t longest = 0;
  for (const std::string& l : w.lines) longest = std::max(longest, l.size());
  const Length left = -lettering.width(longest) / 2;
  const Length all = static_cast<double>(w.lines.size()) * line - 0.6 * w.height;
  std::vector<std::vector<OutlineCorner>> outlines;
  for (std::size_t k = 0; k < w.lines.size(); ++k) {
    const Length foot = all / 2 - w.height - static_cast<double>(k) * line;
    for (std::vector<OutlineCorner>& stroke : strokes_of(w.lines[k], lettering)) {
      for (OutlineCorner& c : stroke) {
        Length x = left + c.x, y = foot + c.y;
        for (int q = 0; q < w.quarters; ++q) {
          const Length before = x;
          x = -y;
          y = before;
        }
        c.x = w.x + x;
        c.y = w.y + y;
      }
      outlines.push_back(std::move(stroke));
    }
  }
  return outlines;
}

}  // namespace

Solid across(const std::vector<OutlineCorner>& outline_xz, Length low, Length high) {
  return quarter_turned_about_x(prism(outline_xz, -high, -low));
}

Solid laid_across(const Solid& upright, SectionPoint at, Length y, double side) {
  const Solid lying = quarter_turned_about_x(upright);  // z to -y
  return translated(side < 0 ? lying : half_turned_about_x(lying), {at.x, y, at.z});
}

Length spool_end(const RollInsert& i) { return i.spools.length / 2; }
Length camera_outside(const RollInsert& i) { return i.knob.chamber_half + i.knob.wall; }
Length ear_half(const RollInsert& i) { return i.screws.thread + i.gap + i.smallest_wall; }
Length ear_reach(const RollInsert& i) { return i.half_width() + i.boss() / 2 + ear_half(i); }
Length draw_of(const RollInsert& i) { return i.spools.stub + i.spools.play; }

Solid insert_body(const RollInsert& i) {
  const RollInsert::Body& b = i.body;
  Bodies bodies;
  for (const double side : {-1.0, 1.0}) {
    const Length from = side * b.half_width, to = side * i.half_width();
    bodies.push_back(box({-i.half_length(), std::min(from, to), b.front},
                         {i.half_length(), std::max(from, to), b.back}));
    bodies.push_back(end_wall(i, side));
    bodies.push_back(boss(i, side));
  }
  add_gate(i, bodies);
  Bodies cutters;
  const RollInsert::Gate& g = i.gate;
  cutters.push_back(box({-g.frame_length / 2, -g.frame_width / 2, g.front - overshoot},
                        {g.frame_length / 2, g.frame_width / 2, overshoot}));
  cutters.push_back(rim_ring(i, i.smallest_wall, i.trap.lip + 2 * i.gap,
                             b.back - i.trap.depth - i.gap, b.back + overshoot));
  add_bores(i, cutters);
  add_ear_grooves(i, cutters);
  const Length top = b.back - i.ear_drop();
  for (const double side : {-1.0, 1.0}) {
    cutters.push_back(upright_cylinder(i.pilot(), i.screws.x, side * boss_middle(i),
                                       top - i.screws.length, top + overshoot));
  }
  add_notches(i, cutters);
  return difference_of(union_of(bodies), cutters);
}

Solid insert_lid(const RollInsert& i) {
  const Length x = i.half_length(), y = i.half_width(), low = i.body.back, high = i.lid_top();
  const Length inside = low + i.body.wall / 2;  // where what hangs from the lid begins
  Bodies bodies{box({-x, -y, low}, {x, y, high}),
                rim_ring(i, i.smallest_wall + i.gap, i.trap.lip, low - i.trap.depth, inside)};
  Bodies cutters;
  for (const double side : {-1.0, 1.0}) {
    for (const Length ear : i.plate.ears) {
      const Length half = i.plate.ear_width / 2 - i.gap;
      const Length from = side * (i.body.half_width + i.gap);
      const Length to = side * (i.body.half_width + i.ear_groove() - i.gap);
      bodies.push_back(
          box({ear - half, std::min(from, to), i.gate.seat + i.plate.thickness + i.plate.foam},
              {ear + half, std::max(from, to), inside}));
    }
    const Length half = ear_half(i);
    const Length from = side * (y + i.gap), to = side * ear_reach(i);
    const Length over = side * (y - bite);
    bodies.push_back(box({i.screws.x - half, std::min(over, to), low},
                         {i.screws.x + half, std::max(over, to), high}));
    if (i.ear_drop() >= smallest_detail) {
      bodies.push_back(box({i.screws.x - half, std::min(from, to), low - i.ear_drop()},
                           {i.screws.x + half, std::max(from, to), inside}));
    }
    const Length at = side * boss_middle(i), thread = i.screws.thread;
    const Length hole = thread + 2 * i.gap, head = 2 * thread + 2 * i.gap;
    cutters.push_back(
        upright_cylinder(hole, i.screws.x, at, low - i.ear_drop() - overshoot, high + overshoot));
    const Length past = 0.4 * smallest_detail;
    const Length tip = (head - hole / 2) / 2;
    cutters.push_back(translated(frustum(hole / 2, high - tip, head + 2 * past, high + past),
                                 {i.screws.x, at, {}}));
  }
  if (i.window) {
    const RollInsert::Window& w = *i.window;
    const Length bore = w.filter + 2 * i.gap;
    bodies.push_back(upright_cylinder(bore + 2 * i.smallest_wall, w.x, w.y, w.end, inside));
    cutters.push_back(upright_cylinder(bore, w.x, w.y, w.end - overshoot, high - i.smallest_wall));
    cutters.push_back(upright_cylinder(w.filter - 3 * mm, w.x, w.y, low, high + overshoot));
  }
  add_notches(i, cutters);
  return difference_of(union_of(bodies), cutters);
}

Solid with_words(const RollInsert& i, const Solid& lid) {
  if (!(i.words.height > Length{})) return lid;
  return engraved(lid, words_of(i), i.lid_top() - i.words.depth, i.lid_top() + overshoot);
}

Solid pressure_plate(const RollInsert& i) {
  const RollInsert::Plate& p = i.plate;
  const Length low = i.gate.seat, high = low + p.thickness, y = i.body.half_width - i.gap;
  Bodies bodies{box({-p.half_length, -y, low}, {p.half_length, y, high})};
  const Length reach = i.body.half_width + i.ear_groove() - i.gap;
  for (const Length ear : p.ears) {
    const Length half = p.ear_width / 2 - i.gap;
    bodies.push_back(box({ear - half, -reach, low}, {ear + half, reach, high}));
  }
  Solid whole = union_of(bodies);
  if (!p.windowed || !i.window) return whole;
  return difference_of(whole, {upright_cylinder(i.window->filter - 3 * mm, i.window->x, i.window->y,
                                                low - overshoot, high + overshoot)});
}

}  // namespace backfit
