// SPDX-License-Identifier: MIT
// By whose speed leaking light is judged.
#pragma once
#include <string>

#include "quantity/light.hpp"

namespace backfit {

struct ExposureMaterial;

// A material that lies in the dark. What shows on it is told by its speed alone, see
// fog_exposure(): a rule for black and white negative film.
struct LeakFilm {
  IsoSpeed speed{400};
  Stops doubt = {};  // standard uncertainty of it, where it is more than a marked speed's
  std::string name = "ISO 400 film";
  std::string from = "as nothing names another speed";
  std::string rule = {};  // how far the rule goes for what is no such film; or nothing
};

// Film of that speed. Requires speed > 0.
LeakFilm leak_film(IsoSpeed speed, std::string from);

// What [exposure] names, by its index in daylight. Paper for negatives shows less than the rule
// says, see docs/derivations/light-trap.md; for positives the rule is but a guide.
LeakFilm leak_film(const ExposureMaterial& material);

}  // namespace backfit
