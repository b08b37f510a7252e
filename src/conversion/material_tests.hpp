// SPDX-License-Identifier: MIT
// What the owner's own tests of a material say: a step wedge gives its index, the print of a grey
// card the filters of the next sheet.
#pragma once
#include <optional>

#include "catalogue/exposure_data.hpp"
#include "exposure/colour_pack.hpp"
#include "exposure/speed_point.hpp"
#include "files/diagnostic.hpp"
#include "survey/exposure_plan.hpp"

namespace backfit {

// By the criterion of film or by that of paper.
struct WedgeFound {
  std::optional<FilmSpeedPoint> film;
  std::optional<PaperSpeedPoint> paper;
  IsoSpeed in_its_light;  // the index in the light that the wedge was lit by
  LightColour lit_by = LightColour::day;
  Stops standard_uncertainty;
};

// Adds an error and returns empty where the lists don't match, the material has no criterion for
// negatives, or the densities never reach its speed point.
std::optional<WedgeFound> found_by_wedge(const WedgeTest& test, const Emulsion& emulsion,
                                         Diagnostics& diagnostics);

struct NextPack {
  Pack used;
  Density aim;
  PackRefinement next;
};

// Adds an error and returns empty where `emulsion` is no paper for reversal or the patch is not
// given by three densities.
std::optional<NextPack> next_pack(const PackTest& test, const Emulsion& emulsion,
                                  Diagnostics& diagnostics);

}  // namespace backfit
