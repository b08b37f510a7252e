// SPDX-License-Identifier: MIT
#include "conversion/lens_study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace backfit {
namespace {

// The entrance pupil's radius and the model stopped down to it.
struct Opened {
  LensModel model;
  std::optional<Length> entrance_radius;
};

Opened opened(const LensDesign& lens, const LensQuestions& q) {
  Opened result{model_of(lens.prescription, q.wavelength), lens.entrance_radius};
  const double ratio = pupils(result.model).stop_over_entrance;
  if (q.stop_radius) {
    result.entrance_radius = *q.stop_radius / ratio;
    result.model = stopped_to(std::move(result.model), *q.stop_radius);
  } else if (result.entrance_radius) {
    result.model = stopped_to(std::move(result.model), *result.entrance_radius * ratio);
  }
  return result;
}

std::optional<Colour> colour_of(const LensDesign& lens, const LensModel& model,
                                Length entrance_radius, double field, Length object) {
  if (unknown_index(lens.prescription, line_f) || unknown_index(lens.prescription, line_c)) {
    return std::nullopt;
  }
  return colour(model, model_of(lens.prescription, line_f), model_of(lens.prescription, line_c),
                entrance_radius, field, object);
}

}  // namespace

std::string refusal(const LensDesign& lens, const LensQuestions& q) {
  if (const auto i = unknown_index(lens.prescription, q.wavelength)) {
    return fmt::format(
        "behind surface {} the index is known at the d line, 587.6 nm, only; {:.1f} "
        "nm needs glass or abbe there",
        *i + 1, q.wavelength / nm);
  }
  if (lens.file.is_afocal()) {
    return q.ray || !q.heights.empty() || !q.sharpness_fields.empty() || q.object < unlimited ||
                   q.plane
               ? "an afocal attachment makes no image of its own"
               : "";
  }
  const bool pupil_known = lens.entrance_radius || q.stop_radius;
  if ((q.ray || !q.heights.empty() || !q.sharpness_fields.empty()) && !pupil_known) {
    return "neither entrance_pupil nor the stop's clear_radius is in the file; name a stop radius";
  }
  const LensModel model = model_of(lens.prescription, q.wavelength);
  const auto image = conjugate(model, q.object);
  if (q.object < unlimited && !(q.object + pupils(model).entrance > Length{})) {
    return "the object lies behind the entrance pupil";
  }
  if (!q.plane && (!image || !(image->image > Length{}))) {
    return "no real image forms behind the lens; name a plane";
  }
  return "";
}

LensStudy study_of(const LensDesign& lens, const LensQuestions& q) {
  assert(refusal(lens, q).empty());
  LensStudy s;
  s.name = *lens.file.name;
  s.wavelength = q.wavelength;
  const auto [model, entrance_radius] = opened(lens, q);
  if (lens.file.is_afocal()) {
    s.afocal = true;
    s.angular_magnification = angular_magnification(model);
    return s;
  }
  s.first = *first_order(model);
  s.pupil = pupils(model);
  s.petzval = petzval_sum(model);
  s.entrance_radius = entrance_radius;
  if (lens.file.half_field) s.half_field = lens.file.half_field->value;
  if (entrance_radius) s.f_number = FNumber{s.first.focal / (2 * *entrance_radius)};
  if (entrance_radius && s.half_field) {
    const double field = tan(*s.half_field);
    s.third = third_order(model, *entrance_radius, field, q.object);
    s.colour = colour_of(lens, model, *entrance_radius, field, q.object);
  }
  const auto image = conjugate(model, q.object);
  if (q.object < unlimited && image) {
    s.conjugate = image;
    if (entrance_radius) s.effective_f_number = FNumber{0.5 / image->cone(*entrance_radius)};
  }
  s.plane = q.plane.value_or(image ? image->image : s.first.back_focal);
  if (q.ray && entrance_radius) {
    const Ray start = aimed_ray(model, {q.ray->field, q.object}, q.ray->x * *entrance_radius,
                                q.ray->y * *entrance_radius);
    LensStudy::RayAnswer answer{*q.ray, traced(model, start), {}};
    if (answer.traced.fate == Fate::through || answer.traced.fate == Fate::clipped) {
      answer.at_plane = at_plane(answer.traced.ray, s.first.length + s.plane);
    }
    s.ray = answer;
  }
  for (const Length h : q.heights) {
    s.light.push_back({h, relative_illumination(model, s.plane, h)});
  }
  if (!q.sharpness_fields.empty()) {
    s.quality = image_quality_of(model, q.wavelength, q.object, s.plane, q.sharpness_fields,
                                 q.frequencies, q.film_shifts);
  }
  return s;
}

}  // namespace backfit
