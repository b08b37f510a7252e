// SPDX-License-Identifier: MIT
#include "evidence/shot_fit.hpp"

#include <Eigen/Dense>
#include <cassert>
#include <cmath>

#include "evidence/shot_guess.hpp"

namespace backfit {
namespace {

using Matrix = Eigen::Matrix<double, shot_numbers, shot_numbers>;
using Vector = Eigen::Matrix<double, shot_numbers, 1>;
using Free = std::array<bool, shot_numbers>;

constexpr double least_power = 0.5, most_power = 5;
// An edge's power is told when its logarithm is known better than this.
constexpr double told = 0.35;
constexpr std::size_t edge_cells = 160, flat_cells = 120;
// Ratios of mean squares beyond this many standard deviations are no chance.
constexpr double no_chance = 4.5;

constexpr std::size_t at(ShotNumber n) { return static_cast<std::size_t>(n); }

// The window cut into cells: short ones over `edges`, where the light changes, long ones elsewhere.
struct Stretch {
  double begin = 0, end = 0;
};
std::vector<TraceCell> cells_of(std::span<const float> samples, std::span<const Stretch> edges,
                                double sign) {
  std::vector<TraceCell> cells;
  const auto add = [&](std::size_t from, std::size_t to, std::size_t most) {
    const std::size_t width = std::max<std::size_t>(1, (to - from) / most);
    while (from < to) {
      const std::size_t n = std::min(width, to - from);
      double sum = 0;
      for (std::size_t i = from; i < from + n; ++i) sum += double{samples[i]};
      cells.push_back(
          {static_cast<double>(from), static_cast<double>(n), sign * sum / static_cast<double>(n)});
      from += n;
    }
  };
  std::size_t done = 0;
  const auto inside = [&](double x) {
    return static_cast<std::size_t>(
        std::clamp(x, static_cast<double>(done), static_cast<double>(samples.size())));
  };
  for (const Stretch& e : edges) {
    const std::size_t from = inside(e.begin);
    add(done, from, flat_cells);
    done = from;
    const std::size_t to = inside(e.end);
    add(from, to, edge_cells);
    done = to;
  }
  add(done, samples.size(), flat_cells);
  return cells;
}

double cost_of(std::span<const TraceCell> cells, std::span<const CellAnswer> answers) {
  double sum = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double left = cells[i].mean - answers[i].sample;
    sum += cells[i].width * left * left;
  }
  return sum;
}

bool possible(const ShotVector& v, double sensor_lag) {
  for (const double x : v) {
    if (!std::isfinite(x)) return false;
  }
  const ShotModel m = model_of(v, sensor_lag);
  const auto shape = [](const BladeEdge& e) {
    return e.width >= least_width && e.power >= least_power && e.power <= most_power;
  };
  return shape(m.opening) && shape(m.closing) && m.level > 0 &&
         m.starts_closing() >= m.fully_open();
}

// Levenberg and Marquardt's way down from `v`, in the numbers that are free.
class Descent {
 public:
  Descent(std::span<const TraceCell> cells, double sensor_lag, const Free& free)
      : cells_(cells), lag_(sensor_lag), free_(free) {}

  ShotVector down(ShotVector v, int most_turns) {
    answer(model_of(v, lag_), cells_, here_);
    double cost = cost_of(cells_, here_);
    double damping = 1e-3;
    for (int turn = 0; turn < most_turns; ++turn) {
      linearise(v);
      bool better = false;
      double gain = 0;
      while (!better && damping < 1e9) {
        Matrix damped = normal_;
        for (Eigen::Index i = 0; i < damped.rows(); ++i) damped(i, i) *= 1 + damping;
        const Vector step = damped.ldlt().solve(gradient_);
        ShotVector next = v;
        for (std::size_t i = 0; i < shot_numbers; ++i) {
          if (free_[i]) next[i] += step[static_cast<Eigen::Index>(i)];
        }
        if (possible(next, lag_)) {
          answer(model_of(next, lag_), cells_, there_);
          const double less = cost_of(cells_, there_);
          if (less < cost) {
            gain = (cost - less) / cost;
            v = next;
            cost = less;
            std::swap(here_, there_);
            better = true;
            damping = std::max(damping * 0.1, 1e-12);
            break;
          }
        }
        damping *= 8;
      }
      if (!better || gain < 1e-12) break;
    }
    return v;
  }

  // Sensitivities at `v`: the normal matrix and the gradient of the weighted squares.
  void linearise(const ShotVector& v) {
    answer(model_of(v, lag_), cells_, here_);
    columns_.resize(static_cast<Eigen::Index>(cells_.size()), shot_numbers);
    columns_.setZero();
    const double last = cells_.back().begin + cells_.back().width;
    for (std::size_t k = 0; k < shot_numbers; ++k) {
      if (!free_[k]) continue;
      auto column = columns_.col(static_cast<Eigen::Index>(k));
      if (k < at(ShotNumber::level)) {
        const bool place = k == at(ShotNumber::open_half) || k == at(ShotNumber::close_half);
        const double step = place ? 1e-4 : k == at(ShotNumber::corner) ? 1e-4 / last : 1e-5;
        ShotVector shifted = v;
        shifted[k] += step;
        answer(model_of(shifted, lag_), cells_, there_);
        for (std::size_t i = 0; i < cells_.size(); ++i) {
          column[static_cast<Eigen::Index>(i)] = (there_[i].sample - here_[i].sample) / step;
        }
      } else {
        for (std::size_t i = 0; i < cells_.size(); ++i) {
          column[static_cast<Eigen::Index>(i)] = k == at(ShotNumber::level)  ? here_[i].by_level
                                                 : k == at(ShotNumber::base) ? 1
                                                                             : here_[i].by_drift;
        }
      }
    }
    weigh();
  }

  // The normal matrix at `v` by differences over each number's own doubt, `u` for noise of 1 a
  // sample, both ways (JCGM 100:2008, 5.1.3 note 2): where an edge begins the sample answers only
  // to one of them.
  void linearise_over(const ShotVector& v, const Matrix& inverse, double noise) {
    for (std::size_t k = 0; k < at(ShotNumber::level); ++k) {
      const auto i = static_cast<Eigen::Index>(k);
      const double u = noise * std::sqrt(inverse(i, i));
      ShotVector up = v, down = v;
      up[k] += u;
      down[k] -= u;
      if (!free_[k] || !(u > 0) || !possible(up, lag_) || !possible(down, lag_)) continue;
      answer(model_of(up, lag_), cells_, here_);
      answer(model_of(down, lag_), cells_, there_);
      for (std::size_t n = 0; n < cells_.size(); ++n) {
        columns_(static_cast<Eigen::Index>(n), i) = (here_[n].sample - there_[n].sample) / (2 * u);
      }
    }
    weigh();
  }

  // Inverse of the normal matrix over the free numbers, for noise of 1 in a sample.
  Matrix inverse() const {
    const Vector scale = normal_.diagonal().cwiseSqrt().cwiseInverse();
    const Matrix scaled = scale.asDiagonal() * normal_ * scale.asDiagonal();
    Matrix result = scale.asDiagonal() * scaled.completeOrthogonalDecomposition().pseudoInverse() *
                    scale.asDiagonal();
    for (std::size_t k = 0; k < shot_numbers; ++k) {
      if (free_[k]) continue;
      result.row(static_cast<Eigen::Index>(k)).setZero();
      result.col(static_cast<Eigen::Index>(k)).setZero();
    }
    return result;
  }

 private:
  // The normal matrix and the gradient from the columns.
  void weigh() {
    Eigen::VectorXd left(static_cast<Eigen::Index>(cells_.size()));
    Eigen::VectorXd weight(left.size());
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      left[static_cast<Eigen::Index>(i)] = cells_[i].mean - here_[i].sample;
      weight[static_cast<Eigen::Index>(i)] = cells_[i].width;
    }
    normal_.noalias() = columns_.transpose() * weight.asDiagonal() * columns_;
    gradient_.noalias() = columns_.transpose() * weight.cwiseProduct(left);
    for (Eigen::Index k = 0; k < normal_.rows(); ++k) {
      if (!(normal_(k, k) > 0)) normal_(k, k) = 1;  // held, or nothing tells it
    }
  }

  std::span<const TraceCell> cells_;
  double lag_;
  Free free_;
  std::vector<CellAnswer> here_, there_;
  Eigen::Matrix<double, Eigen::Dynamic, shot_numbers> columns_;
  Matrix normal_;
  Vector gradient_;
};

// Mean square of what the model leaves, per sample, over some of the cells.
struct MeanSquare {
  double sum = 0;
  double count = 0;
  void add(const TraceCell& cell, const CellAnswer& answer) {
    const double left = cell.mean - answer.sample;
    sum += cell.width * left * left;
    count += 1;
  }
  double value() const { return count > 0 ? sum / count : 0; }
};

// The ratio of `a` to `b` where it is above 1 by no chance; else 1.
double beyond_chance(const MeanSquare& a, const MeanSquare& b) {
  if (a.count < 8 || b.count < 8 || !(b.value() > 0)) return 1;
  const double ratio = a.value() / b.value();
  return ratio > 1 + no_chance * std::sqrt(2 / a.count + 2 / b.count) ? ratio : 1;
}

// Fills in what the fit leaves and the covariance.
void judge(ShotFit& fit, Descent& descent, const Free& free) {
  const ShotVector v = vector_of(fit.model);
  descent.linearise(v);
  answer(fit.model, fit.cells, fit.answers);
  const auto in = [](const TraceCell& c, double from, double to) {
    return c.begin + c.width > from && c.begin < to;
  };
  double shortest = fit.cells.front().width;
  for (const TraceCell& c : fit.cells) shortest = std::min(shortest, c.width);
  MeanSquare all, edges, quick, slow;
  const ShotModel& m = fit.model;
  for (std::size_t i = 0; i < fit.cells.size(); ++i) {
    const TraceCell& c = fit.cells[i];
    const bool opens = in(c, m.first_light() - 2, m.fully_open() + 2);
    const bool closes = in(c, m.starts_closing() - 2, m.last_light() + 2);
    // What a held edge leaves tells of its width, not of noise.
    if (opens && fit.opening_shape == EdgeShape::held) continue;
    if (closes && fit.closing_shape == EdgeShape::held) continue;
    const bool edge = opens || closes;
    all.add(c, fit.answers[i]);
    MeanSquare& kind = edge ? edges : c.width > 3 * shortest ? slow : quick;
    kind.add(c, fit.answers[i]);
  }
  double numbers = 0;
  for (const bool f : free) numbers += f ? 1 : 0;
  const double freedom = std::max(1.0, all.count - numbers);
  fit.noise = std::sqrt(std::max(all.sum / freedom, fit.resolution * fit.resolution / 12));
  fit.slow_noise = std::sqrt(beyond_chance(slow, quick));
  MeanSquare rest{quick.sum + slow.sum, quick.count + slow.count};
  fit.edge_misfit = std::sqrt(beyond_chance(edges, rest));
  const double widened = fit.noise * std::max(fit.slow_noise, fit.edge_misfit);
  descent.linearise_over(v, descent.inverse(), widened);
  const Matrix inverse = descent.inverse();
  for (std::size_t i = 0; i < shot_numbers; ++i) {
    for (std::size_t k = 0; k < shot_numbers; ++k) {
      fit.covariance[i][k] =
          widened * widened * inverse(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k));
    }
  }
}

std::array<Stretch, 2> edges_of(const ShotModel& m) {
  const auto around = [&](double from, double to) {
    const double more = 4 + 0.3 * (to - from) + 5 * m.sensor_lag;
    return Stretch{from - more, to + more};
  };
  return {around(m.first_light(), m.fully_open()), around(m.starts_closing(), m.last_light())};
}

}  // namespace

ShotVector vector_of(const ShotModel& m) {
  return {m.opening.half,
          std::log(m.opening.width),
          std::log(m.opening.power),
          m.closing.half,
          std::log(m.closing.width),
          std::log(m.closing.power),
          m.corner,
          m.level,
          m.base,
          m.drift};
}

ShotModel model_of(const ShotVector& v, double sensor_lag) {
  return {{v[0], std::exp(v[1]), std::exp(v[2])},
          {v[3], std::exp(v[4]), std::exp(v[5])},
          v[6],
          sensor_lag,
          v[7],
          v[8],
          v[9]};
}

std::optional<ShotFit> fitted_shot(const RecordedSignal& signal, const ShotPlace& place,
                                   ShotWindow window, bool light_goes_down, double sensor_lag) {
  assert(window.begin <= window.end && window.end <= signal.samples.size());
  constexpr std::size_t least_dark = 8;
  if (place.opening < window.begin + least_dark || place.closing + least_dark > window.end ||
      place.closing < place.opening + 3) {
    return std::nullopt;
  }
  const auto samples = signal.samples.subspan(window.begin, window.end - window.begin);
  const double sign = light_goes_down ? -1 : 1;
  const ShotPlace inside{place.opening - window.begin, place.closing - window.begin};
  const auto guess = guessed_shot(samples, inside, sign, sensor_lag);
  if (!guess || !possible(vector_of(*guess), sensor_lag)) return std::nullopt;

  ShotFit fit;
  fit.model = *guess;
  fit.resolution = signal.resolution;
  Free free;
  free.fill(true);
  free[at(ShotNumber::open_power)] = free[at(ShotNumber::close_power)] = false;
  // Once with the powers held and cells by the guess, then all free and cells by the answer.
  fit.cells = cells_of(samples, edges_of(fit.model), sign);
  fit.model =
      model_of(Descent(fit.cells, sensor_lag, free).down(vector_of(fit.model), 12), sensor_lag);
  fit.cells = cells_of(samples, edges_of(fit.model), sign);
  free.fill(true);
  fit.model =
      model_of(Descent(fit.cells, sensor_lag, free).down(vector_of(fit.model), 40), sensor_lag);
  {
    Descent descent(fit.cells, sensor_lag, free);
    judge(fit, descent, free);
  }
  const auto shape = [&](const BladeEdge& edge, ShotNumber power) {
    if (edge.width < short_edge) return EdgeShape::held;
    return fit.covariance[at(power)][at(power)] < told * told ? EdgeShape::free
                                                              : EdgeShape::power_held;
  };
  fit.opening_shape = shape(fit.model.opening, ShotNumber::open_power);
  fit.closing_shape = shape(fit.model.closing, ShotNumber::close_power);
  if (fit.opening_shape != EdgeShape::free || fit.closing_shape != EdgeShape::free) {
    fit = refitted(fit, sensor_lag, usual_power);
  }
  return fit;
}

ShotFit refitted(const ShotFit& from, double sensor_lag, double held_power) {
  ShotFit fit = from;
  Free free;
  free.fill(true);
  free[at(ShotNumber::open_width)] = fit.opening_shape != EdgeShape::held;
  free[at(ShotNumber::open_power)] = fit.opening_shape == EdgeShape::free;
  free[at(ShotNumber::close_width)] = fit.closing_shape != EdgeShape::held;
  free[at(ShotNumber::close_power)] = fit.closing_shape == EdgeShape::free;
  ShotVector v = vector_of(fit.model);
  // Held well within what is possible.
  const auto hold_width = [&](EdgeShape shape, ShotNumber n) {
    if (shape == EdgeShape::held) v[at(n)] = std::max(v[at(n)], std::log(2 * least_width));
  };
  hold_width(fit.opening_shape, ShotNumber::open_width);
  hold_width(fit.closing_shape, ShotNumber::close_width);
  if (fit.opening_shape == EdgeShape::power_held) {
    v[at(ShotNumber::open_power)] = std::log(held_power);
  }
  if (fit.closing_shape == EdgeShape::power_held) {
    v[at(ShotNumber::close_power)] = std::log(held_power);
  }
  // Another power makes the edges longer: start without an overlap.
  while (!possible(v, sensor_lag) && v[at(ShotNumber::open_width)] > std::log(2 * least_width)) {
    v[at(ShotNumber::open_width)] -= 0.1;
    v[at(ShotNumber::close_width)] =
        std::max(std::log(2 * least_width), v[at(ShotNumber::close_width)] - 0.1);
  }
  Descent descent(fit.cells, sensor_lag, free);
  fit.model = model_of(descent.down(v, 40), sensor_lag);
  judge(fit, descent, free);
  return fit;
}

}  // namespace backfit
