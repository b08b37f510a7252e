// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/plate_design.hpp"
#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/drawing.hpp"
#include "documents/plate_cut.hpp"
#include "documents/plate_mass.hpp"
#include "documents/solid_drawing.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length row = 7 * mm, first_row = 8 * mm;  // dimension lines
constexpr Length beside = 27 * mm;                  // three dimension lines left of the view
constexpr Length check_width = 64 * mm;

// Room for the view itself, and for the section's length.
constexpr Length view_width = content_width - check_width - beside - 18 * mm;
constexpr Length view_height = 100 * mm;

double scale_within(Length width, Length height) {
  for (const double denominator : {1.0, 2.0, 3.0, 4.0, 5.0, 10.0, 20.0, 50.0}) {
    const double scale = 1 / denominator;
    if (scale * width <= view_width && scale * height <= view_height) return scale;
  }
  return 1.0 / 100;
}

void draw_axes(Sheet& sheet, const View& view, const BackPlate& plate) {
  const Length x = plate.width / 2, y = plate.height / 2, past = 3 * mm / view.scale;
  for (const double way : {1.0, -1.0}) {
    sheet.stroke(polyline(view(std::vector<PartPoint>{{}, {way * (x + past), 0 * mm}})),
                 LineStyle::centre);
    sheet.stroke(polyline(view(std::vector<PartPoint>{{}, {0 * mm, way * (y + past)}})),
                 LineStyle::centre);
  }
}

// A symmetric size between two sides that reach `reach` across it, its dimension line in a row
// beyond the plate's edge: above or to the right for `side` 1, else below or to the left.
void span(Sheet& sheet, const View& view, const BackPlate& plate, Along along, FrameSize size,
          int line, double side) {
  const bool x = along == Along::x;
  const Length half = (x ? size.width : size.height) / 2;
  const Length reach = (x ? size.height : size.width) / 2;
  const Length edge = (x ? plate.height : plate.width) / 2;
  const auto at = [&](Length s) {
    return x ? PartPoint{s, side * reach} : PartPoint{side * reach, s};
  };
  const Length offset = view(edge - reach) + first_row + line * row;
  dimension(sheet, view, {at(-half), at(half), along, side * offset, in_mm(2 * half, 2)});
}

struct Extent {
  Length low, high;
};
template <class Coordinate>
Extent extent(const std::vector<PlatePoint>& places, Coordinate coordinate) {
  Extent e{largest_size, -largest_size};
  for (const PlatePoint& p : places) {
    e = {std::min(e.low, coordinate(p)), std::max(e.high, coordinate(p))};
  }
  return e;
}

// Between the outermost holes, below and to the right of the view.
void hole_spans(Sheet& sheet, const View& view, const BackPlate& plate,
                const std::vector<PlatePoint>& places, int line) {
  if (places.empty()) return;
  const Length bottom = -plate.height / 2, right = plate.width / 2;
  const Extent x = extent(places, [](const PlatePoint& p) { return p.x; });
  const Extent y = extent(places, [](const PlatePoint& p) { return p.y; });
  const Length offset = first_row + line * row;
  if (x.high - x.low > 0.01 * mm) {
    dimension(sheet, view,
              {{x.low, bottom}, {x.high, bottom}, Along::x, -offset, in_mm(x.high - x.low, 2)});
  }
  if (y.high - y.low > 0.01 * mm) {
    dimension(sheet, view,
              {{right, y.low}, {right, y.high}, Along::y, offset, in_mm(y.high - y.low, 2)});
  }
}

void mark_holes(Sheet& sheet, const View& view, const BackPlate& plate,
                const BackPlate::CountersunkHoles& holes, const std::string& letter) {
  const TextStyle style{.size = 6 * point, .align = Align::centre};
  for (std::size_t i = 0; i < holes.places.size(); ++i) {
    const PlatePoint& p = holes.places[i];
    const PagePoint at = view({p.x, p.y});
    centre_cross(sheet, at, view(holes.head_diameter) / 2);
    const std::string name = letter + std::to_string(i + 1);
    const Length half = sheet.fonts().size(name, style).width / 2;
    const Length outwards = plate.width / 2 - abs(p.x);
    const Length inwards = abs(p.x) - plate.tongue.inner_width / 2 - plate.tongue.wall;
    const double out = (p.x > 0 * mm) == (outwards > inwards) ? 1 : -1;
    const PagePoint foot{at.x + out * (half + 0.6 * mm),
                         at.y - view(holes.head_diameter) / 2 - 0.9 * mm};
    sheet.fill(rectangle({foot.x - half, foot.y + 0.3 * mm}, {foot.x + half, foot.y - 2.1 * mm}),
               Ink::white);
    sheet.label(foot, name, style);
  }
}

void draw_view(Sheet& sheet, const View& view, const BackPlate& plate, const Solid& body) {
  draw_axes(sheet, view, plate);
  draw_solid(sheet, view, body, backfit::View::rear);
  const Length wall = 2 * plate.tongue.wall;
  const FrameSize sizes[] = {{plate.window_width, plate.window_height},
                             {plate.tongue.inner_width + wall, plate.tongue.inner_height + wall},
                             {plate.width, plate.height}};
  for (int i = 0; i < 3; ++i) {
    span(sheet, view, plate, Along::x, sizes[i], i, 1);
    span(sheet, view, plate, Along::y, sizes[i], i, -1);
  }
  hole_spans(sheet, view, plate, plate.screws.places, 0);
  hole_spans(sheet, view, plate, plate.fence.places, 1);
  mark_holes(sheet, view, plate, plate.screws, "S");
  mark_holes(sheet, view, plate, plate.fence, "F");
}

// What is read inside the window, where nothing is drawn.
void draw_callouts(Sheet& sheet, const View& view, const BackPlate& plate, double scale) {
  const Length width = view(plate.window_width) - 8 * mm;
  if (width < 25 * mm) return;
  const BackPlate::RibGroove& g = plate.rib_groove;
  std::string words = fmt::format("Rear face, seen from behind, scale 1:{:g}", 1 / scale);
  words += fmt::format("\n\nOutline corners R{}, tongue corners R{} inside",
                       in_mm(plate.corner_radius, 2), in_mm(plate.tongue.inner_corner_radius, 2));
  words += fmt::format("\n\nRib groove {} × {}, {} deep, centre {} {} the axis", in_mm(g.size_x, 2),
                       in_mm(g.size_y, 2), in_mm(g.depth, 2),
                       in_mm(g.centre.y != 0 * mm ? abs(g.centre.y) : abs(g.centre.x), 2),
                       g.centre.y > 0 * mm   ? "above"
                       : g.centre.y < 0 * mm ? "below"
                       : g.centre.x < 0 * mm ? "left of"
                                             : "right of");
  const Length height = sheet.fonts().size(words, small_text, width).height;
  const PagePoint at = view(PartPoint{});
  if (height + 4 * mm > view(plate.window_height)) return;
  TextStyle style = small_text;
  style.align = Align::centre;
  sheet.fill(rectangle({at.x - width / 2, at.y - height / 2 - 1 * mm},
                       {at.x + width / 2, at.y + height / 2 + 1 * mm}),
             Ink::white);
  sheet.text({at.x - width / 2, at.y - height / 2}, words, style, width);
}

Table check_table(const BackPlate& p) {
  Table table{{{"Check, mm", 32 * mm}, {"drawing", 17 * mm, Align::right}, {"print", 15 * mm}}, {}};
  const auto add = [&](const std::string& what, Length value) {
    table.rows.push_back({what, fixed(value / mm, 2), ""});
  };
  add("thickness", p.thickness);
  add("outline, width", p.width);
  add("outline, height", p.height);
  add("window, width", p.window_width);
  add("window, height", p.window_height);
  add("tongue outer width", p.tongue.inner_width + 2 * p.tongue.wall);
  add("tongue outer height", p.tongue.inner_height + 2 * p.tongue.wall);
  add("tongue inner width", p.tongue.inner_width);
  add("tongue inner height", p.tongue.inner_height);
  add("tongue, wall", p.tongue.wall);
  add("tongue, depth", p.tongue.depth);
  add("rib groove, width", std::min(p.rib_groove.size_x, p.rib_groove.size_y));
  add("rib groove, length", std::max(p.rib_groove.size_x, p.rib_groove.size_y));
  add("rib groove, depth", p.rib_groove.depth);
  if (!p.screws.places.empty()) add("screw holes, ⌀", p.screws.hole_diameter);
  if (!p.fence.places.empty()) add("fence holes, ⌀", p.fence.hole_diameter);
  if (p.lugs) {
    add("lugs, neck behind recess", p.thickness - p.lugs->recess);
    add("lugs, neck's length", p.lugs->neck_length);
    add("lugs, over both heads", p.lugs->at_sides ? p.overall_width() : p.overall_height());
  }
  return table;
}

// --- Section, turned so that it lies as it prints ---

struct Strip {
  Along along;       // which way the section runs: through the rib groove
  Length low, high;  // of the plate's x or y
  double scale;
};

Strip strip_of(const BackPlate& p) {
  const Along along = p.rib_groove.size_x > p.rib_groove.size_y ? Along::y : Along::x;
  const bool y = along == Along::y;
  const Length edge = (y ? p.height : p.width) / 2;
  const Length low = std::max((y ? p.window_height : p.window_width) / 2 - 0.5 * mm, 0 * mm);
  const Length middle = y ? p.rib_groove.centre.y : p.rib_groove.centre.x;
  const double side = middle < 0 * mm ? -1 : 1;
  double scale = 1;
  for (const double s : {5.0, 4.0, 3.0, 2.0, 1.0, 0.5, 0.2, 0.1}) {
    scale = s;
    if (s * (edge - low) <= content_width - 34 * mm &&
        s * (p.thickness + p.tongue.depth) <= 36 * mm) {
      break;
    }
  }
  return side > 0 ? Strip{along, low, edge, scale} : Strip{along, -edge, -low, scale};
}

constexpr Length strip_above = 14 * mm, strip_below = 19 * mm;

Length strip_height(const BackPlate& p) {
  return strip_above + strip_of(p).scale * (p.thickness + p.tongue.depth) + strip_below;
}

// The section's places along it run to the right, the rear face lies below.
void draw_strip(Sheet& sheet, PagePoint at, const BackPlate& p) {
  const Strip s = strip_of(p);
  const bool y = s.along == Along::y;
  const Length t = p.thickness;
  const View view{
      {at.x + 14 * mm - s.scale * s.low, at.y + strip_above + s.scale * (t + p.tongue.depth)},
      s.scale};
  Sheet inside(sheet.fonts());
  for (const std::vector<PartPoint>& piece : cut_pieces(p, s.along)) {
    std::vector<PartPoint> turned;
    turned.reserve(piece.size());
    for (const PartPoint& q : piece) turned.push_back({q.y, t - q.x});
    inside.hatch(polygon(view(turned)), 1.4 * mm, 45 * deg);
    inside.stroke(polygon(view(turned)), LineStyle::outline);
  }
  const PagePoint low = view({s.low, t + p.tongue.depth}), high = view({s.high, 0 * mm});
  sheet.inset(rectangle({low.x, low.y - 1 * mm}, {high.x + 1 * mm, high.y + 1 * mm}),
              std::move(inside));
  TextStyle caption = small_text;
  caption.bold = true;
  sheet.label(
      {at.x, at.y + 3 * mm},
      fmt::format(
          "Section through the middle, from the window to the {} edge, as it prints: "
          "rear face down, scale {}",
          y ? (s.high > 0 * mm ? "upper" : "lower") : (s.high > 0 * mm ? "right" : "left"),
          s.scale >= 1 ? fmt::format("{:g}:1", s.scale) : fmt::format("1:{:g}", 1 / s.scale)),
      caption);
  const double side = s.high > 0 * mm ? 1 : -1;
  const Length end = side > 0 ? s.high : s.low;
  const Length inner = side * (y ? p.tongue.inner_height : p.tongue.inner_width) / 2;
  const Length outer = inner + side * p.tongue.wall;
  const BackPlate::RibGroove& g = p.rib_groove;
  const Length middle = y ? g.centre.y : g.centre.x, half = (y ? g.size_y : g.size_x) / 2;
  const auto across = [&](Length from, Length to, Length z, Length offset, Length value) {
    dimension(sheet, view, {{from, z}, {to, z}, Along::x, offset, in_mm(value, 2)});
  };
  across(inner, outer, t + p.tongue.depth, 5 * mm, p.tongue.wall);
  dimension(sheet, view,
            {{middle - half, 0 * mm},
             {middle + half, 0 * mm},
             Along::x,
             -6 * mm,
             fmt::format("{} × {} deep", in_mm(2 * half, 2), in_mm(g.depth, 2))});
  across(middle + side * half, end, 0 * mm, -13 * mm, abs(end - middle) - half);
  const auto up = [&](Length x, Length from, Length to, Length offset) {
    dimension(sheet, view, {{x, from}, {x, to}, Along::y, offset, in_mm(to - from, 2)});
  };
  up(end, 0 * mm, t, side * 7 * mm);
  up(std::min(inner, outer), t, t + p.tongue.depth, -6 * mm);
}

Table hole_table(const BackPlate& p) {
  struct Hole {
    std::string name;
    PlatePoint at;
  };
  std::vector<Hole> holes;
  const auto add = [&](const std::vector<PlatePoint>& places, const std::string& letter) {
    for (std::size_t i = 0; i < places.size(); ++i) {
      holes.push_back({letter + std::to_string(i + 1), places[i]});
    }
  };
  add(p.screws.places, "S");
  add(p.fence.places, "F");
  Table table;
  constexpr std::size_t across = 4;
  for (std::size_t i = 0; i < across; ++i) {
    if (i > 0) table.columns.push_back({"", 5 * mm});
    table.columns.push_back({"hole", 11.25 * mm});
    table.columns.push_back({"x, mm", 15 * mm, Align::right});
    table.columns.push_back({"y, mm", 15 * mm, Align::right});
  }
  for (std::size_t i = 0; i < holes.size(); i += across) {
    std::vector<std::string> cells;
    for (std::size_t k = i; k < i + across; ++k) {
      const bool there = k < holes.size();
      if (k > i) cells.emplace_back();
      cells.push_back(there ? holes[k].name : "");
      cells.push_back(there ? place_mm(holes[k].at.x) : "");
      cells.push_back(there ? place_mm(holes[k].at.y) : "");
    }
    table.rows.push_back(std::move(cells));
  }
  return table;
}

std::string lug_words(const BackPlate& p) {
  if (!p.lugs) return {};
  const StrapLugs& l = *p.lugs;
  std::string places;
  for (const Length at : l.at) places += (places.empty() ? "" : " and ") + place_mm(at);
  return fmt::format(
      "Strap lugs on the {} edges, middles at {} = {}: neck {} × {}, recessed {} in the front "
      "face; head {} × {}, R{}. ",
      l.at_sides ? "left and right" : "upper and lower", l.at_sides ? "y" : "x", places,
      in_mm(l.neck_width, 2), in_mm(l.neck_length, 2), in_mm(l.recess, 2), in_mm(l.head_width, 2),
      in_mm(l.head_length, 2), in_mm(l.corner_radius, 2));
}

std::string hole_words(const BackPlate& p) {
  const auto words = [](const BackPlate::CountersunkHoles& h, const std::string& letter,
                        const std::string& face) {
    return h.places.empty()
               ? std::string()
               : fmt::format("{}: ⌀{} through, head ⌀{} × 90° in the {} face. ", letter,
                             in_mm(h.hole_diameter, 2), in_mm(h.head_diameter, 2), face);
  };
  return words(p.screws, "S, screws to the seat", "rear") +
         words(p.fence, "F, fence screws", "front (seat)") + lug_words(p) +
         "Places from the optical axis, x right, y up, seen from behind.";
}

std::string print_words(const Report& report) {
  const Assembly& a = report.assembly;
  const Printer& printer = *a.plan.printer;
  const std::optional<Mass> mass = plate_mass(a);
  return fmt::format(
      "Print: rear face on the bed, tongue up, no supports, no brim in the window, solid. {}, {}; "
      "nozzle {}, layers of {}, smallest wall {}. Thickness enters the register: counted with "
      "± {} mm.",
      *a.material->name, mass ? fixed(*mass / gram, 0) + " g" : std::string("mass not known"),
      text(*printer.nozzle, 1), text(*printer.layer_height, 2), text(smallest_wall(printer), 1),
      fixed(printer.error->half_width / mm, 2));
}

}  // namespace

void add_part(Flow& flow, const Report& report, const Solid& body) {
  const BackPlate& plate = *report.assembly.plate;
  const double scale = scale_within(plate.overall_width(), plate.overall_height());
  const Table check = check_table(plate);
  Length check_height = head_height(flow.fonts(), check);
  for (std::size_t i = 0; i < check.rows.size(); ++i) {
    check_height += row_height(flow.fonts(), check, i);
  }
  const Length above = first_row + 2 * row + 5 * mm, below = first_row + row + 3 * mm;
  const Length height = std::max(above + scale * plate.height + below, check_height);
  flow.new_page();
  flow.heading("The part: back plate");
  flow.block(height, [=, &plate, &body](Sheet& sheet, PagePoint at) {
    const Length middle = beside + view_width / 2;
    const View view{{at.x + middle, at.y + above + scale * plate.height / 2}, scale};
    draw_view(sheet, view, plate, body);
    draw_callouts(sheet, view, plate, scale);
    draw(sheet, PagePoint{at.x + content_width - check_width, at.y}, check);
  });
  flow.block(strip_height(plate),
             [&plate](Sheet& sheet, PagePoint at) { draw_strip(sheet, at, plate); });
  flow.paragraph(print_words(report), small_text);
  flow.paragraph(hole_words(plate), small_text);
  flow.table(hole_table(plate));
}

}  // namespace backfit::paper
