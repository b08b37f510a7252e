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
constexpr Length detail_height = 60 * mm, detail_words = 5 * mm;
constexpr double detail_scales[] = {10, 5, 2};
constexpr double slender = 6;     // length over thickness from which details are drawn
constexpr double round_it = 0.8;  // a detail's radius over the thickness
constexpr double in_ring = 0.65;  // half a square's side within a ring, over its radius

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
void draw_numbers(Sheet& sheet, std::vector<Numbered> all, PagePoint corner, Length height,
                  Length width = content_width) {
  // Half on each side, from above to below without crossing.
  std::ranges::sort(all, {}, [](const Numbered& n) { return n.tip.x; });
  const std::size_t half = all.size() / 2;
  std::vector<Numbered> left(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(half));
  std::vector<Numbered> right(all.begin() + static_cast<std::ptrdiff_t>(half), all.end());
  for (auto* side : {&left, &right}) {
    std::ranges::sort(*side, {}, [](const Numbered& n) { return n.tip.y; });
    const Length x = side == &left ? corner.x + number_radius : corner.x + width - number_radius;
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

// What of a closed outline lies on the side of `limit` where sign * coordinate <= sign * limit.
std::vector<PartPoint> cut_off(const std::vector<PartPoint>& outline, Length PartPoint::*axis,
                               double sign, Length limit) {
  std::vector<PartPoint> kept;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PartPoint &p = outline[i], &q = outline[(i + 1) % outline.size()];
    const Length over_p = sign * (p.*axis - limit), over_q = sign * (q.*axis - limit);
    if (over_p <= Length{}) kept.push_back(p);
    if ((over_p <= Length{}) == (over_q <= Length{})) continue;
    const double part = over_p / (over_p - over_q);
    kept.push_back({p.x + part * (q.x - p.x), p.y + part * (q.y - p.y)});
  }
  return kept;
}

// What of outlines lies in the square round `middle`.
std::vector<std::vector<PartPoint>> within(const std::vector<std::vector<PartPoint>>& outlines,
                                           const PartPoint& middle, Length half) {
  std::vector<std::vector<PartPoint>> seen;
  for (const auto& outline : outlines) {
    auto rest = cut_off(outline, &PartPoint::x, 1, middle.x + half);
    rest = cut_off(rest, &PartPoint::x, -1, middle.x - half);
    rest = cut_off(rest, &PartPoint::y, 1, middle.y + half);
    rest = cut_off(rest, &PartPoint::y, -1, middle.y - half);
    if (rest.size() >= 3) seen.push_back(std::move(rest));
  }
  return seen;
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
  if (pieces_.empty()) return;
  const Length across = high_.x - low_.x, up = high_.y - low_.y;
  scale_ = scale_within(across, up, room);
  const bool upright = up > across;
  const Length thick = std::min(across, up), length = std::max(across, up);
  if (pieces_.size() < 2 || length < slender * thick) return;
  const Length radius = round_it * thick;
  const auto* enlarged = std::ranges::find_if(
      detail_scales, [&](double scale) { return 2 * scale * radius <= detail_height; });
  if (enlarged == std::end(detail_scales) || *enlarged < 2 * scale_) return;
  // Where most pieces meet, and next to that where most corners lie.
  struct Spot {
    PartPoint middle;
    std::size_t pieces = 0, corners = 0;
  };
  std::vector<Spot> spots;
  for (Length along = 0.9 * radius; along <= length - 0.9 * radius; along += radius / 4) {
    Spot spot;
    spot.middle = upright ? PartPoint{(low_.x + high_.x) / 2, high_.y - along}
                          : PartPoint{low_.x + along, (low_.y + high_.y) / 2};
    for (const Cut& cut : pieces_) {
      const auto seen = within(cut.outlines, spot.middle, in_ring * radius);
      if (!seen.empty()) ++spot.pieces;
      for (const auto& outline : seen) spot.corners += outline.size();
    }
    spots.push_back(spot);
  }
  while (details_.size() < 2 && !spots.empty()) {
    const Spot best = *std::ranges::max_element(
        spots, {}, [](const Spot& s) { return std::pair(s.pieces, s.corners); });
    if (best.pieces < 2 || best.corners <= 4 * best.pieces) break;  // nothing but layers
    details_.push_back({best.middle, radius, *enlarged});
    std::erase_if(spots, [&](const Spot& s) {
      return hypot(s.middle.x - best.middle.x, s.middle.y - best.middle.y) < 2.2 * radius;
    });
  }
  std::ranges::sort(details_, {},
                    [&](const Detail& d) { return upright ? -1 * d.middle.y : d.middle.x; });
}

Length SetSection::whole_height() const { return scale_ * (high_.y - low_.y) + 4 * mm; }

Length SetSection::height() const {
  return whole_height() + (details_.empty() ? Length{} : detail_height + detail_words);
}

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

void SetSection::draw_cuts(Sheet& sheet, const View& view) const {
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    Path whole;
    for (const auto& outline : pieces_[i].outlines) whole += polygon(view(outline));
    const Angle angle = (i % 2 == 0 ? 45 : -45) * deg;
    sheet.hatch(whole, (i / 2 % 3 == 0 ? 1.6 : i / 2 % 3 == 1 ? 1.0 : 2.4) * mm, angle);
    sheet.stroke(whole, LineStyle::border);
  }
}

void SetSection::draw(Sheet& sheet, PagePoint corner) const {
  const Length width = scale_ * (high_.x - low_.x);
  const Length left = corner.x + (content_width - width) / 2;
  const View view{{left - scale_ * low_.x, corner.y + 2 * mm + scale_ * high_.y}, scale_};
  draw_cuts(sheet, view);
  for (std::size_t i = 0; i < details_.size(); ++i) {
    const Detail& d = details_[i];
    const std::string letter(1, static_cast<char>('A' + i));
    const PagePoint at = view(d.middle);
    sheet.stroke(circle(at, scale_ * d.radius), LineStyle::dimension);
    sheet.label({at.x + scale_ * d.radius + 1.2 * mm, at.y + 1.2 * mm}, letter,
                {.size = 9 * point, .bold = true});
    const Length column = content_width / static_cast<double>(details_.size());
    draw_detail(sheet, d, letter,
                {corner.x + static_cast<double>(i) * column, corner.y + whole_height()}, column);
  }
  std::vector<Numbered> numbers;
  for (const Cut& cut : pieces_) numbers.push_back({cut.number, view(inside(cut.outlines))});
  draw_numbers(sheet, numbers, corner, whole_height());
}

void SetSection::draw_detail(Sheet& sheet, const Detail& d, const std::string& letter,
                             PagePoint corner, Length width) const {
  const PagePoint middle{corner.x + width / 2, corner.y + detail_words + detail_height / 2};
  const View view{{middle.x - d.scale * d.middle.x, middle.y + d.scale * d.middle.y}, d.scale};
  sheet.label({middle.x, corner.y + 3 * mm}, fmt::format("{} ({:g}:1)", letter, d.scale),
              {.size = 9 * point, .bold = true, .align = Align::centre});
  const Path ring = circle(middle, d.scale * d.radius);
  Sheet inside_ring(sheet.fonts());
  draw_cuts(inside_ring, view);
  sheet.inset(ring, std::move(inside_ring));
  sheet.stroke(ring, LineStyle::dimension);
  std::vector<Numbered> numbers;
  for (const Cut& cut : pieces_) {
    const auto seen = within(cut.outlines, d.middle, in_ring * d.radius);
    if (!seen.empty()) numbers.push_back({cut.number, view(inside(seen))});
  }
  const Length air = 4 * mm;
  draw_numbers(sheet, numbers, {corner.x + air, corner.y + detail_words}, detail_height,
               width - 2 * air);
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
