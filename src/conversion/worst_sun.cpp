// SPDX-License-Identifier: MIT
#include "conversion/worst_sun.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

#include "quantity/estimate.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// So that walks find some light where the sun brings none.
constexpr Illuminance a_little_sky = 1 * lux;

using Direction = std::array<double, 3>;

double dot(const Direction& a, const Direction& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
Direction unit(const SpacePoint& p) {
  const double length = std::hypot(p.x / mm, p.y / mm, p.z / mm);
  return {p.x / mm / length, p.y / mm / length, p.z / mm / length};
}
// `d` with so much more along `axis`, whose length is 1.
Direction moved(const Direction& d, const Direction& axis, double by) {
  return {d[0] + by * axis[0], d[1] + by * axis[1], d[2] + by * axis[2]};
}
SpacePoint point(const Direction& d) { return {d[0] * mm, d[1] * mm, d[2] * mm}; }

}  // namespace

WorstSun sun_towards(const SpacePoint& direction) { return {point(unit(direction)), 0}; }

WorstSun worst_sun(const SpacePoint& found, const FilmPlane& film,
                   const std::function<SunLight(const SpacePoint&)>& light) {
  constexpr double same_component = 1e-6;
  const double far_apart = std::cos(20 * deg / rad);  // of images that are named as others
  const Direction d = unit(found), right = unit(film.width), down = unit(film.height);
  const double x = dot(d, right), y = -dot(d, down);
  struct Image {
    Direction towards;
    SunLight light;
  };
  std::vector<Image> images;
  for (const double side : {1.0, -1.0}) {
    if (side < 0 && std::abs(x) < same_component) continue;
    for (const double height : {1.0, -1.0}) {
      if (height < 0 && std::abs(y) < same_component) continue;
      const Direction image =
          moved(moved(d, right, side * std::abs(x) - x), down, y - height * std::abs(y));
      images.push_back({image, light(point(image))});
    }
  }
  const auto reach = [](const Image& i) { return i.light.mean + i.light.half_width; };
  const double most =
      std::ranges::max(images, {}, [](const Image& i) { return i.light.mean; }).light.mean;
  const auto named = std::ranges::find_if(images, [&](const Image& i) { return reach(i) >= most; });
  const auto alike = std::ranges::count_if(images, [&](const Image& i) {
    return reach(i) >= most && dot(i.towards, named->towards) < far_apart;
  });
  return {point(named->towards), static_cast<std::size_t>(alike)};
}

WorstSun worst_sun(const LeakWalks& walks, const FilmPlane& film, Illuminance sun,
                   const LeakWalks::Order& order) {
  const auto light = [&](const SpacePoint& towards) {
    double mean = 0, variance = 0;
    for (const PatchLight& p : walks.walked({a_little_sky, sun, towards}, order)) {
      const TallyResult on_patch = p.all.result();
      mean += on_patch.mean;
      variance += on_patch.standard_error * on_patch.standard_error;
    }
    return SunLight{mean, coverage_95 * std::sqrt(variance)};
  };
  return worst_sun(walks.by_sun(order).front().towards, film, light);
}

WorstSun worst_sun(const SeamWalks& walks, const FilmPlane& film, Illuminance sun,
                   const SeamWalks::Order& order) {
  // A history's light on all film has no tally; means of batches spread as normal ones do.
  const auto light = [&](const SpacePoint& towards) {
    constexpr std::size_t batches = 8;
    std::array<double, batches> on_film{};
    double mean = 0, squares = 0;
    SeamWalks::Order batch = order;
    batch.histories = order.histories / 2;
    for (double& sum : on_film) {
      const SeamWalks::Light found = walks.walked({a_little_sky, sun, towards}, batch);
      sum = std::accumulate(found.of_ways.begin(), found.of_ways.end(), 0.0);
      mean += sum / batches;
      batch.first += batch.histories;
    }
    for (const double sum : on_film) squares += (sum - mean) * (sum - mean);
    const double u = std::sqrt(squares / (batches * (batches - 1)));
    return SunLight{mean, coverage_factor(0.95, batches - 1) * u};
  };
  return worst_sun(walks.worst_sun(order), film, light);
}

}  // namespace backfit
