// SPDX-License-Identifier: MIT
#include "transport/flatness.hpp"

#include <algorithm>
#include <cassert>
#include <numbers>

namespace backfit {
namespace {

constexpr int terms = 41;  // odd ones up to this in each direction

}  // namespace

Length free_bow(const GateFilm& film, const Curl& curl) {
  assert(film.along > Length{} && film.across > Length{});
  assert(film.stiffness > BendingStiffness{} && film.pull >= Force{});
  assert(film.cross_strain >= 0 && film.cross_strain < 1);
  constexpr double pi = std::numbers::pi;
  const double a_mm = film.along / mm, b_mm = film.across / mm;
  // What an edge along which the film stays straight sees of both curls.
  const double along = (curl.along + film.cross_strain * curl.across) * mm;
  const double across = (curl.across + film.cross_strain * curl.along) * mm;
  // Pull over stiffness of a plate, the strip's width in both.
  const double plate = 1 - film.cross_strain * film.cross_strain;
  const double pull = plate * (film.pull / film.stiffness * mm2);
  double middle_mm = 0;
  for (int m = 1; m <= terms; m += 2) {
    const double alpha = m * pi / a_mm;
    for (int n = 1; n <= terms; n += 2) {
      const double beta = n * pi / b_mm;
      const double bending = alpha * alpha + beta * beta;
      const double sign = (m + n) % 4 == 2 ? 1 : -1;
      middle_mm += sign * (along * alpha / beta + across * beta / alpha) /
                   (bending * bending + pull * alpha * alpha);
    }
  }
  return 16 / (a_mm * b_mm) * middle_mm * mm;
}

Length bow_before_plate(const GateFilm& film, const Curl& curl, Length play) {
  assert(play >= Length{});
  return std::min(free_bow(film, curl), play);
}

}  // namespace backfit
