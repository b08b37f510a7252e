// SPDX-License-Identifier: MIT
#include "evidence/slanted_edge.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <complex>
#include <numbers>
#include <span>

namespace backfit {
namespace {

constexpr std::size_t bins_per_pixel = 4;
constexpr double pi = std::numbers::pi;

// Hamming's window of half width `reach` around `centre`.
double window(double place, double centre, double reach) {
  const double t = (place - centre) / reach;
  return std::abs(t) < 1 ? 0.54 + 0.46 * std::cos(pi * t) : 0;
}

// Where the edge crosses a row: the centroid of its differences, near `guess` if there is one.
std::optional<double> crossing(std::span<const double> row, std::optional<double> guess) {
  double sum = 0;
  double moment = 0;
  const double reach = static_cast<double>(row.size()) / 2;
  for (std::size_t i = 0; i + 1 < row.size(); ++i) {
    const double place = static_cast<double>(i) + 0.5;
    const double difference = (row[i + 1] - row[i]) * (guess ? window(place, *guess, reach) : 1.0);
    sum += difference;
    moment += place * difference;
  }
  if (sum == 0 || !std::isfinite(moment / sum)) return std::nullopt;
  const double place = moment / sum;
  if (place < 0 || place > static_cast<double>(row.size() - 1)) return std::nullopt;
  return place;
}

struct Line {
  double at_zero = 0, slope = 0;
  double at(double row) const { return at_zero + slope * row; }
};

Line line_through(const std::vector<double>& places) {
  const double n = static_cast<double>(places.size());
  const double middle = (n - 1) / 2;
  double mean = 0;
  double product = 0;
  double square = 0;
  for (const double place : places) mean += place / n;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double r = static_cast<double>(i) - middle;
    product += r * (places[i] - mean);
    square += r * r;
  }
  const double slope = product / square;
  return {mean - slope * middle, slope};
}

// sin(x) / x.
double sinc(double x) { return std::abs(x) < 1e-8 ? 1 : std::sin(x) / x; }

}  // namespace

double EdgeResponse::at(double f) const {
  assert(!samples.empty() && f >= 0 && f <= samples.back().cycles_per_pixel);
  const auto above = std::ranges::lower_bound(samples, f, {}, &Sample::cycles_per_pixel);
  if (above == samples.begin()) return above->contrast;
  const Sample& a = *(above - 1);
  const Sample& b = *above;
  const double t = (f - a.cycles_per_pixel) / (b.cycles_per_pixel - a.cycles_per_pixel);
  return a.contrast + t * (b.contrast - a.contrast);
}

std::optional<EdgeResponse> edge_response(const EdgePicture& p, std::string& why) {
  assert(p.values.size() == static_cast<std::size_t>(p.width) * static_cast<std::size_t>(p.height));
  if (p.width < 16 || p.height < 16) {
    why = "the picture of the edge has fewer than 16 columns or rows";
    return std::nullopt;
  }
  const auto columns = static_cast<std::size_t>(p.width);
  const auto rows = static_cast<std::size_t>(p.height);
  std::vector<double> places(rows);
  std::optional<Line> line;
  // Once roughly, once more with a window around the line found.
  for (int turn = 0; turn < 2; ++turn) {
    for (std::size_t r = 0; r < rows; ++r) {
      const auto place =
          crossing(std::span(p.values).subspan(r * columns, columns),
                   line ? std::optional(line->at(static_cast<double>(r))) : std::nullopt);
      if (!place) {
        why = "a row of the picture shows no edge";
        return std::nullopt;
      }
      places[r] = *place;
    }
    line = line_through(places);
  }
  if (std::abs(line->slope) < 1.0 / 60 || std::abs(line->slope) > 0.25) {
    why = "the edge must lean by 1 to 14 degrees against the columns";
    return std::nullopt;
  }

  // As many rows as the edge takes for a whole number of columns fill all parts of a pixel alike.
  const double lean = std::abs(line->slope);
  const double crossed = std::floor(lean * static_cast<double>(rows) + 1e-6);
  const auto used = static_cast<std::size_t>(std::lround(crossed / lean));
  if (used == 0) {
    why = "too few rows for the lean of the edge: it must cross a whole column";
    return std::nullopt;
  }

  // These rows into bins along the edge, the edge itself in the middle.
  const std::size_t bins = columns * bins_per_pixel;
  std::vector<double> sums(bins);
  std::vector<double> offsets(bins);  // of the samples from their bin's middle, in bins
  std::vector<int> counts(bins);
  const double middle = static_cast<double>(columns - 1) / 2;
  for (std::size_t r = 0; r < std::min(used, rows); ++r) {
    const double shift = middle - line->at(static_cast<double>(r));
    for (std::size_t c = 0; c < columns; ++c) {
      const double place = (static_cast<double>(c) + shift + 0.5) * bins_per_pixel;
      const double bin = std::floor(place);
      if (bin < 0 || bin >= static_cast<double>(bins)) continue;
      sums[static_cast<std::size_t>(bin)] += p.at(static_cast<int>(c), static_cast<int>(r));
      offsets[static_cast<std::size_t>(bin)] += place - bin - 0.5;
      ++counts[static_cast<std::size_t>(bin)];
    }
  }
  // The edge leaves the picture's sides at the top or bottom: use what all rows reach.
  const double off = std::max(std::abs(middle - line->at(0)),
                              std::abs(middle - line->at(static_cast<double>(rows - 1))));
  const auto margin = static_cast<std::size_t>(std::ceil(off * bins_per_pixel)) + 1;
  if (bins < 2 * margin + 8 * bins_per_pixel) {
    why = "the edge runs too near the side of the picture";
    return std::nullopt;
  }
  std::vector<double> profile;
  std::vector<double> offset;
  for (std::size_t i = margin; i < bins - margin; ++i) {
    if (counts[i] == 0) {
      why = "too few rows for the lean of the edge: some quarter pixels stay empty";
      return std::nullopt;
    }
    profile.push_back(sums[i] / counts[i]);
    offset.push_back(offsets[i] / counts[i]);
  }
  // Each bin's value at its middle, by the slope between its neighbours.
  std::vector<double> centred = profile;
  for (std::size_t i = 1; i + 1 < profile.size(); ++i) {
    centred[i] -= offset[i] * (profile[i + 1] - profile[i - 1]) / 2;
  }

  std::vector<double> spread(profile.size());
  for (std::size_t i = 1; i + 1 < profile.size(); ++i) {
    spread[i] = (centred[i + 1] - centred[i - 1]) / 2;
  }
  const double centre = static_cast<double>(spread.size() - 1) / 2;
  for (std::size_t i = 0; i < spread.size(); ++i) {
    spread[i] *= window(static_cast<double>(i), centre, static_cast<double>(spread.size()) / 2);
  }

  EdgeResponse response;
  response.slope = line->slope;
  const double pixels = static_cast<double>(spread.size()) / bins_per_pixel;
  double zero = 0;
  for (int k = 0; k <= static_cast<int>(pixels); ++k) {
    const double f = k / pixels;
    std::complex<double> sum = 0;
    for (std::size_t i = 0; i < spread.size(); ++i) {
      sum += spread[i] * std::polar(1.0, -2 * pi * f * static_cast<double>(i) / bins_per_pixel);
    }
    if (k == 0) zero = std::abs(sum);
    if (!(zero > 0)) {
      why = "the picture shows no contrast";
      return std::nullopt;
    }
    const double taken = sinc(2 * pi * f / bins_per_pixel) * sinc(pi * f / bins_per_pixel);
    response.samples.push_back({f, std::abs(sum) / zero / taken});
  }
  return response;
}

}  // namespace backfit
