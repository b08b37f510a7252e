// SPDX-License-Identifier: MIT
// The model of one opening that fits a recording best, and how sure each of its numbers is.
#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "evidence/recorded_signal.hpp"
#include "evidence/shot_model.hpp"
#include "evidence/shot_search.hpp"

namespace backfit {

// The model's numbers in the order of the covariance: places of half light in samples, natural
// logarithms of widths and powers, the coupling's corner, level, base, drift.
inline constexpr std::size_t shot_numbers = 10;
enum class ShotNumber : std::size_t {
  open_half,
  open_width,
  open_power,
  close_half,
  close_width,
  close_power,
  corner,
  level,
  base,
  drift
};
using ShotVector = std::array<double, shot_numbers>;
ShotVector vector_of(const ShotModel& model);
// Requires the numbers of a model with that sensor.
ShotModel model_of(const ShotVector& numbers, double sensor_lag);

// What the samples tell of an edge: width and power; the width alone, the power being held; or, of
// an edge shorter than two samples, the place alone.
enum class EdgeShape { free, power_held, held };

struct ShotFit {
  ShotModel model;
  std::vector<TraceCell> cells;
  std::vector<CellAnswer> answers;
  std::array<ShotVector, shot_numbers> covariance{};  // zero rows for what was held
  double resolution = 0;                              // of the samples
  double noise = 0;        // standard deviation of one sample, by what the model leaves
  double slow_noise = 1;   // how much more the long cells leave than the short ones; 1: no more
  double edge_misfit = 1;  // how much more the edges leave than the rest; 1: no more
  EdgeShape opening_shape = EdgeShape::free, closing_shape = EdgeShape::free;
};

// Samples of a window around one shot that it may use: not before `begin`, before `end`.
struct ShotWindow {
  std::size_t begin = 0, end = 0;
};

// Least squares over the samples around `place`, all numbers of the model free; the power of an
// edge that the samples don't tell is held at usual_power (shot_guess.hpp), and so is the width of
// an edge shorter than two samples. Standard deviations rest on what the model leaves, and are
// widened where slow noise or the edges' shape leave more. Empty when there is too little of the
// trace before or behind the shot, or no shot is there. `light_goes_down` as in FoundShots;
// `sensor_lag` in samples.
std::optional<ShotFit> fitted_shot(const RecordedSignal& signal, const ShotPlace& place,
                                   ShotWindow window, bool light_goes_down, double sensor_lag);

// The same again from `fit`, with another sensor and the powers that were held at another value.
ShotFit refitted(const ShotFit& fit, double sensor_lag, double held_power);

}  // namespace backfit
