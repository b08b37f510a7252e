// SPDX-License-Identifier: MIT
#include "documents/solid_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

namespace backfit::paper {
namespace {

constexpr Length chord = 0.02 * mm;

// A straight line's ends in hundredths of a millimetre, the lower first.
using LineEnds = std::array<long, 4>;
LineEnds ends_of(const ViewLine& line) {
  const auto hundredths = [](Length l) { return std::lround(l / (0.01 * mm)); };
  const PaperPoint &a = line.points.front(), &b = line.points.back();
  const std::pair<long, long> p{hundredths(a.x), hundredths(a.y)};
  const std::pair<long, long> q{hundredths(b.x), hundredths(b.y)};
  const auto& [low, high] = std::minmax(p, q);
  return {low.first, low.second, high.first, high.second};
}

}  // namespace

void draw_solid(Sheet& sheet, const View& view, const Solid& body, backfit::View from,
                bool hidden) {
  const std::vector<ViewLine> lines = lines_of(body, from, chord);
  std::set<LineEnds> drawn;
  std::vector<const ViewLine*> kept;
  for (const bool visible : {true, false}) {
    for (const ViewLine& line : lines) {
      if (line.visible != visible || !line.sharp || (!visible && !hidden)) continue;
      if (line.points.size() == 2 && !drawn.insert(ends_of(line)).second) continue;
      kept.push_back(&line);
    }
  }
  std::ranges::reverse(kept);  // what is hidden lies below
  for (const ViewLine* line : kept) {
    std::vector<PagePoint> points;
    for (const PaperPoint& p : line->points) points.push_back(view(PartPoint{p.x, p.y}));
    sheet.stroke(polyline(points), line->visible ? LineStyle::border : LineStyle::hidden);
  }
}

}  // namespace backfit::paper
