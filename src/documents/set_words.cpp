// SPDX-License-Identifier: MIT
#include "documents/set_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "documents/plate_mass.hpp"
#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

std::string file_of(const PieceSet& set, const Piece& piece) {
  std::string name = "parts/" + set.name + (piece.name == set.name ? "" : " " + piece.name);
  std::ranges::replace(name, ' ', '-');
  return name;
}

std::optional<Mass> printed_mass_of(const Assembly& a, const Solid& solid) {
  const std::optional<MassDensity> density = printed_density(a);
  if (!density) return {};
  return printed_mass(volume_of(solid), *density);
}

Time printing_time(const Printer& printer, Volume volume) {
  const auto average = 40 * mm / second;
  return volume / (*printer.nozzle * *printer.layer_height * average);
}

std::string duration(Time time) {
  const double minutes = time / (60 * second);
  if (minutes < 57.5) {
    return fmt::format("{:.0f} min", std::max(5.0, 5 * std::round(minutes / 5)));
  }
  const int tens = static_cast<int>(std::round(minutes / 10));
  const int rest = tens % 6;
  return rest == 0 ? fmt::format("{} h", tens / 6)
                   : fmt::format("{} h {} min", tens / 6, 10 * rest);
}

std::vector<NeededItem> needed_for(const PieceSet& set, const Assembly& a) {
  std::vector<NeededItem> list;
  std::optional<Mass> mass;
  Volume volume;
  for (const Piece& piece : set.pieces) {
    if (!piece.printed()) continue;
    const auto count = static_cast<double>(piece.in_place.size());
    volume = volume + count * volume_of(piece.on_bed);
    const std::optional<Mass> one = printed_mass_of(a, piece.on_bed);
    if (one) mass = mass.value_or(Mass{}) + count * *one;
  }
  std::optional<double> price;
  if (mass && a.plan.prices && a.plan.prices->filament_per_kg) {
    price = *mass / (1000 * gram) * a.plan.prices->filament_per_kg->value.amount;
  }
  if (volume > Volume{}) {
    list.push_back(
        {fmt::format("{}, printed: {}{}, about {}", set.name,
                     mass ? fmt::format("{} g of ", fixed(*mass / gram, 0)) : "", *a.material->name,
                     duration(printing_time(*a.plan.printer, volume))),
         1, price});
  }
  for (const Piece& piece : set.pieces) {
    if (piece.printed()) continue;
    const Bounds b = bounds_of(piece.drawn);
    list.push_back({fmt::format("{}: {}, {} × {} mm to cut a {} from", set.name, piece.cut_from,
                                fixed((b.high.x - b.low.x) / mm, 0),
                                fixed((b.high.y - b.low.y) / mm, 0), piece.name),
                    static_cast<int>(piece.in_place.size()),
                    {}});
  }
  for (const NeededPart& part : set.bought) list.push_back({part.what, part.count, {}});
  return list;
}

}  // namespace backfit::paper
