// SPDX-License-Identifier: MIT
// A set of pieces together: cut by a plane, and taken apart.
#pragma once
#include "documents/drawing.hpp"
#include "parts/piece.hpp"

namespace backfit::paper {

// The cut material of every piece that the set's plane meets, hatched, each piece its own way, with
// its number in the set (from 1) beside it. Where it is long and thin its ends follow enlarged,
// each a detail by ISO 128-3: ringed and lettered in the whole.
class SetSection {
 public:
  // Requires set.cut. `room` is the paper's height for it.
  SetSection(const PieceSet& set, Length room);
  bool empty() const { return pieces_.empty(); }
  Length height() const;
  std::string words() const;  // "Cut at x = 0, seen from the right; lens to the left. Scale 1:2."
  void draw(Sheet& sheet, PagePoint corner) const;

 private:
  struct Cut {
    std::size_t number;
    std::vector<std::vector<PartPoint>> outlines;
  };
  struct Detail {
    PartPoint middle;
    Length radius;
    double scale = 1;
  };
  void draw_cuts(Sheet& sheet, const View& view) const;
  void draw_detail(Sheet& sheet, const Detail& detail, const std::string& letter, PagePoint corner,
                   Length width) const;
  Length whole_height() const;

  CutPlane plane_;
  std::vector<Cut> pieces_;
  PartPoint low_, high_;
  double scale_ = 1;
  std::vector<Detail> details_;
};

// Every piece moved apart as the set says, seen obliquely from behind, with its number.
class SetApart {
 public:
  // Requires set.apart with a move for each piece.
  SetApart(const PieceSet& set, Length room);
  Length height() const;
  void draw(Sheet& sheet, PagePoint corner) const;

 private:
  Solid together_;
  std::vector<PartPoint> middles_;  // of each piece
  PartPoint low_, high_;
  double scale_ = 1;
};

}  // namespace backfit::paper
