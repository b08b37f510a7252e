// SPDX-License-Identifier: MIT
// Random numbers that depend on their seed alone, the same with every standard library.
#pragma once
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace backfit {

// A stream of independent random numbers. The bits are SplitMix64's (Steele, Lea and Flood 2014):
// a counter through a mixer.
class Random {
 public:
  explicit Random(std::uint64_t seed) : counter_(mixed(seed)), layers_(layers()) {}

  std::uint64_t bits() { return mixed(counter_ += 0x9e3779b97f4a7c15); }

  // Evenly between 0 and 1, both excluded.
  double unit() { return (static_cast<double>(bits() >> 12) + 0.5) * 0x1p-52; }

  // Standard normal, by the ziggurat of 128 layers (Marsaglia and Tsang 2000).
  double normal() {
    for (;;) {
      const std::uint64_t word = bits();
      const std::size_t i = word % layer_count;
      const double side = static_cast<double>(static_cast<std::int64_t>(word) >> 11) * 0x1p-52;
      const double x = side * layers_.edge[i];
      if (std::abs(x) < layers_.edge[i + 1]) return x;
      if (i == 0) return std::copysign(tail(), side);
      const double height =
          layers_.density[i] + (layers_.density[i + 1] - layers_.density[i]) * unit();
      if (height < std::exp(-x * x / 2)) return x;
    }
  }

  // Student's t with `degrees_of_freedom`, by the polar method of Bailey (1994); standard normal
  // when infinite. Requires degrees_of_freedom > 0.
  double student(double degrees_of_freedom) {
    assert(degrees_of_freedom > 0);
    if (std::isinf(degrees_of_freedom)) return normal();
    double x = 0, square = 0;
    do {
      x = 2 * unit() - 1;
      const double y = 2 * unit() - 1;
      square = x * x + y * y;
    } while (square >= 1);
    const double power = std::expm1(-2 / degrees_of_freedom * std::log(square));
    return x * std::sqrt(degrees_of_freedom * power / square);
  }

 private:
  static constexpr std::size_t layer_count = 128;
  static constexpr double tail_start = 3.442619855899, layer_area = 9.91256303526217e-3;

  // Right edges of layers of equal area under exp(-x^2/2), from the base up, and the density there.
  struct Layers {
    std::array<double, layer_count + 1> edge{}, density{};
  };
  static const Layers& layers() {
    static const Layers built = [] {
      const auto curve = [](double x) { return std::exp(-x * x / 2); };
      Layers made;
      made.edge[0] = layer_area / curve(tail_start);
      made.edge[1] = tail_start;
      for (std::size_t i = 2; i < layer_count; ++i) {
        const double below = made.edge[i - 1];
        made.edge[i] = std::sqrt(-2 * std::log(layer_area / below + curve(below)));
      }
      for (std::size_t i = 0; i <= layer_count; ++i) {
        made.density[i] = curve(made.edge[i]);
      }
      return made;
    }();
    return built;
  }
  double tail() {
    for (;;) {
      const double beyond = -std::log(unit()) / tail_start;
      if (-2 * std::log(unit()) > beyond * beyond) return tail_start + beyond;
    }
  }
  static std::uint64_t mixed(std::uint64_t z) {
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
    z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
    return z ^ (z >> 31);
  }

  std::uint64_t counter_;
  const Layers& layers_;
};

}  // namespace backfit
