// SPDX-License-Identifier: MIT
// An insert in round numbers: 6 × 6 cm, the rolls beside the gate, two rollers.
#pragma once
#include "parts/roll_insert.hpp"

namespace backfit {

inline RollInsert sample_insert() {
  RollInsert i;
  i.gap = 0.25 * mm;
  i.smallest_wall = 1.2 * mm;
  i.body = {60 * mm, 33.3 * mm, 1.6 * mm, 4.1 * mm, -0.2 * mm, 34 * mm};
  i.gate = {56 * mm,    56 * mm, 47 * mm,  36 * mm,  -0.8 * mm, -2 * mm,
            -31.7 * mm, 32 * mm, 1.0 * mm, 1.0 * mm, 0.4 * mm};
  i.trap = {1.2 * mm, 3 * mm};
  i.plate = {1.6 * mm, 29 * mm, {-24 * mm, 22 * mm}, 10 * mm, 1.2 * mm};
  RollInsert::Spools& s = i.spools;
  s.supply = {-45 * mm, 20 * mm};
  s.take_up = {46 * mm, 20.5 * mm};
  s.length = 66 * mm;
  s.play = 0.3 * mm;
  s.flange = 12.6 * mm;
  s.full = 11 * mm;
  s.film_width = 62.6 * mm;
  s.end_hole = 5.6 * mm;
  s.slot_length = 9 * mm;
  s.slot_width = 2.4 * mm;
  s.stub = 3 * mm;
  s.journal = 10.4 * mm;
  s.collar = 13.8 * mm;
  s.collar_depth = 1.9 * mm;
  s.head = 3 * mm;
  s.pad = 5.4 * mm;
  s.pad_depth = 1 * mm;
  s.pad_at = {-35.6 * mm, 20 * mm};
  i.rollers = {{{-35 * mm, 5.2 * mm}, 5 * mm, 4.4 * mm}, {{35.3 * mm, 6 * mm}, 5.7 * mm, 5 * mm}};
  i.rod = 3 * mm;
  i.knob = {-1, 44.9 * mm, 1.2 * mm, 0.3 * mm, 8 * mm, 26 * mm, 10 * mm, 1 * mm, 3 * mm, 40};
  i.screws = {0 * mm, 3 * mm, 10 * mm};
  i.window = RollInsert::Window{20 * mm, 0.3 * mm, 12 * mm, 2.8 * mm};
  i.plate.windowed = true;
  i.notches = {{"latch", {-63 * mm, -9.5 * mm, 30 * mm}, {-58 * mm, 9.5 * mm, 40 * mm}}};
  i.words = {{"120 ROLL FILM", "6 X 6 CM"}, 3, 3.2 * mm, 0.4 * mm, -20 * mm, 0 * mm};
  return i;
}

}  // namespace backfit
