// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "documents/document.hpp"
#include "documents/drawing.hpp"
#include "documents/path_answer.hpp"
#include "quantity/notation.hpp"

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
    // The insert's body: two ends and the back, open to the front.
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

}  // namespace

std::string path_svg(const Assembly& a, const PathStudy& s,
                     const std::filesystem::path& font_folder) {
  Document document(font_folder, {fmt::format("{} to {}", *a.camera.name, *a.film.name),
                                  "film path", "worked out by backfit; measure before you cut"});
  Sheet& sheet = document.add_page();
  const Room& room = s.design.problem.room;
  const Length width = room.high.x - room.low.x + 2 * s.design.wall;
  const double scale = std::min(1.25, (content_width - 58 * mm) / width);
  const Length high = scale * (room.high.z + s.design.wall);
  Length y = content_top;
  y += sheet.text({margin, y}, "Film path", title_text, content_width) + 2 * mm;
  const bool vertical = s.design.goes == FilmTravel::up || s.design.goes == FilmTravel::down;
  y += sheet.text(
           {margin, y},
           fmt::format("Section through the insert, {} of true size: the film goes to the right, "
                       "which is {} in the camera seen from behind; the back is above, the lens "
                       "below. Coloured line: film, its emulsion down. Dashed: flanges{}.",
                       fmt::format("{:.2f}", scale),
                       vertical ? (s.design.goes == FilmTravel::up ? "up" : "down")
                                : (s.design.goes == FilmTravel::left ? "left" : "right"),
                       s.cut_away.empty() ? "" : ", and what must come out of the chamber"),
           body_text, content_width) +
       6 * mm;
  const auto picture = [&](const FrameWinding& state, double wound, double torque) {
    y += sheet.text({margin, y},
                    fmt::format("Frame {} of {}: knob {:.0f} N mm", state.frame, s.frames, torque),
                    heading_text, content_width) +
         6 * mm;
    const PagePoint origin{page_width / 2 - scale * (room.high.x + room.low.x) / 2, y + high};
    Picture(sheet, s, origin, scale).draw(state, wound);
    y += high + scale * 16 * mm + 8 * mm;
  };
  picture(s.table.front(), 0, s.first.torque / newton_mm);
  picture(s.table.back(), 1, s.last.torque / newton_mm);
  return document.svg(0);
}

}  // namespace backfit
