// SPDX-License-Identifier: MIT
// Drawings of parts to scale: where a part lies on the page, its dimensions and callouts.
#pragma once
#include <string>
#include <vector>

#include "documents/millimetres.hpp"
#include "documents/sheet.hpp"

namespace backfit::paper {

// A place on a part in the plane of the drawing: x to the right, y UP.
struct PartPoint {
  Length x, y;
};

// Puts a part on the page: (0, 0) of the part at `origin`, `scale` of paper for 1 of the part
// (1 is 1:1, 0.5 is 1:2). Requires scale > 0.
struct View {
  PagePoint origin;
  double scale = 1;

  PagePoint operator()(PartPoint p) const {
    return {origin.x + scale * p.x, origin.y - scale * p.y};
  }
  Length operator()(Length on_part) const { return scale * on_part; }
  std::vector<PagePoint> operator()(const std::vector<PartPoint>& points) const;
};

// The axis of the page along which a distance is measured.
enum class Along { x, y };

enum class Ends { arrows, ticks };

// A linear dimension between two places of the part.
struct Dimension {
  PartPoint from, to;
  Along along = Along::x;
  // Paper between the dimension line and the outer of the two places: above or to the right of
  // them, or below or to the left when negative. 8 mm for the first line, 7 mm more for each next.
  Length offset = 8 * mm;
  std::string label = {};  // in_mm of the part's own distance when empty
  Ends ends = Ends::arrows;
};

// Draws it with extension lines and the label above the middle of the line, read from below or
// from the right (ISO 129 practice, FROM MEMORY). Arrows that don't fit between the extension
// lines point inwards from outside; a label that doesn't fit stands outside, behind `to` or
// `from`, whichever is farther right or up. Requires two places that differ along the axis.
void dimension(Sheet& sheet, const View& view, const Dimension& dimension);

// A line from `tip`, with an arrow there, to `knee`, and `label` beside a short shelf: to the
// right of a knee that is right of the tip, else to the left. Requires tip != knee.
void leader(Sheet& sheet, PagePoint tip, PagePoint knee, std::string label);

// A leader to the edge of a circle of `diameter`, its arrow towards the centre, that says
// "⌀", the diameter, and `more` ("⌀4.2" with more " × 6 deep"). Requires `knee` outside the circle.
void diameter_callout(Sheet& sheet, const View& view, PartPoint centre, Length diameter,
                      PagePoint knee, const std::string& more = {});

// Chain-dashed centre lines through a round thing, 2 mm beyond its edge.
void centre_cross(Sheet& sheet, PagePoint centre, Length radius);

// A ruler that is 100 mm long on paper printed at true size: from `start` to the right or, along
// y, down; a tick each 10 mm with its number, the labels beside or below the line. It takes
// 7 mm below its line, 16 mm to the right of it along y.
void check_ruler(Sheet& sheet, PagePoint start, Along along);

}  // namespace backfit::paper
