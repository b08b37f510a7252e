// SPDX-License-Identifier: MIT
// One A4 page as a list of marks: lines, tints, hatching and words, in millimetres of paper.
#pragma once
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "documents/text.hpp"
#include "quantity/quantity.hpp"

namespace backfit::paper {

inline constexpr Length page_width = 210 * mm, page_height = 297 * mm;

// A place on the page from its upper left corner: x to the right, y DOWN. Parts are drawn
// with y up; View in drawing.hpp turns them.
struct PagePoint {
  Length x, y;
  friend constexpr bool operator==(const PagePoint&, const PagePoint&) = default;
};

// A figure of one or more chains of straight lines and arcs. In fills and hatching a chain
// inside another is a hole (even-odd rule).
struct Path {
  struct Segment {
    bool straight = true;
    PagePoint control_1, control_2;  // of a cubic curve; not used when straight
    PagePoint end;
  };
  struct Chain {
    PagePoint start;
    std::vector<Segment> segments;
    bool closed = false;
  };
  std::vector<Chain> chains;

  Path& operator+=(const Path& other);
};

// Open and closed chains of straight lines. Require at least two and three points.
Path polyline(const std::vector<PagePoint>& points);
Path polygon(const std::vector<PagePoint>& points);
// Between two opposite corners. Requires 0 <= corner_radius <= half the shorter side.
Path rectangle(PagePoint corner, PagePoint opposite, Length corner_radius = {});
// Requires radius > 0.
Path circle(PagePoint centre, Length radius);
// From angle `from` to `to`, counted counterclockwise as seen from +x; clockwise when to < from.
// Cubic curves of at most 45 degrees each, within 5e-6 of the radius. Requires radius > 0.
Path arc(PagePoint centre, Length radius, Angle from, Angle to);

// Lines by what they mean, named and weighted as in ISO 128 drawing practice; widths and dash
// lengths FROM MEMORY of that practice.
enum class LineStyle {
  outline,    // visible edges: continuous, 0.5 mm
  border,     // boxes, heads of tables: continuous, 0.35 mm
  hidden,     // edges behind material: dashed, 0.25 mm
  centre,     // axes and symmetry: chain-dashed, 0.18 mm
  dimension,  // dimensions, leaders, hatching, rays, rules, lines to cut along: continuous, 0.18 mm
  adjacent,   // neighbouring parts: chain with two dots, 0.18 mm
};
Length line_width(LineStyle style);

struct Stroke {
  Path path;
  LineStyle style;
  Ink ink;
};
struct Fill {
  Path path;
  Ink ink;
  double opacity;
};
struct Hatch {
  Path path;
  Length spacing;
  Angle angle;
};
struct Words {
  PagePoint at;  // upper left corner, before it is turned
  std::string text;
  TextStyle style;
  std::optional<Length> width;
  Angle turn;  // counterclockwise around `at`
};
class Sheet;
struct Inset {
  Path frame;
  std::shared_ptr<const Sheet> inside;
};
using Mark = std::variant<Stroke, Fill, Hatch, Words, Inset>;

// A page under work. Marks lie on each other in the order they are made; what falls outside the
// paper is lost.
class Sheet {
 public:
  explicit Sheet(Fonts fonts) : fonts_(std::move(fonts)) {}

  void stroke(Path path, LineStyle style, Ink ink = Ink::black);
  // Covers the inside. Requires 0 < opacity <= 1.
  void fill(Path path, Ink ink, double opacity = 1);
  // Parallel lines inside `path`, `angle` counterclockwise from +x, as on cut material; all
  // hatching of one angle and spacing is in step. Requires spacing > 0.
  void hatch(Path path, Length spacing = 2 * mm, Angle angle = 45 * deg);

  // Words in a column `width` wide with its upper left corner at `corner`. Returns the height
  // used. Requires width > 0.
  Length text(PagePoint corner, std::string text, const TextStyle& style, Length width);
  // One line with its baseline on `anchor`, which is its left end, middle or right end as
  // style.align says; turned counterclockwise around the anchor.
  void label(PagePoint anchor, std::string text, const TextStyle& style, Angle turn = {});

  // The marks of `inside`, at their places on the page, as far as they lie within `frame`.
  void inset(Path frame, Sheet inside);

  const Fonts& fonts() const { return fonts_; }
  const std::vector<Mark>& marks() const { return marks_; }

 private:
  Fonts fonts_;
  std::vector<Mark> marks_;
};

}  // namespace backfit::paper
