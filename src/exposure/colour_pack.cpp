// SPDX-License-Identifier: MIT
#include "exposure/colour_pack.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

namespace backfit {
namespace {

long hundredths(Density d) { return std::lround(100 * d.value); }

}  // namespace

Density neutral_in(const Pack& pack) { return std::min({pack.yellow, pack.magenta, pack.cyan}); }

Pack without_neutral(const Pack& pack) {
  const Density grey = neutral_in(pack);
  return {pack.yellow - grey, pack.magenta - grey, pack.cyan - grey};
}

std::string pack_text(const Pack& pack) {
  const long y = hundredths(pack.yellow), m = hundredths(pack.magenta), c = hundredths(pack.cyan);
  if (c == 0 && y == m && y > 0) return fmt::format("{:02}R", y);
  if (m == 0 && y == c && y > 0) return fmt::format("{:02}G", y);
  if (y == 0 && m == c && m > 0) return fmt::format("{:02}B", m);
  std::string text;
  for (const auto& [amount, colour] : {std::pair{y, 'Y'}, {m, 'M'}, {c, 'C'}}) {
    if (amount == 0) continue;
    text += fmt::format("{}{:02}{}", text.empty() ? "" : " + ", amount, colour);
  }
  return text.empty() ? "no filter" : text;
}

Stops pack_stops(const Pack& pack) {
  const auto passed = [](SensitiveBand band, Density filter) {
    return metered_share(band, daylight) * std::pow(10.0, -filter.value);
  };
  return -stops_of(passed({380 * nm, 490 * nm}, pack.yellow) +
                   passed({490 * nm, 590 * nm}, pack.magenta) +
                   passed({590 * nm, 780 * nm}, pack.cyan));
}

Stops most_held_back(const Pack& pack) {
  return stops_of(std::max({pack.yellow, pack.magenta, pack.cyan}));
}

PackRefinement refined_by_reversal(const Pack& used, const GreyPatch& patch, Density aim,
                                   double gradient, Density reading) {
  assert(gradient > 0);
  const auto refined = [&](Density filter, Density read) {
    return Density{filter.value + (aim - read).value / gradient};
  };
  const Pack whole{refined(used.yellow, patch.blue), refined(used.magenta, patch.green),
                   refined(used.cyan, patch.red)};
  return {without_neutral(whole), -stops_of(neutral_in(whole)), {reading.value / gradient}};
}

}  // namespace backfit
