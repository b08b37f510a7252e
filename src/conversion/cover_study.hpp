// SPDX-License-Identifier: MIT
// What lens and body light of the sheet: stop by stop, near and far, and point by point.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "conversion/report.hpp"
#include "optics/coverage.hpp"

namespace backfit {

// What is asked of a conversion's light.
struct CoverQuestions {
  std::optional<FNumber> aperture;  // of the map; else the one in the plan
  int grid = 9;                     // points of the map along each side
  Stops allowed{2};                 // light that the corner of a frame may lose; common practice
  bool rows = true;                 // stop by stop; the map alone is quickly there
};

struct CoverStudy {
  CircleGrade grade = CircleGrade::lens_kind;  // where the knowledge of the lens comes from
  Estimate<Length> circle;                     // image circle by that grade, at infinity
  FrameSize window;                            // what the holder shows of the sheet
  // Within it every point sees the whole pupil past the body, at the map's stop; left out with the
  // rows.
  std::optional<Length> clear_circle;
  struct Row {
    FNumber aperture;
    std::optional<Length> subject;                // empty: infinity
    std::optional<Stops> edge_x, edge_y, corner;  // lost at the window's edges and corner
    FrameSize largest;       // of the window's shape: loses no more than allowed, and lies
                             // in the image circle where the lens is not traced
    std::string limited_by;  // empty when the whole window is lit
  };
  std::vector<Row> rows;  // each stop at the farthest and at the nearest subject in focus
  FNumber map_aperture;
  Stops allowed;
  LightMap map;  // at the farthest subject in focus
};

// Requires a stop within the lens's range and 2 <= grid <= 256.
CoverStudy cover_study(const Report& report, const CoverQuestions& questions);

}  // namespace backfit
