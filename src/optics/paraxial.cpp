// SPDX-License-Identifier: MIT
#include "optics/paraxial.hpp"

#include <cassert>
#include <cmath>

namespace backfit {
namespace {

ParaxialRay refracted(const LensModel::Surface& s, ParaxialRay in) {
  const double bend = in.height * s.curvature * (s.index_after - s.index_before);
  return {in.height, (s.index_before * in.slope - bend) / s.index_after};
}

Length distance_between(const LensModel& lens, std::size_t i) {
  return lens.surfaces[i + 1].z - lens.surfaces[i].z;
}

// The marginal and the principal ray of third-order theory, behind each surface, and the slope that
// the marginal ray comes with.
struct TwoRays {
  std::vector<ParaxialRay> marginal, principal;
  double marginal_slope = 0;
};

TwoRays third_order_rays(const LensModel& lens, Length entrance_radius, double field,
                         Length object) {
  const Length entrance = pupils(lens).entrance;
  const double slope = entrance_radius / (object + entrance);
  const Length height = object < unlimited ? slope * object : entrance_radius;
  return {paraxial_path(lens, {height, slope}), paraxial_path(lens, {-field * entrance, field}),
          slope};
}

// n (u + y c) of the ray that meets surface `i` with the slope it had behind the one before.
double invariant_incidence(const LensModel& lens, const std::vector<ParaxialRay>& path,
                           std::size_t i, double slope_before) {
  const LensModel::Surface& s = lens.surfaces[i];
  return s.index_before * (slope_before + path[i].height * s.curvature);
}

}  // namespace

std::vector<ParaxialRay> paraxial_path(const LensModel& lens, ParaxialRay start) {
  std::vector<ParaxialRay> path;
  path.reserve(lens.surfaces.size());
  ParaxialRay ray = start;
  for (std::size_t i = 0; i < lens.surfaces.size(); ++i) {
    if (i > 0) ray.height += ray.slope * distance_between(lens, i - 1);
    ray = refracted(lens.surfaces[i], ray);
    path.push_back(ray);
  }
  return path;
}

std::optional<FirstOrder> first_order(const LensModel& lens) {
  const Length height = 1 * mm;
  const ParaxialRay out = paraxial_path(lens, {height, 0}).back();
  const ParaxialRay back = paraxial_path(turned_round(lens), {height, 0}).back();
  const Length size = lens.surfaces.back().z + 1 * mm;
  if (std::abs(out.slope) * 1e6 * size < height) return std::nullopt;
  FirstOrder f;
  f.focal = -height / out.slope;
  f.back_focal = -out.height / out.slope;
  f.front_focal = back.height / back.slope;
  f.length = lens.surfaces.back().z;
  return f;
}

double angular_magnification(const LensModel& lens) {
  return (1 * mm) / paraxial_path(lens, {1 * mm, 0}).back().height;
}

namespace {

// Image, by the surfaces behind the stop, of a point on the axis in it: place from the last vertex
// and size over that of the stop.
struct StopImage {
  Length place;
  double size = 1;
};

StopImage stop_image(const LensModel& lens) {
  LensModel behind;
  behind.surfaces.assign(lens.surfaces.begin() + static_cast<std::ptrdiff_t>(lens.stop),
                         lens.surfaces.end());
  const auto central = paraxial_path(behind, {Length{}, 1}).back();
  const auto edge = paraxial_path(behind, {1 * mm, 0}).back();
  if (central.slope == 0) return {unlimited, std::numeric_limits<double>::infinity()};
  // Image plane where the central ray crosses the axis; there the edge ray's height is the size.
  const Length place = -central.height / central.slope;
  return {place, (edge.height + place * edge.slope) / mm};
}

}  // namespace

Pupils pupils(const LensModel& lens) {
  const StopImage exit = stop_image(lens);
  const StopImage entrance = stop_image(turned_round(lens));
  return {-entrance.place, exit.place, exit.size / entrance.size, 1 / entrance.size};
}

Dioptre petzval_sum(const LensModel& lens) {
  Dioptre sum;
  for (const LensModel::Surface& s : lens.surfaces) {
    sum += (s.index_after - s.index_before) / (s.index_before * s.index_after) * s.curvature;
  }
  return sum;
}

std::optional<Conjugate> conjugate(const LensModel& lens, Length distance) {
  const Length entrance = pupils(lens).entrance;
  ParaxialRay start{1 * mm, 0};  // height 1 mm in the entrance pupil
  double slope = 0;
  if (distance < unlimited) {
    slope = (1 * mm) / (distance + entrance);
    start = {slope * distance, slope};
  }
  const ParaxialRay out = paraxial_path(lens, start).back();
  if (std::abs(out.slope) < 1e-12) return std::nullopt;
  return Conjugate{-out.height / out.slope, slope / out.slope, -out.slope / (1 * mm)};
}

Seidel& Seidel::operator+=(const Seidel& o) {
  s1 += o.s1;
  s2 += o.s2;
  s3 += o.s3;
  s4 += o.s4;
  s5 += o.s5;
  return *this;
}

ThirdOrder third_order(const LensModel& lens, Length entrance_radius, double field, Length object) {
  const auto [marginal, principal, slope] = third_order_rays(lens, entrance_radius, field, object);
  ThirdOrder result;
  double u = slope;
  double v = field;
  for (std::size_t i = 0; i < lens.surfaces.size(); ++i) {
    const LensModel::Surface& s = lens.surfaces[i];
    const Length y = marginal[i].height;
    const Length b = principal[i].height;
    const double a_inv = invariant_incidence(lens, marginal, i, u);
    const double b_inv = invariant_incidence(lens, principal, i, v);
    const Length lagrange = s.index_before * (v * y - u * b);
    const double jump_u = marginal[i].slope / s.index_after - u / s.index_before;
    const double jump_1 = 1 / s.index_after - 1 / s.index_before;
    const double jump_2 =
        1 / (s.index_after * s.index_after) - 1 / (s.index_before * s.index_before);
    Seidel here;
    here.s1 = -a_inv * a_inv * jump_u * y;
    here.s2 = -a_inv * b_inv * jump_u * y;
    here.s3 = -b_inv * b_inv * jump_u * y;
    here.s4 = -jump_1 * (lagrange * s.curvature) * lagrange;
    here.s5 =
        -b_inv * (b_inv * b_inv * jump_2 * y - jump_1 * ((lagrange + b_inv * y) * s.curvature) * b);
    result.surfaces.push_back(here);
    result.sum += here;
    u = marginal[i].slope;
    v = principal[i].slope;
  }
  result.image_slope = u;
  return result;
}

Colour colour(const LensModel& lens, const LensModel& at_f, const LensModel& at_c,
              Length entrance_radius, double field, Length object) {
  assert(at_f.surfaces.size() == lens.surfaces.size());
  assert(at_c.surfaces.size() == lens.surfaces.size());
  const auto [marginal, principal, slope] = third_order_rays(lens, entrance_radius, field, object);
  Length axial;
  Length lateral;
  double u = slope;
  double v = field;
  for (std::size_t i = 0; i < lens.surfaces.size(); ++i) {
    const LensModel::Surface& s = lens.surfaces[i];
    const double jump =
        (at_f.surfaces[i].index_after - at_c.surfaces[i].index_after) / s.index_after -
        (at_f.surfaces[i].index_before - at_c.surfaces[i].index_before) / s.index_before;
    axial += invariant_incidence(lens, marginal, i, u) * jump * marginal[i].height;
    lateral += invariant_incidence(lens, principal, i, v) * jump * marginal[i].height;
    u = marginal[i].slope;
    v = principal[i].slope;
  }
  return {axial / u, lateral / u};
}

}  // namespace backfit
