// SPDX-License-Identifier: MIT
#include "conversion/leak_film.hpp"

#include <fmt/format.h>

#include <cassert>
#include <numbers>
#include <utility>

#include "conversion/exposure_material.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// A third of a stop either way, as marks step.
constexpr Stops of_a_mark{1.0 / 3 * std::numbers::inv_sqrt3};

std::string number(IsoSpeed speed) {
  return speed.value < 1000 ? fmt::format("{:.3g}", speed.value) : fixed(speed.value, 0);
}

bool is_paper(const Emulsion& e) {
  return *e.process == Process::direct_positive || *e.process == Process::reversal_paper ||
         e.log_range.has_value();
}

std::string rule_of(const Emulsion& e) {
  if (*e.process != Process::negative) {
    return "the rule is that of negative film and but a guide here: light makes shadows paler";
  }
  return is_paper(e) ? "the rule is that of film, and such paper takes more before it shows" : "";
}

}  // namespace

LeakFilm leak_film(IsoSpeed speed, std::string from) {
  assert(speed.value > 0);
  return {speed, {}, fmt::format("ISO {} film", number(speed)), std::move(from), {}};
}

LeakFilm leak_film(const ExposureMaterial& m) {
  const Emulsion& e = m.emulsion;
  const bool is_index = m.index_is_own || e.index_from;
  const char* standing = m.index_is_own       ? ", by your own test"
                         : e.index.doubtful() ? ", from memory"
                                              : "";
  return {m.index, m.index_doubt > of_a_mark ? m.index_doubt : Stops{},
          fmt::format("{} {} {}", is_index ? "EI" : "ISO", number(m.index),
                      is_paper(e) ? "paper" : "film"),
          fmt::format("from [exposure]: {}{}", *e.name, standing), rule_of(e)};
}

}  // namespace backfit
