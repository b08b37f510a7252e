// SPDX-License-Identifier: MIT
#include "documents/insert_mass.hpp"

#include <fmt/format.h>

#include "documents/millimetres.hpp"
#include "documents/plate_mass.hpp"
#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

std::optional<Mass> printed_mass_of(const Assembly& a, const Solid& solid) {
  const std::optional<MassDensity> density = printed_density(a);
  if (!density) return {};
  return printed_mass(volume_of(solid), *density);
}

std::vector<NeededItem> needed_for_insert(const Report& report, const std::vector<Piece>& pieces) {
  const Assembly& a = report.assembly;
  const RollInsert& i = *report.insert->part;
  std::vector<NeededItem> list;
  std::optional<Mass> mass;
  for (const Piece& p : pieces) {
    const std::optional<Mass> one = printed_mass_of(a, p.in_place.front());
    if (one) mass = mass.value_or(Mass{}) + static_cast<double>(p.in_place.size()) * *one;
  }
  std::optional<double> price;
  if (mass && a.plan.prices && a.plan.prices->filament_per_kg) {
    price = *mass / (1000 * gram) * a.plan.prices->filament_per_kg->value.amount;
  }
  list.push_back(
      {fmt::format("insert, printed{}",
                   mass ? fmt::format(": {} g of {}", fixed(*mass / gram, 0), *a.material->name)
                        : " of " + *a.material->name),
       1, price});
  list.push_back({fmt::format("empty {}", *a.spool->name), 1, {}});
  if (!i.rollers.empty()) {
    const Length rod = 2 * i.half_width() - i.smallest_wall - i.gap;
    list.push_back({fmt::format("steel rod ⌀{} × {} mm, ends rounded", in_mm(i.rod), in_mm(rod, 1)),
                    static_cast<int>(i.rollers.size()),
                    {}});
  }
  list.push_back({fmt::format("countersunk screw M{} × {}", in_mm(i.screws.thread),
                              in_mm(i.screws.length - 2 * mm + i.ear_drop() + i.body.wall, 0)),
                  2,
                  {}});
  list.push_back(
      {fmt::format("screw M{} × {}, for the knob", in_mm(i.knob.screw), in_mm(20 * mm, 0)), 1, {}});
  list.push_back({fmt::format("felt, 1 mm: ring ⌀{} / ⌀{} under the knob, disc ⌀{} for the brake",
                              in_mm(i.knob.diameter - 2 * mm, 0), in_mm(i.knob.tail + 1 * mm, 0),
                              in_mm(i.spools.pad, 1)),
                  1,
                  {}});
  list.push_back({"black felt or yarn round the floor in the old gate, 0.5 m", 1, {}});
  list.push_back({fmt::format("foam, {} mm when pressed, on the ears of the pressure plate",
                              in_mm(i.plate.foam)),
                  static_cast<int>(2 * i.plate.ears.size()),
                  {}});
  list.push_back({"foam, soft, between pins and the camera's walls", 4, {}});
  if (i.window) {
    list.push_back(
        {fmt::format("red filter, deep, ⌀{} mm, and a cover for it", in_mm(i.window->filter)),
         1,
         {}});
  }
  return list;
}

}  // namespace backfit::paper
