// SPDX-License-Identifier: MIT
#include "documents/materials.hpp"

#include <fmt/format.h>

#include "documents/plate_mass.hpp"
#include "documents/set_words.hpp"
#include "documents/strap_words.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

PriceList materials_of(const Report& report, const std::vector<PieceSet>& sets) {
  const Assembly& a = report.assembly;
  PriceList list(a.plan.prices);
  if (a.plate) {
    const std::optional<Mass> mass = plate_mass(a);
    list.add(
        fmt::format("back plate, printed{}",
                    mass ? fmt::format(": {} g of {}", fixed(*mass / gram, 0), *a.material->name)
                         : " of " + *a.material->name),
        1, plate_price(a));
    if (const auto straps = straps_item(a)) list.add(straps->what, straps->count, straps->price);
  }
  for (const PieceSet& set : sets) {
    for (const NeededItem& item : needed_for(set, a)) list.add(item.what, item.count, item.price);
  }
  list.add(a.plan.bought);
  return list;
}

}  // namespace backfit::paper
