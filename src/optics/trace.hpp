// SPDX-License-Identifier: MIT
// Exact rays through a lens: refraction at each sphere, clipped by clear apertures.
#pragma once
#include <optional>
#include <vector>

#include "optics/prescription.hpp"

namespace backfit {

// A point of a ray and its direction cosines, n towards +z.
struct Ray {
  Length x, y, z;
  double l = 0, m = 0, n = 1;
};

// The ray's point at the plane `z`. Requires n != 0.
Ray at_plane(const Ray& ray, Length z);

enum class Fate {
  through,
  clipped,   // fell outside a clear aperture; followed on as if it were wider
  missed,    // met no surface: the sphere ends before it
  reflected  // met a surface so steeply that nothing is refracted
};

struct Traced {
  Ray ray;  // behind the last surface, from its point there; of `missed` and `reflected` the last
            // that there was
  Fate fate = Fate::through;
  std::size_t surface = 0;  // where its fate overtook it
  Length stop_x, stop_y;    // on the stop's surface; of no meaning when it got no farther
  bool passes() const { return fate == Fate::through; }
};

// `start` through all surfaces of `lens`. Requires l^2 + m^2 + n^2 = 1, n > 0.
Traced traced(const LensModel& lens, const Ray& start);

// Optical path of `start` to the last surface. Requires a ray that gets there, if clipped.
Length optical_path(const LensModel& lens, const Ray& start);

// What lies before the lens and sends the light: a point `distance` in front of vertex 1 whose
// principal ray makes `field` with the axis and climbs; at infinity when unlimited.
struct SubjectPoint {
  Angle field;
  Length distance = unlimited;
};

// The ray from `subject` that crosses the paraxial entrance pupil at (x, y) off the axis, on the
// plane of vertex 1; or, for those who aim many, crosses the plane `entrance` where the pupil
// stands.
Ray aimed_ray(Length entrance, const SubjectPoint& subject, Length pupil_x, Length pupil_y);
Ray aimed_ray(const LensModel& lens, const SubjectPoint& subject, Length pupil_x, Length pupil_y);

// The ray from `subject` that meets the stop's surface on the axis, found by Newton's method to
// 1e-9 mm. Empty when there is none.
std::optional<Ray> chief_ray(const LensModel& lens, const SubjectPoint& subject);

// Where a narrow pencil around the chief ray focuses, along the axis from the last vertex: its
// sagittal and tangential foci, by Coddington's equations; and the chief ray behind the lens.
struct PencilFoci {
  Length sagittal, tangential;
  Ray chief;
};
// Empty when there is no chief ray or a pencil leaves parallel.
std::optional<PencilFoci> pencil_foci(const LensModel& lens, const SubjectPoint& subject);

}  // namespace backfit
