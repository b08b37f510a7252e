// SPDX-License-Identifier: MIT
// The seams of an insert in section.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "conversion/insert_frame.hpp"

namespace backfit {
namespace {

class Seams : InsertFrame {
 public:
  explicit Seams(const InsertFrame& frame) : InsertFrame(frame) {}

  void add(SeamScene& s) const {
    add_lid_seams(s);
    add_feet(s);
    add_floor_seams(s);
    add_bores(s);
    add_window(s);
  }

 private:
  // The mouth: `low` and `high` in the insert's axes, light coming in towards `in`, the section's
  // left towards `left`.
  LeakSeam opening(std::string name, const InsertWay& out, const InsertWay& in,
                   const InsertWay& left, const Point3& low, const Point3& high) const {
    LeakSeam seam;
    seam.name = std::move(name);
    seam.side = side_of(out);
    // Turned, what was low may be high.
    const SpacePoint a = at(low), b = at(high);
    set_mouth(seam, turned(in, 1 * mm), turned(left, 1 * mm),
              {std::min(a.x, b.x), std::min(a.y, b.y), std::min(a.z, b.z)},
              {std::max(a.x, b.x), std::max(a.y, b.y), std::max(a.z, b.z)});
    return seam;
  }

  // Between lid and rim, round the lip in its groove, and along the rim again. On the right lies
  // the body.
  void add_lid_seams(SeamScene& s) const {
    for (const InsertSide& side : insert_sides) {
      const Length rim = half_outside(side) - part.rim();
      const Length beside = half_inside({!side.end, 1});
      LeakSeam seam = opening("lid's lip", side.out(), side.in(), along_light,
                              side.place(rim, -beside, part.body.back),
                              side.place(rim, beside, part.body.back + touch));
      const Length deep = part.trap.depth + how.deeper, down = deep - touch;
      GapProfile& p = seam.profile;
      p.widths = {touch, part.gap, part.gap + touch, part.gap, touch};
      p.arms = {part.smallest_wall, down, part.trap.lip, down, part.smallest_wall};
      p.turns = {Turn::right, Turn::left, Turn::left, Turn::right};
      p.gap = touch;
      seam.walls.right =
          seam.walls.left = {outside(), bare_print, bare_print, bare_print, blackened};
      seam.length = 2 * half_outside({!side.end, 1});
      s.seams.push_back(std::move(seam));
    }
  }

  // Down between body and chamber, as wide as the chamber leaves it.
  void outer_arm(LeakSeam& seam, const InsertSide& side) const {
    const Length chamber = side.end ? chamber_x : chamber_y;
    seam.profile.gap = std::max(smallest_detail, chamber - half_outside(side));
    seam.profile.widths = {seam.profile.gap};
    seam.profile.arms = {part.lid_top() - part.body.front};
    seam.walls = {{painted_metal}, {outside()}};
  }
  void turn_in(LeakSeam& seam, Turn turn, Length width, Length arm, const Wall& left) const {
    seam.profile.turns.push_back(turn);
    seam.profile.widths.push_back(width);
    seam.profile.arms.push_back(arm);
    seam.walls.right.push_back(painted_metal);
    seam.walls.left.push_back(left);
  }
  // Felt pressed into the last arm; false where that shuts it.
  bool felted(LeakSeam& seam, bool felt, SeamScene& s, const char* what) const {
    if (!felt) return true;
    if (how.felt) {
      seam.passes = transmission(*how.felt, seam.profile.arms.back());
      return true;
    }
    const std::string word = std::string(what) + ": shut by felt; no readings of what felt passes";
    if (std::ranges::find(s.not_counted, word) == s.not_counted.end()) {
      s.not_counted.push_back(word);
    }
    return false;
  }

  // Under end walls and cheeks into the room of the spools; where the cheeks stand on the floor
  // they are closed.
  void add_feet(SeamScene& s) const {
    const Length y = part.body.half_width, floor = part.gate.spigot_half_length;
    const auto add = [&](const InsertSide& side, Length from, Length to) {
      if (to - from < smallest_detail) return;
      LeakSeam seam = opening(side.end ? "end wall's foot" : "cheek's foot", side.out(), side.in(),
                              along_light, side.place(half_inside(side), from, front_wall),
                              side.place(half_inside(side), to, front_wall + foot));
      outer_arm(seam, side);
      turn_in(seam, Turn::left, foot, side.end ? part.body.wall : part.body.cheek, outside());
      seam.length = to - from;
      if (felted(seam, how.felt_under_feet, s, "the feet of cheeks and end walls")) {
        s.seams.push_back(std::move(seam));
      }
    };
    for (const InsertSide& side : insert_sides) {
      if (side.end) {
        add(side, -y, y);
      } else {
        add(side, floor, part.body.half_length);
        add(side, -part.body.half_length, -floor);
      }
    }
  }

  // Under the cheeks and through the old gate beside the floor, to before the picture.
  void add_floor_seams(SeamScene& s) const {
    const Length x = part.gate.spigot_half_length, y = part.gate.spigot_half_width;
    for (const InsertSide& side : insert_sides) {
      if (side.end) continue;
      const Length gap = std::max(smallest_detail, gate_y - y);
      LeakSeam seam = opening("floor in the old gate", side.out(), {0, 0, -1}, side.in(),
                              side.place(y, -x, throat), side.place(y + gap, x, throat));
      outer_arm(seam, side);
      turn_in(seam, Turn::left, foot, std::max(Length{}, part.half_width() - gate_y), outside());
      turn_in(seam, Turn::right, gap, front_wall - throat, blackened);
      seam.length = 2 * x;
      if (felted(seam, how.felt_round_floor, s, "the floor's edge in the old gate")) {
        s.seams.push_back(std::move(seam));
      }
    }
  }

  // Along a pin's collar, under its shoulder and along its journal. The annular slit as a straight
  // one as long as its middle.
  void add_bores(SeamScene& s) const {
    const RollInsert::Spools& n = part.spools;
    const auto add = [&](const char* name, SectionPoint at_spool, double y) {
      const InsertSide side{false, y};
      LeakSeam seam = opening(
          name, side.out(), side.in(), along_light,
          side.place(part.body.half_width, at_spool.x - n.journal / 2, at_spool.z),
          side.place(part.body.half_width, at_spool.x + n.journal / 2, at_spool.z + part.gap));
      const Length step = (n.collar - n.journal) / 2 - part.gap;
      GapProfile& p = seam.profile;
      p.gap = part.gap;
      p.widths = {part.gap, touch, part.gap};
      p.arms = {n.collar_depth - touch, step, part.body.cheek - n.collar_depth};
      p.turns = {Turn::right, Turn::left};
      seam.walls = walls_all(p, bare_print);
      seam.length = std::numbers::pi * (n.journal + part.gap);
      if (felted(seam, how.felt_in_bores, s, "the bores of pins and shaft")) {
        s.seams.push_back(std::move(seam));
      }
    };
    add("drive shaft's bore", n.take_up, part.knob.side);
    add("take-up pin's bore", n.take_up, -part.knob.side);
    add("supply pin's bore", n.supply, 1);
    add("supply pin's bore", n.supply, -1);
  }

  // A square tube as wide as the round one is large; the filter counts as clear.
  void add_window(SeamScene& s) const {
    if (!part.window) return;
    if (!how.window_open) {
      s.not_counted.emplace_back("the red window: its cover shuts it");
      return;
    }
    const RollInsert::Window& w = *part.window;
    const Length wide = std::sqrt(std::numbers::pi) / 2 * (w.filter - 3 * mm);
    LeakSeam seam =
        opening("red window, uncovered", {w.x / mm, w.y / mm, 0}, {0, 0, -1}, {1, 0, 0},
                {w.x - wide / 2, w.y - wide / 2, w.end}, {w.x + wide / 2, w.y + wide / 2, w.end});
    seam.profile = {wide, {part.lid_top() - w.end}, {}};
    seam.walls = walls_all(seam.profile, blackened);
    seam.length = wide;
    s.seams.push_back(std::move(seam));
  }
};

}  // namespace

void add_seams(SeamScene& scene, const InsertFrame& frame) { Seams(frame).add(scene); }

}  // namespace backfit
