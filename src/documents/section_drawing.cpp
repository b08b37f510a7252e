// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "documents/build_drawings.hpp"
#include "optics/light.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

// A stretch of the section: z to the right, y up, both in the camera's axes.
struct Stretch {
  Length z0, y0, z1, y1;
};

// Draws the section's things, each cut to the stretch that the view shows.
class Section {
 public:
  Section(Sheet& sheet, PagePoint corner, const Stretch& shown, double scale)
      : sheet_(sheet),
        shown_(shown),
        view_{{corner.x - scale * shown.z0, corner.y + scale * shown.y1}, scale} {}

  const View& view() const { return view_; }

  void block(const Stretch& s, Angle hatching) {
    const Stretch cut{std::max(s.z0, shown_.z0), std::max(s.y0, shown_.y0),
                      std::min(s.z1, shown_.z1), std::min(s.y1, shown_.y1)};
    if (cut.z1 <= cut.z0 || cut.y1 <= cut.y0) return;
    const Path path = rectangle(view_({cut.z0, cut.y1}), view_({cut.z1, cut.y0}));
    sheet_.fill(path, Ink::white);
    sheet_.hatch(path, 1.4 * mm, hatching);
    sheet_.stroke(path, LineStyle::border);
  }

  void line(PartPoint from, PartPoint to, LineStyle style, Ink ink = Ink::black) {
    if (clip(from, to)) sheet_.stroke(polyline({view_(from), view_(to)}), style, ink);
  }

  // Light between two lines from the left to the right, clipped in y at the stretch's edges.
  void light(const std::vector<PartPoint>& corners, double opacity) {
    std::vector<PagePoint> points;
    for (const PartPoint& p : cut_polygon(corners)) points.push_back(view_(p));
    if (points.size() >= 3) sheet_.fill(polygon(points), Ink::grey, opacity);
  }

  void name(PartPoint at, const std::string& words, Align align = Align::left, Angle turn = {}) {
    sheet_.label(view_(at), words, {.size = 7 * point, .align = align}, turn);
  }

 private:
  // Shortens from-to to the stretch (the slab method); false when nothing is left.
  bool clip(PartPoint& from, PartPoint& to) const {
    double enter = 0;
    double leave = 1;
    const auto slab = [&](Length start, Length move, Length low, Length high) {
      if (move == Length{}) return start >= low && start <= high;
      const double a = (low - start) / move;
      const double b = (high - start) / move;
      enter = std::max(enter, std::min(a, b));
      leave = std::min(leave, std::max(a, b));
      return true;
    };
    const PartPoint move{to.x - from.x, to.y - from.y};
    if (!slab(from.x, move.x, shown_.z0, shown_.z1) ||
        !slab(from.y, move.y, shown_.y0, shown_.y1) || enter >= leave) {
      return false;
    }
    const PartPoint start = from;
    from = {start.x + enter * move.x, start.y + enter * move.y};
    to = {start.x + leave * move.x, start.y + leave * move.y};
    return true;
  }

  // `corners` without what lies outside the stretch, one edge of it after the other.
  std::vector<PartPoint> cut_polygon(std::vector<PartPoint> corners) const {
    const auto keep = [&](auto inside) {
      std::vector<PartPoint> out;
      for (std::size_t i = 0; i < corners.size(); ++i) {
        const PartPoint& a = corners[i];
        const PartPoint& b = corners[(i + 1) % corners.size()];
        const double da = inside(a) / mm;
        const double db = inside(b) / mm;
        if (da >= 0) out.push_back(a);
        if ((da >= 0) != (db >= 0)) {
          const double t = da / (da - db);
          out.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
        }
      }
      corners = std::move(out);
    };
    keep([&](const PartPoint& p) { return p.x - shown_.z0; });
    keep([&](const PartPoint& p) { return shown_.z1 - p.x; });
    keep([&](const PartPoint& p) { return p.y - shown_.y0; });
    keep([&](const PartPoint& p) { return shown_.y1 - p.y; });
    return corners;
  }

  Sheet& sheet_;
  Stretch shown_;
  View view_;
};

// Where things lie along the light.
struct Planes {
  Length seat, face, film, pupil, pupil_radius;
};

Planes planes_of(const Report& r) {
  const Assembly& a = r.assembly;
  const ExitPupil pupil = a.pupil(r.focus.aperture, r.register_.standard_moves);
  const Length seat = a.camera.seat.behind_film->value;
  return {seat, seat + a.plate_thickness, r.register_.set_back.value, pupil.z, pupil.radius};
}

void draw_light(Section& s, const Report& r, const Planes& p) {
  const Assembly& a = r.assembly;
  const ExitPupil pupil{p.pupil_radius, p.pupil};
  // The opening that trims the height most, and the frames it leaves.
  RectangularOpening narrowest{};
  Length least = 1e9 * mm;
  for (const Assembly::NamedOpening& o : a.openings()) {
    const Length lit = lit_frame(pupil, o.opening, p.film, Edge::whole).height;
    if (lit < least) {
      least = lit;
      narrowest = o.opening;
    }
  }
  const Length whole = std::min(least, a.window.height) / 2;
  const Length none =
      std::min(lit_frame(pupil, narrowest, p.film, Edge::none).height, a.window.height) / 2;
  s.light(
      {{p.pupil, p.pupil_radius}, {p.film, whole}, {p.film, -whole}, {p.pupil, -p.pupil_radius}},
      0.25);
  for (const double side : {1.0, -1.0}) {
    s.light(
        {{narrowest.z, side * narrowest.height / 2}, {p.film, side * none}, {p.film, side * whole}},
        0.12);
    s.line({p.pupil, -side * p.pupil_radius}, {p.film, side * none}, LineStyle::dimension,
           Ink::grey);
  }
}

void draw_things(Section& s, const Report& r, const Planes& p) {
  const Assembly& a = r.assembly;
  const Seat& seat = a.camera.seat;
  const BackPlate& plate = *a.plate;
  const Length groove = seat.groove.inner_height->value / 2;
  const Length groove_outer = groove + seat.groove.width->value;
  const Length groove_floor = p.seat - seat.groove.depth->value;
  const Length body_front = groove_floor - 3 * mm;
  const Length body_edge = seat.height->value / 2;
  draw_light(s, r, p);
  for (const double side : {1.0, -1.0}) {
    const auto both = [&](Length z0, Length y0, Length z1, Length y1) {
      const Length low = std::min(side * y0, side * y1);
      return Stretch{z0, low, z1, std::max(side * y0, side * y1)};
    };
    s.block(both(body_front, groove - 6 * mm, groove_floor, body_edge), 45 * deg);
    s.block(both(groove_floor, groove - 6 * mm, p.seat, groove), 45 * deg);
    s.block(both(groove_floor, groove_outer, p.seat, body_edge), 45 * deg);
    const Length tongue = plate.tongue.inner_height / 2;
    s.block(both(p.seat - plate.tongue.depth, tongue, p.seat, tongue + plate.tongue.wall),
            -45 * deg);
    s.block(both(p.seat, plate.window_height / 2, p.face, plate.height / 2), -45 * deg);
    for (const Assembly::NamedOpening& o : a.openings()) {
      if (o.opening.z >= p.seat) continue;
      const Length edge = side * o.opening.height / 2;
      s.line({o.opening.z, edge}, {o.opening.z, edge + side * 14 * mm}, LineStyle::outline);
    }
    const Length holder_back = p.face + 2 * (p.film - p.face);
    const Length rail = side * a.window.height / 2;
    const Length end = side * (plate.height / 2);
    s.line({p.face, rail}, {holder_back, rail}, LineStyle::adjacent);
    s.line({holder_back, rail}, {holder_back, end}, LineStyle::adjacent);
  }
  const BackPlate::RibGroove& rib = plate.rib_groove;
  if (rib.size_x > rib.size_y) {
    s.block(
        {p.face - rib.depth, rib.centre.y - rib.size_y / 2, p.face, rib.centre.y + rib.size_y / 2},
        0 * deg);
  }
  s.line({p.film, -a.window.height / 2}, {p.film, a.window.height / 2}, LineStyle::outline);
  s.line({Length{}, -body_edge}, {Length{}, body_edge}, LineStyle::hidden);
  s.line({p.pupil, -p.pupil_radius}, {p.pupil, p.pupil_radius}, LineStyle::outline);
  s.line({p.pupil - 6 * mm, Length{}}, {p.film + 12 * mm, Length{}}, LineStyle::centre);
}

Length half_height(const Report& r) {
  return std::max(r.assembly.plate->height, r.assembly.camera.seat.height->value) / 2;
}

double whole_scale(const Report& r) { return half_height(r) > 105 * mm ? 0.2 : 0.5; }

std::string whole_scale_text(const Report& r) { return whole_scale(r) < 0.5 ? "1:5" : "1:2"; }

void draw_whole(Sheet& sheet, PagePoint corner, const Report& r, const Planes& p) {
  const Length half = half_height(r);
  const double scale = whole_scale(r);
  const Stretch shown{p.pupil - 6 * mm, -half - 1 * mm, p.film + 16 * mm, half + 1 * mm};
  Section s(sheet, {corner.x + 12 * mm, corner.y + 8 * mm}, shown, scale);
  draw_things(s, r, p);
  s.name({p.pupil - 4 * mm, p.pupil_radius + 4 * mm}, "exit pupil");
  s.name({p.pupil - 4 * mm, -p.pupil_radius - 9 * mm}, "at " + text(r.focus.aperture));
  Length lowest{};
  for (const Assembly::NamedOpening& o : r.assembly.openings())
    lowest = std::max(lowest, o.opening.height / 2);
  Length y = s.view()({Length{}, -lowest}).y + 4 * mm;
  for (const Assembly::NamedOpening& o : r.assembly.openings()) {
    if (o.opening.z >= p.seat) continue;
    const PagePoint tip = s.view()({o.opening.z, -o.opening.height / 2 - 8 * mm});
    leader(sheet, tip, {tip.x - 9 * mm, y}, o.name);
    y += 4.5 * mm;
  }
  dimension(sheet, s.view(),
            {{p.pupil, Length{}}, {p.film, Length{}}, Along::x, -(half / 2 + 6 * mm)});
}

void draw_detail(Sheet& sheet, PagePoint corner, const Report& r, const Planes& p) {
  const BackPlate& plate = *r.assembly.plate;
  const Length top = plate.tongue.inner_height / 2 + plate.tongue.wall + 5 * mm;
  const Length bottom =
      std::min(r.frame.whole.height, r.assembly.camera.gate.height->value) / 2 - 4 * mm;
  const Stretch shown{p.seat - 11 * mm, std::max(bottom, top - 44 * mm), p.film + 7 * mm, top};
  Section s(sheet, {corner.x, corner.y + 31 * mm}, shown, 2);
  draw_things(s, r, p);
  const auto across = [&](Length from, Length to, Length offset) {
    dimension(sheet, s.view(), {{from, top}, {to, top}, Along::x, offset});
  };
  if (p.seat != Length{}) across(std::min(Length{}, p.seat), std::max(Length{}, p.seat), 5 * mm);
  across(p.seat, p.face, 12 * mm);
  across(p.face, p.film, 12 * mm);
  across(Length{}, p.film, 19 * mm);
  const Length foot = std::max(bottom, top - 44 * mm);
  const TextStyle small{.size = 7 * point};
  const auto below = [&](Length z, const std::string& words, Length drop) {
    const PagePoint at = s.view()({z, foot});
    sheet.stroke(polyline({{at.x, at.y + 0.5 * mm}, {at.x, at.y + drop - 2.5 * mm}}),
                 LineStyle::dimension);
    sheet.label({at.x - 1 * mm, at.y + drop}, words, small);
  };
  below(-r.assembly.camera.gate.before_film->value, "old gate", 5 * mm);
  below(Length{}, "original film plane", 9 * mm);
  below(p.film, "emulsion", 5 * mm);
  const auto beside = [&](PartPoint tip, double side, const std::string& words) {
    const PagePoint at = s.view()(tip);
    const Length edge = s.view()({side > 0 ? shown.z1 : shown.z0, tip.y}).x;
    leader(sheet, at, {edge + side * 3 * mm, at.y}, words);
  };
  const Seat& seat = r.assembly.camera.seat;
  beside({p.face - 0.6 * mm, top - 2.5 * mm}, 1, "plate");
  beside({p.face + 4 * mm, top - 9 * mm}, 1, "holder");
  beside({p.seat - seat.groove.depth->value - 1 * mm, top - 3 * mm}, -1, "camera body");
  beside({p.seat - plate.tongue.depth / 2, plate.tongue.inner_height / 2 + plate.tongue.wall / 2},
         -1, "tongue");
}

}  // namespace

void draw_section(Sheet& sheet, PagePoint corner, const Report& report) {
  const Planes p = planes_of(report);
  const TextStyle caption = small_text;
  sheet.label({corner.x, corner.y + 3 * mm},
              "Section through the axis, scale " + whole_scale_text(report), caption);
  draw_whole(sheet, corner, report, p);
  const PagePoint right{corner.x + 102 * mm, corner.y};
  sheet.label({right.x, corner.y + 3 * mm}, "Upper edge, scale 2:1; dimensions in mm", caption);
  draw_detail(sheet, right, report, p);
}

}  // namespace backfit::paper
