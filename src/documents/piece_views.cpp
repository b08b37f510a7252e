// SPDX-License-Identifier: MIT
#include "documents/piece_views.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

#include "documents/document.hpp"
#include "documents/solid_drawing.hpp"

namespace backfit::paper {
namespace {

constexpr Length row = 7 * mm, first_row = 8 * mm;  // dimension lines
constexpr Length label_room = 4 * mm;               // beyond the outermost
constexpr Length between = 12 * mm;                 // two views
constexpr Length least_label = 11 * mm;             // paper that a dimension takes at least

// ISO 5455, and 1:3 and 1:4, which a sheet of A4 wants now and then.
constexpr double scales[] = {2, 1, 1.0 / 2, 1.0 / 3, 1.0 / 4, 1.0 / 5, 1.0 / 10, 1.0 / 20};

PartPoint seen(const Point3& p, PieceView view) {
  switch (view) {
    case PieceView::above:
      return {p.x, p.y};
    case PieceView::front:
      return {p.x, p.z};
    case PieceView::right:
      return {-p.z, p.y};
  }
  return {};
}

Length rows_room(int rows) { return rows > 0 ? first_row + (rows - 1) * row + label_room : 3 * mm; }

// Shorter spans nearer the view; those that don't meet share a row. Returns how many rows.
template <class Spans>
int put_in_rows(Spans& spans, double scale) {
  const auto low = [](const auto& s) {
    return s.along == Along::x ? std::min(s.from.x, s.to.x) : std::min(s.from.y, s.to.y);
  };
  const auto high = [](const auto& s) {
    return s.along == Along::x ? std::max(s.from.x, s.to.x) : std::max(s.from.y, s.to.y);
  };
  std::ranges::stable_sort(
      spans, [&](const auto& a, const auto& b) { return high(a) - low(a) < high(b) - low(b); });
  int rows = 0;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const auto room = [&](const auto& s) {
      const Length more =
          std::max(Length{}, (least_label / scale - (high(s) - low(s))) / 2) + 2 * mm / scale;
      return std::pair{low(s) - more, high(s) + more};
    };
    const auto [from, to] = room(spans[i]);
    spans[i].row = 0;
    for (std::size_t k = 0; k < i; ++k) {
      const auto [other_from, other_to] = room(spans[k]);
      if (from < other_to && other_from < to)
        spans[i].row = std::max(spans[i].row, spans[k].row + 1);
    }
    rows = std::max(rows, spans[i].row + 1);
  }
  return rows;
}

}  // namespace

PieceViews::Face& PieceViews::face(PieceView view) {
  switch (view) {
    case PieceView::above:
      return above_;
    case PieceView::front:
      return front_;
    case PieceView::right:
      break;
  }
  return right_;
}

PieceViews::PieceViews(const Piece& piece, Length room)
    : drawn_(piece.drawn), hidden_(piece.hidden_lines) {
  const Bounds b = bounds_of(piece.drawn);
  const Length x = b.high.x - b.low.x, y = b.high.y - b.low.y, z = b.high.z - b.low.z;
  above_ = {b.low.x, b.low.y, x, y, {}, {}};
  front_ = {b.low.x, b.low.z, x, z, {}, {}};
  right_ = {-b.high.z, b.low.y, z, y, {}, {}};
  has_front_ = !piece.flat;
  add_sizes(piece);
  if (!front_.across.empty() || !front_.up.empty()) has_front_ = true;
  // The outside, unless a size says it.
  const auto add_outside = [](std::vector<Span>& spans, const Span& outside, Length length) {
    const auto says_it = [&](const Span& s) {
      const Length l = s.along == Along::x ? abs(s.to.x - s.from.x) : abs(s.to.y - s.from.y);
      return abs(l - length) < 0.005 * mm;
    };
    if (std::ranges::none_of(spans, says_it)) spans.push_back(outside);
  };
  add_outside(above_.across, {{b.low.x, b.high.y}, {b.high.x, b.high.y}, Along::x, in_mm(x, 2)}, x);
  add_outside(above_.up, {{b.low.x, b.low.y}, {b.low.x, b.high.y}, Along::y, in_mm(y, 2)}, y);
  if (has_front_) {
    add_outside(front_.up, {{b.high.x, b.low.z}, {b.high.x, b.high.z}, Along::y, in_mm(z, 2)}, z);
  }
  for (const double scale : scales) {
    scale_ = scale;
    for (Face* f : {&above_, &front_, &right_}) {
      f->rows_across = put_in_rows(f->across, scale);
      f->rows_up = put_in_rows(f->up, scale);
    }
    if (fits(scale, room)) break;
  }
}

void PieceViews::add_sizes(const Piece& piece) {
  for (const PieceSize& size : piece.sizes) {
    if (!size.shown) continue;
    const PartPoint from = seen(size.shown->from, size.shown->view);
    const PartPoint to = seen(size.shown->to, size.shown->view);
    const bool across = abs(to.x - from.x) > abs(to.y - from.y);
    assert(abs((across ? abs(to.x - from.x) : abs(to.y - from.y)) - size.value) < 0.01 * mm);
    Face& f = face(size.shown->view);
    std::string label = (size.round ? "⌀" : "") + in_mm(size.value, 2);
    if (size.within) label += " ±" + in_mm(*size.within, 2);
    (across ? f.across : f.up)
        .push_back({from, to, across ? Along::x : Along::y, std::move(label)});
    if (size.shown->view == PieceView::right) has_right_ = true;
  }
}

Length PieceViews::width_at(double scale) const {
  Length beside_front = has_front_ ? rows_room(front_.rows_up) : Length{};
  Length beside_above =
      has_right_ ? between + scale * right_.width + rows_room(right_.rows_up) : Length{};
  return rows_room(above_.rows_up) + scale * above_.width + std::max(beside_front, beside_above);
}

Length PieceViews::height_at(double scale) const {
  const int rows =
      has_right_ ? std::max(above_.rows_across, right_.rows_across) : above_.rows_across;
  Length height = rows_room(rows) + scale * above_.height;
  if (has_front_) height += between + scale * front_.height + rows_room(front_.rows_across);
  return height + (has_front_ ? 2 : 5) * mm;  // the centre line reaches below a single view
}

bool PieceViews::fits(double scale, Length room) const {
  return width_at(scale) <= content_width && height_at(scale) <= room;
}

Length PieceViews::height() const { return height_at(scale_); }

std::string PieceViews::scale_words() const {
  return scale_ >= 1 ? fmt::format("{:g}:1", scale_) : fmt::format("1:{:g}", 1 / scale_);
}

void PieceViews::draw_face(Sheet& sheet, const Face& f, PagePoint corner, double side_across,
                           double side_up, bool centre_lines) const {
  const View view{{corner.x - scale_ * f.low_x, corner.y + scale_ * (f.low_y + f.height)}, scale_};
  const backfit::View eye = &f == &above_   ? backfit::View::rear
                            : &f == &right_ ? backfit::View::right
                                            : backfit::View::top;
  // From -y: half a turn about x shows the side that lay there, z up.
  draw_solid(sheet, view, &f == &front_ ? half_turned_about_x(drawn_) : drawn_, eye, hidden_);
  const Length high_x = f.low_x + f.width, high_y = f.low_y + f.height;
  if (centre_lines) {
    const Length past = 3 * mm / scale_;
    const Length x = f.low_x + f.width / 2, y = f.low_y + f.height / 2;
    sheet.stroke(polyline(view(std::vector<PartPoint>{{f.low_x - past, y}, {high_x + past, y}})),
                 LineStyle::centre);
    sheet.stroke(polyline(view(std::vector<PartPoint>{{x, f.low_y - past}, {x, high_y + past}})),
                 LineStyle::centre);
  }
  const auto draw_spans = [&](const std::vector<Span>& spans, double side) {
    for (const Span& s : spans) {
      const bool across = s.along == Along::x;
      const Length outer =
          across ? (side > 0 ? std::max(s.from.y, s.to.y) : std::min(s.from.y, s.to.y))
                 : (side > 0 ? std::max(s.from.x, s.to.x) : std::min(s.from.x, s.to.x));
      const Length edge = across ? (side > 0 ? high_y : f.low_y) : (side > 0 ? high_x : f.low_x);
      const Length offset = view(abs(edge - outer)) + first_row + s.row * row;
      dimension(sheet, view, {s.from, s.to, s.along, side * offset, s.label});
    }
  };
  draw_spans(f.across, side_across);
  draw_spans(f.up, side_up);
}

void PieceViews::draw(Sheet& sheet, PagePoint corner) const {
  const Length left = (content_width - width_at(scale_)) / 2 + rows_room(above_.rows_up);
  const int rows =
      has_right_ ? std::max(above_.rows_across, right_.rows_across) : above_.rows_across;
  const PagePoint at{corner.x + left, corner.y + rows_room(rows)};
  draw_face(sheet, above_, at, 1, -1, true);
  if (has_right_) {
    draw_face(sheet, right_, {at.x + scale_ * above_.width + between, at.y}, 1, 1, false);
  }
  if (has_front_) {
    draw_face(sheet, front_, {at.x, at.y + scale_ * above_.height + between}, -1, 1, false);
  }
}

}  // namespace backfit::paper
