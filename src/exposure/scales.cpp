// SPDX-License-Identifier: MIT
#include "exposure/scales.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace backfit {
namespace {

// `stops` rounded to a third when that is the number meant: within a tenth.
double meant(double stops) {
  const double third = std::round(3 * stops) / 3;
  return std::abs(third - stops) <= 0.1 ? third : stops;
}

// The whole number, to two figures, that a time under 0.3 s is a fraction of.
std::string below_one(double s) {
  const double below = 1 / s;
  const double figures = std::pow(10, std::max(0.0, std::floor(std::log10(below)) - 1));
  return fmt::format("{:g}", std::round(below / figures) * figures);
}

}  // namespace

FNumber true_stop(FNumber marked) {
  assert(marked.value > 0);
  return {std::exp2(meant(2 * std::log2(marked.value)) / 2)};
}

Time true_speed(Time marked) {
  assert(marked > Time{});
  return std::exp2(meant(std::log2(marked / second))) * second;
}

int degrees_of(IsoSpeed speed) {
  assert(speed.value > 0);
  return static_cast<int>(std::lround(1 + 10 * std::log10(speed.value)));
}

IsoSpeed standard_speed(IsoSpeed speed) {
  assert(speed.value > 0);
  // The names of a decade, upwards from 1, 10 and 100: they are rounded more where they are small.
  static constexpr std::array<double, 10> from_1{1, 1.3, 1.6, 2, 2.5, 3, 4, 5, 6, 8};
  static constexpr std::array<double, 10> from_10{10, 12, 16, 20, 25, 32, 40, 50, 64, 80};
  static constexpr std::array<double, 10> from_100{100, 125, 160, 200, 250,
                                                   320, 400, 500, 640, 800};
  static constexpr std::array<double, 10> from_a_tenth{0.1,  0.13, 0.16, 0.2, 0.25,
                                                       0.32, 0.4,  0.5,  0.6, 0.8};
  const int steps = degrees_of(speed) - 1;  // from ISO 1
  const int decade = static_cast<int>(std::floor(steps / 10.0));
  const auto place = static_cast<std::size_t>(steps - 10 * decade);
  if (decade == 0) return {from_1[place]};
  if (decade == 1) return {from_10[place]};
  if (decade > 1) return {from_100[place] * std::pow(10.0, decade - 2)};
  return {from_a_tenth[place] * std::pow(10.0, decade + 1)};
}

Stops to_thirds(Stops stops) { return {std::round(3 * stops.value) / 3}; }

std::string thirds_text(Stops stops) {
  const long thirds = std::lround(3 * std::abs(stops.value));
  if (thirds == 0) return "0";
  std::string text = stops.value < 0 ? "-" : "+";
  if (thirds >= 3) text += std::to_string(thirds / 3);
  if (thirds % 3 != 0) {
    if (thirds >= 3) text += ' ';
    text += fmt::format("{}/3", thirds % 3);
  }
  return text;
}

std::string shutter_text(Time time) {
  const double s = time / second;
  if (s < 0.3) return "1/" + below_one(s) + " s";
  if (s < 9.95) return fmt::format("{:.2g} s", s);
  if (s < 59.5) return fmt::format("{:.0f} s", s);
  if (s < 595) {
    const long tens = std::lround(s / (s < 120 ? 5 : 10)) * (s < 120 ? 5 : 10);
    return tens % 60 == 0 ? fmt::format("{} min", tens / 60)
                          : fmt::format("{} min {} s", tens / 60, tens % 60);
  }
  if (s < 3570) return fmt::format("{:.0f} min", s / 60);
  const long minutes = std::lround(s / 300) * 5;
  if (minutes >= 600) return fmt::format("{:.0f} h", s / 3600);
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                           : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string narrow_text(Time time) {
  const double s = time / second, minutes = s / 60;
  if (s < 0.3) return "1/" + below_one(s);
  if (s < 9.95) return fmt::format("{:.2g} s", s);
  if (s < 99.5) return fmt::format("{:.0f} s", s);
  if (minutes < 9.95) return fmt::format("{:.1f} min", minutes);
  return minutes < 99.5 ? fmt::format("{:.0f} min", minutes)
                        : fmt::format("{:.1f} h", minutes / 60);
}

std::string speed_mark(Time marked) {
  const double s = marked / second;
  return s < 0.7 ? fmt::format("1/{:.0f} s", 1 / s) : fmt::format("{:g} s", s);
}

}  // namespace backfit
