// SPDX-License-Identifier: MIT
#include "optics/spot.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <complex>
#include <numbers>

#include "optics/gauss_rule.hpp"
#include "optics/paraxial.hpp"

namespace backfit {
namespace {

// The lens as seen by one subject point: rays by their place in the paraxial entrance pupil.
class Sight {
 public:
  Sight(const LensModel& lens, const SubjectPoint& subject)
      : lens_(lens), subject_(subject), entrance_(pupils(lens).entrance) {
    for (const LensModel::Surface& s : lens.surfaces)
      narrowest_ = std::min(narrowest_, s.clear_radius);
    assert(narrowest_ < unlimited);
  }

  bool passes(Length x, Length y) const {
    return traced(lens_, aimed_ray(entrance_, subject_, x, y)).passes();
  }

  // Where the bundle's rays are counted from.
  std::optional<Length> centre() const {
    if (!(abs(entrance_) < unlimited)) return std::nullopt;
    if (const auto chief = chief_ray(lens_, subject_)) {
      const Length y = at_plane(*chief, entrance_).y;
      if (passes(Length{}, y)) return y;
    }
    constexpr int steps = 400;
    const Length reach = 4 * narrowest_;
    Length sum;
    int count = 0;
    for (int i = 0; i <= steps; ++i) {
      const Length y = (2.0 * i / steps - 1) * reach;
      if (!passes(Length{}, y)) continue;
      sum += y;
      ++count;
    }
    if (count == 0) return std::nullopt;
    return passes(Length{}, sum / count) ? std::optional(sum / count) : std::nullopt;
  }

  // From (0, centre) to the last ray that passes.
  Length radius_to_edge(Length centre, double dx, double dy) const {
    Length inside;
    Length outside = narrowest_;
    while (passes(dx * outside, centre + dy * outside)) {
      inside = outside;
      outside = 2 * outside;
    }
    while (outside - inside > 1e-9 * outside) {
      const Length middle = (inside + outside) / 2;
      (passes(dx * middle, centre + dy * middle) ? inside : outside) = middle;
    }
    return inside;
  }

  Spot::Ray ray(Length x, Length y, Length z, double weight) const {
    const Ray start = aimed_ray(entrance_, subject_, x, y);
    const Traced t = traced(lens_, start);
    const Ray end = at_plane(t.ray, z);
    const Length before = subject_.distance < unlimited
                              ? (start.z + subject_.distance) / start.n
                              : start.l * start.x + start.m * start.y + start.n * start.z;
    return {end.x, end.y,  end.l,
            end.m, weight, before + optical_path(lens_, start) + (z - t.ray.z) / end.n,
            x,     y};
  }

 private:
  const LensModel& lens_;
  SubjectPoint subject_;
  Length entrance_, narrowest_ = unlimited;
};

Spot::Ray mirrored(Spot::Ray ray) {
  ray.x = -ray.x;
  ray.l = -ray.l;
  ray.pupil_x = -ray.pupil_x;
  return ray;
}

// Sums that every shift of the film is answered from: the mean square distance from the centroid
// is a + 2 b shift + c shift^2.
struct Spread {
  Area a;
  Length b;
  double c = 0;
};

template <typename Place, typename Slope>
Spread spread(const Spot& spot, Place place, Slope slope) {
  Length mean;
  double mean_slope = 0;
  for (const Spot::Ray& r : spot.rays) {
    mean += r.weight * place(r);
    mean_slope += r.weight * slope(r);
  }
  Spread s;
  for (const Spot::Ray& r : spot.rays) {
    const Length p = place(r) - mean;
    const double t = slope(r) - mean_slope;
    s.a += r.weight * (p * p);
    s.b += r.weight * (p * t);
    s.c += r.weight * t * t;
  }
  return s;
}

Spread spread_x(const Spot& spot) {
  return spread(
      spot, [](const Spot::Ray& r) { return r.x; }, [](const Spot::Ray& r) { return r.slope_x(); });
}
Spread spread_y(const Spot& spot) {
  return spread(
      spot, [](const Spot::Ray& r) { return r.y; }, [](const Spot::Ray& r) { return r.slope_y(); });
}

}  // namespace

double Spot::Ray::n() const { return std::sqrt(1 - l * l - m * m); }

std::optional<Spot> spot_of(const LensModel& lens, const SubjectPoint& subject, Length plane,
                            int rings, int azimuths) {
  assert(rings >= 1 && azimuths >= 4 && azimuths % 2 == 0);
  const Sight sight(lens, subject);
  const auto centre = sight.centre();
  if (!centre) return std::nullopt;
  const Length z = lens.surfaces.back().z + plane;
  const auto rule = gauss_rule(rings);
  Spot spot;
  spot.plane = plane;
  spot.rays.reserve(static_cast<std::size_t>(rings) * static_cast<std::size_t>(azimuths));
  // The edge is a polygon to those who integrate inside it: it needs more corners than spokes.
  constexpr int corners = 5;
  spot.edge.reserve(static_cast<std::size_t>(azimuths) * corners);
  // The lens is round: each ray to the right of the meridian has its image to the left.
  const int half = azimuths * corners / 2;
  double light = 0;
  std::vector<Spot::Ray> left;
  for (int i = 0; i <= half; ++i) {
    const double angle = std::numbers::pi * (static_cast<double>(i) / half - 0.5);
    const double dx = std::cos(angle);
    const double dy = std::sin(angle);
    const Length edge = sight.radius_to_edge(*centre, dx, dy);
    const bool meridian = i == 0 || i == half;
    spot.edge.push_back(sight.ray(dx * edge, *centre + dy * edge, z, 0));
    if (!meridian) left.push_back(mirrored(spot.edge.back()));
    if (i % corners != 0) continue;
    for (const auto& [place, share] : rule) {
      const double weight = share * place * (edge / mm) * (edge / mm);
      light += meridian ? weight : 2 * weight;
      spot.rays.push_back(sight.ray(dx * edge * place, *centre + dy * edge * place, z, weight));
      if (!meridian) spot.rays.push_back(mirrored(spot.rays.back()));
    }
  }
  spot.edge.insert(spot.edge.end(), left.rbegin(), left.rend());
  if (!(light > 0)) return std::nullopt;
  for (Spot::Ray& r : spot.rays) r.weight /= light;
  return spot;
}

SpotSize size_of(const Spot& spot, Length shift) {
  SpotSize size;
  for (const Spot::Ray& r : spot.rays) {
    size.x += r.weight * (r.x + shift * r.slope_x());
    size.y += r.weight * (r.y + shift * r.slope_y());
  }
  const auto away = [&](const Spot::Ray& r) {
    return hypot(r.x + shift * r.slope_x() - size.x, r.y + shift * r.slope_y() - size.y);
  };
  Area square;
  for (const Spot::Ray& r : spot.rays) square += r.weight * (away(r) * away(r));
  size.rms = sqrt(square);
  for (const Spot::Ray& r : spot.edge) size.largest = std::max(size.largest, away(r));
  for (const Spot::Ray& r : spot.rays) size.largest = std::max(size.largest, away(r));
  return size;
}

Length best_shift(const Spot& spot) {
  const double all = 1;
  return best_shift({&spot, 1}, {&all, 1});
}

Length best_shift(const Spot& spot, Lines lines) {
  const Spread s = lines == Lines::sagittal ? spread_x(spot) : spread_y(spot);
  return -s.b / s.c;
}

Length best_shift(std::span<const Spot> spots, std::span<const double> weights) {
  assert(spots.size() == weights.size());
  Length b;
  double c = 0;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const Spread x = spread_x(spots[i]);
    const Spread y = spread_y(spots[i]);
    b += weights[i] * (x.b + y.b);
    c += weights[i] * (x.c + y.c);
  }
  assert(c > 0);
  return -b / c;
}

double geometric_mtf(const Spot& spot, SpatialFrequency frequency, Lines lines, Length shift) {
  std::complex<double> sum = 0;
  for (const Spot::Ray& r : spot.rays) {
    const Length place =
        lines == Lines::sagittal ? r.x + shift * r.slope_x() : r.y + shift * r.slope_y();
    sum += r.weight * std::polar(1.0, 2 * std::numbers::pi * (frequency * place));
  }
  return std::abs(sum);
}

}  // namespace backfit
