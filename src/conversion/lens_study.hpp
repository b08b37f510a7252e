// SPDX-License-Identifier: MIT
// What a prescription is worth: its first order, aberrations, rays and light.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/lens_design.hpp"
#include "optics/beam.hpp"
#include "optics/image_quality.hpp"
#include "optics/paraxial.hpp"
#include "optics/trace.hpp"

namespace backfit {

// What is asked of a lens besides its first order.
struct LensQuestions {
  Length wavelength = line_d;
  Length object = unlimited;          // distance in front of the first vertex
  std::optional<Length> stop_radius;  // else as the file has it
  std::optional<Length> plane;        // behind the last vertex; else the paraxial focus
  struct PupilRay {
    Angle field;
    double x = 0, y = 0;  // in the paraxial entrance pupil, in radii of it
  };
  std::optional<PupilRay> ray;
  std::vector<Length> heights;  // on the image plane, for the illumination
  std::vector<Angle> sharpness_fields;
  std::vector<SpatialFrequency> frequencies;  // of the patterns that its contrast is asked for
  std::vector<Length> film_shifts;  // of the film from the image plane, away from the lens
};

struct LensStudy {
  std::string name;
  Length wavelength;
  bool afocal = false;
  double angular_magnification = 1;  // of an afocal attachment; the rest is empty then
  FirstOrder first;
  Pupils pupil;
  Dioptre petzval;
  std::optional<Length> entrance_radius;
  std::optional<FNumber> f_number;
  std::optional<Angle> half_field;
  std::optional<ThirdOrder> third;  // when pupil and half field are known
  std::optional<Colour> colour;     // likewise, when the dispersion is known
  std::optional<Conjugate> conjugate;
  std::optional<FNumber> effective_f_number;  // of the conjugate
  Length plane;
  struct RayAnswer {
    LensQuestions::PupilRay asked;
    Traced traced;
    std::optional<Ray> at_plane;  // empty when it was missed or totally reflected
  };
  std::optional<RayAnswer> ray;
  struct Light {
    Length height;
    std::optional<double> relative;
  };
  std::vector<Light> light;
  std::optional<ImageQuality> quality;
};

// Why `questions` can't be answered for `lens`: one sentence without a full stop, else empty.
std::string refusal(const LensDesign& lens, const LensQuestions& questions);

// Requires refusal(lens, questions) empty.
LensStudy study_of(const LensDesign& lens, const LensQuestions& questions);

}  // namespace backfit
