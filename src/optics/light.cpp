// SPDX-License-Identifier: MIT
#include "optics/light.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// Area of the unit disc's part with x <= a and y <= b.
double unit_disc_quarter(double a, double b) {
  a = std::clamp(a, -1.0, 1.0);
  b = std::clamp(b, -1.0, 1.0);
  const double reach = std::sqrt(1 - b * b);  // the chord y = b spans -reach..reach
  // Area under the arc y = sqrt(1 - x^2) from -1 to x.
  const auto under_arc = [](double x) {
    return (std::asin(x) + x * std::sqrt(1 - x * x)) / 2 + std::numbers::pi / 4;
  };
  // For each x the part is -arc..min(b, arc), empty where b < -arc.
  const auto between = [&](double from, double to, double weight_arc, double weight_b) {
    return to <= from ? 0.0
                      : weight_arc * (under_arc(to) - under_arc(from)) + weight_b * b * (to - from);
  };
  double area = 0;
  if (b >= 0) {
    area += between(-1, std::min(a, -reach), 2, 0);
    area += between(-reach, std::min(a, reach), 1, 1);
    area += between(reach, a, 2, 0);
  } else {
    area += between(-reach, std::min(a, reach), 1, 1);
  }
  return area;
}

}  // namespace

Length exit_pupil_radius(Length pupil_distance, FNumber aperture) {
  assert(aperture.value > 0);
  return pupil_distance / (2 * aperture.value);
}

Area disc_area_in(Length radius, Length x0, Length x1, Length y0, Length y1) {
  assert(radius > 0 * mm);
  if (x1 <= x0 || y1 <= y0) return {};
  const auto quarter = [&](Length x, Length y) {
    return unit_disc_quarter(x / radius, y / radius);
  };
  const double share = quarter(x1, y1) - quarter(x0, y1) - quarter(x1, y0) + quarter(x0, y0);
  return std::max(share, 0.0) * radius * radius;
}

double pupil_share_seen(const FilmPoint& point, const ExitPupil& pupil,
                        std::span<const RectangularOpening> openings) {
  assert(pupil.z < point.z);
  Length x0 = -pupil.radius;
  Length x1 = pupil.radius;
  Length y0 = x0;
  Length y1 = x1;
  for (const RectangularOpening& o : openings) {
    assert(pupil.z < o.z && o.z < point.z);
    const double stretch = (point.z - pupil.z) / (point.z - o.z);
    x0 = std::max(x0, point.x + stretch * (-o.width / 2 - point.x));
    x1 = std::min(x1, point.x + stretch * (o.width / 2 - point.x));
    y0 = std::max(y0, point.y + stretch * (-o.height / 2 - point.y));
    y1 = std::min(y1, point.y + stretch * (o.height / 2 - point.y));
  }
  const Area whole = std::numbers::pi * pupil.radius * pupil.radius;
  return std::min(1.0, disc_area_in(pupil.radius, x0, x1, y0, y1) / whole);
}

std::optional<Stops> light_lost(const FilmPoint& point, const ExitPupil& pupil,
                                std::span<const RectangularOpening> openings) {
  const double seen = pupil_share_seen(point, pupil, openings);
  if (!(seen > 0)) return {};
  const double cosine = cos(arctan(hypot(point.x, point.y) / (point.z - pupil.z)));
  return Stops{-std::log2(seen * std::pow(cosine, 4))};
}

FrameSize lit_frame(const ExitPupil& pupil, const RectangularOpening& opening, Length film_z,
                    Edge edge) {
  assert(pupil.z < opening.z && opening.z <= film_z);
  const double ratio = (film_z - opening.z) / (film_z - pupil.z);
  const Length e = edge == Edge::whole ? pupil.radius : edge == Edge::none ? -pupil.radius : 0 * mm;
  const auto side = [&](Length opening_side) {
    return 2 * ((opening_side / 2 - ratio * e) / (1 - ratio));
  };
  return {side(opening.width), side(opening.height)};
}

std::optional<Length> clearing_set_back(const ExitPupil& pupil, const RectangularOpening& opening,
                                        const FrameSize& frame) {
  const Length distance = -pupil.z;
  Length needed = 0 * mm;
  for (const auto& [half_frame, half_opening] : {std::pair{frame.width / 2, opening.width / 2},
                                                 std::pair{frame.height / 2, opening.height / 2}}) {
    if (half_opening <= pupil.radius) return {};
    if (half_frame <= half_opening) continue;
    const double share = (half_frame - half_opening) / (half_frame - pupil.radius);
    needed = std::max(needed, share * distance + opening.z);
  }
  if (needed >= distance) return {};
  return needed;
}

Length image_circle(Length focal, Angle full_angle) {
  assert(full_angle > 0 * deg && full_angle < 180 * deg);
  return 2 * focal * tan(full_angle / 2);
}

bool laterally_reversed(int mirrors, bool viewed_on_lit_face, int transfers) {
  return (mirrors + (viewed_on_lit_face ? 1 : 0) + transfers) % 2 != 0;
}

}  // namespace backfit
