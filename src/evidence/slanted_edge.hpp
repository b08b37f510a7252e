// SPDX-License-Identifier: MIT
// How sharp a scanned negative is, from the picture of one straight edge that stands a little
// aslant. Source of the steps: iso-12233 in data/sources.toml.
#pragma once
#include <optional>
#include <string>
#include <vector>

namespace backfit {

// A grey picture of one edge: light on one side and dark on the other, in values proportional to
// light (or to density, if that is what shall count), row by row from the top.
struct EdgePicture {
  int width = 0, height = 0;
  std::vector<double> values;
  double at(int column, int row) const {
    return values[static_cast<std::size_t>(row) * static_cast<std::size_t>(width) +
                  static_cast<std::size_t>(column)];
  }
};

struct EdgeResponse {
  double slope = 0;  // of the edge against the columns, columns a row
  struct Sample {
    double cycles_per_pixel = 0;
    double contrast = 0;  // left of a sinusoidal pattern across the columns, 1 at 0
  };
  std::vector<Sample> samples;  // up to 1 cycle a pixel, ascending
  // Contrast at `cycles_per_pixel`, between samples in proportion. Requires 0 to the last sample.
  double at(double cycles_per_pixel) const;
};

// The response across an edge that runs more or less down the picture. Each row's edge is the
// centroid of its derivative, a line is fitted through them, all rows are gathered along it into
// quarter pixels; their derivative, windowed, is transformed and freed of what derivative and
// quarter pixels took from it. Its frequencies count across the columns: along the normal of the
// edge they are 1 / cos(slope) times as high.
// Empty, with `why` set to one sentence without a full stop, when the picture shows no edge: fewer
// than 16 columns or rows, no contrast, a slope under 1 / 60 or over 1 / 4, or too few rows to fill
// all quarter pixels.
std::optional<EdgeResponse> edge_response(const EdgePicture& picture, std::string& why);

}  // namespace backfit
