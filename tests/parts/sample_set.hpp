// SPDX-License-Identifier: MIT
// A small set of pieces: a tray, a plate that lies in it with 0.25 mm all round, two pegs.
#pragma once
#include "parts/piece.hpp"
#include "parts/printing.hpp"

namespace backfit {

inline PieceSet sample_set() {
  const Solid tray = difference_of(box({-30 * mm, -20 * mm, 0 * mm}, {30 * mm, 20 * mm, 8 * mm}),
                                   {box({-27 * mm, -17 * mm, 3 * mm}, {27 * mm, 17 * mm, 9 * mm})});
  const Solid plate =
      difference_of(box({-26.75 * mm, -16.75 * mm, 3 * mm}, {26.75 * mm, 16.75 * mm, 5 * mm}),
                    {box({-15 * mm, -10 * mm, 2 * mm}, {15 * mm, 10 * mm, 6 * mm})});
  const Solid peg = cylinder(6 * mm, 10 * mm, 18 * mm);
  Piece tray_piece{
      "tray", {tray}, laid(tray, BedSide::low_z), laid(tray, BedSide::low_z), "floor down"};
  tray_piece.sizes = {
      {"between the walls", 54 * mm, 0.1 * mm,
       PieceSize::Shown{PieceView::above, {-27 * mm, 0 * mm, 8 * mm}, {27 * mm, 0 * mm, 8 * mm}}},
      {"floor, thickness",
       3 * mm,
       {},
       PieceSize::Shown{PieceView::front, {-27 * mm, 0 * mm, 0 * mm}, {-27 * mm, 0 * mm, 3 * mm}}}};
  Piece plate_piece{
      "mask", {plate}, laid(plate, BedSide::high_z), laid(plate, BedSide::high_z), "rear down"};
  plate_piece.flat = true;
  plate_piece.sizes = {{"thickness", 2 * mm}};
  Piece peg_piece{
      "peg",
      {translated(peg, {-10 * mm, 0 * mm, 0 * mm}), translated(peg, {10 * mm, 0 * mm, 0 * mm})},
      laid(peg, BedSide::low_z),
      laid(peg, BedSide::low_z),
      "standing"};
  PieceSet set{"sample tray", "It holds a mask.", {tray_piece, plate_piece, peg_piece}};
  set.steps = {{"Lay the mask in", "Its rear to the tray's floor.", {"Mind the edges."}}};
  set.bought = {{"felt, 1 mm", 2}};
  set.cut = CutPlane{CutPlane::Axis::x, 1 * mm};
  set.apart = {{}, {0 * mm, 0 * mm, 20 * mm}, {0 * mm, 0 * mm, 40 * mm}};
  return set;
}

}  // namespace backfit
