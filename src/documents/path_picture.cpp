// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/build_chapters.hpp"
#include "documents/document.hpp"
#include "documents/drawing.hpp"
#include "documents/path_answer.hpp"
#include "documents/table.hpp"
#include "quantity/notation.hpp"
#include "transport/layout_model.hpp"

namespace backfit {
namespace {

using namespace paper;

// The section on the page: the film's way to the right, the light from below upwards.
class Picture {
 public:
  Picture(Sheet& sheet, const PathStudy& s, PagePoint origin, double scale)
      : sheet_(sheet), s_(s), view_{origin, scale} {}

  void draw(const FrameWinding& state, double wound) const {
    const LayoutProblem& p = s_.design.problem;
    const Layout& l = *s_.layout;
    room();
    light();
    body();
    const Radii radii{state.supply, state.take_up};
    spool(l.supply, radii.supply, "supply");
    spool(l.take_up, radii.take_up, "take-up");
    for (const Guide& g : l.guides) guide(g);
    film(laid_strip(supports_of(l, radii), p.strip.thickness).value_or(film_of(p, l, wound)));
    window();
  }

 private:
  PagePoint at(SectionPoint p) const { return view_(PartPoint{p.x, p.z}); }
  Path corners(const std::vector<SectionPoint>& points) const {
    std::vector<PagePoint> on_page;
    on_page.reserve(points.size());
    for (const SectionPoint& p : points) on_page.push_back(at(p));
    return polygon(on_page);
  }
  Path box_of(SectionPoint low, SectionPoint high) const {
    return rectangle(at({low.x, high.z}), at({high.x, low.z}));
  }

  void room() const {
    const Room& r = s_.design.problem.room;
    const Length wall = s_.design.wall;
    // The insert's body: two ends and the back, open to the front; the seat of its lid.
    const std::vector<SectionPoint> body{r.low,
                                         {r.low.x - wall, r.low.z},
                                         {r.low.x - wall, r.high.z + wall},
                                         {r.high.x + wall, r.high.z + wall},
                                         {r.high.x + wall, r.low.z},
                                         {r.high.x, r.low.z},
                                         r.high,
                                         {r.low.x, r.high.z}};
    sheet_.hatch(corners(body), 1.4 * mm);
    sheet_.stroke(corners(body), LineStyle::border);
    for (const Region& rim : rims_of(s_.design.problem)) {
      sheet_.hatch(corners(rim.corners), 1.4 * mm);
      sheet_.stroke(corners(rim.corners), LineStyle::border);
    }
    for (const KeepOut& k : r.keep_outs) {
      const bool goes = std::ranges::find(s_.cut_away, k.region.name) != s_.cut_away.end();
      const Path shape = corners(k.region.corners);
      if (!goes) sheet_.fill(shape, Ink::grey, 0.5);
      sheet_.stroke(shape, goes ? LineStyle::hidden : LineStyle::border);
      SectionPoint middle;
      for (const SectionPoint& c : k.region.corners) middle = middle + 0.25 * c;
      // Names stand outside the chamber, off the spools.
      const bool left = middle.x < Length{};
      const PagePoint tip = at(middle);
      const PagePoint knee{at({left ? r.low.x : r.high.x, Length{}}).x + (left ? -5 : 5) * mm,
                           tip.y};
      const TextStyle style{.size = 7 * point, .align = left ? Align::right : Align::left};
      sheet_.stroke(polyline({tip, knee}), LineStyle::dimension);
      sheet_.label({knee.x + (left ? -1 : 1) * mm, knee.y + 0.8 * mm},
                   goes ? k.region.name + ", out" : k.region.name, style);
    }
  }

  void light() const {
    const GateShape& g = s_.design.problem.gate;
    // As much of the cone as shows its slope.
    const double part = 14 * mm / g.pupil_distance;
    const auto edge = [&](double side) {
      const SectionPoint film{side * g.frame / 2, Length{}};
      const SectionPoint pupil{side * g.pupil_radius, -g.pupil_distance};
      return film + part * (pupil - film);
    };
    sheet_.fill(corners({{-g.frame / 2, Length{}}, edge(-1), edge(1), {g.frame / 2, Length{}}}),
                Ink::accent, 0.12);
    for (const double side : {-1.0, 1.0}) {
      sheet_.stroke(polyline({at({side * g.frame / 2, Length{}}), at(edge(side))}),
                    LineStyle::dimension, Ink::accent);
    }
    const TextStyle style{.size = 7 * point, .ink = Ink::accent, .align = Align::centre};
    sheet_.label(at({Length{}, -9 * mm}), "light", style);
  }

  void body() const {
    const LayoutProblem& p = s_.design.problem;
    const Length inner = p.gate.frame / 2;
    const Length half = inner + p.gate.rail / 2;
    const Path plate = box_of({-half, p.strip.thickness}, {half, p.gate.plate});
    sheet_.fill(plate, Ink::grey, 0.25);
    sheet_.stroke(plate, LineStyle::border);
    for (const double side : {-1.0, 1.0}) {
      const Length a = side * inner;
      const Length b = side * (inner + p.gate.rail);
      const Path rail = box_of({std::min(a, b), -p.gate.wall}, {std::max(a, b), Length{}});
      sheet_.hatch(rail, 1 * mm);
      sheet_.stroke(rail, LineStyle::border);
    }
  }

  void spool(SectionPoint centre, Length roll, const char* name) const {
    const SpoolShape& shape = s_.design.problem.spool;
    sheet_.stroke(circle(at(centre), view_(shape.flange)), LineStyle::hidden);
    sheet_.fill(circle(at(centre), view_(roll)), Ink::grey, 0.35);
    sheet_.stroke(circle(at(centre), view_(roll)), LineStyle::border);
    sheet_.fill(circle(at(centre), view_(shape.core)), Ink::white);
    sheet_.stroke(circle(at(centre), view_(shape.core)), LineStyle::border);
    const TextStyle style{.size = 7 * point, .align = Align::centre};
    sheet_.label({at(centre).x, at(centre).y + 0.9 * mm}, name, style);
  }

  void guide(const Guide& g) const {
    const Path round = circle(at(g.centre), view_(g.radius));
    sheet_.fill(round, Ink::white);
    if (g.motion == Motion::fixed) sheet_.hatch(round, 1 * mm);
    sheet_.stroke(round, LineStyle::border);
    if (g.motion == Motion::fixed) return;
    const Length pin = s_.design.problem.rules.pin;
    sheet_.stroke(circle(at(g.centre), view_(pin)), LineStyle::dimension);
  }

  void film(const StripPath& path) const {
    std::vector<PagePoint> line{at(path.strands.front().from)};
    for (std::size_t i = 0; i < path.strands.size(); ++i) {
      line.push_back(at(path.strands[i].to));
      if (i == path.wraps.size()) break;
      constexpr int pieces = 24;
      for (int k = 1; k <= pieces; ++k) {
        line.push_back(at(path.wraps[i].at(static_cast<double>(k) / pieces)));
      }
    }
    sheet_.stroke(polyline(line), LineStyle::outline, Ink::accent);
    // An arrow on the gate's film.
    const PagePoint tip = at({4 * mm, s_.design.problem.strip.thickness / 2});
    sheet_.fill(
        polygon({tip, {tip.x - 3 * mm, tip.y - 1.2 * mm}, {tip.x - 3 * mm, tip.y + 1.2 * mm}}),
        Ink::accent);
  }

  void window() const {
    if (!s_.window) return;
    const Room& r = s_.design.problem.room;
    const SectionPoint on = s_.window->on_film;
    const SectionPoint lid{on.x, r.high.z + s_.design.wall};
    sheet_.stroke(polyline({at(on), at({lid.x, lid.z + 2 * mm})}), LineStyle::centre);
    const TextStyle style{.size = 7 * point, .align = Align::centre};
    sheet_.label({at(lid).x, at(lid).y - 4 * mm}, "window", style);
  }

  Sheet& sheet_;
  const PathStudy& s_;
  View view_;
};

// Millimetres on the page for the section, and what it takes above and below it.
struct PictureSize {
  double scale;
  Length height, below;
};
PictureSize picture_size(const PathStudy& s) {
  const Room& room = s.design.problem.room;
  const Length width = room.high.x - room.low.x + 2 * s.design.wall;
  const double scale = std::min(1.25, (content_width - 58 * mm) / width);
  return {scale, scale * (room.high.z + s.design.wall), scale * 16 * mm};
}

std::string path_words(const PathStudy& s, double scale) {
  const bool vertical = s.design.goes == FilmTravel::up || s.design.goes == FilmTravel::down;
  return fmt::format(
      "Section through the insert, {:.2f} of true size: the film goes to the right, which is {} in "
      "the camera seen from behind; the back is above, the lens below. Coloured line: film, its "
      "emulsion down. Dashed: flanges{}.",
      scale,
      vertical ? (s.design.goes == FilmTravel::up ? "up" : "down")
               : (s.design.goes == FilmTravel::left ? "left" : "right"),
      s.cut_away.empty() ? "" : ", and what must come out of the chamber");
}

// Turns of the knob for each frame, in two columns.
Table winding_words(const PathStudy& s) {
  Table table;
  const std::size_t rows = (s.table.size() + 1) / 2;
  for (int k = 0; k < 2; ++k) {
    if (k > 0) table.columns.push_back({"", 8 * mm});
    table.columns.push_back({"frame", 14 * mm, Align::right});
    table.columns.push_back({"wind on: turns", 25 * mm, Align::right});
    table.columns.push_back({"and marks", 18 * mm, Align::right});
    table.columns.push_back({"in all", 22 * mm, Align::right});
  }
  for (std::size_t r = 0; r < rows; ++r) {
    std::vector<std::string> cells;
    for (const std::size_t i : {r, r + rows}) {
      if (i > r) cells.emplace_back();
      if (i >= s.table.size()) {
        cells.insert(cells.end(), 4, "");
        continue;
      }
      const auto marks = [](double turns) { return std::lround(turns * knob_marks); };
      const long on = marks(s.table[i].advance), all = marks(s.table[i].turns);
      cells.push_back(std::to_string(s.table[i].frame));
      cells.push_back(std::to_string(on / knob_marks));
      cells.push_back(std::to_string(on % knob_marks));
      cells.push_back(fmt::format("{} + {}", all / knob_marks, all % knob_marks));
    }
    table.rows.push_back(std::move(cells));
  }
  return table;
}

std::string winding_notes() {
  return fmt::format(
      "Turns count from where the take-up spool has caught the paper; {} marks are one turn. Wind "
      "on without a stop and never back.",
      knob_marks);
}

// How flat the film lies, for the reader who judges the first roll by it.
std::string flatness_words(const GateFlatness& f) {
  return fmt::format(
      "In the gate the film's middle lies {} mm behind the plane of its edges, u {} mm; 95 %: {} "
      "to "
      "{} mm, where minus is towards the lens. At {} focus is deep by ± {} mm: odds {}. Curl, "
      "stiffness and pull are from memory: the ground glass at a test window, or a test picture of "
      "a "
      "slanted rule, tells.",
      in_mm(f.middle, 2), in_mm(f.standard_uncertainty, 2), in_mm(f.low, 2), in_mm(f.high, 2),
      text(f.aperture), in_mm(f.depth_of_focus, 2), odds_text(f.odds));
}

void draw_state(Sheet& sheet, PagePoint at, const PathStudy& s, const PictureSize& size, bool end) {
  const Room& room = s.design.problem.room;
  const PagePoint origin{at.x + content_width / 2 - size.scale * (room.high.x + room.low.x) / 2,
                         at.y + size.height};
  Picture(sheet, s, origin, size.scale).draw(end ? s.table.back() : s.table.front(), end ? 1 : 0);
}

std::string state_words(const PathStudy& s, bool end) {
  return fmt::format("Frame {} of {}: knob {:.0f} N mm",
                     (end ? s.table.back() : s.table.front()).frame, s.frames,
                     (end ? s.last : s.first).torque / newton_mm);
}

}  // namespace

namespace paper {

void add_path(Flow& flow, const Report& report) {
  const InsertStudy& insert = *report.insert;
  PathStudy s = insert.path;
  if (insert.part && !insert.part->window) s.window.reset();  // no room for its tube
  const PictureSize size = picture_size(s);
  flow.new_page();
  flow.heading("The film's way");
  flow.paragraph(path_words(s, size.scale), small_text);
  for (const bool end : {false, true}) {
    const Length words = 8 * mm;
    flow.block(words + size.height + size.below, [s, size, words, end](Sheet& sheet, PagePoint at) {
      sheet.text(at, state_words(s, end), body_text, content_width);
      draw_state(sheet, {at.x, at.y + words}, s, size, end);
    });
  }
  if (s.flatness) flow.paragraph(flatness_words(*s.flatness), small_text);
  flow.heading("Winding");
  flow.paragraph(winding_notes(), small_text);
  flow.table(winding_words(s));
}

}  // namespace paper

std::string path_svg(const Assembly& a, const PathStudy& s,
                     const std::filesystem::path& font_folder) {
  Document document(font_folder, {fmt::format("{} to {}", *a.camera.name, *a.film.name),
                                  "film path", "worked out by backfit; measure before you cut"});
  Sheet& sheet = document.add_page();
  const PictureSize size = picture_size(s);
  Length y = content_top;
  y += sheet.text({margin, y}, "Film path", title_text, content_width) + 2 * mm;
  y += sheet.text({margin, y}, path_words(s, size.scale), body_text, content_width) + 6 * mm;
  for (const bool end : {false, true}) {
    y += sheet.text({margin, y}, state_words(s, end), heading_text, content_width) + 6 * mm;
    draw_state(sheet, {margin, y}, s, size, end);
    y += size.height + size.below + 4 * mm;
  }
  const Table winding = winding_words(s);
  Length needed = head_height(sheet.fonts(), winding) + 20 * mm;
  for (std::size_t i = 0; i < winding.rows.size(); ++i) {
    needed += row_height(sheet.fonts(), winding, i);
  }
  if (y + needed <= content_bottom) {
    y += sheet.text({margin, y}, "Winding", heading_text, content_width) + 2 * mm;
    y += sheet.text({margin, y}, winding_notes(), small_text, content_width) + 2 * mm;
    draw(sheet, PagePoint{margin, y}, winding);
  }
  return document.svg(0);
}

}  // namespace backfit
