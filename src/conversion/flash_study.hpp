// SPDX-License-Identifier: MIT
// The flash of one conversion: its guide number on the loaded material by shutter speed, and the
// distance for each stop.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/exposure_study.hpp"
#include "exposure/flash.hpp"

namespace backfit {

struct FlashRow {
  std::optional<Time> speed;  // marked; empty: any, or held open
  bool or_slower = false;     // slower speeds pass all of it as well
  double share = 1;           // of the light that passes the shutter
  GuideNumber number;         // on the material, filters taken off
  std::vector<LadderRung> ladder;
};

struct FlashStudy {
  std::string name;               // "electronic flash", "bulb no. 11, class M"
  std::string constant;           // what the rating counts as right
  Stops rating_optimism;          // of it against an incident meter with a flat receptor
  GuideNumber rated;              // as printed or worked out, before the material
  std::vector<Correction> steps;  // from rated to the material, less light negative
  Stops standard_uncertainty;
  std::vector<FlashRow> rows;  // slowest first
  std::vector<std::string> notes;
  std::vector<std::string> cautions;
};

// Requires a flash in the plan.
FlashStudy study_flash(const Report& report, const ExposureMaterial& material,
                       const ExposureShelf& shelf);

}  // namespace backfit
