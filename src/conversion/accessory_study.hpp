// SPDX-License-Identifier: MIT
// What the camera's close-up lenses and tele attachments do after the conversion. Neither moves the
// exit pupil or the film: stops, shadows and the image circle stay as they are.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/focus_study.hpp"

namespace backfit {

struct AccessoryStudy {
  std::string name;
  Place place;
  Estimate<Length> focal;  // of lens and accessory
  Angle angle;             // that the picture's diagonal sees, at infinity or the farthest focus
  struct Mark {
    std::optional<Length> set;      // as the scale reads; empty: infinity
    std::optional<Length> focuses;  // from the accessory; empty: infinity
    double magnification = 0;
  };
  std::vector<Mark> marks;  // farthest, the engraved ones within reach, nearest; farthest first
};

// One for each accessory of the survey. Distances by a tele attachment are right far away against
// its own length.
std::vector<AccessoryStudy> study_accessories(const Assembly& assembly,
                                              const RegisterStudy& register_,
                                              const FrameSize& picture);

// Adds an error for each accessory without exactly one of close_up and tele_factor.
void check_accessories(const Camera& camera, Diagnostics& diagnostics);

}  // namespace backfit
