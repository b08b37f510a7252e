// SPDX-License-Identifier: MIT
#include "documents/set_views.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "documents/document.hpp"
#include "documents/solid_drawing.hpp"
#include "solid/section.hpp"

namespace backfit::paper {
namespace {

constexpr double scales[] = {5, 2, 1, 1.0 / 2, 1.0 / 3, 1.0 / 4, 1.0 / 5, 1.0 / 10, 1.0 / 20};
constexpr Length beside = 16 * mm;  // for numbers
constexpr Length number_radius = 2.6 * mm;
constexpr Length chord = 0.02 * mm;

double scale_within(Length width, Length height, Length room) {
  for (const double scale : scales) {
    if (scale * width <= content_width - 2 * beside && scale * height <= room) return scale;
  }
  return 1.0 / 50;
}

// A number in a circle at the page's side, with a line to what it numbers.
struct Numbered {
  std::size_t number;
  PagePoint tip;
};
void draw_numbers(Sheet& sheet, std::vector<Numbered> all, PagePoint corner, Length height) {
  // Half on each side, from above to below without crossing.
  std::ranges::sort(all, {}, [](const Numbered& n) { return n.tip.x; });
  const std::size_t half = all.size() / 2;
  std::vector<Numbered> left(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(half));
  std::vector<Numbered> right(all.begin() + static_cast<std::ptrdiff_t>(half), all.end());
  for (auto* side : {&left, &right}) {
    std::ranges::sort(*side, {}, [](const Numbered& n) { return n.tip.y; });
    const Length x =
        side == &left ? corner.x + number_radius : corner.x + content_width - number_radius;
    const Length step = 2 * number_radius + 1 * mm;
    // As near their tips' height as they go without overlapping.
    std::vector<Length> places;
    Length next = corner.y + number_radius;
    for (const Numbered& n : *side) {
      places.push_back(std::max(next, n.tip.y));
      next = places.back() + step;
    }
    Length last = corner.y + height - number_radius;
    for (std::size_t i = places.size(); i-- > 0;) {
      places[i] = std::min(places[i], last);
      last = places[i] - step;
    }
    for (std::size_t i = 0; i < side->size(); ++i) {
      const Numbered& n = (*side)[i];
      const PagePoint at{x, places[i]};
      const double inwards = side == &left ? 1 : -1;
      sheet.stroke(polyline({{at.x + inwards * number_radius, at.y}, n.tip}), LineStyle::dimension);
      sheet.fill(circle(n.tip, 0.6 * mm), Ink::black);
      sheet.fill(circle(at, number_radius), Ink::white);
      sheet.stroke(circle(at, number_radius), LineStyle::dimension);
      sheet.label({at.x, at.y + 1 * mm}, std::to_string(n.number),
                  {.size = 7.5 * point, .bold = true, .align = Align::centre});
    }
  }
}

// `body` turned so that the cut lies in the plane z = at, and what the paper shows of it.
Solid turned_to_cut(const Solid& body, const CutPlane& plane) {
  switch (plane.axis) {
    case CutPlane::Axis::x:  // paper (z, y), the plane at -at
      return quarter_turned_about_y(body);
    case CutPlane::Axis::y:  // paper (x, -z), the plane at at
      return quarter_turned_about_x(body);
    case CutPlane::Axis::z:
      break;
  }
  return body;
}

Length area_twice(const std::vector<PartPoint>& outline, Length unit) {
  double sum = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PartPoint &p = outline[i], &q = outline[(i + 1) % outline.size()];
    sum += (p.x / unit) * (q.y / unit) - (q.x / unit) * (p.y / unit);
  }
  return std::abs(sum) * unit;
}

// A point within the material of `outlines`, in the middle of its longest run along a line halfway
// up the largest outline.
PartPoint inside(const std::vector<std::vector<PartPoint>>& outlines) {
  const auto& largest =
      *std::ranges::max_element(outlines, {}, [](const auto& o) { return area_twice(o, 1 * mm); });
  Length low = largest.front().y, high = low;
  for (const PartPoint& p : largest) low = std::min(low, p.y), high = std::max(high, p.y);
  PartPoint best = largest.front();
  Length longest{};
  for (const double share : {0.5, 0.37, 0.61, 0.23, 0.79, 0.07, 0.93}) {
    const Length y = low + share * (high - low);
    std::vector<Length> crossings;
    for (const auto& outline : outlines) {
      for (std::size_t i = 0; i < outline.size(); ++i) {
        const PartPoint &p = outline[i], &q = outline[(i + 1) % outline.size()];
        if ((p.y > y) == (q.y > y)) continue;
        crossings.push_back(p.x + (y - p.y) / (q.y - p.y) * (q.x - p.x));
      }
    }
    std::ranges::sort(crossings);
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
      if (crossings[i + 1] - crossings[i] > longest) {
        longest = crossings[i + 1] - crossings[i];
        best = {(crossings[i] + crossings[i + 1]) / 2, y};
      }
    }
  }
  return best;
}

}  // namespace

SetSection::SetSection(const PieceSet& set, Length room) : plane_(*set.cut) {
  const Length at = plane_.axis == CutPlane::Axis::x ? -plane_.at : plane_.at;
  low_ = {largest_size, largest_size};
  high_ = {-largest_size, -largest_size};
  for (std::size_t i = 0; i < set.pieces.size(); ++i) {
    Cut cut{i + 1, {}};
    for (const Solid& body : set.pieces[i].in_place) {
      for (const auto& outline : cut_of(turned_to_cut(body, plane_), at, chord)) {
        std::vector<PartPoint> points;
        for (const PaperPoint& p : outline) {
          points.push_back({p.x, p.y});
          low_ = {std::min(low_.x, p.x), std::min(low_.y, p.y)};
          high_ = {std::max(high_.x, p.x), std::max(high_.y, p.y)};
        }
        cut.outlines.push_back(std::move(points));
      }
    }
    if (!cut.outlines.empty()) pieces_.push_back(std::move(cut));
  }
  if (!pieces_.empty()) scale_ = scale_within(high_.x - low_.x, high_.y - low_.y, room);
}

Length SetSection::height() const { return scale_ * (high_.y - low_.y) + 4 * mm; }

std::string SetSection::words() const {
  const auto [name, seen] = [&]() -> std::pair<const char*, const char*> {
    switch (plane_.axis) {
      case CutPlane::Axis::x:
        return {"x", "the lens to the left, up is up"};
      case CutPlane::Axis::y:
        return {"y", "the lens above, right is right"};
      case CutPlane::Axis::z:
        break;
    }
    return {"z", "seen from behind, up is up"};
  }();
  return fmt::format(
      "Cut at {} = {} mm, {}. Scale {}.", name, in_mm(plane_.at, 1), seen,
      scale_ >= 1 ? fmt::format("{:g}:1", scale_) : fmt::format("1:{:g}", 1 / scale_));
}

void SetSection::draw(Sheet& sheet, PagePoint corner) const {
  const Length width = scale_ * (high_.x - low_.x);
  const Length left = corner.x + (content_width - width) / 2;
  const View view{{left - scale_ * low_.x, corner.y + 2 * mm + scale_ * high_.y}, scale_};
  std::vector<Numbered> numbers;
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    Path whole;
    for (const auto& outline : pieces_[i].outlines) whole += polygon(view(outline));
    const Angle angle = (i % 2 == 0 ? 45 : -45) * deg;
    sheet.hatch(whole, (i / 2 % 3 == 0 ? 1.6 : i / 2 % 3 == 1 ? 1.0 : 2.4) * mm, angle);
    sheet.stroke(whole, LineStyle::border);
    numbers.push_back({pieces_[i].number, view(inside(pieces_[i].outlines))});
  }
  draw_numbers(sheet, numbers, corner, height());
}

SetApart::SetApart(const PieceSet& set, Length room)
    : together_([&] {
        assert(set.apart.size() == set.pieces.size());
        std::vector<Solid> bodies;
        for (std::size_t i = 0; i < set.pieces.size(); ++i) {
          for (const Solid& body : set.pieces[i].in_place) {
            bodies.push_back(translated(body, set.apart[i]));
          }
        }
        return assembled(bodies);
      }()) {
  low_ = {largest_size, largest_size};
  high_ = {-largest_size, -largest_size};
  const auto seen = [](const Point3& p) {
    // View::oblique_rear: the eye along (-1, -1, -1), y upright.
    return PartPoint{(p.x - p.z) / std::sqrt(2.0), (2 * p.y - p.x - p.z) / std::sqrt(6.0)};
  };
  for (std::size_t i = 0; i < set.pieces.size(); ++i) {
    const Bounds b = bounds_of(translated(set.pieces[i].in_place.front(), set.apart[i]));
    for (int corner = 0; corner < 8; ++corner) {
      const PartPoint p = seen({corner & 1 ? b.low.x : b.high.x, corner & 2 ? b.low.y : b.high.y,
                                corner & 4 ? b.low.z : b.high.z});
      low_ = {std::min(low_.x, p.x), std::min(low_.y, p.y)};
      high_ = {std::max(high_.x, p.x), std::max(high_.y, p.y)};
    }
    // The upper right edge of its box is on the eye's side, whatever the middle holds.
    middles_.push_back(seen({b.high.x, b.high.y, (b.low.z + b.high.z) / 2}));
  }
  scale_ = scale_within(high_.x - low_.x, high_.y - low_.y, room);
}

Length SetApart::height() const { return scale_ * (high_.y - low_.y) + 4 * mm; }

void SetApart::draw(Sheet& sheet, PagePoint corner) const {
  const Length width = scale_ * (high_.x - low_.x);
  const Length left = corner.x + (content_width - width) / 2;
  const View view{{left - scale_ * low_.x, corner.y + 2 * mm + scale_ * high_.y}, scale_};
  draw_solid(sheet, view, together_, backfit::View::oblique_rear, false);
  std::vector<Numbered> numbers;
  for (std::size_t i = 0; i < middles_.size(); ++i) numbers.push_back({i + 1, view(middles_[i])});
  draw_numbers(sheet, numbers, corner, height());
}

}  // namespace backfit::paper
