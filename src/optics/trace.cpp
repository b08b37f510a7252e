// SPDX-License-Identifier: MIT
#include "optics/trace.hpp"

#include <cassert>
#include <cmath>

#include "optics/paraxial.hpp"

namespace backfit {
namespace {

// What happened to a ray at one surface.
struct Step {
  double cos_before = 1, cos_after = 1;  // of the angles to the normal
  Fate fate = Fate::through;
};

// Moves `ray` to the surface and refracts it there. Left as it was when there is no such point.
inline Step step(const LensModel::Surface& s, Ray& ray) {
  const Length to_plane = (s.z - ray.z) / ray.n;
  const Length x0 = ray.x + ray.l * to_plane;
  const Length y0 = ray.y + ray.m * to_plane;
  const Dioptre c = s.curvature;
  const Length f = c * (x0 * x0 + y0 * y0);
  const double g = ray.n - c * (ray.l * x0 + ray.m * y0);
  const double root = g * g - c * f;
  if (!(root >= 0)) return {0, 0, Fate::missed};
  const double cos_before = std::sqrt(root);
  const Length along = f / (g + cos_before);
  const double ratio = s.index_before / s.index_after;
  const double after = 1 - ratio * ratio * (1 - root);
  if (after < 0) return {cos_before, 0, Fate::reflected};
  const double cos_after = std::sqrt(after);
  ray.x = x0 + ray.l * along;
  ray.y = y0 + ray.m * along;
  const Length depth = ray.n * along;
  ray.z = s.z + depth;
  const double turn = cos_after - ratio * cos_before;
  ray.l = ratio * ray.l - turn * (c * ray.x);
  ray.m = ratio * ray.m - turn * (c * ray.y);
  ray.n = ratio * ray.n - turn * (c * depth) + turn;
  const Area height2 = ray.x * ray.x + ray.y * ray.y;
  return {cos_before, cos_after,
          height2 > s.clear_radius * s.clear_radius ? Fate::clipped : Fate::through};
}

}  // namespace

Ray at_plane(const Ray& ray, Length z) {
  Ray moved = ray;
  const Length along = (z - ray.z) / ray.n;
  moved.x += ray.l * along;
  moved.y += ray.m * along;
  moved.z = z;
  return moved;
}

Traced traced(const LensModel& lens, const Ray& start) {
  Traced result;
  result.ray = start;
  for (std::size_t i = 0; i < lens.surfaces.size(); ++i) {
    const Fate fate = step(lens.surfaces[i], result.ray).fate;
    if (fate != Fate::through && (result.fate == Fate::through || fate != Fate::clipped)) {
      result.fate = fate;
      result.surface = i;
      if (fate != Fate::clipped) return result;
    }
    if (i == lens.stop) {
      result.stop_x = result.ray.x;
      result.stop_y = result.ray.y;
    }
  }
  return result;
}

Length optical_path(const LensModel& lens, const Ray& start) {
  Ray ray = start;
  Length path;
  for (const LensModel::Surface& s : lens.surfaces) {
    const Ray before = ray;
    step(s, ray);
    path += s.index_before * ((ray.z - before.z) / before.n);
  }
  return path;
}

Ray aimed_ray(const LensModel& lens, const SubjectPoint& subject, Length pupil_x, Length pupil_y) {
  return aimed_ray(pupils(lens).entrance, subject, pupil_x, pupil_y);
}

Ray aimed_ray(Length entrance, const SubjectPoint& subject, Length pupil_x, Length pupil_y) {
  if (!(subject.distance < unlimited)) {
    return {
        pupil_x,           pupil_y - tan(subject.field) * entrance, Length{}, 0, sin(subject.field),
        cos(subject.field)};
  }
  // The subject lies so that its ray to the pupil's centre makes `field` with the axis.
  const Length subject_y = -tan(subject.field) * (subject.distance + entrance);
  const Length dx = pupil_x;
  const Length dy = pupil_y - subject_y;
  const Length dz = subject.distance + entrance;
  const Length path = hypot(hypot(dx, dy), dz);
  const Ray ray{Length{}, subject_y, -subject.distance, dx / path, dy / path, dz / path};
  return at_plane(ray, Length{});
}

std::optional<Ray> chief_ray(const LensModel& lens, const SubjectPoint& subject) {
  const Length entrance = pupils(lens).entrance;
  const auto stop_height = [&](Length y) -> std::optional<Length> {
    const Traced t = traced(lens, aimed_ray(entrance, subject, Length{}, y));
    if (t.fate == Fate::missed || t.fate == Fate::reflected) {
      if (t.surface <= lens.stop) return std::nullopt;
    }
    return t.stop_y;
  };
  Length y;
  Length step_size = 1e-3 * lens.surfaces.back().z + 1e-3 * mm;
  std::optional<Length> here = stop_height(y);
  for (int turn = 0; here && turn < 50; ++turn) {
    if (abs(*here) < 1e-10 * mm) return aimed_ray(lens, subject, Length{}, y);
    const auto beside = stop_height(y + step_size);
    if (!beside || *beside == *here) return std::nullopt;
    Length move = -*here * (step_size / (*beside - *here));
    // Halve a step that loses the ray.
    auto next = stop_height(y + move);
    for (int halving = 0; !next && halving < 30; ++halving) {
      move = move / 2;
      next = stop_height(y + move);
    }
    y += move;
    here = next;
    step_size = abs(move) * 1e-3 + 1e-7 * mm;
  }
  if (!here || !(abs(*here) <= 1e-9 * mm)) return std::nullopt;
  return aimed_ray(lens, subject, Length{}, y);
}

std::optional<PencilFoci> pencil_foci(const LensModel& lens, const SubjectPoint& subject) {
  const auto chief = chief_ray(lens, subject);
  if (!chief) return std::nullopt;
  Ray ray = *chief;
  // Reciprocal distances from the surface to the foci, positive behind it.
  const bool far = !(subject.distance < unlimited);
  Length sagittal;
  Length tangential;
  bool parallel_s = far;
  bool parallel_t = far;
  if (!far) sagittal = tangential = ray.z - (ray.z + subject.distance) / ray.n;
  Length from_z = ray.z;
  for (const LensModel::Surface& s : lens.surfaces) {
    const Ray before = ray;
    const Step at = step(s, ray);
    if (at.fate == Fate::missed || at.fate == Fate::reflected) return std::nullopt;
    const Length path = (ray.z - from_z) / before.n;
    from_z = ray.z;
    sagittal -= path;
    tangential -= path;
    const Dioptre power =
        (s.index_after * at.cos_after - s.index_before * at.cos_before) * s.curvature;
    const Dioptre in_s = parallel_s ? Dioptre{} : s.index_before / sagittal;
    const Dioptre in_t =
        parallel_t ? Dioptre{} : s.index_before * at.cos_before * at.cos_before / tangential;
    const Dioptre out_s = (in_s + power) / s.index_after;
    const Dioptre out_t = (in_t + power) / (s.index_after * at.cos_after * at.cos_after);
    parallel_s = out_s == Dioptre{};
    parallel_t = out_t == Dioptre{};
    sagittal = parallel_s ? Length{} : 1 / out_s;
    tangential = parallel_t ? Length{} : 1 / out_t;
  }
  if (parallel_s || parallel_t) return std::nullopt;
  const Length behind = ray.z - lens.surfaces.back().z;
  return PencilFoci{behind + ray.n * sagittal, behind + ray.n * tangential, ray};
}

}  // namespace backfit
