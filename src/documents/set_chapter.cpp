// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/plate_design.hpp"
#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/piece_views.hpp"
#include "documents/set_views.hpp"
#include "documents/set_words.hpp"
#include "documents/solid_drawing.hpp"
#include "documents/true_size.hpp"
#include "parts/meetings.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr Length title_height = 15 * mm;
constexpr Length views_room = 165 * mm;

// The cone and its end that tell third-angle projection (ISO 5456-2).
void projection_mark(Sheet& sheet, PagePoint middle) {
  const Length r = 1.9 * mm, small = 0.95 * mm, left = middle.x - 4.2 * mm;
  const PagePoint eye{left + r, middle.y};
  sheet.stroke(circle(eye, r), LineStyle::dimension);
  sheet.stroke(circle(eye, small), LineStyle::dimension);
  const Length from = middle.x + 0.6 * mm, to = middle.x + 4.6 * mm;
  sheet.stroke(polygon({{from, middle.y - small},
                        {to, middle.y - r},
                        {to, middle.y + r},
                        {from, middle.y + small}}),
               LineStyle::dimension);
  sheet.stroke(polyline({{left - 0.8 * mm, middle.y}, {to + 0.8 * mm, middle.y}}),
               LineStyle::centre);
}

Length thickness(const Piece& flat) {
  const Bounds b = bounds_of(flat.drawn);
  return b.high.z - b.low.z;
}

std::string support_words(const Piece& piece) {
  constexpr std::size_t room = 24;
  if (piece.support.empty()) return "none";
  return piece.support.size() > room ? "see the list of pieces" : piece.support;
}

struct Cell {
  std::string head, words;
  Length width;
};

// What a drawing is, in boxes below it.
void title_block(Sheet& sheet, PagePoint at, const Report& report, const PieceSet& set,
                 std::size_t index, const std::string& scale) {
  const Assembly& a = report.assembly;
  const Piece& piece = set.pieces[index];
  const Volume volume = volume_of(piece.on_bed);
  const bool printed = piece.printed();
  const std::optional<Mass> mass = printed ? printed_mass_of(a, piece.on_bed) : std::nullopt;
  const Cell rows[2][5] = {
      {{"part",
        fmt::format("{}: {}{}", set.name, piece.name,
                    piece.flat ? fmt::format(", {} mm thick", in_mm(thickness(piece), 2)) : ""),
        66 * mm},
       {"number", fmt::format("{} of {}", index + 1, set.pieces.size()), 20 * mm},
       {"needed", std::to_string(piece.in_place.size()), 16 * mm},
       {"scale", scale, 18 * mm},
       {"file", fmt::format("{}.{}", file_of(set, piece).substr(6), printed ? "3mf" : "dxf"),
        60 * mm}},
      {{"material",
        fmt::format("{}{}", printed ? *a.material->name : piece.cut_from,
                    mass ? fmt::format(", {} g solid", fixed(*mass / gram, 1)) : std::string()),
        66 * mm},
       {"time, about", printed ? duration(printing_time(*a.plan.printer, volume)) : "by hand",
        20 * mm},
       {"views", "", 16 * mm},
       {"without ±", printed ? "± " + in_mm(a.plan.printer->error->half_width, 2) : "± 0.20",
        18 * mm},
       printed ? Cell{"prints", fmt::format("{}; support: {}", piece.lies, support_words(piece)),
                      60 * mm}
               : Cell{"made", "cut by its outline from sheet", 60 * mm}}};
  TextStyle head{.size = 6 * point, .ink = Ink::grey};
  Length y = at.y;
  for (const auto& cells : rows) {
    Length x = at.x;
    const Length height = title_height / 2;
    for (const Cell& cell : cells) {
      sheet.stroke(rectangle({x, y}, {x + cell.width, y + height}), LineStyle::dimension);
      sheet.label({x + 1 * mm, y + 2.3 * mm}, cell.head, head);
      if (cell.head == "views") {
        projection_mark(sheet, {x + cell.width / 2, y + 4.9 * mm});
      } else {
        TextStyle style{.size = 7 * point};
        const Length room = cell.width - 2 * mm;
        while (sheet.fonts().size(cell.words, style).width > room && style.size > 4.5 * point) {
          style.size = style.size - 0.25 * point;
        }
        sheet.label({x + 1 * mm, y + 6 * mm}, cell.words, style);
      }
      x = x + cell.width;
    }
    y = y + height;
  }
  sheet.stroke(rectangle(at, {at.x + content_width, at.y + title_height}), LineStyle::border);
}

Table pieces_table(const PieceSet& set) {
  Table table{{{"", 9 * mm, Align::right},
               {"piece", 50 * mm},
               {"needed", 16 * mm, Align::right},
               {"prints", 60 * mm},
               {"support", 45 * mm}},
              {}};
  for (std::size_t i = 0; i < set.pieces.size(); ++i) {
    const Piece& p = set.pieces[i];
    std::vector<std::string> row{std::to_string(i + 1), p.name, std::to_string(p.in_place.size())};
    if (p.printed()) {
      row.insert(row.end(), {p.lies, p.support.empty() ? "none" : p.support});
    } else {
      row.insert(row.end(), {"not: cut from " + p.cut_from, ""});
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table meetings_table(const PieceSet& set) {
  Table table{{{"piece", 60 * mm}, {"meets", 60 * mm}, {"apart, mm", 60 * mm}}, {}};
  const auto name = [&](std::size_t i) {
    return i < set.pieces.size() ? fmt::format("{} {}", i + 1, set.pieces[i].name)
                                 : fmt::format("the {}", name_of(set, i));
  };
  for (const PieceMeeting& m : set.meetings) {
    table.rows.push_back(
        {name(m.first), name(m.second), m.apart < 0.005 * mm ? "touches" : fixed(m.apart / mm, 2)});
  }
  return table;
}

Table check_table(const PieceSet& set) {
  Table table{{{"piece", 45 * mm},
               {"Check, mm", 69 * mm},
               {"drawing", 20 * mm, Align::right},
               {"within", 18 * mm, Align::right},
               {"print", 28 * mm}},
              {}};
  for (const Piece& p : set.pieces) {
    for (const PieceSize& s : p.sizes) {
      table.rows.push_back({p.name, s.what, fixed(s.value / mm, 2),
                            s.within ? "± " + fixed(*s.within / mm, 2) : std::string(), ""});
    }
  }
  return table;
}

void add_together(Flow& flow, const PieceSet& set) {
  if (!set.apart.empty()) {
    const SetApart apart(set, 105 * mm);
    flow.block(apart.height(), [apart](Sheet& sheet, PagePoint at) { apart.draw(sheet, at); });
  }
  flow.table(pieces_table(set));
  if (set.cut) {
    const SetSection section(set, 85 * mm);
    if (!section.empty()) {
      flow.together([&] {
        flow.paragraph(section.words(), small_text);
        flow.block(section.height(),
                   [section](Sheet& sheet, PagePoint at) { section.draw(sheet, at); });
      });
    }
  }
  if (!set.meetings.empty()) {
    flow.together([&] {
      flow.heading("What touches what");
      flow.table(meetings_table(set));
    });
  }
  if (!set.screws.empty()) {
    const std::size_t blocked = blocked_screws(set).size();
    flow.paragraph(
        blocked == 0
            ? fmt::format("A straight driver, as wide as the head, reaches {}.",
                          set.screws.size() == 2 ? "both screws"
                                                 : fmt::format("all {} screws", set.screws.size()))
            : fmt::format("A straight driver does not reach {} of the {} screws: see the findings.",
                          blocked, set.screws.size()),
        small_text);
  }
}

void add_true_outline(Flow& flow, const PieceSet& set, const Piece& piece) {
  const Bounds b = bounds_of(piece.drawn);
  const Solid body = piece.drawn;
  add_true_size(flow, {fmt::format("Outline, 1:1: {}, {}", set.name, piece.name),
                       {b.low.x, b.low.y},
                       b.high.x - b.low.x,
                       b.high.y - b.low.y,
                       [body](Sheet& sheet, const View& view) {
                         draw_solid(sheet, view, body, backfit::View::rear, false);
                       }});
}

}  // namespace

void add_set(Flow& flow, const Report& report, const PieceSet& set) {
  flow.new_page();
  flow.heading(sentence(set.name).substr(0, set.name.size()));
  flow.paragraph(set.purpose);
  add_together(flow, set);
  for (std::size_t i = 0; i < set.pieces.size(); ++i) {
    const PieceViews views(set.pieces[i], views_room);
    flow.block(views.height() + title_height + 2 * mm, [&report, &set, views, i](Sheet& sheet,
                                                                                 PagePoint at) {
      views.draw(sheet, at);
      title_block(sheet, {at.x, at.y + views.height()}, report, set, i, views.scale_words());
    });
  }
  const Table checks = check_table(set);
  if (!checks.rows.empty()) {
    flow.together([&] {
      flow.heading("Check the pieces");
      flow.table(checks);
    });
  }
  if (!set.steps.empty()) {
    flow.heading("Putting it together");
    int number = 0;
    for (const AssemblyStep& step : set.steps) {
      flow.step({++number, step.title, step.text, step.cautions});
    }
  }
  for (const Piece& piece : set.pieces) {
    if (piece.flat) add_true_outline(flow, set, piece);
  }
}

}  // namespace backfit::paper
