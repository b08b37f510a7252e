// SPDX-License-Identifier: MIT
// How near and how far a subject may lie and still look sharp. Geometric blur alone, lens in air;
// distances to the subject count from the front principal point.
// Derivations: docs/derivations/depth-of-field.md.
#pragma once
#include <optional>

#include "quantity/quantity.hpp"

namespace backfit {

// Lens, stop and largest blur on the film that still counts as sharp. `pupil_magnification` is exit
// over entrance pupil. All greater than 0.
struct Sharpness {
  Length focal;
  FNumber aperture;
  Length circle;
  double pupil_magnification = 1;
};

// Nearest subject distance in focus from which everything to infinity is sharp:
// focal^2 / (N c) + focal. The rule in words is in a dictionary of about 1900 (READ).
Length hyperfocal_distance(const Sharpness& sharpness);

struct SharpRange {
  Length near;
  std::optional<Length> far;  // empty: sharp to infinity
};

// Distances between which a point is blurred to at most the circle when the lens focuses `subject`.
// Counted from the entrance pupil, which lies p = focal (1 - 1/P) before the front principal point,
// they are (s - p) focal^2 / (focal^2 +- N c (s - focal)); far is infinity from the hyperfocal
// distance on. Exact, also close up. Requires subject > focal; infinity is one.
SharpRange sharp_range(const Sharpness& sharpness, Length subject);

// Distance from the front principal point of a subject that lies `to_film` before the film and is
// in focus there: (t + sqrt(t^2 - 4 focal t)) / 2 with t = to_film - hiatus, the hiatus being from
// front to rear principal point, negative where they cross. Of the two distances with a sharp image
// it is the longer, at which the image is smaller than the subject. Empty when t < 4 focal, which
// puts no sharp image on the film. Requires focal > 0.
std::optional<Length> subject_before_lens(Length focal, Length to_film, Length hiatus);

}  // namespace backfit
