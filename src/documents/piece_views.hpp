// SPDX-License-Identifier: MIT
// A piece as it lies on the bed, in views with its sizes.
#pragma once
#include <string>

#include "documents/drawing.hpp"
#include "parts/piece.hpp"

namespace backfit::paper {

// Views from above, from the front below it and, where sizes are shown there, from the right
// beside it, as ISO 128 and ISO 5456-2 lay them out in third-angle projection; hidden lines,
// outside sizes and every size that `piece` shows. A flat piece has no front view.
class PieceViews {
 public:
  // At the largest usual scale, no larger than 2:1, that fits content_width and `room`.
  PieceViews(const Piece& piece, Length room);

  Length height() const;
  std::string scale_words() const;  // "1:2"
  void draw(Sheet& sheet, PagePoint corner) const;

 private:
  struct Span {
    PartPoint from, to;
    Along along;
    std::string label;
    int row = 0;
  };
  // What one view shows: width and height of the piece in it, spans that run across and up it.
  struct Face {
    Length low_x, low_y, width, height;
    std::vector<Span> across, up;
    int rows_across = 0, rows_up = 0;
  };
  Face& face(PieceView view);
  void add_sizes(const Piece& piece);
  bool fits(double scale, Length room) const;
  Length width_at(double scale) const;
  Length height_at(double scale) const;
  void draw_face(Sheet& sheet, const Face& face, PagePoint corner, double side_across,
                 double side_up, bool centre_lines) const;

  Solid drawn_;
  bool hidden_;
  Face above_, front_, right_;
  bool has_front_ = true, has_right_ = false;
  double scale_ = 1;
};

}  // namespace backfit::paper
