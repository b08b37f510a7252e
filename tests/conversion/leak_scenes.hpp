// SPDX-License-Identifier: MIT
// What tests of light through whole conversions share.
#pragma once
#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "conversion/leak_study.hpp"
#include "conversion/seam_scene.hpp"

namespace backfit {

// A demo's, its print not known.
template <class Assembly>
Assembly of_unknown_print(Assembly a) {
  a.plan.printer->wall_readings.clear();
  return a;
}

inline LeakStudy studied(const SeamScene& scene, bool sun = false, std::size_t walks = 8192,
                         const std::vector<SeamRemedy>& remedies = {}) {
  LeakQuestions asked;
  if (!sun) asked.sun = {};
  asked.walks = walks;
  LeakWatch watch;
  watch.threads = 2;
  return *leak_study(scene, asked, remedies, watch);
}

inline double light_on(const LeakStudy& s, bool picture) {
  double sum = 0;
  for (const LeakPatch& p : picture ? s.patches : s.pieces) sum += p.all.mean;
  return sum;
}

// Print that passes all but a stop a step.
inline constexpr WallReadings thin_print{{{0.4 * mm, {1}}, {0.8 * mm, {1.9}}}};

// The scene with that seam or wall alone.
inline SeamScene alone(SeamScene scene, const LeakSeam& seam) {
  scene.seams = {seam};
  scene.walls.clear();
  return scene;
}
inline SeamScene alone(SeamScene scene, const PrintedWall& wall) {
  scene.seams.clear();
  scene.walls = {wall};
  scene.readings = thin_print;
  return scene;
}

inline const LeakSeam& seam_of(const SeamScene& s, std::string_view name, std::string_view side) {
  return *std::ranges::find_if(
      s.seams, [&](const LeakSeam& seam) { return seam.name == name && seam.side == side; });
}
inline const PrintedWall& wall_of(const SeamScene& s, std::string_view name,
                                  std::string_view side) {
  return *std::ranges::find_if(
      s.walls, [&](const PrintedWall& wall) { return wall.name == name && wall.side == side; });
}

inline std::vector<double> in_mm(const std::vector<Length>& lengths) {
  std::vector<double> numbers;
  for (const Length l : lengths) numbers.push_back(l / mm);
  return numbers;
}
inline void expect_near(const std::vector<Length>& found, const std::vector<double>& by_hand) {
  const std::vector<double> numbers = in_mm(found);
  ASSERT_EQ(numbers.size(), by_hand.size());
  for (std::size_t i = 0; i < numbers.size(); ++i) EXPECT_NEAR(numbers[i], by_hand[i], 1e-9) << i;
}

// The way that the film's emulsion faces along z.
inline double facing(const FilmPlane& f) {
  const double z = (f.width.x / mm) * (f.height.y / mm) - (f.width.y / mm) * (f.height.x / mm);
  return z < 0 ? -1 : 1;
}

inline double all_shares(const LeakStudy& s) {
  double sum = 0;
  for (const LeakSeamLight& seam : s.seams) sum += seam.share;
  return sum;
}

}  // namespace backfit
