// SPDX-License-Identifier: MIT
// How strongly a medium bends light of a wavelength. All indices are relative to air, as glass
// makers state them, so air is exactly 1.
#pragma once
#include <array>
#include <optional>
#include <variant>

#include "quantity/quantity.hpp"

namespace backfit {

// Spectral lines at which glass is measured (ISO 7944 names them).
inline constexpr Length line_c = 656.2725 * nm;
inline constexpr Length line_d = 587.5618 * nm;
inline constexpr Length line_f = 486.1327 * nm;

class Medium {
 public:
  static Medium air();
  // Known at the d line only.
  static Medium of_index(double index_d);
  // n = a + b / w^2 through index_d and the stated dispersion (index_d - 1) / (n_F - n_C), the Abbe
  // number. Good to a few units of the fifth decimal within the visible for ordinary glass.
  static Medium of_abbe(double index_d, double abbe);
  // Sellmeier's formula n^2 = 1 + sum b_i w^2 / (w^2 - c_i), w the wavelength in air.
  static Medium of_sellmeier(const std::array<double, 3>& b, const std::array<Area, 3>& c);

  // Index at `wavelength`. Empty where it is not known: away from the d line with of_index, and
  // where a formula gives less than 1 or no real number.
  std::optional<double> index(Length wavelength) const;

 private:
  struct Constant {
    double index = 1;
    bool anywhere = false;
  };
  struct TwoTerms {
    double a = 1;
    Area b;
  };
  struct Sellmeier {
    std::array<double, 3> b{};
    std::array<Area, 3> c{};
  };
  using Form = std::variant<Constant, TwoTerms, Sellmeier>;
  explicit Medium(Form form) : form_(form) {}
  Form form_;
};

}  // namespace backfit
