// SPDX-License-Identifier: MIT
// The speed of a material from the densities of a step wedge, by the criteria of ISO 6 (black and
// white negative film) and ISO 6846 (black and white paper). What comes out is the speed of this
// material in this development; the standards also fix the development.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "quantity/light.hpp"

namespace backfit {

// Density over exposure: straight lines between what was measured, exposures rising.
class CharacteristicCurve {
 public:
  struct Point {
    LuminousExposure exposure;
    Density density;
  };
  // Requires at least two points, exposures above zero and rising.
  explicit CharacteristicCurve(std::vector<Point> points);
  // A wedge of `steps` (densities of the wedge itself) laid over the material, which got `through`
  // where the wedge lets all pass; `read` are the material's densities under them, in the same
  // order. Requires two or more and as many of each, the steps all different.
  static CharacteristicCurve under_wedge(std::span<const Density> steps,
                                         std::span<const Density> read, LuminousExposure through);

  // The least exposure at which the density reaches `density` and the density at `exposure`, on the
  // curve; empty outside what was measured.
  std::optional<LuminousExposure> exposure_at(Density density) const;
  std::optional<Density> density_at(LuminousExposure exposure) const;
  // d D / d log10 H where the curve reaches `density`; empty outside.
  std::optional<double> gradient_at(Density density) const;
  Density highest() const;

 private:
  std::vector<Point> points_;
};

// What a density that is read wrong by one standard uncertainty does to a speed point, and the
// exposure's own: root of the sum of (u_D / gradient)^2 and u_H^2, in stops.
struct ReadingDoubt {
  Density of_density{0.01};
  Stops of_exposure{0.1};
};

// Film, ISO 6: H_m at 0.10 above base plus fog, S = 0.8 / H_m (lx s). The criterion also wants
// 0.80 more density at 1.30 more in log10 H. Sources: film-speed-article in data/sources.toml for
// the criterion, slow-film-speeds in data/sources.toml for 0.8 (both READ).
struct FilmSpeedPoint {
  LuminousExposure exposure;           // H_m
  IsoSpeed speed;                      // 0.8 / H_m, not rounded
  IsoSpeed named;                      // nearest of the standard series
  std::optional<Density> rise;         // over 1.30 in log10 H; empty when the wedge ends before
  double average_gradient = 0;         // rise / 1.30; 0 without
  bool developed_to_standard = false;  // the rise is 0.80 within 0.05
  Stops standard_uncertainty;
};
std::optional<FilmSpeedPoint> film_speed(const CharacteristicCurve& curve, Density base_plus_fog,
                                         const ReadingDoubt& doubt = {});

// Paper, ISO 6846: P = 1000 / H_m with H_m at 0.60 above base plus fog (from memory), and the range
// R = 100 (log10 H_S - log10 H_T) rounded to ten, T at 0.04 and S at 0.90 of the highest net
// density (paper-range-criterion in data/sources.toml, READ).
struct PaperSpeedPoint {
  LuminousExposure exposure;    // H_m
  double speed = 0;             // P
  LuminousExposure first_tone;  // H_T: a pre-flash stays below it
  LuminousExposure deepest;     // H_S
  int range = 0;                // R
  Stops standard_uncertainty;
};
std::optional<PaperSpeedPoint> paper_speed(const CharacteristicCurve& curve, Density base_plus_fog,
                                           const ReadingDoubt& doubt = {});

// The exposure index that puts a metered mid-tone on the paper's speed point: 8.125 P / 1000, since
// a meter gives a mid-tone q K / S = 8.125 / S lx s.
IsoSpeed index_of_paper(double paper_speed);

}  // namespace backfit
