// SPDX-License-Identifier: MIT
#include "optics/beam.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

#include "optics/paraxial.hpp"

namespace backfit {
namespace {

// The lens from behind, and the image point before it.
class FromBehind {
 public:
  FromBehind(const LensModel& lens, Length plane, Length height)
      : turned_(turned_round(lens)), plane_(plane), height_(height) {}

  Traced toward(double x, double y) const {
    const double n = 1 / std::sqrt(1 + x * x + y * y);
    return traced(turned_, {Length{}, height_, -plane_, x * n, y * n, n});
  }
  bool passes(double x, double y) const { return toward(x, y).passes(); }

  // Slope toward a point `z` behind the (turned) first vertex and `y` off the axis.
  double slope_to(Length z, Length y) const { return (y - height_) / (plane_ + z); }
  const LensModel& lens() const { return turned_; }

 private:
  LensModel turned_;
  Length plane_, height_;
};

// Half the height that the exit pupil could have, wide enough to hold every bundle.
double reach_of(const FromBehind& view, Length entrance) {
  Length widest;
  for (const LensModel::Surface& s : view.lens().surfaces) {
    if (s.clear_radius < unlimited && s.clear_radius > widest) widest = s.clear_radius;
  }
  return std::abs(view.slope_to(entrance, 2 * widest) - view.slope_to(entrance, -2 * widest));
}

std::optional<Bundle::Direction> central_ray(const FromBehind& view, Length entrance) {
  double slope = view.slope_to(entrance, Length{});
  double width = 1e-4;
  for (int turn = 0; turn < 12; ++turn) {
    const Traced here = view.toward(0, slope);
    const Traced beside = view.toward(0, slope + width);
    const auto lost = [&](const Traced& t) {
      return (t.fate == Fate::missed || t.fate == Fate::reflected) && t.surface <= view.lens().stop;
    };
    if (lost(here) || lost(beside)) return std::nullopt;
    if (abs(here.stop_y) < 1e-9 * mm) break;
    slope -= width * (here.stop_y / (beside.stop_y - here.stop_y));
    width = 1e-6;
  }
  if (!std::isfinite(slope) || !view.passes(0, slope)) return std::nullopt;
  return Bundle::Direction{0, slope};
}

// Middle of the directions on the meridian that pass, by a scan.
std::optional<Bundle::Direction> middle_of_scan(const FromBehind& view, Length entrance,
                                                double reach) {
  constexpr int steps = 400;
  const double first = view.slope_to(entrance, Length{}) - reach;
  double sum = 0;
  int count = 0;
  for (int i = 0; i <= steps; ++i) {
    const double slope = first + 2 * reach * i / steps;
    if (!view.passes(0, slope)) continue;
    sum += slope;
    ++count;
  }
  if (count == 0) return std::nullopt;
  return Bundle::Direction{0, sum / count};
}

}  // namespace

Bundle bundle_at(const LensModel& lens, Length plane, Length height, int azimuths) {
  assert(azimuths >= 4 && azimuths % 2 == 0);
  const FromBehind view(lens, plane, height);
  const Length pupil = -pupils(lens).exit;  // ahead of the turned lens's first vertex
  const double reach = reach_of(view, pupil);
  auto centre = central_ray(view, pupil);
  if (!centre) centre = middle_of_scan(view, pupil, reach);
  if (!centre) return {};
  Bundle bundle{*centre, {}};
  const auto half = static_cast<std::size_t>(azimuths / 2);
  bundle.edge.resize(2 * half);
  // The lens is round: left of the meridian is as right of it.
  for (std::size_t i = 0; i <= half; ++i) {
    const double angle =
        std::numbers::pi * (static_cast<double>(i) / static_cast<double>(half) - 0.5);
    const double dx = std::cos(angle);
    const double dy = std::sin(angle);
    double inside = 0;
    double outside = reach;
    while (outside - inside > 1e-8 * reach) {
      const double middle = (inside + outside) / 2;
      (view.passes(centre->x + middle * dx, centre->y + middle * dy) ? inside : outside) = middle;
    }
    const double edge = (inside + outside) / 2;
    bundle.edge[i] = {centre->x + edge * dx, centre->y + edge * dy};
    if (i > 0 && i < half) bundle.edge[2 * half - i] = {centre->x - edge * dx, bundle.edge[i].y};
  }
  return bundle;
}

double cosine_area(const Bundle& bundle) {
  // By Stokes' theorem, half the turn of (L, M) along the edge.
  const auto cosines = [](const Bundle::Direction& d) {
    const double n = 1 / std::sqrt(1 + d.x * d.x + d.y * d.y);
    return Bundle::Direction{d.x * n, d.y * n};
  };
  double twice = 0;
  for (std::size_t i = 0; i < bundle.edge.size(); ++i) {
    const auto a = cosines(bundle.edge[i]);
    const auto b = cosines(bundle.edge[(i + 1) % bundle.edge.size()]);
    twice += a.x * b.y - a.y * b.x;
  }
  return twice / 2;
}

std::optional<double> relative_illumination(const LensModel& lens, Length plane, Length height,
                                            int azimuths) {
  const double centre = cosine_area(bundle_at(lens, plane, Length{}, azimuths));
  if (!(centre > 0)) return std::nullopt;
  return cosine_area(bundle_at(lens, plane, height, azimuths)) / centre;
}

LensModel stopped_to(LensModel lens, Length radius) {
  lens.surfaces[lens.stop].clear_radius = radius;
  return lens;
}

}  // namespace backfit
