// SPDX-License-Identifier: MIT
// Lenses of handbooks and patents, for the tests of the engine.
#pragma once
#include <vector>

#include "optics/prescription.hpp"

namespace backfit::lenses {

struct Row {
  double radius_mm;  // 0: plane
  double thickness_mm;
  double index;
  double clear_mm = 1e9;
};

inline Prescription lens_of(const std::vector<Row>& rows, std::size_t stop) {
  Prescription lens;
  for (const Row& r : rows) {
    lens.surfaces.push_back(
        {r.radius_mm == 0 ? Dioptre{} : 1 / (r.radius_mm * mm), r.thickness_mm * mm,
         r.index == 1 ? Medium::air() : Medium::of_index(r.index), r.clear_mm * mm});
  }
  lens.stop = stop;
  return lens;
}

// Triplet f/3.5: modern-optical-engineering in data/sources.toml.
inline Prescription handbook_triplet() {
  return lens_of({{37.40, 5.90, 1.61272, 14.7},
                  {-341.48, 12.93, 1, 14.7},
                  {-42.65, 2.50, 1.64769, 10.8},
                  {36.40, 2.00, 1, 10.8},
                  {0, 9.85, 1, 10.3},
                  {204.52, 5.90, 1.61272, 11.6},
                  {-37.05, 0, 1, 11.6}},
                 4);
}

// Triplet f/4, 20 degrees: lens-design-course in data/sources.toml.
inline Prescription course_triplet() {
  return lens_of({{23.713, 4.831, 1.691002},
                  {7331.288, 5.86, 1},
                  {-24.456, 0.975, 1.672705},
                  {21.896, 4.822, 1},
                  {86.759, 3.127, 1.691002},
                  {-20.4942, 0, 1}},
                 2);
}

// Slow triplet f/8, 23.4 degrees, its last radius solved for 100 mm: modern-lens-design in
// data/sources.toml.
inline Prescription slow_triplet() {
  return lens_of({{40.1, 6.0, 1.61272, 17},
                  {-537.1, 10.0, 1, 17},
                  {-47.0, 1.0, 1.62096, 15},
                  {40.0, 10.8, 1, 15},
                  {234.5, 6.0, 1.61272, 16},
                  {-37.94, 0, 1, 16}},
                 3);
}

// Reversed four-element lens f/2.8: us-patent-2854889 in data/sources.toml.
inline Prescription four_element() {
  return lens_of({{42.97, 9.8, 1.6910, 19.2},
                  {-115.33, 2.1, 1.5486, 19.2},
                  {306.84, 4.16, 1, 19.2},
                  {0, 4.0, 1, 15},
                  {-59.06, 1.87, 1.6398, 17.3},
                  {40.93, 10.64, 1, 17.3},
                  {183.92, 7.05, 1.6910, 16.5},
                  {-48.91, 0, 1, 16.5}},
                 3);
}

// An invented Galilean attachment, afocal at this spacing.
inline Prescription tele_attachment() {
  return lens_of({{60, 7.0, 1.51680}, {-600, 45.318655004630, 1}, {-80, 2.5, 1.51680}, {45, 0, 1}},
                 0);
}

inline std::vector<Prescription> all() {
  return {handbook_triplet(), course_triplet(), slow_triplet(), four_element()};
}

}  // namespace backfit::lenses
