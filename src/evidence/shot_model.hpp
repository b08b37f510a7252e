// SPDX-License-Identifier: MIT
// What a recording shows of one opening of a shutter: blades, sensor and AC coupling in a row.
// Times in samples. Derivation: docs/derivations/recordings.md.
#pragma once
#include <span>
#include <vector>

namespace backfit {

// Blades that uncover (or cover) the share u^power of the light, u from 0 to 1 in `width` samples.
// power 1: the area grows evenly (a trapezoid); 2: the radius does (an iris). The light is half
// at `half`.
struct BladeEdge {
  double half = 0, width = 1, power = 1;

  // From the edge's dark end to its half, width 0.5^(1/power).
  double dark_to_half() const;
  // Light that the edge takes away: width power / (power + 1).
  double lost() const;
};

struct ShotModel {
  BladeEdge opening, closing;
  double corner = 0;      // AC coupling: 2 pi f_c a sample; 0: none
  double sensor_lag = 0;  // the sensor's time constant
  double level = 1;       // fully open less dark
  double base = 0;        // dark, at the window's start
  double drift = 0;       // and how fast it changes there: what earlier shots left in the coupling

  double first_light() const { return opening.half - opening.dark_to_half(); }
  double fully_open() const { return first_light() + opening.width; }
  double last_light() const { return closing.half + closing.dark_to_half(); }
  double starts_closing() const { return last_light() - closing.width; }
};

// A stretch of the window and the mean of its samples.
struct TraceCell {
  double begin = 0, width = 1, mean = 0;
};

// What the model makes of each cell: the share of full light, seen through the sensor and not the
// coupling, and the sample's mean. Cells adjoin; the coupling is at rest before the first.
struct CellAnswer {
  double light = 0, sample = 0;
  double by_level = 0;  // of the sample, for one unit of level
  double by_drift = 0;  // and of drift
};
void answer(const ShotModel& model, std::span<const TraceCell> cells, std::vector<CellAnswer>& out);

}  // namespace backfit
