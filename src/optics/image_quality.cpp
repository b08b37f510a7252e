// SPDX-License-Identifier: MIT
#include "optics/image_quality.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>

#include "optics/paraxial.hpp"

namespace backfit {
namespace {

ImageQuality::Light light_of(const Spot& spot, Length wavelength, const ImageQuality& s) {
  const SpotSize size = size_of(spot);
  ImageQuality::Light light{size.y,
                            size.rms,
                            size.largest,
                            best_shift(spot),
                            best_shift(spot, Lines::sagittal),
                            best_shift(spot, Lines::tangential),
                            {},
                            {}};
  if (s.frequencies.empty()) return light;
  const Wavefront wave(spot, wavelength);
  for (const Length shift : s.shifts) {
    for (const SpatialFrequency nu : s.frequencies) {
      light.by_rays.push_back({geometric_mtf(spot, nu, Lines::sagittal, shift),
                               geometric_mtf(spot, nu, Lines::tangential, shift)});
      light.by_waves.push_back(
          {wave.mtf(nu, Lines::sagittal, shift), wave.mtf(nu, Lines::tangential, shift)});
    }
  }
  return light;
}

// Shares of a disc that lie nearest to each of `heights` from its middle.
std::vector<double> ring_shares(const std::vector<Length>& heights) {
  std::vector<std::size_t> order(heights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto radius = [&](std::size_t i) { return abs(heights[i]); };
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return radius(a) < radius(b); });
  const Length outside = radius(order.back());
  std::vector<double> shares(heights.size(), 1);
  if (!(outside > Length{})) return shares;
  double inner = 0;
  for (std::size_t k = 0; k < order.size(); ++k) {
    const double edge =
        k + 1 < order.size() ? (radius(order[k]) + radius(order[k + 1])) / (2 * outside) : 1;
    shares[order[k]] = edge * edge - inner * inner;
    inner = edge;
  }
  return shares;
}

}  // namespace

ImageQuality image_quality_of(const LensModel& lens, Length wavelength, Length object, Length plane,
                              std::span<const Angle> fields,
                              std::vector<SpatialFrequency> frequencies,
                              std::vector<Length> shifts) {
  ImageQuality s;
  s.frequencies = std::move(frequencies);
  s.shifts = std::move(shifts);
  std::vector<Spot> spots;
  std::vector<Length> heights;
  for (const Angle field : fields) {
    const auto spot = spot_of(lens, {field, object}, plane);
    s.points.push_back({field, {}});
    if (!spot) continue;
    s.points.back().light = light_of(*spot, wavelength, s);
    heights.push_back(s.points.back().light->height);
    spots.push_back(*spot);
  }
  if (!spots.empty()) s.best_flat_film = best_shift(spots, ring_shares(heights));
  return s;
}

std::optional<Angle> field_at(const LensModel& lens, Length object, Length plane, Length height) {
  const auto off = [&](Angle field) -> std::optional<Length> {
    const auto chief = chief_ray(lens, {field, object});
    if (!chief) return std::nullopt;
    const Traced t = traced(lens, *chief);
    if (t.fate != Fate::through && t.fate != Fate::clipped) return std::nullopt;
    return at_plane(t.ray, lens.surfaces.back().z + plane).y - height;
  };
  // Chief rays land the farther out the steeper they come.
  Angle low;
  Angle high = 89 * deg;
  for (int i = 0; i < 200; ++i) {
    const Angle middle = (low + high) / 2;
    const auto y = off(middle);
    if (y && abs(*y) < 1e-6 * mm) return middle;
    (y && *y < Length{} ? low : high) = middle;
  }
  return std::nullopt;
}

}  // namespace backfit
