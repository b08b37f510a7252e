// SPDX-License-Identifier: MIT
// How large a print of the picture stays sharp, and what the lens's prescription says of its
// contrast.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/focus_study.hpp"
#include "optics/image_quality.hpp"

namespace backfit {

struct PrintStudy {
  Length viewing;  // distance that prints are looked at from
  struct Print {
    double enlargement = 0;
    FrameSize size;  // of the whole picture
  };
  Length circle;       // the plan's circle of confusion
  Print by_circle;     // the print that it stands for
  Length plane_error;  // of the film at infinity, 95 % within it either way
  FNumber sharpest;    // stop that blurs a film so far off least
  struct Row {
    FNumber aperture;
    Length blur;  // of a film so far off, diffraction with it
    Print print;  // that it supports
  };
  std::vector<Row> rows;  // one for each stop
  // Filled by add_contrast(). By the traced lens, for subjects far away, at the plan's stop:
  // contrast at centre, middle of the long side, and corner of the picture for the pattern whose
  // period is the circle of confusion, on film where the middle is sharpest and off it by the plane
  // error either way.
  std::optional<ImageQuality> traced;
  std::vector<std::string> places;  // of its points
  Length flat_film_from_middle;     // best flat film behind the one where the middle is sharpest
};

// All but the contrast.
PrintStudy study_print(const Assembly& assembly, const FocusStudy& focus, const FrameSize& picture);

// Adds the contrast, which takes longer than all else together. Does nothing without a
// prescription.
void add_contrast(PrintStudy& study, const Assembly& assembly, const FrameSize& picture);

}  // namespace backfit
