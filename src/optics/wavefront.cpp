// SPDX-License-Identifier: MIT
#include "optics/wavefront.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <complex>
#include <numbers>

#include "optics/gauss_rule.hpp"

namespace backfit {
namespace {

// Terms T_i(u) T_j(v) with i + j <= degree.
constexpr int degree = 12;
constexpr int across = degree + 1;
using Powers = std::array<double, across>;

Powers chebyshev(double u) {
  Powers t{1, u};
  for (std::size_t i = 2; i < across; ++i) t[i] = 2 * u * t[i - 1] - t[i - 2];
  return t;
}

Powers chebyshev_slopes(double u) {
  const Powers t = chebyshev(u);
  Powers d{0, 1};
  for (std::size_t i = 2; i < across; ++i) d[i] = 2 * t[i - 1] + 2 * u * d[i - 1] - d[i - 2];
  return d;
}

template <typename Visit>
void each_term(Visit visit) {
  for (std::size_t j = 0; j < across; ++j) {
    for (std::size_t i = 0; i + j < across; ++i) visit(i, j);
  }
}
constexpr int terms = across * (across + 1) / 2;

Eigen::RowVectorXd row_of(const Powers& a, const Powers& b) {
  Eigen::RowVectorXd row(terms);
  int k = 0;
  each_term([&](std::size_t i, std::size_t j) { row[k++] = a[i] * b[j]; });
  return row;
}

// The sum along one line of the box, as Chebyshev coefficients of the other coordinate.
Powers along_line(const std::vector<double>& coefficients, Lines lines, double place) {
  const Powers t = chebyshev(place);
  Powers sum{};
  std::size_t k = 0;
  each_term([&](std::size_t i, std::size_t j) {
    if (lines == Lines::tangential) {
      sum[j] += coefficients[k++] * t[i];
    } else {
      sum[i] += coefficients[k++] * t[j];
    }
  });
  return sum;
}

double value(const Powers& coefficients, double u) {
  double b1 = 0;
  double b2 = 0;
  for (std::size_t i = across - 1; i > 0; --i) {
    const double b0 = coefficients[i] + 2 * u * b1 - b2;
    b2 = b1;
    b1 = b0;
  }
  return coefficients[0] + u * b1 - b2;
}

}  // namespace

double diffraction_limit(Length wavelength, FNumber aperture, SpatialFrequency frequency) {
  const double q = wavelength * aperture.value * frequency;
  if (q >= 1) return 0;
  return 2 / std::numbers::pi * (std::acos(q) - q * std::sqrt(1 - q * q));
}

Wavefront::Wavefront(const Spot& spot, Length wavelength) : wavelength_(wavelength), spot_(spot) {
  const auto [l0, l1] = std::minmax_element(spot.edge.begin(), spot.edge.end(),
                                            [](auto& a, auto& b) { return a.l < b.l; });
  const auto [m0, m1] = std::minmax_element(spot.edge.begin(), spot.edge.end(),
                                            [](auto& a, auto& b) { return a.m < b.m; });
  l_ = {l0->l, l1->l};
  m_ = {m0->m, m1->m};
  std::vector<Spot::Ray> rays = spot.rays;
  rays.insert(rays.end(), spot.edge.begin(), spot.edge.end());
  const auto count = static_cast<Eigen::Index>(rays.size());
  const SpotSize size = size_of(spot);
  const Length path = rays.front().path;
  Eigen::MatrixXd basis(count, terms);
  Eigen::MatrixXd wanted(count, 3);  // phase and place in the pupil
  const auto u = [this](const Spot::Ray& r) { return 2 * (r.l - l_.from) / l_.length() - 1; };
  const auto v = [this](const Spot::Ray& r) { return 2 * (r.m - m_.from) / m_.length() - 1; };
  for (Eigen::Index i = 0; i < count; ++i) {
    const Spot::Ray& r = rays[static_cast<std::size_t>(i)];
    basis.row(i) = row_of(chebyshev(u(r)), chebyshev(v(r)));
    const Length w = (r.path - path) - r.l * (r.x - size.x) - r.m * (r.y - size.y);
    wanted.row(i) << w / wavelength, r.pupil_x / mm, r.pupil_y / mm;
  }
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> solver(basis);
  const Eigen::MatrixXd fitted = solver.solve(wanted);
  fit_error_ =
      std::sqrt((basis * fitted.col(0) - wanted.col(0)).squaredNorm() / static_cast<double>(count));
  // Light per solid angle: how much of the pupil goes into a piece of directions.
  Eigen::VectorXd amplitudes(count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const Spot::Ray& r = rays[static_cast<std::size_t>(i)];
    const Eigen::RowVectorXd by_u = row_of(chebyshev_slopes(u(r)), chebyshev(v(r)));
    const Eigen::RowVectorXd by_v = row_of(chebyshev(u(r)), chebyshev_slopes(v(r)));
    amplitudes[i] = std::sqrt(std::abs(by_u.dot(fitted.col(1)) * by_v.dot(fitted.col(2)) -
                                       by_u.dot(fitted.col(2)) * by_v.dot(fitted.col(1))));
  }
  const Eigen::VectorXd amplitude = solver.solve(amplitudes);
  phase_.assign(fitted.col(0).begin(), fitted.col(0).end());
  amplitude_.assign(amplitude.begin(), amplitude.end());
}

Wavefront::Chord Wavefront::chord(Lines lines, double at) const {
  Chord c{1, -1};
  const bool tangential = lines == Lines::tangential;
  for (std::size_t i = 0; i < spot_.edge.size(); ++i) {
    const Spot::Ray& a = spot_.edge[i];
    const Spot::Ray& b = spot_.edge[(i + 1) % spot_.edge.size()];
    const double a_at = tangential ? a.l : a.m;
    const double b_at = tangential ? b.l : b.m;
    if ((a_at < at) == (b_at < at)) continue;
    const double part = (at - a_at) / (b_at - a_at);
    const double place = tangential ? a.m + part * (b.m - a.m) : a.l + part * (b.l - a.l);
    c.from = std::min(c.from, place);
    c.to = std::max(c.to, place);
  }
  return c.from < c.to ? c : Chord{};
}

Wavefront::Chord Wavefront::overlap(Lines lines, double offset) const {
  const Chord all = lines == Lines::tangential ? l_ : m_;
  const auto longer = [&](double at) { return chord(lines, at).length() > offset; };
  // The chord of a convex outline rises to one longest and falls again.
  double low = all.from;
  double high = all.to;
  while (high - low > 1e-9 * all.length()) {
    const double a = low + (high - low) / 3;
    const double b = high - (high - low) / 3;
    if (chord(lines, a).length() < chord(lines, b).length()) {
      low = a;
    } else {
      high = b;
    }
  }
  const double longest = (low + high) / 2;
  if (!longer(longest)) return {};
  const auto limit = [&](double outside) {
    double inside = longest;
    while (std::abs(outside - inside) > 1e-12 * all.length()) {
      const double middle = (inside + outside) / 2;
      (longer(middle) ? inside : outside) = middle;
    }
    return inside;
  };
  return {limit(all.from), limit(all.to)};
}

double Wavefront::mtf(SpatialFrequency frequency, Lines lines, Length shift) const {
  const double offset = wavelength_ * frequency;
  const bool tangential = lines == Lines::tangential;
  const Chord box_across = tangential ? l_ : m_;
  const Chord box_along = tangential ? m_ : l_;
  // Enough points for the phase, which turns once a period of the pattern over the spot's width.
  const double turns = 2 * (frequency * size_of(spot_, shift).largest);
  const auto rule = gauss_rule(std::min(24 + static_cast<int>(4 * turns), 400));
  const auto waves = [&](double l, double m, double fitted) {
    return fitted + shift / wavelength_ * std::sqrt(1 - l * l - m * m);
  };
  const auto integral = [&](double by) {
    const Chord stretch = overlap(lines, by);
    std::complex<double> sum = 0;
    for (const auto& column : rule) {
      // Sines of evenly spread angles take the edge's square root well.
      const double angle = std::numbers::pi * (column.place - 0.5);
      const double at = stretch.from + stretch.length() * (1 + std::sin(angle)) / 2;
      const double width =
          std::numbers::pi / 2 * stretch.length() * std::cos(angle) * column.weight;
      const double place = 2 * (at - box_across.from) / box_across.length() - 1;
      const Powers phase = along_line(phase_, lines, place);
      const Powers amplitude = along_line(amplitude_, lines, place);
      const Chord c = chord(lines, at);
      const double length = c.length() - by;
      if (!(length > 0)) continue;
      for (const auto& point : rule) {
        const double low = c.from + length * point.place;
        const double high = low + by;
        const double low_u = 2 * (low - box_along.from) / box_along.length() - 1;
        const double high_u = 2 * (high - box_along.from) / box_along.length() - 1;
        const double turn =
            waves(at, high, value(phase, high_u)) - waves(at, low, value(phase, low_u));
        sum += width * length * point.weight * value(amplitude, low_u) * value(amplitude, high_u) *
               std::polar(1.0, 2 * std::numbers::pi * turn);
      }
    }
    return std::abs(sum);
  };
  return integral(offset) / integral(0);
}

}  // namespace backfit
