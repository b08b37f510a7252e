// SPDX-License-Identifier: MIT
#include "conversion/cover_study.hpp"

#include <algorithm>
#include <cassert>

#include "optics/focus.hpp"

namespace backfit {
namespace {

// The conversion with the lens where it stands for one subject.
struct Situation {
  LensLight lens;
  Length film_z;
  const std::vector<NamedScreen>& named;
  std::vector<Screen> screens;

  std::optional<Stops> lost(PlanePoint p) const {
    return stops_lost({p.x, p.y, film_z}, lens, screens);
  }
};

// The screen without which `point` would get most light more; "lens" when none adds a per cent.
std::string limit_at(const Situation& s, PlanePoint point) {
  const FilmPoint p{point.x, point.y, s.film_z};
  const double with_all = light_at(p, s.lens, s.screens);
  double most = 1.01 * with_all;
  std::string name = "lens";
  for (std::size_t i = 0; i < s.screens.size(); ++i) {
    std::vector<Screen> others = s.screens;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    if (const double without = light_at(p, s.lens, others); without > most) {
      most = without;
      name = s.named[i].name;
    }
  }
  return name;
}

CoverStudy::Row row_of(const Report& r, const Situation& s, FNumber aperture,
                       std::optional<Length> subject, Length circle, Stops allowed) {
  const FrameSize& window = r.frame.window;
  CoverStudy::Row row{aperture, subject, {}, {}, {}, {}, {}};
  row.edge_x = s.lost({window.width / 2, Length{}});
  row.edge_y = s.lost({Length{}, window.height / 2});
  row.corner = s.lost({window.width / 2, window.height / 2});
  row.largest = largest_frame(window, s.film_z, allowed, s.lens, s.screens);
  if (row.largest.width < window.width) {
    // Where the first corner, or middle of a side, falls short just outside that frame.
    const Length x = 0.505 * row.largest.width;
    const Length y = 0.505 * row.largest.height;
    PlanePoint worst{x, y};
    for (const PlanePoint p : {PlanePoint{x, Length{}}, PlanePoint{Length{}, y}}) {
      const auto here = s.lost(p);
      const auto there = s.lost(worst);
      if (there && (!here || *here > *there)) worst = p;
    }
    row.limited_by = limit_at(s, worst);
  }
  // A traced lens's circle is the light itself; else sharpness ends at the circle.
  if (r.circle.grade != CircleGrade::prescription && row.largest.diagonal() > circle) {
    const double k = circle / row.largest.diagonal();
    row.largest = {k * row.largest.width, k * row.largest.height};
    row.limited_by = "image circle";
  }
  return row;
}

// Diameter of the circle around the axis whose points lose nothing to the body.
Length clear_circle_of(const Situation& s, const FrameSize& window) {
  const auto clear = [&s](Length radius) {
    constexpr int directions = 24;
    for (int i = 0; i < directions; ++i) {
      const Angle turn = 360 * deg * i / directions;
      const FilmPoint p{radius * cos(turn), radius * sin(turn), s.film_z};
      if (light_at(p, s.lens, s.screens) < (1 - 1e-6) * light_at(p, s.lens, {})) return false;
    }
    return true;
  };
  Length good;
  Length bad = window.diagonal() / 2;
  if (clear(bad)) return 2 * bad;
  while (bad - good > 0.01 * mm) {
    const Length middle = (good + bad) / 2;
    (clear(middle) ? good : bad) = middle;
  }
  return 2 * good;
}

}  // namespace

CoverStudy cover_study(const Report& r, const CoverQuestions& q) {
  assert(q.grid >= 2 && q.grid <= 256);
  const Assembly& a = r.assembly;
  const FrameSize window = r.frame.window;
  const std::vector<NamedScreen> named = a.screens();
  const Length film_z = r.register_.set_back.value;
  const auto situation = [&](FNumber aperture, Length forward) {
    Situation s{a.lens_light(aperture, r.register_.standard_moves - forward, film_z,
                             window.diagonal() / 2 + 0.1 * mm),
                film_z,
                named,
                {}};
    for (const NamedScreen& n : named) s.screens.push_back(n.screen);
    return s;
  };

  CoverStudy c;
  c.grade = r.circle.grade;
  c.circle = r.circle.circle;
  c.window = window;
  c.allowed = q.allowed;
  const Length focal = a.camera.lens.focal->value;
  const Length near_forward =
      *extension_for(focal, r.register_.nearest_focus) - (film_z - r.register_.standard_moves);
  // The image circle grows with the image distance.
  const Length circle = r.circle.circle.value;
  const Length near_circle =
      circle * (1 + magnification(focal, *extension_for(focal, r.register_.nearest_focus)));
  for (const Stated<FNumber>& aperture : a.camera.lens.apertures) {
    if (!q.rows) break;
    c.rows.push_back(row_of(r, situation(*aperture, Length{}), *aperture,
                            r.register_.farthest_focus, circle, q.allowed));
    if (near_forward > 0.01 * mm) {
      c.rows.push_back(row_of(r, situation(*aperture, near_forward), *aperture,
                              r.register_.nearest_focus, near_circle, q.allowed));
    }
  }
  c.map_aperture = q.aperture.value_or(*a.plan.focus.aperture);
  const Situation s = situation(c.map_aperture, Length{});
  if (q.rows) c.clear_circle = clear_circle_of(s, window);
  c.map = light_map(window, film_z, q.grid, q.grid, s.lens, s.screens);
  return c;
}

}  // namespace backfit
