// SPDX-License-Identifier: MIT
#include "documents/strap_words.hpp"

#include <fmt/format.h>

#include "conversion/strap_design.hpp"
#include "documents/millimetres.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {

std::optional<NeededItem> straps_item(const Assembly& a) {
  if (!a.plate || !a.plate->lugs) return {};
  const StrapsPlan& plan = *a.plan.back->straps;
  std::optional<double> price;
  if (plan.price) price = plan.price->value.amount;
  const auto way = strap_way(a);
  return NeededItem{fmt::format("rubber ring or elastic for the holder, band {} × {} mm{}",
                                in_mm(plan.width->value, 1), in_mm(plan.thickness->value, 1),
                                way ? fmt::format(", {} to {} mm round", in_mm(way->least, 0),
                                                  in_mm(way->most, 0))
                                    : std::string()),
                    static_cast<int>(a.plate->lugs->at.size()), price};
}

std::string straps_step(const Assembly& a) {
  const StrapLugs& lugs = *a.plate->lugs;
  std::string words = fmt::format(
      "{} rings, each round the neck of a lug on one edge, over the holder's back and round the "
      "neck opposite; the band lies in the necks' recesses, behind the seat's plane.",
      lugs.at.size());
  if (const auto way = strap_way(a)) {
    words += fmt::format(
        " To know their force, draw one ring between a hook and a luggage scale until it is {} mm "
        "long inside: with a reading W each strand pulls W/2, and the ring presses the holder on "
        "with {} × W.",
        in_mm(way->ring / 2, 0), fixed(way->press_factor / 2, 1));
  }
  return words +
         " They are strong enough when the holder, loaded, lies still with the camera face down "
         "and turned over, and doesn't lift while a dark slide is drawn; more only bends the "
         "plate. Rubber ages: renew rings that show cracks.";
}

}  // namespace backfit::paper
