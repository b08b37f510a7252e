// SPDX-License-Identifier: MIT
// A sheet holder near the usual one for 4 × 5 in sheets.
#pragma once
#include "parts/sheet_holder.hpp"

namespace backfit {

inline SheetHolder sample_holder() {
  SheetHolder h;
  h.gap = 0.25 * mm;
  h.smallest_wall = 1.2 * mm;
  h.picture_width = 95 * mm;
  h.picture_height = 120 * mm;
  h.sheet_width = 100.4 * mm;
  h.sheet_height = 125.8 * mm;
  h.sheet_play = 0.4 * mm;
  h.front = 1.9 * mm;
  h.slide_slot = 1.3 * mm;
  h.rail = 1.5 * mm;
  h.film_slot = 0.3 * mm;
  h.septum = 1.2 * mm;
  h.width = 120.6 * mm;
  h.top = 92 * mm;
  h.bottom = 76 * mm;
  h.slide = {0.8 * mm, 102 * mm, 104 * mm, 5 * mm, 8 * mm, 66 * mm};
  h.felt = {1.5 * mm, 8 * mm, 0.4 * mm, {68 * mm, 82.4 * mm}};
  h.rib = {79 * mm, 1.6 * mm, 1.5 * mm, 0.7 * mm};
  h.flap = {3.2 * mm, 1.5 * mm, 2 * mm, 3 * mm};
  h.screws = {2 * mm, {-50 * mm, 0 * mm, 60 * mm}, {-25 * mm, 25 * mm, 87 * mm}};
  return h;
}

}  // namespace backfit
