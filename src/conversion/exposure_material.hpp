// SPDX-License-Identifier: MIT
// What the plan's [exposure] table asks for, looked up: the emulsion, its speed in this light, its
// law of long times, the filters, the flash.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/exposure_data.hpp"
#include "catalogue/process_data.hpp"
#include "conversion/assembly.hpp"
#include "conversion/material_tests.hpp"
#include "exposure/correction.hpp"
#include "exposure/light_colour.hpp"
#include "exposure/reciprocity.hpp"

namespace backfit {

// The shipped data that exposures need.
struct ExposureShelf {
  ExposureData exposure;
  ProcessData process;
};

// A law of long times of the emulsion, with its edition.
struct HeldLaw {
  std::string edition;
  ReciprocityLaw law;
  bool from_memory = false;
};

struct ExposureMaterial {
  Emulsion emulsion;
  IsoSpeed index;             // in daylight
  bool index_is_own = false;  // by the owner's test
  Stops index_doubt;          // standard uncertainty
  LightColour light = LightColour::day;
  Stops light_gain;                 // more sensitive in this light than in daylight; 0 for colour
  Stops light_doubt;                // standard uncertainty of it
  std::vector<HeldLaw> laws;        // the one to use first; empty: none is held
  std::vector<Correction> filters;  // in the plan's order
  std::optional<Bulb> bulb;
  std::optional<double> picture_cost;
  std::optional<WedgeFound> wedge;  // what the index comes from, if from one
  std::optional<NextPack> pack;

  IsoSpeed index_in_light() const;
  // The first law's time and, from the spread of the others, how unsure it is. Times that no law
  // changes stay as they are.
  LawTime long_time(Time calculated) const;
  Stops long_time_doubt(Time calculated) const;
};

// The wavelengths that an emulsion records; empty for colour, which no one band describes.
std::optional<SensitiveBand> band_of(Sees sees);

// ExposurePlan of `assembly` looked up in `shelf`. Adds an error for each mistake and returns empty
// then, or when the plan has no [exposure].
std::optional<ExposureMaterial> exposure_material(const Assembly& assembly,
                                                  const ExposureShelf& shelf,
                                                  Diagnostics& diagnostics);

}  // namespace backfit
