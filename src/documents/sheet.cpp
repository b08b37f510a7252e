// SPDX-License-Identifier: MIT
#include "documents/sheet.hpp"

#include <algorithm>
#include <cassert>
#include <numbers>

namespace backfit::paper {

namespace {

// The place `radius` from `centre` in direction `a`, counterclockwise as seen.
PagePoint around(PagePoint centre, Length radius, Angle a) {
  return {centre.x + radius * cos(a), centre.y - radius * sin(a)};
}

void append_arc(Path::Chain& chain, PagePoint centre, Length radius, Angle from, Angle to) {
  const int pieces = std::max(1, static_cast<int>(std::ceil(abs(to - from) / (45 * deg) - 1e-9)));
  const Angle step = (to - from) / pieces;
  const Length reach = 4.0 / 3.0 * tan(step / 4) * radius;  // of the control points
  for (int i = 0; i < pieces; ++i) {
    const Angle a = from + i * step, b = a + step;
    const PagePoint p = around(centre, radius, a), q = around(centre, radius, b);
    chain.segments.push_back({.straight = false,
                              .control_1 = {p.x - reach * sin(a), p.y - reach * cos(a)},
                              .control_2 = {q.x + reach * sin(b), q.y + reach * cos(b)},
                              .end = q});
  }
}

void append_line(Path::Chain& chain, PagePoint end) {
  chain.segments.push_back({.straight = true, .control_1 = {}, .control_2 = {}, .end = end});
}

}  // namespace

Path& Path::operator+=(const Path& other) {
  chains.insert(chains.end(), other.chains.begin(), other.chains.end());
  return *this;
}

Path polyline(const std::vector<PagePoint>& points) {
  assert(points.size() >= 2);
  Path::Chain chain{.start = points.front(), .segments = {}, .closed = false};
  for (std::size_t i = 1; i < points.size(); ++i) append_line(chain, points[i]);
  return {{std::move(chain)}};
}

Path polygon(const std::vector<PagePoint>& points) {
  assert(points.size() >= 3);
  Path result = polyline(points);
  result.chains.front().closed = true;
  return result;
}

Path rectangle(PagePoint corner, PagePoint opposite, Length corner_radius) {
  const Length left = std::min(corner.x, opposite.x), right = std::max(corner.x, opposite.x);
  const Length top = std::min(corner.y, opposite.y), bottom = std::max(corner.y, opposite.y);
  const Length r = corner_radius;
  if (r == 0 * mm) return polygon({{left, top}, {right, top}, {right, bottom}, {left, bottom}});
  assert(r > 0 * mm && r <= 0.5 * std::min(right - left, bottom - top));
  Path::Chain chain{.start = {right, bottom - r}, .segments = {}, .closed = true};
  append_line(chain, {right, top + r});
  append_arc(chain, {right - r, top + r}, r, 0 * deg, 90 * deg);
  append_line(chain, {left + r, top});
  append_arc(chain, {left + r, top + r}, r, 90 * deg, 180 * deg);
  append_line(chain, {left, bottom - r});
  append_arc(chain, {left + r, bottom - r}, r, 180 * deg, 270 * deg);
  append_line(chain, {right - r, bottom});
  append_arc(chain, {right - r, bottom - r}, r, 270 * deg, 360 * deg);
  return {{std::move(chain)}};
}

Path circle(PagePoint centre, Length radius) {
  Path result = arc(centre, radius, 0 * deg, 360 * deg);
  result.chains.front().closed = true;
  return result;
}

Path arc(PagePoint centre, Length radius, Angle from, Angle to) {
  assert(radius > 0 * mm);
  Path::Chain chain{.start = around(centre, radius, from), .segments = {}, .closed = false};
  append_arc(chain, centre, radius, from, to);
  return {{std::move(chain)}};
}

Length line_width(LineStyle style) {
  switch (style) {
    case LineStyle::outline:
      return 0.5 * mm;
    case LineStyle::border:
      return 0.35 * mm;
    case LineStyle::hidden:
      return 0.25 * mm;
    case LineStyle::centre:
    case LineStyle::dimension:
    case LineStyle::adjacent:
      break;
  }
  return 0.18 * mm;
}

void Sheet::stroke(Path path, LineStyle style, Ink ink) {
  marks_.emplace_back(Stroke{std::move(path), style, ink});
}

void Sheet::fill(Path path, Ink ink, double opacity) {
  assert(opacity > 0 && opacity <= 1);
  marks_.emplace_back(Fill{std::move(path), ink, opacity});
}

void Sheet::hatch(Path path, Length spacing, Angle angle) {
  assert(spacing > 0 * mm);
  marks_.emplace_back(Hatch{std::move(path), spacing, angle});
}

Length Sheet::text(PagePoint corner, std::string text, const TextStyle& style, Length width) {
  const Length height = fonts_.size(text, style, width).height;
  marks_.emplace_back(Words{corner, std::move(text), style, width, {}});
  return height;
}

void Sheet::label(PagePoint anchor, std::string text, const TextStyle& style, Angle turn) {
  const TextSize size = fonts_.size(text, style);
  const double share = style.align == Align::left ? 0 : style.align == Align::centre ? 0.5 : 1;
  const Length back = share * size.width, up = size.baseline;
  const PagePoint corner{anchor.x - back * cos(turn) - up * sin(turn),
                         anchor.y + back * sin(turn) - up * cos(turn)};
  marks_.emplace_back(Words{corner, std::move(text), style, std::nullopt, turn});
}

void Sheet::inset(Path frame, Sheet inside) {
  marks_.emplace_back(Inset{std::move(frame), std::make_shared<const Sheet>(std::move(inside))});
}

}  // namespace backfit::paper
