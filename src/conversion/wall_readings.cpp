// SPDX-License-Identifier: MIT
#include "conversion/wall_readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

namespace backfit {
namespace {

// Common practice: black print takes ten stops and more per mm, a phone's meter tells a dozen.
constexpr Length thin_step = 0.4 * mm, thick_step = 0.8 * mm;

SlabReading reading_of(const WallReading& r) {
  const Measured<double> stops{*r.stops, r.within_stops ? **r.within_stops : 1.0 / 3};
  return {r.thickness->value,
          {stops.value},
          r.thickness->standard_uncertainty(),
          {stops.standard_uncertainty()}};
}

}  // namespace

std::optional<WallReadings> wall_readings(const Printer& printer, Diagnostics& diagnostics) {
  const std::vector<WallReading>& read = printer.wall_readings;
  if (read.empty()) return {};
  if (read.size() != 2) {
    diagnostics.error(
        read.front().place,
        fmt::format("{} of a printed step: a wall is known by two, of steps that "
                    "differ in thickness",
                    read.size() == 1 ? "one reading" : fmt::format("{} readings", read.size())),
        read.size() == 1 ? "add another [[printer.wall_readings]]"
                         : "keep the two whose steps are nearest the parts' walls");
    return {};
  }
  const WallReadings readings{reading_of(read[0]), reading_of(read[1])};
  const auto slab = slab_by(readings);
  if (const auto* why = std::get_if<std::string>(&slab)) {
    diagnostics.error(read[1].stops.place, "no wall explains both readings: " + *why);
    return {};
  }
  return readings;
}

std::array<Length, 2> steps_to_read(const Printer& printer) {
  const Length layer = *printer.layer_height;
  const auto layers = [&](Length thickness) {
    return std::max(1.0, std::round(thickness / layer)) * layer;
  };
  const Length thin = layers(thin_step);
  return {thin, std::max(layers(thick_step), thin + layer)};
}

}  // namespace backfit
