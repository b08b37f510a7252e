// SPDX-License-Identifier: MIT
#include "evidence/shutter_trace.hpp"

#include <cmath>
#include <functional>
#include <numbers>
#include <string>

#include "evidence/shot_fit.hpp"
#include "evidence/shot_guess.hpp"

namespace backfit {
namespace {

constexpr double clock_share = 1e-4;
const double ln_9 = std::log(9);
constexpr Time least_dark = 15 * ms, most_dark = 120 * ms;
// Edges that leave less than this much of a flat top between them leave none.
constexpr double least_flat_samples = 3, least_flat_of_total = 0.03;

using Answer = std::function<double(const ShotModel&)>;

double total_of(const ShotModel& m) { return m.last_light() - m.first_light(); }
double half_of(const ShotModel& m) { return m.closing.half - m.opening.half; }
double effective_of(const ShotModel& m) {
  return total_of(m) - m.opening.lost() - m.closing.lost();
}
double efficiency_of(const ShotModel& m) { return effective_of(m) / total_of(m); }

// Everything that one shot's answers and their doubts come from.
class Judged {
 public:
  Judged(const ShotFit& fit, const std::optional<SensorRise>& sensor, double lag, double lag_u)
      : fit_(fit) {
    if (sensor && lag_u > 0) other_sensor_ = refitted(fit, lag + lag_u, usual_power).model;
    if (fit.opening_shape == EdgeShape::power_held || fit.closing_shape == EdgeShape::power_held) {
      even_area_ = refitted(fit, lag, 1).model;
      even_radius_ = refitted(fit, lag, 2).model;
    }
  }

  // `clocked`: a time between the edges, which the clock stretches and short edges blur.
  template <class Q>
  Estimate<Q> operator()(const Answer& f, Q unit, bool clocked) const {
    const double value = f(fit_.model);
    Estimate<Q> e{value * unit, Q{}, {}};
    const ShotVector v = vector_of(fit_.model);
    ShotVector slope{};
    for (std::size_t i = 0; i < shot_numbers; ++i) {
      const double u = std::sqrt(fit_.covariance[i][i]);
      if (!(u > 0)) continue;
      ShotVector up = v, down = v;
      const double step = std::min(0.01 * u, 0.01);
      up[i] += step;
      down[i] -= step;
      const double lag = fit_.model.sensor_lag;
      slope[i] = (f(model_of(up, lag)) - f(model_of(down, lag))) / (2 * step);
    }
    // The covariance of the answer with each number, and what corner and level share of its
    // variance, one after the other.
    ShotVector with{};
    double variance = 0;
    for (std::size_t i = 0; i < shot_numbers; ++i) {
      for (std::size_t k = 0; k < shot_numbers; ++k) with[i] += fit_.covariance[i][k] * slope[k];
      variance += slope[i] * with[i];
    }
    const auto c = static_cast<std::size_t>(ShotNumber::corner);
    const auto l = static_cast<std::size_t>(ShotNumber::level);
    const auto& cov = fit_.covariance;
    const double by_corner = cov[c][c] > 0 ? with[c] * with[c] / cov[c][c] : 0;
    const double level_left = cov[c][c] > 0 ? cov[l][l] - cov[c][l] * cov[c][l] / cov[c][c] : 0;
    const double with_level = cov[c][c] > 0 ? with[l] - with[c] * cov[c][l] / cov[c][c] : 0;
    const double by_level = level_left > 0 ? with_level * with_level / level_left : 0;
    const double rest = std::max(0.0, variance - by_corner - by_level);
    const auto add = [&](const char* name, double u) {
      if (u > 0) e.budget.push_back({name, 1, u, 0});
    };
    add("noise at the edges", std::sqrt(rest));
    add("AC coupling", std::sqrt(by_corner));
    add("level when open", std::sqrt(by_level));
    if (other_sensor_) add("sensor's rise", std::abs(f(*other_sensor_) - value));
    if (even_area_) {
      add("shape of the edges",
          std::abs(f(*even_area_) - f(*even_radius_)) / 2 * std::numbers::inv_sqrt3);
    }
    if (clocked) {
      add("sampling of short edges", sampling());
      add("recorder's clock", std::abs(value) * clock_share * std::numbers::inv_sqrt3);
    }
    double sum = 0;
    for (const Contribution& x : e.budget) sum += x.contribution * x.contribution;
    e.standard_uncertainty = std::sqrt(sum) * unit;
    for (Contribution& x : e.budget) {
      x.share = x.contribution * x.contribution / sum;
      if constexpr (!std::is_same_v<Q, double>) x.contribution = (x.contribution * unit).base();
    }
    std::ranges::sort(e.budget, std::greater{}, &Contribution::contribution);
    return e;
  }

 private:
  // A short edge may lie anywhere within a sample.
  double sampling() const {
    double edges = 0;
    for (const EdgeShape shape : {fit_.opening_shape, fit_.closing_shape}) {
      edges += shape == EdgeShape::held ? 1 : 0;
    }
    return std::sqrt(edges / 12);
  }

  const ShotFit& fit_;
  std::optional<ShotModel> other_sensor_, even_area_, even_radius_;
};

std::vector<LightPoint> curve_of(const ShotFit& fit, Time interval) {
  std::vector<LightPoint> curve;
  const ShotModel& m = fit.model;
  const double around = 0.15 * total_of(m) + 4;
  for (std::size_t i = 0; i < fit.cells.size(); ++i) {
    const TraceCell& c = fit.cells[i];
    const double middle = c.begin + c.width / 2;
    if (middle < m.first_light() - around || middle > m.last_light() + around) continue;
    const CellAnswer& a = fit.answers[i];
    curve.push_back(
        {(middle - m.first_light()) * interval, a.light + (c.mean - a.sample) / m.level, a.light});
  }
  return curve;
}

TimedShot judged(const ShotFit& fit, std::size_t begin, Time interval,
                 const std::optional<SensorRise>& sensor) {
  const ShotModel& m = fit.model;
  const double lag_u = sensor ? sensor->standard_uncertainty() / ln_9 / interval : 0;
  const Judged answer(fit, sensor, m.sensor_lag, lag_u);
  TimedShot shot;
  shot.at = (static_cast<double>(begin) + m.first_light()) * interval;
  shot.total = answer(total_of, interval, true);
  shot.half = answer(half_of, interval, true);
  const double flat = m.starts_closing() - m.fully_open();
  if (flat >= std::max(least_flat_samples, least_flat_of_total * total_of(m))) {
    shot.effective = answer(effective_of, interval, true);
    shot.efficiency = answer(efficiency_of, 1.0, false);
  }
  shot.opening = answer([](const ShotModel& x) { return x.opening.width; }, interval, false);
  shot.closing = answer([](const ShotModel& x) { return x.closing.width; }, interval, false);
  shot.ac_corner = answer([](const ShotModel& x) { return x.corner / (2 * std::numbers::pi); },
                          1 / interval, false);
  shot.noise = fit.noise / m.level;
  shot.widened_for_noise = fit.slow_noise;
  shot.widened_for_shape = fit.edge_misfit;
  shot.shape_held = fit.opening_shape != EdgeShape::free || fit.closing_shape != EdgeShape::free;
  shot.curve = curve_of(fit, interval);
  return shot;
}

}  // namespace

LightTrace shots_of_light(const RecordedSignal& signal, const FoundShots& found,
                          const std::optional<SensorRise>& sensor) {
  LightTrace trace;
  trace.light_goes_down = found.light_goes_down;
  trace.unpaired = found.unpaired;
  const double lag = sensor ? sensor->value / ln_9 / signal.interval : 0;
  const auto samples_in = [&](Time t) { return static_cast<std::size_t>(t / signal.interval); };
  for (std::size_t i = 0; i < found.shots.size(); ++i) {
    const ShotPlace& place = found.shots[i];
    // Dark on both sides: half of the way to the neighbours, and no more than tells the droop.
    const std::size_t dark = std::clamp(place.closing - place.opening, samples_in(least_dark),
                                        std::max(samples_in(least_dark), samples_in(most_dark)));
    const std::size_t before = i == 0 ? 0 : (found.shots[i - 1].closing + place.opening) / 2;
    const std::size_t behind = i + 1 == found.shots.size()
                                   ? signal.samples.size()
                                   : (place.closing + found.shots[i + 1].opening) / 2;
    const ShotWindow window{std::max(before, place.opening - std::min(place.opening, dark)),
                            std::min(behind, place.closing + dark)};
    const auto fit = fitted_shot(signal, place, window, found.light_goes_down, lag);
    if (!fit) {
      ++trace.unusable;
      continue;
    }
    trace.shots.push_back(judged(*fit, window.begin, signal.interval, sensor));
  }
  return trace;
}

}  // namespace backfit
