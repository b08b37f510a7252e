// SPDX-License-Identifier: MIT
#include "evidence/shot_search.hpp"

#include <cassert>
#include <cmath>

namespace backfit {
namespace {

constexpr Time block_time = 50 * us, step_time = 1.6 * ms;
constexpr double least_over_noise = 8, least_of_largest = 0.3;
constexpr std::size_t median_of = 200'000;

// Means of `size` samples each.
std::vector<float> blocks_of(std::span<const float> samples, std::size_t size) {
  std::vector<float> blocks(samples.size() / size);
  const float part = 1 / static_cast<float>(size);
  const float* next = samples.data();
  for (float& block : blocks) {
    float sum = 0;
    for (std::size_t i = 0; i < size; ++i) sum += *next++;
    block = sum * part;
  }
  return blocks;
}

// At each border between blocks the mean of `w` blocks behind it less that of `w` before.
std::vector<float> steps_of(const std::vector<float>& blocks, std::size_t w) {
  std::vector<float> steps(blocks.size());
  if (blocks.size() < 2 * w + 1) return steps;
  double sum = 0;
  for (std::size_t i = 0; i < w; ++i) sum += double{blocks[i + w]} - double{blocks[i]};
  const double part = 1 / static_cast<double>(w);
  for (std::size_t k = w; k + w < blocks.size(); ++k) {
    steps[k] = static_cast<float>(sum * part);
    sum += double{blocks[k + w]} - 2 * double{blocks[k]} + double{blocks[k - w]};
  }
  return steps;
}

// Standard deviation of noise whose absolute values have this median: that over 0.6745.
double noise_of(const std::vector<float>& steps) {
  const std::size_t stride = std::max<std::size_t>(1, steps.size() / median_of);
  std::vector<float> sizes;
  for (std::size_t i = 0; i < steps.size(); i += stride) sizes.push_back(std::abs(steps[i]));
  if (sizes.empty()) return 0;
  const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
  std::ranges::nth_element(sizes, middle);
  return double{*middle} / 0.6745;
}

struct Step {
  std::size_t place;  // block
  bool up;
};

// One step a stretch of blocks over the limit with one sign, where it is largest; of a flat top its
// middle.
std::vector<Step> peaks_of(const std::vector<float>& steps, float limit) {
  std::vector<Step> peaks;
  std::size_t k = 0;
  while (k < steps.size()) {
    if (std::abs(steps[k]) < limit) {
      ++k;
      continue;
    }
    const bool up = steps[k] > 0;
    std::size_t first = k, last = k;
    for (; k < steps.size() && std::abs(steps[k]) >= limit && (steps[k] > 0) == up; ++k) {
      if (std::abs(steps[k]) > std::abs(steps[first])) first = last = k;
      if (std::abs(steps[k]) >= 0.999F * std::abs(steps[first])) last = k;
    }
    peaks.push_back({(first + last) / 2, up});
  }
  return peaks;
}

}  // namespace

FoundShots shots_in(const RecordedSignal& signal) {
  assert(signal.interval > Time{});
  FoundShots found;
  const auto size = std::max<std::size_t>(1, std::size_t(block_time / signal.interval + 1e-9));
  const Time block = static_cast<double>(size) * signal.interval;
  const auto blocks = blocks_of(signal.samples, size);
  // No longer than a recording of one shot alone can hold.
  const auto w = std::max<std::size_t>(
      1, std::min(static_cast<std::size_t>(std::lround(step_time / block)), blocks.size() / 8));
  const auto steps = steps_of(blocks, w);
  found.noise = noise_of(steps);
  float largest = 0;
  for (const float step : steps) largest = std::max(largest, std::abs(step));
  found.step = double{largest};
  if (!(found.step > least_over_noise * found.noise)) return found;
  const double limit = std::max(least_over_noise * found.noise, least_of_largest * found.step);
  const auto peaks = peaks_of(steps, static_cast<float>(limit));
  found.light_goes_down = !peaks.front().up;
  const Step* opening = nullptr;
  for (const Step& peak : peaks) {
    const bool opens = peak.up != found.light_goes_down;
    if (opens) {
      found.unpaired += opening != nullptr ? 1 : 0;
      opening = &peak;
    } else if (opening != nullptr) {
      found.shots.push_back({opening->place * size, peak.place * size});
      opening = nullptr;
    } else {
      ++found.unpaired;
    }
  }
  found.unpaired += opening != nullptr ? 1 : 0;
  return found;
}

}  // namespace backfit
