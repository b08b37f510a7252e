// SPDX-License-Identifier: MIT
#include "documents/drawing.hpp"

#include <algorithm>
#include <cassert>
#include <charconv>

namespace backfit::paper {

namespace {

constexpr TextStyle label_text{.size = 8 * point, .align = Align::centre};
constexpr Length arrow_length = 2.5 * mm;
constexpr Length tail = 5 * mm;  // of an arrow that points inwards from outside

// A filled arrow head at `tip` that points away from `from`. Requires tip != from.
void arrow(Sheet& sheet, PagePoint tip, PagePoint from) {
  const Length dx = tip.x - from.x, dy = tip.y - from.y, d = hypot(dx, dy);
  const double x = dx / d, y = dy / d;
  const Length half = 0.16 * arrow_length;
  const PagePoint base{tip.x - x * arrow_length, tip.y - y * arrow_length};
  sheet.fill(
      polygon(
          {tip, {base.x - y * half, base.y + x * half}, {base.x + y * half, base.y - x * half}}),
      Ink::black);
}

// The page seen with the dimension line running to the right: u along it, v up. A vertical
// line runs up the page and is read from the right.
struct Frame {
  bool vertical;
  PagePoint operator()(Length u, Length v) const {
    return vertical ? PagePoint{-v, -u} : PagePoint{u, -v};
  }
  Length u(PagePoint p) const { return vertical ? -p.y : p.x; }
  Length v(PagePoint p) const { return vertical ? -p.x : -p.y; }
};

void extension_line(Sheet& sheet, const Frame& frame, PagePoint place, Length v_line) {
  const Length u = frame.u(place), v = frame.v(place);
  const double way = v_line > v ? 1 : -1;
  if (abs(v_line - v) <= 1 * mm) return;  // the line lies on the place itself
  sheet.stroke(polyline({frame(u, v + way * 1 * mm), frame(u, v_line + way * 2 * mm)}),
               LineStyle::dimension);
}

void tick(Sheet& sheet, const Frame& frame, Length u, Length v) {
  const Length h = 1.1 * mm;
  sheet.stroke(polyline({frame(u - h, v - h), frame(u + h, v + h)}), LineStyle::border);
}

}  // namespace

std::vector<PagePoint> View::operator()(const std::vector<PartPoint>& points) const {
  std::vector<PagePoint> result;
  result.reserve(points.size());
  for (const PartPoint& p : points) result.push_back((*this)(p));
  return result;
}

void dimension(Sheet& sheet, const View& view, const Dimension& dimension) {
  const bool vertical = dimension.along == Along::y;
  const Frame frame{vertical};
  PagePoint first = view(dimension.from), last = view(dimension.to);
  if (frame.u(first) > frame.u(last)) std::swap(first, last);
  const Length a = frame.u(first), b = frame.u(last), room = b - a;
  assert(room > 0 * mm);
  const std::string label = !dimension.label.empty() ? dimension.label
                            : vertical               ? in_mm(abs(dimension.to.y - dimension.from.y))
                                       : in_mm(abs(dimension.to.x - dimension.from.x));
  // On a vertical line v grows to the left, and an offset to the right is positive.
  const Length offset = vertical ? -dimension.offset : dimension.offset;
  const Length v = offset > 0 * mm ? std::max(frame.v(first), frame.v(last)) + offset
                                   : std::min(frame.v(first), frame.v(last)) + offset;
  extension_line(sheet, frame, first, v);
  extension_line(sheet, frame, last, v);

  const Length width = sheet.fonts().size(label, label_text).width;
  const bool label_inside = room >= width + 1.5 * mm;
  const bool arrows = dimension.ends == Ends::arrows;
  const bool arrows_inside = room >= 2 * arrow_length + 1 * mm;
  const bool tails = (arrows && !arrows_inside) || (!arrows && !label_inside);
  const Length start = tails ? a - tail : a;
  Length stop = tails ? b + tail : b;
  Length label_at = (a + b) / 2;
  if (!label_inside) {
    const Length clear = arrow_length + 1 * mm;  // of the arrow or tick, and of the extension line
    label_at = b + clear + width / 2;
    stop = b + clear + width;
  }
  sheet.stroke(polyline({frame(start, v), frame(stop, v)}), LineStyle::dimension);
  if (arrows) {
    const double way = arrows_inside ? 1 : -1;
    arrow(sheet, frame(a, v), frame(a + way * 1 * mm, v));
    arrow(sheet, frame(b, v), frame(b - way * 1 * mm, v));
  } else {
    tick(sheet, frame, a, v);
    tick(sheet, frame, b, v);
  }
  sheet.label(frame(label_at, v + 0.9 * mm), label, label_text, vertical ? 90 * deg : 0 * deg);
}

void leader(Sheet& sheet, PagePoint tip, PagePoint knee, std::string label) {
  assert(tip != knee);
  const bool to_right = knee.x >= tip.x;
  const Length way = to_right ? 1 * mm : -1 * mm;
  const PagePoint shelf{knee.x + 3 * way, knee.y};
  sheet.stroke(polyline({tip, knee, shelf}), LineStyle::dimension);
  arrow(sheet, tip, knee);
  TextStyle style = label_text;
  style.align = to_right ? Align::left : Align::right;
  sheet.label({shelf.x + way, shelf.y + 0.36 * style.size}, std::move(label), style);
}

void diameter_callout(Sheet& sheet, const View& view, PartPoint centre, Length diameter,
                      PagePoint knee, const std::string& more) {
  const PagePoint c = view(centre);
  const Length radius = view(diameter) / 2;
  const Length dx = knee.x - c.x, dy = knee.y - c.y, d = hypot(dx, dy);
  assert(d > radius);
  leader(sheet, {c.x + radius * (dx / d), c.y + radius * (dy / d)}, knee,
         "⌀" + in_mm(diameter) + more);
}

void centre_cross(Sheet& sheet, PagePoint centre, Length radius) {
  const Length reach = radius + 2 * mm;
  // Four arms out from the centre, so that the dashes lie evenly about it.
  for (const auto& [x, y] : {PagePoint{reach, {}}, {-reach, {}}, {{}, reach}, {{}, -reach}}) {
    sheet.stroke(polyline({centre, {centre.x + x, centre.y + y}}), LineStyle::centre);
  }
}

void check_ruler(Sheet& sheet, PagePoint start, Along along) {
  const bool down = along == Along::y;
  // s along the ruler, t away from its line on the side of the labels
  const auto at = [&](Length s, Length t) {
    return down ? PagePoint{start.x + t, start.y + s} : PagePoint{start.x + s, start.y + t};
  };
  const Length half_line = line_width(LineStyle::dimension) / 2;  // closes the corners at the ends
  sheet.stroke(polyline({at(-half_line, 0 * mm), at(100 * mm + half_line, 0 * mm)}),
               LineStyle::dimension);
  TextStyle style = small_text;
  style.align = down ? Align::left : Align::centre;
  for (int i = 0; i <= 10; ++i) {
    const Length s = 10 * i * mm;
    const Length tick = i % 5 == 0 ? 3.5 * mm : 2.5 * mm;
    sheet.stroke(polyline({at(s, 0 * mm), at(s, tick)}), LineStyle::dimension);
    const std::string number = std::to_string(10 * i) + (i == 10 ? " mm" : "");
    sheet.label(down ? at(s + 0.36 * style.size, 4.2 * mm) : at(s, 6.6 * mm), number, style);
  }
}

}  // namespace backfit::paper
