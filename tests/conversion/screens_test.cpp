// SPDX-License-Identifier: MIT
#include "conversion/screens.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "kestrel.hpp"

namespace backfit {
namespace {

const std::string frame = "width = \"88.0 mm ± 0.2\"\nheight = \"108.0 mm ± 0.2\"\n";

FrameStudy frame_with(const std::string& shape) {
  const Kestrel k(frame, shape);
  EXPECT_TRUE(k.report);
  return k.report->frame;
}

// Law: a rectangle told by its corners is the same rectangle; its edges by light instead of the
// closed form, to 0.4 mm.
TEST(Screens, CornersOfARectangleAreTheRectangle) {
  const FrameStudy plain = frame_with("width = \"60.0 mm ± 0.2\"\nheight = \"80.0 mm ± 0.2\"\n");
  const FrameStudy corners = frame_with(
      "corners_x = [\"-30 mm\", \"30 mm\", \"30 mm\", \"-30 mm\"]\n"
      "corners_y = [\"-40 mm\", \"-40 mm\", \"40 mm\", \"40 mm\"]\n");
  ASSERT_EQ(plain.screens.front().name, "bellows frame");
  const FrameSize a = plain.screens.front().half;
  const FrameSize b = corners.screens.front().half;
  // The general form keeps the window's proportions: its width is the lesser of both.
  EXPECT_NEAR(b.width / mm, std::min(a.width, a.height * (95.0 / 120)) / mm, 0.4);
  for (std::size_t i = 0; i < plain.losses.size(); ++i) {
    ASSERT_EQ(plain.losses[i].lost.has_value(), corners.losses[i].lost.has_value());
  }
}

// Law: an obstacle only takes light, and most behind it.
TEST(Screens, ObstaclesTakeLight) {
  const Kestrel clear;
  const Kestrel k(
      "[[openings]]",
      "[[obstacles]]\nname = \"old roller\"\nwidth = \"120 mm ± 0.5\"\n"
      "height = \"6.0 mm ± 0.1\"\ny = \"40.0 mm ± 0.3\"\nbefore_film = \"3.0 mm ± 0.3\"\n"
      "\n[[openings]]");
  ASSERT_TRUE(k.report);
  EXPECT_LE(k.report->frame.picture.height, clear.report->frame.picture.height);
  EXPECT_EQ(k.report->frame.limited_by, "old roller");
  // Half way into the roller's shadow: similar triangles from the pupil's middle.
  const double z = 8.56 + 3;
  const double edge = 37 * (1 + z / (118 - 8.56 - 3));
  EXPECT_NEAR(k.report->frame.picture.height / (2 * mm), edge, 1.0);
}

}  // namespace
}  // namespace backfit
