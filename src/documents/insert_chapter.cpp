// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/plate_design.hpp"
#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/insert_mass.hpp"
#include "documents/solid_drawing.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length row = 7 * mm, first_row = 8 * mm;  // dimension lines
constexpr Length beside = 30 * mm;                  // left of the views
constexpr Length between = 24 * mm;                 // the views, with a dimension line or two

double scale_within(Length width, Length height) {
  for (const double denominator : {1.0, 2.0, 3.0, 4.0, 5.0, 10.0}) {
    if (width / denominator <= content_width - beside - 20 * mm &&
        height / denominator <= 150 * mm) {
      return 1 / denominator;
    }
  }
  return 1.0 / 20;
}

void across(Sheet& sheet, const View& view, Length from, Length to, Length at, Length offset) {
  dimension(sheet, view, {{from, at}, {to, at}, Along::x, offset, in_mm(abs(to - from), 2)});
}
void up(Sheet& sheet, const View& view, Length from, Length to, Length at, Length offset) {
  dimension(sheet, view, {{at, from}, {at, to}, Along::y, offset, in_mm(abs(to - from), 2)});
}

// From behind: the picture, the inside, the outside.
void draw_rear(Sheet& sheet, const View& view, const RollInsert& i, const Solid& body) {
  draw_solid(sheet, view, body, backfit::View::rear, false);
  const Length x = i.half_length(), y = i.half_width(), out = y + i.boss();
  const Length over = view(out - y);
  const Length frame = i.gate.frame_length / 2, inside = i.body.half_width;
  across(sheet, view, -frame, frame, y, over + first_row);
  across(sheet, view, i.spools.supply.x, i.spools.take_up.x, y, over + first_row + row);
  across(sheet, view, -x, x, y, over + first_row + 2 * row);
  up(sheet, view, -i.gate.frame_width / 2, i.gate.frame_width / 2, -x, -first_row);
  up(sheet, view, -inside, inside, -x, -first_row - row);
  up(sheet, view, -y, y, -x, -first_row - 2 * row);
  up(sheet, view, -out, out, x, first_row);
  centre_cross(sheet, view(PartPoint{}), 6 * mm);
}

// From the side, the lens below: y of the drawing is z.
void draw_side(Sheet& sheet, const View& view, const RollInsert& i, const Solid& body) {
  // Seen from +y the lens is above; half a turn about x brings it below.
  draw_solid(sheet, view, half_turned_about_x(body), backfit::View::top);
  const Length x = i.half_length();
  up(sheet, view, i.gate.front, i.body.back, -x, -first_row - row);
  up(sheet, view, {}, i.body.back, -x, -first_row);
  up(sheet, view, i.body.front, i.body.back, x, first_row);
  const Length low = i.gate.front;
  across(sheet, view, i.gate.rails_low, i.gate.rails_high, low, -first_row);
  across(sheet, view, -i.gate.spigot_half_length, i.gate.spigot_half_length, low, -first_row - row);
  for (const RollInsert::Roller& r : i.rollers) {
    centre_cross(sheet, view({r.centre.x, r.centre.z}), view(i.rod));
  }
  for (const SectionPoint& s : {i.spools.supply, i.spools.take_up}) {
    centre_cross(sheet, view({s.x, s.z}), view(i.spools.collar / 2));
  }
}

std::string file_of(const std::string& piece) {
  std::string name = "insert " + piece;
  std::ranges::replace(name, ' ', '-');
  return name;
}

// --- All pieces, as they lie on the bed ---

constexpr int columns = 3;
constexpr Length cell_height = 58 * mm, picture_height = 38 * mm;
constexpr Length cell_width = content_width / columns;

void draw_piece(Sheet& sheet, PagePoint at, const Assembly& a, const Piece& p) {
  const Bounds b = bounds_of(p.drawn);
  const Length x = b.high.x - b.low.x, y = b.high.y - b.low.y, z = b.high.z - b.low.z;
  // Upright on the page: z of the bed is up.
  const Solid standing = half_turned_about_x(quarter_turned_about_x(p.drawn));
  const Length wide = 0.71 * (x + y), high = 0.41 * (x + y) + 0.82 * z;
  const double scale =
      std::min({2.0, (cell_width - 8 * mm) / wide, (picture_height - 4 * mm) / high});
  const PagePoint foot{at.x + cell_width / 2, at.y + picture_height / 2 + scale * 0.41 * z};
  draw_solid(sheet, {foot, scale}, standing, backfit::View::oblique_front, false);
  TextStyle title = small_text;
  title.bold = true;
  const auto count = p.in_place.size();
  Length below = at.y + picture_height + 2 * mm;
  below += sheet.text({at.x + 2 * mm, below},
                      count > 1 ? fmt::format("{}, {} of them", p.name, count) : p.name, title,
                      cell_width - 4 * mm);
  const std::optional<Mass> mass = printed_mass_of(a, p.drawn);
  sheet.text({at.x + 2 * mm, below + 0.5 * mm},
             fmt::format("{} × {} × {} mm{}\nprints {}\n{}.3mf", in_mm(x), in_mm(y), in_mm(z),
                         mass ? fmt::format(", {} g", fixed(*mass / gram, 1)) : std::string(),
                         p.lies, file_of(p.name)),
             small_text, cell_width - 4 * mm);
}

// --- What to measure on the prints ---

Table check_table(const RollInsert& i) {
  Table table{{{"Piece", 32 * mm},
               {"Check, mm", 92 * mm},
               {"drawing", 25 * mm, Align::right},
               {"print", 31 * mm}},
              {}};
  const auto add = [&](const char* piece, const std::string& what, Length value) {
    table.rows.push_back({piece, what, fixed(value / mm, 2), ""});
  };
  const RollInsert::Spools& s = i.spools;
  const Length groove = i.trap.lip + 2 * i.gap;
  add("body", "from the floor's front to the rails (the film plane)", -i.gate.front);
  add("body", "rails to the pressure plate's seat", i.gate.seat);
  add("body", "between the cheeks", 2 * i.body.half_width);
  add("body", "floor in the old gate, along the film", 2 * i.gate.spigot_half_length);
  add("body", "floor in the old gate, across the film", 2 * i.gate.spigot_half_width);
  add("body", "bores of the cheeks, ⌀", s.journal + 2 * i.gap);
  add("body", "groove for the lid's lip, width", groove);
  add("body", "groove for the lid's lip, depth", i.trap.depth + i.gap);
  add("lid", "lip, thickness", i.trap.lip);
  add("lid", "lip, depth", i.trap.depth);
  add("pressure plate", "thickness", i.plate.thickness);
  add("pressure plate", "over its ears", 2 * (i.body.half_width + i.ear_groove() - i.gap));
  add("spool pin", "stub, ⌀", s.end_hole - 2 * i.gap);
  add("spool pin", "stub beyond the journal", s.stub + s.play);
  add("spool pin", "journal, ⌀", s.journal);
  add("spool pin", "collar, ⌀", s.collar);
  add("drive shaft", "key, length", s.slot_length - 2 * i.gap);
  add("drive shaft", "key, width", s.slot_width - 2 * i.gap);
  add("drive shaft", "tail, ⌀", i.knob.tail);
  add("knob", "diameter", i.knob.diameter);
  for (std::size_t k = 0; k < i.rollers.size(); ++k) {
    add("roller", fmt::format("{}, under the film, ⌀", k + 1), 2 * i.rollers[k].radius);
  }
  if (!i.rollers.empty()) add("roller", "bore, ⌀", i.rod + 2 * i.gap);
  return table;
}

std::string print_words(const Report& report) {
  const Assembly& a = report.assembly;
  const RollInsert& i = *report.insert->part;
  const Printer& printer = *a.plan.printer;
  const Length under = i.body.front - i.gate.front;
  return fmt::format(
      "Print solid, {}, nozzle {}, layers of {}, matt black if there is any; nothing needs support "
      "inside. {}The lid's words are engraved in the face on the bed. All that slides has {} a "
      "side, "
      "from the plan's clearance: print the gauge first, and if its peg wants another gap, mend "
      "the "
      "plan and make this sheet anew. No wall is under {}.",
      *a.material->name, text(*printer.nozzle, 1), text(*printer.layer_height, 2),
      under > *printer.layer_height
          ? fmt::format("The body stands on its floor; its ends, cheeks and screw blocks begin {} "
                        "above the bed: support those outside, from the bed only. ",
                        text(under, 1))
          : std::string(),
      text(i.gap), text(i.smallest_wall, 1));
}

}  // namespace

void add_insert_parts(Flow& flow, const Report& report, const std::vector<Piece>& pieces) {
  const RollInsert& i = *report.insert->part;
  const Solid& body = pieces.front().in_place.front();
  const Length width = 2 * i.half_length(), height = 2 * (i.half_width() + i.boss());
  const Length depth = i.body.back - i.gate.front;
  const double scale = scale_within(width, height);
  const Length above = first_row + 2 * row + 5 * mm, below = first_row + row + 4 * mm;
  flow.new_page();
  flow.heading("The insert: body");
  flow.paragraph(
      fmt::format(
          "Scale 1:{:g}. Upper view from behind, the film going to the right; lower view from "
          "the side, the lens below. The film plane is the rails' upper edge there.",
          1 / scale),
      small_text);
  flow.block(above + scale * height + between + scale * depth + below,
             [=, &i, &body](Sheet& sheet, PagePoint at) {
               const Length middle = at.x + beside + scale * width / 2;
               draw_rear(sheet, {{middle, at.y + above + scale * height / 2}, scale}, i, body);
               const Length top = at.y + above + scale * height + between;
               draw_side(sheet, {{middle, top + scale * i.body.back}, scale}, i, body);
             });
  flow.paragraph(print_words(report), small_text);
  flow.new_page();
  flow.heading("The insert: pieces to print");
  for (std::size_t k = 0; k < pieces.size(); k += columns) {
    flow.block(cell_height, [&, k](Sheet& sheet, PagePoint at) {
      for (std::size_t c = k; c < std::min(pieces.size(), k + columns); ++c) {
        const Length x = at.x + static_cast<double>(c - k) * cell_width;
        draw_piece(sheet, {x, at.y}, report.assembly, pieces[c]);
      }
    });
  }
  flow.together([&] {
    flow.heading("Check the prints");
    flow.table(check_table(i));
  });
}

}  // namespace backfit::paper
