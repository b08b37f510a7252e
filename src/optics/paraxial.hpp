// SPDX-License-Identifier: MIT
// What a lens does near its axis, and its third-order aberrations. Signs as in prescription.hpp;
// slopes are positive when a ray climbs. Formulae of the textbooks, tested against
// modern-optical-engineering in data/sources.toml; the fifth sum is derived in
// docs/derivations/aberrations.md.
#pragma once
#include <optional>
#include <vector>

#include "optics/prescription.hpp"

namespace backfit {

struct ParaxialRay {
  Length height;
  double slope = 0;
};

// The ray after each surface: its height on the surface and its slope behind it.
// n'u' = n u - y (n' - n) c, then y + t u'. `start`: height at vertex 1 and slope before it.
std::vector<ParaxialRay> paraxial_path(const LensModel& lens, ParaxialRay start);

struct FirstOrder {
  Length focal;
  Length back_focal;   // from the last vertex
  Length front_focal;  // from vertex 1, negative in front
  Length front_principal() const { return front_focal + focal; }  // from vertex 1
  Length back_principal() const { return back_focal - focal; }    // from the last vertex
  Length length;                                                  // first to last vertex
  // From front to rear principal point.
  Length hiatus() const { return length + back_principal() - front_principal(); }
};

// Empty for an afocal lens: one whose focal length exceeds a million times its size.
std::optional<FirstOrder> first_order(const LensModel& lens);

// Magnification of angles by an afocal lens: height in over height out of a ray parallel to the
// axis.
double angular_magnification(const LensModel& lens);

struct Pupils {
  Length entrance;                // from vertex 1
  Length exit;                    // from the last vertex
  double magnification = 1;       // exit over entrance diameter
  double stop_over_entrance = 1;  // stop over entrance diameter
};

// Images of the stop by what lies before and behind it. A pupil at infinity (telecentric lens)
// comes out unlimited.
Pupils pupils(const LensModel& lens);

// Sum of (n' - n) c / (n n') over the surfaces.
Dioptre petzval_sum(const LensModel& lens);

// Where a subject on the axis is imaged.
struct Conjugate {
  Length image;              // from the last vertex
  double magnification = 0;  // image over object size, negative when upside down
  // Slope of the marginal ray at the image for one that fills `entrance_radius`, positive.
  double cone(Length entrance_radius) const { return entrance_radius * slope_per_height; }
  Dioptre slope_per_height;
};

// Image of an object `distance` in front of vertex 1, at infinity when unlimited. Empty when no
// image forms at a finite distance. The slope counts for the height in the entrance pupil.
std::optional<Conjugate> conjugate(const LensModel& lens, Length distance);

// Seidel sums of one surface or of the whole lens:
// S1 = -A^2 y D(u/n), S2 = -A B y D(u/n), S3 = -B^2 y D(u/n), S4 = -H^2 c D(1/n),
// S5 = -B (B^2 y D(1/n^2) - (H + B y) b c D(1/n)), with A = n (u + y c) of the marginal ray (y, u),
// B likewise of the principal ray (b, v), H = n (v y - u b), and the D of what changes at the
// surface. Colour between F and C: axial A y D(dn/n), lateral B y D(dn/n).
struct Seidel {
  Length s1, s2, s3, s4, s5;
  Seidel& operator+=(const Seidel& o);
};
struct ThirdOrder {
  std::vector<Seidel> surfaces;
  Seidel sum;
  double image_slope = 0;  // of the marginal ray: transverse aberration is S / (2 slope)
};

// Object `object` in front of vertex 1 (infinity when unlimited), entrance pupil of
// `entrance_radius`, principal ray of slope `field`. Requires the object before the entrance pupil.
ThirdOrder third_order(const LensModel& lens, Length entrance_radius, double field,
                       Length object = unlimited);

struct Colour {
  Length axial, lateral;  // transverse, F less C, at the paraxial focus
};
// First-order colour of the third-order rays; `difference` is the model at F less that at C in
// index, given as the two models.
Colour colour(const LensModel& lens, const LensModel& at_f, const LensModel& at_c,
              Length entrance_radius, double field, Length object = unlimited);

}  // namespace backfit
