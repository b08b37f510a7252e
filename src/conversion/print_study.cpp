// SPDX-License-Identifier: MIT
#include "conversion/print_study.hpp"

#include <algorithm>
#include <array>

#include "optics/paraxial.hpp"
#include "optics/print_size.hpp"

namespace backfit {
namespace {

// A print in the hand.
constexpr Length reading_distance = 250 * mm;

}  // namespace

PrintStudy study_print(const Assembly& a, const FocusStudy& focus, const FrameSize& picture) {
  PrintStudy s;
  s.viewing = reading_distance;
  const auto print = [&](Length blur) {
    const double k = enlargement_of(blur, s.viewing);
    return PrintStudy::Print{k, {k * picture.width, k * picture.height}};
  };
  s.circle = *a.plan.focus.circle_of_confusion;
  s.by_circle = print(s.circle);
  s.plane_error =
      abs(focus.plane_error.value) + coverage_95 * focus.plane_error.standard_uncertainty;
  s.sharpest = sharpest_stop(s.plane_error);
  for (const Stated<FNumber>& aperture : a.camera.lens.apertures) {
    const Length blur = blur_of(s.plane_error, *aperture);
    s.rows.push_back({*aperture, blur, print(blur)});
  }
  return s;
}

void add_contrast(PrintStudy& s, const Assembly& a, const FrameSize& picture) {
  if (!a.prescription) return;
  const LensModel lens = a.traced_lens(*a.plan.focus.aperture);
  const Length focus = first_order(lens)->back_focal;
  const std::array middle{0 * deg};
  const auto sharpest =
      image_quality_of(lens, line_d, unlimited, focus, middle, {}, {}).best_flat_film;
  if (!sharpest) return;
  const Length plane = focus + *sharpest;
  std::vector<Angle> fields;
  const auto add = [&](const char* place, Length height) {
    if (const auto field = field_at(lens, unlimited, plane, height)) {
      fields.push_back(*field);
      s.places.emplace_back(place);
    }
  };
  add("centre", Length{});
  add("side", std::max(picture.width, picture.height) / 2);
  add("corner", picture.diagonal() / 2);
  s.traced = image_quality_of(lens, line_d, unlimited, plane, fields, {1 / s.circle},
                              {-s.plane_error, Length{}, s.plane_error});
  s.flat_film_from_middle = s.traced->best_flat_film.value_or(Length{});
}

}  // namespace backfit
