// SPDX-License-Identifier: MIT
#include "conversion/gauge_design.hpp"

#include <algorithm>
#include <cmath>

#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

// The maker's choice, no source: what a frame reaches past what it lies on, the glass past the
// opening, and how stiff the pieces are.
constexpr Length past_gate = 8 * mm, past_groove = 6 * mm, past_picture = 8 * mm;
constexpr Length bearing = 3 * mm, floor_least = 2 * mm;
constexpr Length bridge_thickness = 10 * mm, bridge_width = 16 * mm, bridge_relief = 1 * mm;
constexpr Length off_groove = 1 * mm, off_picture = 2 * mm;
constexpr Length usual_rod = 4.5 * mm;  // common in calipers of 150 mm

Length least(const Measured<Length>& m) { return m.value - m.half_width; }
Length up(Length z, Length layer) { return std::ceil(z / layer - 1e-9) * layer; }
Length down(Length z, Length layer) { return std::floor(z / layer + 1e-9) * layer; }

Length groove_outside(const Stated<Measured<Length>>& inner, const SeatGroove& groove) {
  return inner->value + inner->half_width + 2 * (groove.width->value + groove.width->half_width);
}

// Whether the film goes up or down over the gate.
bool film_upright(const Assembly& a) {
  if (a.plan.insert && a.plan.insert->film_goes) {
    const FilmTravel goes = **a.plan.insert->film_goes;
    return goes == FilmTravel::up || goes == FilmTravel::down;
  }
  return film_run(a.camera) == FilmRun::up;
}

FrameSize outside(const Report& r, const FocusGaugePlan& plan, Length gap) {
  const Assembly& a = r.assembly;
  const Camera& c = a.camera;
  FrameSize size{};
  switch (*plan.lies_on) {
    case GaugeRest::rails: {  // like a piece of the film
      const bool upright = film_upright(a);
      const Length across = a.film.width.value->value - 2 * gap;
      size.width = upright ? across : a.window.width + 2 * past_picture;
      size.height = upright ? a.window.height + 2 * past_picture : across;
      break;
    }
    case GaugeRest::seat: {
      const Seat& s = *c.seat;
      size.width = std::min(least(*s.width),
                            groove_outside(s.groove.inner_width, s.groove) + 2 * past_groove);
      size.height = std::min(least(*s.height),
                             groove_outside(s.groove.inner_height, s.groove) + 2 * past_groove);
      break;
    }
    case GaugeRest::gate:
      size = {c.gate.width->value + 2 * past_gate, c.gate.height->value + 2 * past_gate};
      break;
  }
  if (plan.width) size.width = **plan.width;
  if (plan.height) size.height = **plan.height;
  return size;
}

Length rest_of(const Report& r, GaugeRest rest) {
  switch (rest) {
    case GaugeRest::rails:
      return r.register_.set_back.value;
    case GaugeRest::seat:
      return r.assembly.camera.seat->behind_film->value;
    case GaugeRest::gate:
      break;
  }
  return -r.assembly.camera.gate.before_film->value;
}

}  // namespace

std::optional<FocusGauge> focus_gauge(const Report& r) {
  const Assembly& a = r.assembly;
  if (!a.plan.focus_gauge) return {};
  const FocusGaugePlan& plan = *a.plan.focus_gauge;
  const Printer& printer = *a.plan.printer;
  const Length layer = *printer.layer_height, wall = smallest_wall(printer);
  FocusGauge g;
  g.smallest_wall = wall;
  g.gap = printer.clearance->value;
  g.tape = plan.tape_thickness.has_value();
  g.glass_thickness = (g.tape ? plan.tape_thickness : plan.glass_thickness)->value.value;
  g.film = r.register_.set_back.value;
  g.rest = rest_of(r, *plan.lies_on);
  g.front = g.rest;
  FrameSize pocketed = outside(r, plan, g.gap);  // what holds the pocket
  g.width = pocketed.width;
  g.height = pocketed.height;
  const Length t = g.glass_thickness;
  if (*plan.lies_on == GaugeRest::rails) {
    g.ledge = g.rest + (g.tape ? Length{} : down(t, layer));
  } else {
    g.ledge = g.rest + up(g.film + t - g.rest, layer);
    if (g.film < g.rest - smallest_detail) {
      // The glass stands before its rest: a nose, in the chamber or in the old gate.
      g.front = std::min(g.ledge - down(t, layer), g.rest - layer);
      const Camera& c = a.camera;
      pocketed = c.chamber ? FrameSize{least(*c.chamber->width), least(*c.chamber->height)}
                           : FrameSize{least(*c.gate.width), least(*c.gate.height)};
      pocketed = {std::min(pocketed.width - 2 * g.gap, g.width - 2 * wall),
                  std::min(pocketed.height - 2 * g.gap, g.height - 2 * wall)};
      g.nose_width = pocketed.width;
      g.nose_height = pocketed.height;
    }
  }
  const Length ledge = std::max(bearing, wall);
  g.view_width = std::min(a.window.width, pocketed.width - 2 * (wall + ledge));
  g.view_height = std::min(a.window.height, pocketed.height - 2 * (wall + ledge));
  g.glass_width = g.view_width + 2 * (ledge - g.gap);
  g.glass_height = g.view_height + 2 * (ledge - g.gap);
  g.back = std::max(g.ledge, g.rest) + up(std::max(wall, floor_least), layer);
  return g;
}

Length plane_doubt(const Report& r, const FocusGauge& g) {
  const FocusGaugePlan& plan = *r.assembly.plan.focus_gauge;
  if (*plan.lies_on == GaugeRest::rails) return {};
  const auto& glass = g.tape ? plan.tape_thickness : plan.glass_thickness;
  return hypot(r.assembly.plan.printer->error->standard_uncertainty(),
               glass->value.standard_uncertainty());
}

std::optional<DepthGauge> depth_gauge(const Report& r) {
  const Assembly& a = r.assembly;
  if (!a.plan.depth_gauge) return {};
  const DepthGaugePlan& plan = *a.plan.depth_gauge;
  const Printer& printer = *a.plan.printer;
  const Seat& seat = *a.camera.seat;
  const Length layer = *printer.layer_height;
  DepthGauge g;
  g.smallest_wall = smallest_wall(printer);
  g.thickness = up(bridge_thickness, layer);
  g.width = bridge_width;
  g.relief = up(bridge_relief, layer);
  const Length rod = plan.rod ? (*plan.rod)->value + (*plan.rod)->half_width : usual_rod;
  g.hole = rod + 2 * printer.clearance->value;
  g.rest = seat.behind_film->value;
  const Length film = r.register_.set_back.value, t = g.thickness;
  if (*plan.lies_on == BridgeRest::seat) {
    g.upright = seat.width->value > seat.height->value;
    g.length = least(g.upright ? *seat.height : *seat.width);
    const auto& inner = g.upright ? seat.groove.inner_height : seat.groove.inner_width;
    g.foot = (g.length - groove_outside(inner, seat.groove)) / 2 - off_groove;
    const auto add = [&](const char* face, Length z) {
      if (z <= g.rest) g.readings.push_back({face, t + g.rest - z});
    };
    add("the old film plane", Length{});
    add("the edge of the old gate", -a.camera.gate.before_film->value);
    add("the new film plane", film);
  } else {
    const auto& own = a.plan.back->holder_width;
    if (!own && !a.holder->outer_width) return {};
    const Length across = own ? own->value.value : a.holder->outer_width->value->value;
    g.upright = *a.plan.back->way_up == WayUp::lengthways;
    g.length = across;
    // Beside the picture, where nothing but the holder's own face is.
    const Length picture = a.film.image_width->value->value;
    g.foot = (across - picture) / 2 - off_picture;
    g.from_front = true;
    g.rest += a.plate_thickness;
    const Length depth = a.plan.back->holder_depth ? a.plan.back->holder_depth->value.value
                                                   : a.holder->depth.value->value;
    g.readings.push_back({"the septum, no film in it", t + depth});
    g.readings.push_back({"a scrap sheet in it", t + film - g.rest});
  }
  g.hole_pitch = std::min((g.upright ? a.window.height : a.window.width) / 3,
                          g.length / 2 - g.foot - g.hole / 2 - g.smallest_wall);
  return g;
}

}  // namespace backfit
