// SPDX-License-Identifier: MIT
#include "optics/coverage.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "optics/paraxial.hpp"

namespace backfit {
namespace {

Area cross(const PlanePoint& a, const PlanePoint& b, const PlanePoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

Area signed_area(const Polygon& p) {
  Area twice;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const PlanePoint& a = p[i];
    const PlanePoint& b = p[(i + 1) % p.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

Polygon counterclockwise(Polygon p) {
  if (signed_area(p) < Area{}) std::ranges::reverse(p);
  return p;
}

PlanePoint between(const PlanePoint& a, const PlanePoint& b, double t) {
  return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
}

// The part of convex `p` on the left (or right) of the line from `a` to `b`.
Polygon half_of(const Polygon& p, const PlanePoint& a, const PlanePoint& b, bool left) {
  const double sign = left ? 1 : -1;
  Polygon kept;
  kept.reserve(p.size() + 1);
  Area before = sign * cross(a, b, p.back());
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Area here = sign * cross(a, b, p[i]);
    const PlanePoint& last = p[(i + p.size() - 1) % p.size()];
    if ((here < Area{}) != (before < Area{})) {
      kept.push_back(between(last, p[i], before / (before - here)));
    }
    if (!(here < Area{})) kept.push_back(p[i]);
    before = here;
  }
  if (kept.size() < 3) kept.clear();
  return kept;
}

// Whether all of `p` lies on the left of the line from `a` to `b`.
bool all_left(const Polygon& p, const PlanePoint& a, const PlanePoint& b) {
  return std::ranges::all_of(p, [&](const PlanePoint& q) { return !(cross(a, b, q) < Area{}); });
}

Polygon within(Polygon p, const Polygon& convex) {
  for (std::size_t i = 0; i < convex.size() && !p.empty(); ++i) {
    const PlanePoint& a = convex[i];
    const PlanePoint& b = convex[(i + 1) % convex.size()];
    if (!all_left(p, a, b)) p = half_of(p, a, b, true);
  }
  return p;
}

// `p` less `convex`, in convex pieces.
void add_outside(Polygon p, const Polygon& convex, std::vector<Polygon>& pieces) {
  for (std::size_t i = 0; i < convex.size() && !p.empty(); ++i) {
    const PlanePoint& a = convex[i];
    const PlanePoint& b = convex[(i + 1) % convex.size()];
    if (Polygon outside = half_of(p, a, b, false); !outside.empty()) {
      pieces.push_back(std::move(outside));
    }
    p = half_of(p, a, b, true);
  }
}

// `part` of a screen as `point` sees it against the plane `z`.
Polygon projected(const Polygon& part, Length screen_z, const FilmPoint& point, Length z) {
  const double k = (point.z - z) / (point.z - screen_z);
  Polygon seen;
  seen.reserve(part.size());
  for (const PlanePoint& q : part) {
    seen.push_back({point.x + k * (q.x - point.x), point.y + k * (q.y - point.y)});
  }
  return seen;
}

}  // namespace

Polygon rectangle(Length width, Length height, PlanePoint c) {
  return {{c.x - width / 2, c.y - height / 2},
          {c.x + width / 2, c.y - height / 2},
          {c.x + width / 2, c.y + height / 2},
          {c.x - width / 2, c.y + height / 2}};
}

Polygon circle(Length diameter, PlanePoint centre, int corners) {
  assert(corners >= 3);
  const double turn = 2 * std::numbers::pi / corners;
  const Length radius = diameter / 2 * std::sqrt(turn / std::sin(turn));
  Polygon p;
  p.reserve(static_cast<std::size_t>(corners));
  for (int i = 0; i < corners; ++i) {
    p.push_back({centre.x + radius * std::cos(i * turn), centre.y + radius * std::sin(i * turn)});
  }
  return p;
}

std::vector<Polygon> triangles(const Polygon& outline) {
  Polygon left = counterclockwise(outline);
  std::vector<Polygon> result;
  while (left.size() >= 3) {
    const std::size_t n = left.size();
    bool cut = false;
    for (std::size_t i = 0; i < n && !cut; ++i) {
      const PlanePoint& a = left[(i + n - 1) % n];
      const PlanePoint& b = left[i];
      const PlanePoint& c = left[(i + 1) % n];
      if (!(cross(a, b, c) > Area{})) continue;
      bool ear = true;
      for (std::size_t k = 0; k < n && ear; ++k) {
        if (k == i || k == (i + 1) % n || k == (i + n - 1) % n) continue;
        const PlanePoint& q = left[k];
        ear = cross(a, b, q) < Area{} || cross(b, c, q) < Area{} || cross(c, a, q) < Area{};
      }
      if (!ear) continue;
      result.push_back({a, b, c});
      left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
      cut = true;
    }
    if (!cut) break;  // what is left has no area
  }
  return result;
}

namespace {

Screen screen_of(Length z, const Polygon& outline, bool is_obstacle) {
  Polygon p = counterclockwise(outline);
  bool convex = true;
  for (std::size_t i = 0; i < p.size() && convex; ++i) {
    convex = !(cross(p[i], p[(i + 1) % p.size()], p[(i + 2) % p.size()]) < Area{});
  }
  return {z, convex ? std::vector<Polygon>{std::move(p)} : triangles(p), is_obstacle};
}

}  // namespace

Screen opening(Length z, const Polygon& outline) { return screen_of(z, outline, false); }
Screen obstacle(Length z, const Polygon& outline) { return screen_of(z, outline, true); }

LensLight LensLight::disc(const ExitPupil& pupil, int corners) {
  LensLight light;
  light.pupil_z_ = pupil.z;
  light.outlines_.push_back(circle(2 * pupil.radius, {}, corners));
  return light;
}

LensLight LensLight::traced(const LensModel& lens, Length last_vertex, Length film_z, Length reach,
                            int steps, int corners) {
  assert(steps >= 1);
  LensLight light;
  light.pupil_z_ = last_vertex + pupils(lens).exit;
  light.step_ = reach / steps;
  const Length plane = film_z - last_vertex;
  const Length distance = film_z - light.pupil_z_;
  for (int i = 0; i <= steps; ++i) {
    const Length height = i * light.step_;
    Polygon outline;
    for (const Bundle::Direction& d : bundle_at(lens, plane, height, corners).edge) {
      outline.push_back({d.x * distance, height + d.y * distance});
    }
    light.outlines_.push_back(std::move(outline));
  }
  return light;
}

Polygon LensLight::seen_from(PlanePoint film_point) const {
  if (step_ == Length{}) return outlines_.front();
  const Length height = hypot(film_point.x, film_point.y);
  const double place = height / step_;
  const std::size_t last = outlines_.size() - 1;
  if (place > static_cast<double>(last)) return {};
  const std::size_t below = std::min(static_cast<std::size_t>(place), last - 1);
  const Polygon& a = outlines_[below];
  const Polygon& b = outlines_[below + 1];
  if (a.empty() || b.empty()) return {};
  const double t = place - static_cast<double>(below);
  // The table is for points above the axis: turn it to where the point is.
  const double c = height > Length{} ? film_point.y / height : 1;
  const double s = height > Length{} ? film_point.x / height : 0;
  Polygon seen;
  seen.reserve(a.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    const PlanePoint q = between(a[i], b[i], t);
    seen.push_back({c * q.x + s * q.y, c * q.y - s * q.x});
  }
  return seen;
}

double projected_solid_angle(const Polygon& source, Length source_z, const FilmPoint& point) {
  struct Unit {
    double x, y, z;
  };
  const auto unit_to = [&](const PlanePoint& q) {
    const double x = (q.x - point.x) / mm;
    const double y = (q.y - point.y) / mm;
    const double z = (point.z - source_z) / mm;
    const double k = 1 / std::sqrt(x * x + y * y + z * z);
    return Unit{x * k, y * k, z * k};
  };
  double sum = 0;
  if (source.empty()) return 0;
  Unit a = unit_to(source.back());
  for (const PlanePoint& q : source) {
    const Unit b = unit_to(q);
    const Unit n{a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
    const double sine = std::sqrt(n.x * n.x + n.y * n.y + n.z * n.z);
    // angle / sine, which has a limit of 1 for neighbours that coincide
    const double ratio =
        sine < 1e-8 ? 1 : std::atan2(sine, a.x * b.x + a.y * b.y + a.z * b.z) / sine;
    sum += n.z * ratio;
    a = b;
  }
  return std::abs(sum) / 2;
}

double light_at(const FilmPoint& point, const LensLight& lens, std::span<const Screen> screens) {
  Polygon pupil = counterclockwise(lens.seen_from({point.x, point.y}));
  if (pupil.empty()) return 0;
  std::vector<Polygon> pieces{std::move(pupil)};
  for (const Screen& screen : screens) {
    if (!(screen.z < point.z)) continue;
    assert(lens.pupil_z() < screen.z);
    if (screen.obstacle) {
      for (const Polygon& part : screen.parts) {
        const Polygon shadow = projected(part, screen.z, point, lens.pupil_z());
        std::vector<Polygon> left;
        for (Polygon& piece : pieces) add_outside(std::move(piece), shadow, left);
        pieces = std::move(left);
      }
      continue;
    }
    std::vector<Polygon> lit;
    for (const Polygon& part : screen.parts) {
      const Polygon window = projected(part, screen.z, point, lens.pupil_z());
      for (const Polygon& piece : pieces) {
        if (Polygon seen = within(piece, window); !seen.empty()) lit.push_back(std::move(seen));
      }
    }
    pieces = std::move(lit);
  }
  double sum = 0;
  for (const Polygon& piece : pieces) sum += projected_solid_angle(piece, lens.pupil_z(), point);
  return sum;
}

namespace {

std::optional<Stops> lost_of(double light, double centre) {
  if (!(light > 1e-9 * centre)) return std::nullopt;
  return Stops{std::log2(centre / light)};
}

double axis_light(Length film_z, const LensLight& lens) {
  const FilmPoint axis{Length{}, Length{}, film_z};
  return projected_solid_angle(lens.seen_from({}), lens.pupil_z(), axis);
}

}  // namespace

PlanePoint LightMap::place(int column, int row) const {
  return {frame.width * (static_cast<double>(column) / (columns - 1) - 0.5),
          frame.height * (static_cast<double>(row) / (rows - 1) - 0.5)};
}

const std::optional<Stops>& LightMap::at(int column, int row) const {
  return lost[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
              static_cast<std::size_t>(column)];
}

LightMap light_map(const FrameSize& frame, Length film_z, int columns, int rows,
                   const LensLight& lens, std::span<const Screen> screens) {
  assert(columns >= 2 && rows >= 2);
  LightMap map{frame, columns, rows, {}};
  map.lost.reserve(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
  const double centre = axis_light(film_z, lens);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const PlanePoint p = map.place(column, row);
      map.lost.push_back(lost_of(light_at({p.x, p.y, film_z}, lens, screens), centre));
    }
  }
  return map;
}

std::optional<Stops> stops_lost(const FilmPoint& point, const LensLight& lens,
                                std::span<const Screen> screens) {
  return lost_of(light_at(point, lens, screens), axis_light(point.z, lens));
}

namespace {

// The largest frame of the shape of `shape`, no larger than it, whose border passes point by point.
template <typename Passes>
FrameSize largest_passing(const FrameSize& shape, Passes passes) {
  const auto fits = [&](double k) {
    constexpr int steps = 8;
    for (int i = -steps; i <= steps; ++i) {
      const double t = static_cast<double>(i) / steps;
      const Length x = k * shape.width / 2;
      const Length y = k * shape.height / 2;
      for (const PlanePoint p : {PlanePoint{x, t * y}, PlanePoint{-x, t * y}, PlanePoint{t * x, y},
                                 PlanePoint{t * x, -y}}) {
        if (!passes(p)) return false;
      }
    }
    return true;
  };
  if (fits(1)) return shape;
  double good = 0;
  double bad = 1;
  while ((bad - good) * shape.diagonal() > 0.01 * mm) {
    const double middle = (good + bad) / 2;
    (fits(middle) ? good : bad) = middle;
  }
  return {good * shape.width, good * shape.height};
}

}  // namespace

FrameSize largest_frame(const FrameSize& shape, Length film_z, Stops allowed, const LensLight& lens,
                        std::span<const Screen> screens) {
  const double floor_light = axis_light(film_z, lens) * std::exp2(-allowed.value);
  return largest_passing(shape, [&](const PlanePoint& p) {
    return light_at({p.x, p.y, film_z}, lens, screens) >= floor_light;
  });
}

FrameSize lit_frame(const FrameSize& shape, Length film_z, double share, const LensLight& lens,
                    const Screen& screen) {
  return largest_passing(shape, [&](const PlanePoint& p) {
    const FilmPoint point{p.x, p.y, film_z};
    return light_at(point, lens, {&screen, 1}) >= (share - 1e-9) * light_at(point, lens, {});
  });
}

}  // namespace backfit
