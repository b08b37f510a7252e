// SPDX-License-Identifier: MIT
#include "documents/camera_section.hpp"

#include <algorithm>

#include "documents/build_words.hpp"
#include "documents/plate_cut.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

constexpr double shadow_tint = 0.30, half_shadow_tint = 0.12;
constexpr Length land = 5 * mm;   // of the seat inside its groove, as drawn
constexpr Length wing = 8 * mm;   // of a screen beside its opening, as drawn
constexpr Length front = 3 * mm;  // of the body before its groove, as drawn

Length land_edge(const CameraSection& s) { return std::max(s.gate_edge, s.groove_inner - land); }

// One half of the section, above (`up` 1) or below (-1) the axis.
class Half {
 public:
  Half(Sheet& sheet, const View& view, const Report& report, const CameraSection& section,
       double up)
      : sheet_(sheet), view_(view), a_(report.assembly), s_(section), up_(up) {}

  void light() {
    const Length edge = s_.narrowest_edge, sheet_edge = s_.window_edge;
    const Length z = s_.narrowest_z, film = s_.emulsion, r = s_.pupil.radius;
    if (s_.whole < sheet_edge) {
      area({{z, edge}, {film, s_.whole}, {film, s_.none}}, half_shadow_tint);
      area({{z, edge}, {film, s_.none}, {film, sheet_edge}, {z, sheet_edge}}, shadow_tint);
    }
    line({{s_.pupil.z, r}, {film, s_.whole}}, LineStyle::dimension);
    line({{s_.pupil.z, -r}, {film, s_.none}}, LineStyle::dimension);
  }

  void body() {
    const Seat& seat = *a_.camera.seat;
    const Length inner = s_.groove_inner, outer = s_.groove_outer;
    const Length floor = s_.seat - seat.groove.depth->value, open = floor - front;
    const Length edge = s_.seat_edge;
    const std::vector<PartPoint> face{{s_.seat, land_edge(s_)}, {s_.seat, inner}, {floor, inner},
                                      {floor, outer},           {s_.seat, outer}, {s_.seat, edge}};
    std::vector<PartPoint> cut = face;
    cut.insert(cut.end(), {{open, edge}, {open, land_edge(s_)}});
    material(cut, 1.6 * mm, 45 * deg);
    line(face, LineStyle::border);
  }

  void screens() {
    for (const NamedScreen& o : a_.screens()) {
      const Length z = o.screen.z;
      if (z >= s_.seat && !o.is_old_gate) continue;  // the plate itself
      if (o.screen.obstacle) {
        const auto [from, to] = s_.stretch_of(o.screen, up_);
        if (to > Length{}) line({{z, std::max(from, Length{})}, {z, to}}, LineStyle::outline);
        continue;
      }
      const Length edge = s_.edge_of(o.reach().width, o.reach().height);
      const Length end = o.is_old_gate ? std::max(edge + 1 * mm, land_edge(s_)) : edge + wing;
      line({{z, edge}, {z, end}}, LineStyle::outline);
    }
  }

  void holder() {
    const Length edge = s_.window_edge, end = s_.body - 2 * mm;
    line({{s_.face, end}, {s_.face, edge}, {s_.holder_back, edge}, {s_.holder_back, end}},
         LineStyle::adjacent);
    line({{s_.septum, 0 * mm}, {s_.septum, edge + 4 * mm}}, LineStyle::border);
    line({{s_.emulsion, 0 * mm}, {s_.emulsion, s_.sheet_edge}}, LineStyle::outline, Ink::accent);
  }

 private:
  std::vector<PagePoint> placed(const std::vector<PartPoint>& points) const {
    std::vector<PagePoint> out;
    out.reserve(points.size());
    for (const PartPoint& p : points) out.push_back(view_({p.x, up_ * p.y}));
    return out;
  }
  void line(const std::vector<PartPoint>& points, LineStyle style, Ink ink = Ink::black) {
    sheet_.stroke(polyline(placed(points)), style, ink);
  }
  void area(const std::vector<PartPoint>& points, double tint) {
    sheet_.fill(polygon(placed(points)), Ink::black, tint);
  }
  void material(const std::vector<PartPoint>& points, Length spacing, Angle angle) {
    sheet_.fill(polygon(placed(points)), Ink::white);
    sheet_.hatch(polygon(placed(points)), spacing, angle);
  }

  Sheet& sheet_;
  const View& view_;
  const Assembly& a_;
  const CameraSection& s_;
  double up_;
};

void draw_plate(Sheet& sheet, const View& view, const BackPlate& plate, const CameraSection& s) {
  for (const std::vector<PartPoint>& piece : cut_pieces(plate, s.along)) {
    std::vector<PartPoint> placed;
    placed.reserve(piece.size());
    for (const PartPoint& p : piece) placed.push_back({s.seat + p.x, p.y});
    const Path path = polygon(view(placed));
    sheet.fill(path, Ink::white);
    sheet.hatch(path, 1 * mm, -45 * deg);
    sheet.stroke(path, LineStyle::border);
  }
}

void draw_pupils(Sheet& sheet, const View& view, const CameraSection& s) {
  const Length r = s.pupil.radius, barrel = r + 9 * mm;
  const auto disc = [&](Length z, LineStyle style) {
    sheet.stroke(polyline(view(std::vector<PartPoint>{{z, r}, {z, -r}})), style);
  };
  disc(s.old_pupil, LineStyle::hidden);
  disc(s.nearest_pupil, LineStyle::hidden);
  disc(s.pupil.z, LineStyle::outline);
  sheet.stroke(rectangle(view({s.pupil.z - 10 * mm, barrel}), view({s.pupil.z + 5 * mm, -barrel})),
               LineStyle::adjacent);
}

std::vector<Plane> planes_of(const Report& report, const CameraSection& s) {
  const Assembly& a = report.assembly;
  std::vector<Plane> planes{{"exit pupil at " + text(report.focus.aperture) + ", infinity",
                             s.pupil.z, "⌀ " + fixed(2 * s.pupil.radius / mm, 1), s.pupil.radius}};
  for (const NamedScreen& o : a.screens()) {
    const FrameSize reach = o.reach();
    planes.push_back({o.name, o.screen.z, o.screen.obstacle ? "" : sides(reach),
                      s.edge_of(reach.width, reach.height)});
  }
  planes.push_back({"original film plane", 0 * mm, "", s.body});
  planes.push_back({"seat", s.seat, "", s.body});
  planes.push_back({"holder's face", s.face, sides(a.window), s.body});
  planes.push_back({"emulsion", s.emulsion, "", s.sheet_edge});
  planes.push_back({"holder's septum", s.septum, "", s.window_edge});
  std::ranges::stable_sort(planes, {}, &Plane::z);
  return planes;
}

}  // namespace

std::pair<Length, Length> CameraSection::stretch_of(const Screen& screen, double up) const {
  Length from = largest_size;
  Length to = -largest_size;
  for (const Polygon& part : screen.parts) {
    for (const PlanePoint& p : part) {
      const Length here = up * (along == Along::x ? p.x : p.y);
      from = std::min(from, here);
      to = std::max(to, here);
    }
  }
  return {from, to};
}

CameraSection::CameraSection(const Report& report) {
  const Assembly& a = report.assembly;
  std::vector<double> values;
  for (const Input& input : a.inputs.all.list()) values.push_back(input.value);
  const Draw at(values);
  gate = -a.camera.gate.before_film->value;
  const auto& parts = a.inputs.set_back;  // seat, plate, holder depth, film, its play
  seat = at(parts[0].input);
  face = seat + at(parts[1].input);
  septum = face + at(parts[2].input);
  emulsion = report.register_.set_back.value;
  // A double-sided holder is the same on its other side, unless its thickness is known.
  holder_back = a.holder->outer_thickness ? face + a.holder->outer_thickness->value->value
                                          : septum + (septum - face);
  pupil = a.pupil(report.focus.aperture, report.register_.standard_moves);
  old_pupil = a.pupil(report.focus.aperture, 0 * mm).z;
  nearest_pupil = old_pupil - a.camera.focusing.travel_forward->value;
  const FrameStudy& frame = report.frame;
  const bool sideways =
      frame.picture.height >= frame.window.height && frame.picture.width < frame.window.width;
  along = sideways ? Along::x : Along::y;
  const Seat& on = *a.camera.seat;
  gate_edge = edge_of(a.camera.gate.width->value, a.camera.gate.height->value);
  groove_inner = edge_of(on.groove.inner_width->value, on.groove.inner_height->value);
  groove_outer = groove_inner + on.groove.width->value;
  seat_edge = edge_of(on.width->value, on.height->value);
  window_edge = edge_of(a.window.width, a.window.height);
  sheet_edge = edge_of(a.sheet->width, a.sheet->height);
  body = std::max(seat_edge, edge_of(a.plate->width, a.plate->height));

  const auto lit = [&](const RectangularOpening& opening, Edge edge) {
    const FrameSize size = lit_frame(pupil, opening, emulsion, edge);
    return edge_of(size.width, size.height);
  };
  RectangularOpening narrowest{};
  whole = largest_size;
  for (const NamedScreen& o : a.screens()) {
    if (o.screen.obstacle) continue;
    const RectangularOpening around{o.reach().width, o.reach().height, o.screen.z};
    if (lit(around, Edge::whole) >= whole) continue;
    whole = lit(around, Edge::whole);
    narrowest = around;
  }
  narrowest_z = narrowest.z;
  narrowest_edge = edge_of(narrowest.width, narrowest.height);
  whole = std::clamp(lit(narrowest, Edge::whole), 0 * mm, window_edge);
  half = std::clamp(lit(narrowest, Edge::half), 0 * mm, window_edge);
  none = std::clamp(lit(narrowest, Edge::none), 0 * mm, window_edge);
  planes = planes_of(report, *this);
}

void draw_camera(Sheet& sheet, const View& view, const Report& report,
                 const CameraSection& section) {
  const CameraSection& s = section;
  std::vector<Half> halves;
  for (const double up : {1.0, -1.0}) halves.emplace_back(sheet, view, report, section, up);
  for (Half& h : halves) h.light();
  for (Half& h : halves) h.body();
  draw_plate(sheet, view, *report.assembly.plate, s);
  for (Half& h : halves) {
    h.screens();
    h.holder();
  }
  draw_pupils(sheet, view, s);
  const auto line = [&](PartPoint from, PartPoint to) {
    sheet.stroke(polyline(view(std::vector<PartPoint>{from, to})), LineStyle::centre);
  };
  line({std::min(s.nearest_pupil, s.pupil.z) - 12 * mm, 0 * mm}, {s.holder_back + 6 * mm, 0 * mm});
  line({0 * mm, -s.body}, {0 * mm, s.body});
}

}  // namespace backfit::paper
