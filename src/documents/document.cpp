// SPDX-License-Identifier: MIT
#include "documents/document.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <cassert>
#include <stdexcept>

#include "documents/pdf.hpp"

namespace backfit::paper {

namespace {

struct Release {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Canvas = std::unique_ptr<cairo_t, Release>;
using Surface = std::unique_ptr<cairo_surface_t, Release>;

void check(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(std::string("drawing failed: ") + cairo_status_to_string(status));
  }
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void set_ink(cairo_t* cairo, Ink ink, double opacity = 1) {
  switch (ink) {
    case Ink::black:
      return cairo_set_source_rgba(cairo, 0, 0, 0, opacity);
    case Ink::grey:
      return cairo_set_source_rgba(cairo, 0.35, 0.35, 0.35, opacity);
    case Ink::accent:
      return cairo_set_source_rgba(cairo, 0.66, 0.16, 0.08, opacity);
    case Ink::white:
      return cairo_set_source_rgba(cairo, 1, 1, 1, opacity);
  }
}

void set_line(cairo_t* cairo, LineStyle style) {
  constexpr double dashed[] = {3, 1.2};
  constexpr double chain[] = {6, 1, 0.6, 1};
  constexpr double double_chain[] = {6, 1, 0.6, 1, 0.6, 1};
  cairo_set_line_width(cairo, line_width(style).in(mm));
  switch (style) {
    case LineStyle::hidden:
      return cairo_set_dash(cairo, dashed, 2, 0);
    case LineStyle::centre:
      return cairo_set_dash(cairo, chain, 4, 0);
    case LineStyle::adjacent:
      return cairo_set_dash(cairo, double_chain, 6, 0);
    case LineStyle::outline:
    case LineStyle::border:
    case LineStyle::dimension:
      return cairo_set_dash(cairo, nullptr, 0, 0);
  }
}

void trace(cairo_t* cairo, const Path& path) {
  cairo_new_path(cairo);
  for (const Path::Chain& chain : path.chains) {
    cairo_move_to(cairo, chain.start.x.in(mm), chain.start.y.in(mm));
    for (const Path::Segment& s : chain.segments) {
      if (s.straight) {
        cairo_line_to(cairo, s.end.x.in(mm), s.end.y.in(mm));
      } else {
        cairo_curve_to(cairo, s.control_1.x.in(mm), s.control_1.y.in(mm), s.control_2.x.in(mm),
                       s.control_2.y.in(mm), s.end.x.in(mm), s.end.y.in(mm));
      }
    }
    if (chain.closed) cairo_close_path(cairo);
  }
}

const char* tag_of(Role role) {
  switch (role) {
    case Role::title:
      return "H1";
    case Role::heading:
      return "H2";
    case Role::paragraph:
      break;
  }
  return "P";
}

struct Painter {
  cairo_t* cairo;
  const Fonts& fonts;
  bool tagged;

  void operator()(const Stroke& stroke) const {
    trace(cairo, stroke.path);
    set_line(cairo, stroke.style);
    set_ink(cairo, stroke.ink);
    cairo_stroke(cairo);
  }

  void operator()(const Fill& fill) const {
    trace(cairo, fill.path);
    set_ink(cairo, fill.ink, fill.opacity);
    cairo_fill(cairo);
  }

  void operator()(const Hatch& hatch) const {
    trace(cairo, hatch.path);
    double left = 0, top = 0, right = 0, bottom = 0;
    cairo_path_extents(cairo, &left, &top, &right, &bottom);
    cairo_clip(cairo);
    // Lines where n . p is a multiple of the spacing, n being their normal, so that all
    // hatching on a page is in step.
    const double nx = sin(hatch.angle), ny = cos(hatch.angle), step = hatch.spacing.in(mm);
    const double middle_x = (left + right) / 2, middle_y = (top + bottom) / 2;
    const double half = std::hypot(right - left, bottom - top) / 2;
    const double middle = nx * middle_x + ny * middle_y;
    cairo_new_path(cairo);
    for (double k = std::ceil((middle - half) / step); k * step <= middle + half; ++k) {
      const double x = middle_x + (k * step - middle) * nx;
      const double y = middle_y + (k * step - middle) * ny;
      cairo_move_to(cairo, x - half * ny, y + half * nx);
      cairo_line_to(cairo, x + half * ny, y - half * nx);
    }
    set_line(cairo, LineStyle::dimension);
    set_ink(cairo, Ink::black);
    cairo_stroke(cairo);
  }

  void operator()(const Words& words) const {
    const bool read_aloud = tagged && words.width.has_value();
    cairo_translate(cairo, words.at.x.in(mm), words.at.y.in(mm));
    cairo_rotate(cairo, -words.turn.in(rad));
    set_ink(cairo, words.style.ink);
    if (read_aloud) cairo_tag_begin(cairo, tag_of(words.style.role), nullptr);
    fonts.draw(cairo, words.text, words.style, words.width);
    if (read_aloud) cairo_tag_end(cairo, tag_of(words.style.role));
  }

  void operator()(const Inset& inset) const {
    trace(cairo, inset.frame);
    cairo_clip(cairo);
    paint(*inset.inside);
  }

  void paint(const Sheet& sheet) const {
    for (const Mark& mark : sheet.marks()) {
      cairo_save(cairo);
      std::visit(*this, mark);
      cairo_restore(cairo);
    }
  }
};

// cairo names the group of the whole page by how many surfaces the process has made so far.
std::string without_counter(std::string svg) {
  const std::string name = " id=\"surface";
  const std::size_t at = svg.find(name);
  if (at != std::string::npos) svg.erase(at, svg.find('"', at + name.size()) + 1 - at);
  return svg;
}

constexpr double points_per_mm = mm / point;
constexpr double page_width_points = page_width / point;
constexpr double page_height_points = page_height / point;

Sheet running(const Fonts& fonts, const RunningWords& words, std::size_t index, std::size_t count) {
  Sheet sheet(fonts);
  const Length left = margin, right = page_width - margin;
  TextStyle at_left = small_text, at_right = small_text;
  at_right.align = Align::right;
  sheet.label({left, 13 * mm}, words.title, at_left);
  sheet.label({right, 13 * mm}, words.head_right, at_right);
  sheet.stroke(polyline({{left, 15.5 * mm}, {right, 15.5 * mm}}), LineStyle::dimension);
  sheet.label({left, 286 * mm}, words.foot, at_left);
  sheet.label({right, 286 * mm},
              "Page " + std::to_string(index + 1) + " of " + std::to_string(count), at_right);
  return sheet;
}

}  // namespace

Document::Document(const std::filesystem::path& font_folder, RunningWords words)
    : fonts_(font_folder), words_(std::move(words)) {}

Sheet& Document::add_page() { return pages_.emplace_back(fonts_); }

void Document::paint(cairo_t* cairo, std::size_t index, bool tagged) const {
  assert(index < pages_.size());
  const Painter painter{cairo, fonts_, tagged};
  const Sheet around = running(fonts_, words_, index, pages_.size());
  cairo_set_fill_rule(cairo, CAIRO_FILL_RULE_EVEN_ODD);
  painter.paint(around);
  painter.paint(pages_[index]);
  cairo_show_page(cairo);
  check(cairo_status(cairo));
}

std::string Document::pdf() const {
  assert(!pages_.empty());
  std::string bytes;
  const Surface surface(
      cairo_pdf_surface_create_for_stream(append, &bytes, page_width_points, page_height_points));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, words_.title.c_str());
  // Not a date, hence left out: a time stamp would make each run's bytes differ.
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "none");
  const Canvas canvas(cairo_create(surface.get()));
  cairo_scale(canvas.get(), points_per_mm, points_per_mm);
  for (std::size_t i = 0; i < pages_.size(); ++i) paint(canvas.get(), i, true);
  cairo_surface_finish(surface.get());
  check(cairo_surface_status(surface.get()));
  return with_true_size_printing(std::move(bytes));
}

std::string Document::svg(std::size_t index) const {
  return svg(index, {}, page_width, page_height);
}

std::string Document::svg(std::size_t index, PagePoint corner, Length width, Length height) const {
  std::string bytes;
  const Surface surface(
      cairo_svg_surface_create_for_stream(append, &bytes, width.in(mm), height.in(mm)));
  cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_MM);
  const Canvas canvas(cairo_create(surface.get()));
  cairo_translate(canvas.get(), -corner.x.in(mm), -corner.y.in(mm));
  paint(canvas.get(), index, false);
  cairo_surface_finish(surface.get());
  check(cairo_surface_status(surface.get()));
  return without_counter(std::move(bytes));
}

std::string Document::png(std::size_t index, Length pixel) const {
  assert(pixel >= 0.01 * mm);
  const Surface surface(cairo_image_surface_create(
      CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(page_width / pixel)),
      static_cast<int>(std::lround(page_height / pixel))));
  check(cairo_surface_status(surface.get()));
  const Canvas canvas(cairo_create(surface.get()));
  set_ink(canvas.get(), Ink::white);
  cairo_paint(canvas.get());
  cairo_scale(canvas.get(), mm / pixel, mm / pixel);
  paint(canvas.get(), index, false);
  std::string bytes;
  check(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
  return bytes;
}

}  // namespace backfit::paper
