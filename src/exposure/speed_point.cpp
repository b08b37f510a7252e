// SPDX-License-Identifier: MIT
#include "exposure/speed_point.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "exposure/metering.hpp"
#include "exposure/scales.hpp"

namespace backfit {
namespace {

double log_of(LuminousExposure h) { return std::log10(h / lux_second); }
LuminousExposure from_log(double log_h) { return std::pow(10.0, log_h) * lux_second; }

Stops doubt_of(const CharacteristicCurve& curve, Density at, const ReadingDoubt& doubt) {
  const double gradient = *curve.gradient_at(at);
  const Stops of_density = stops_of(Density{doubt.of_density.value / gradient});
  return {std::hypot(of_density.value, doubt.of_exposure.value)};
}

}  // namespace

CharacteristicCurve::CharacteristicCurve(std::vector<Point> points) : points_(std::move(points)) {
  assert(points_.size() >= 2 && points_.front().exposure > LuminousExposure{});
  for (std::size_t i = 1; i < points_.size(); ++i) {
    assert(points_[i].exposure > points_[i - 1].exposure);
  }
}

CharacteristicCurve CharacteristicCurve::under_wedge(std::span<const Density> steps,
                                                     std::span<const Density> read,
                                                     LuminousExposure through) {
  assert(steps.size() == read.size());
  std::vector<Point> points;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    points.push_back({from_log(log_of(through) - steps[i].value), read[i]});
  }
  std::ranges::sort(points, {}, &Point::exposure);
  return CharacteristicCurve(std::move(points));
}

std::optional<LuminousExposure> CharacteristicCurve::exposure_at(Density density) const {
  if (points_.front().density > density) return {};
  for (std::size_t i = 1; i < points_.size(); ++i) {
    const Point &low = points_[i - 1], &high = points_[i];
    if (high.density < density || high.density <= low.density) continue;
    const double share =
        std::max(0.0, (density - low.density).value / (high.density - low.density).value);
    return from_log(log_of(low.exposure) + share * (log_of(high.exposure) - log_of(low.exposure)));
  }
  return {};
}

std::optional<Density> CharacteristicCurve::density_at(LuminousExposure exposure) const {
  if (exposure < points_.front().exposure || exposure > points_.back().exposure) return {};
  std::size_t next = 1;
  while (exposure > points_[next].exposure) ++next;
  const Point &low = points_[next - 1], &high = points_[next];
  const double share =
      (log_of(exposure) - log_of(low.exposure)) / (log_of(high.exposure) - log_of(low.exposure));
  return Density{low.density.value + share * (high.density - low.density).value};
}

std::optional<double> CharacteristicCurve::gradient_at(Density density) const {
  if (points_.front().density > density) return {};
  for (std::size_t i = 1; i < points_.size(); ++i) {
    const Point &low = points_[i - 1], &high = points_[i];
    if (high.density < density || high.density <= low.density) continue;
    return (high.density - low.density).value / (log_of(high.exposure) - log_of(low.exposure));
  }
  return {};
}

Density CharacteristicCurve::highest() const {
  return std::ranges::max_element(points_, {}, &Point::density)->density;
}

std::optional<FilmSpeedPoint> film_speed(const CharacteristicCurve& curve, Density base_plus_fog,
                                         const ReadingDoubt& doubt) {
  const Density point = base_plus_fog + Density{0.10};
  const auto h = curve.exposure_at(point);
  if (!h) return {};
  FilmSpeedPoint answer;
  answer.exposure = *h;
  answer.speed = {0.8 / (*h / lux_second)};
  answer.named = standard_speed(answer.speed);
  answer.standard_uncertainty = doubt_of(curve, point, doubt);
  if (const auto higher = curve.density_at(from_log(log_of(*h) + 1.30))) {
    answer.rise = *higher - point;
    answer.average_gradient = answer.rise->value / 1.30;
    answer.developed_to_standard = std::abs(answer.rise->value - 0.80) <= 0.05;
  }
  return answer;
}

std::optional<PaperSpeedPoint> paper_speed(const CharacteristicCurve& curve, Density base_plus_fog,
                                           const ReadingDoubt& doubt) {
  const Density point = base_plus_fog + Density{0.60};
  const Density net = curve.highest() - base_plus_fog;
  const auto middle = curve.exposure_at(point);
  const auto first = curve.exposure_at(base_plus_fog + Density{0.04});
  const auto deepest = curve.exposure_at(base_plus_fog + Density{0.90 * net.value});
  if (!middle || !first || !deepest) return {};
  const double range = 100 * (log_of(*deepest) - log_of(*first));
  return PaperSpeedPoint{*middle,
                         1000 / (*middle / lux_second),
                         *first,
                         *deepest,
                         static_cast<int>(10 * std::lround(range / 10)),
                         doubt_of(curve, point, doubt)};
}

IsoSpeed index_of_paper(double paper_speed) {
  return {metered_exposure({1}) / lux_second * paper_speed / 1000};
}

}  // namespace backfit
