// SPDX-License-Identifier: MIT
// Recordings of shutters whose times are known, in closed form: nothing of the analysis is used.
#pragma once
#include <cmath>
#include <vector>

#include "quantity/random.hpp"

namespace backfit {

// Blades that open in `opens` and close in `closes` seconds by u^power of the light, power 1 (an
// even area: a trapezoid) or 2 (an even radius: an iris).
struct SimulatedShot {
  double first_light_s = 0, total_s = 0, opens_s = 0, closes_s = 0;
  int power = 1;

  // Truth by geometry: the area of u is 1/2, of u^2 1/3; half of the light at u = 1/2, 1/sqrt 2.
  double effective_s() const {
    return total_s - (power == 1 ? 1.0 / 2 : 2.0 / 3) * (opens_s + closes_s);
  }
  double half_s() const {
    return total_s - (power == 1 ? 0.5 : std::sqrt(0.5)) * (opens_s + closes_s);
  }
};

struct SimulatedRecorder {
  double rate_hz = 48000;
  double corner_hz = 0;     // of the AC coupling, one pole
  double sensor_tau_s = 0;  // time constant of the sensor
  double noise = 0;         // of a sample, full light being `level`
  double level = 0.5, base = 0.01;
};

// The n-fold integral of e^(-rate t) from 0 to t: by its series, or from the one before.
inline double folded_decay(int n, double rate, double t) {
  if (t <= 0) return 0;
  if (rate * t < 1) {
    double term = 1;
    for (int k = 1; k <= n; ++k) term *= t / k;
    double sum = 0;
    for (int k = n + 1; std::abs(term) > 1e-18 * std::abs(sum); ++k) {
      sum += term;
      term *= -rate * t / k;
    }
    return sum;
  }
  double power = 1;  // t^k / k!
  double value = std::exp(-rate * t);
  for (int k = 1; k <= n; ++k) {
    value = (power - value) / rate;
    power *= t / k;
  }
  return value;
}

// The light is a sum of c (t - from)^n / n! from `from` on; a step of light, through sensor and
// coupling, is (e^(-w t) - e^(-t / tau)) / (1 - w tau), and the n-th integral of a step is that of
// this. Each sample is the exact mean over its interval: the integral once more.
inline std::vector<float> simulated(const std::vector<SimulatedShot>& shots,
                                    const SimulatedRecorder& r, double duration_s, Random& random) {
  struct Piece {
    double from, c;
    int n;
  };
  std::vector<Piece> pieces;
  for (const SimulatedShot& s : shots) {
    const double a = s.first_light_s, b = a + s.opens_s;
    const double d = a + s.total_s, c = d - s.closes_s;
    if (s.power == 1) {
      for (const Piece& p : {Piece{a, 1 / s.opens_s, 1}, Piece{b, -1 / s.opens_s, 1},
                             Piece{c, -1 / s.closes_s, 1}, Piece{d, 1 / s.closes_s, 1}}) {
        pieces.push_back(p);
      }
    } else {
      const double o = s.opens_s, e = s.closes_s;
      for (const Piece& p :
           {Piece{a, 2 / (o * o), 2}, Piece{b, -2 / (o * o), 2}, Piece{b, -2 / o, 1},
            Piece{c, -2 / e, 1}, Piece{c, 2 / (e * e), 2}, Piece{d, -2 / (e * e), 2}}) {
        pieces.push_back(p);
      }
    }
  }
  const double w = 2 * 3.14159265358979323846 * r.corner_hz, step = 1 / r.rate_hz;
  const auto answer = [&](int n, double t) {
    if (r.sensor_tau_s == 0) return folded_decay(n, w, t);
    return (folded_decay(n, w, t) - folded_decay(n, 1 / r.sensor_tau_s, t)) /
           (1 - w * r.sensor_tau_s);
  };
  std::vector<float> samples(static_cast<std::size_t>(duration_s * r.rate_hz));
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const double begin = static_cast<double>(i) * step;
    double light = 0;
    for (const Piece& p : pieces) {
      if (begin + step <= p.from) continue;
      light += p.c * (answer(p.n + 1, begin + step - p.from) - answer(p.n + 1, begin - p.from));
    }
    samples[i] = static_cast<float>(r.base + r.level * (light / step + r.noise * random.normal()));
  }
  return samples;
}

}  // namespace backfit
