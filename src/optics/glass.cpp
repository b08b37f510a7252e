// SPDX-License-Identifier: MIT
#include "optics/glass.hpp"

#include <cmath>

namespace backfit {

Medium Medium::air() { return Medium(Constant{1, true}); }

Medium Medium::of_index(double index_d) { return Medium(Constant{index_d, false}); }

Medium Medium::of_abbe(double index_d, double abbe) {
  const auto per_area = [](Length w) { return 1 / (w * w); };
  const Area b = (index_d - 1) / abbe / (per_area(line_f) - per_area(line_c));
  return Medium(TwoTerms{index_d - b * per_area(line_d), b});
}

Medium Medium::of_sellmeier(const std::array<double, 3>& b, const std::array<Area, 3>& c) {
  return Medium(Sellmeier{b, c});
}

std::optional<double> Medium::index(Length wavelength) const {
  const Area w2 = wavelength * wavelength;
  double n = 0;
  if (const auto* constant = std::get_if<Constant>(&form_)) {
    if (!constant->anywhere && abs(wavelength - line_d) > 0.1 * nm) return std::nullopt;
    n = constant->index;
  } else if (const auto* two = std::get_if<TwoTerms>(&form_)) {
    n = two->a + two->b / w2;
  } else {
    const auto& s = std::get<Sellmeier>(form_);
    double n2 = 1;
    for (std::size_t i = 0; i < s.b.size(); ++i) n2 += s.b[i] * (w2 / (w2 - s.c[i]));
    n = std::sqrt(n2);
  }
  if (!(n >= 1) || !std::isfinite(n)) return std::nullopt;
  return n;
}

}  // namespace backfit
