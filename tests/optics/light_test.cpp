// SPDX-License-Identifier: MIT
#include "optics/light.hpp"

#include <gtest/gtest.h>

#include <array>
#include <numbers>
#include <random>

namespace backfit {
namespace {

constexpr double pi = std::numbers::pi;

double part(double x0, double x1, double y0, double y1) {
  return disc_area_in(1 * mm, x0 * mm, x1 * mm, y0 * mm, y1 * mm).in(mm2);
}

// Truth: elementary geometry. A circular segment of angle t has the area (t - sin t) / 2.
TEST(DiscArea, IsThatOfDiscHalfQuadrantSegmentAndSquare) {
  EXPECT_NEAR(part(-2, 2, -2, 2), pi, 1e-15);
  EXPECT_NEAR(part(0, 2, -2, 2), pi / 2, 1e-15);
  EXPECT_NEAR(part(0, 2, -2, 0), pi / 4, 1e-15);
  EXPECT_NEAR(part(0.5, 2, -2, 2), (2 * pi / 3 - std::sin(2 * pi / 3)) / 2, 1e-15);
  EXPECT_NEAR(part(-0.5, 0.5, -0.5, 0.5), 1, 1e-15);  // inside the disc
  EXPECT_EQ(part(0.8, 0.9, 0.8, 0.9), 0);             // outside it, within its square
  EXPECT_EQ(part(0.5, 0.2, -1, 1), 0);                // an empty rectangle
}

// Law: against a midpoint sum over 2000 strips; its error is below 1e-4 for a disc of radius 1.
TEST(DiscArea, AgreesWithASumOfStrips) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> in(-1.3, 1.3);
  for (int trial = 0; trial < 200; ++trial) {
    auto [x0, x1] = std::minmax({in(random), in(random)});
    auto [y0, y1] = std::minmax({in(random), in(random)});
    double sum = 0;
    const int strips = 2000;
    for (int i = 0; i < strips; ++i) {
      const double x = x0 + (x1 - x0) * (i + 0.5) / strips;
      if (std::abs(x) >= 1) continue;
      const double arc = std::sqrt(1 - x * x);
      sum += std::max(0.0, std::min(y1, arc) - std::max(y0, -arc)) * (x1 - x0) / strips;
    }
    EXPECT_NEAR(part(x0, x1, y0, y1), sum, 1e-4);
  }
}

const ExitPupil pupil{6.5 * mm, -116 * mm};
const RectangularOpening gate{73 * mm, 95 * mm, -0.6 * mm};

// Law: a shadow drawn by the light of many points of the pupil, each a straight ray, agrees with
// the projected areas. 40,000 rays: standard error 0.0025, four of them allowed.
TEST(PupilShare, AgreesWithRaysFromAllOverThePupil) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> unit(-1, 1);
  const std::array openings{gate, RectangularOpening{80 * mm, 90 * mm, -40 * mm}};
  for (const auto& [x, y] :
       {std::pair{0.0, 0.0}, {38.0, 10.0}, {39.0, 51.0}, {45.0, 0.0}, {37.6, 49.0}}) {
    const FilmPoint p{x * mm, y * mm, 8.6 * mm};
    int passed = 0;
    int drawn = 0;
    while (drawn < 40000) {
      const double u = 6.5 * unit(random);
      const double v = 6.5 * unit(random);
      if (u * u + v * v > 6.5 * 6.5) continue;
      ++drawn;
      bool through = true;
      for (const RectangularOpening& o : openings) {
        const double t = (o.z - pupil.z) / (p.z - pupil.z);
        through = through && std::abs(u + t * (x - u)) <= o.width.in(mm) / 2 &&
                  std::abs(v + t * (y - v)) <= o.height.in(mm) / 2;
      }
      passed += through ? 1 : 0;
    }
    EXPECT_NEAR(pupil_share_seen(p, pupil, openings), passed / 40000.0, 0.01) << x << ", " << y;
  }
}

// Law: the three frames are where the share seen leaves 1, passes one half and reaches 0.
TEST(LitFrame, EdgesSeeAllHalfAndNoneOfThePupil) {
  const Length film = 20 * mm;
  const std::array openings{gate};
  const auto share = [&](Edge edge, double past) {
    const FrameSize f = lit_frame(pupil, gate, film, edge);
    return pupil_share_seen({f.width / 2 + past * mm, 0 * mm, film}, pupil, openings);
  };
  EXPECT_DOUBLE_EQ(share(Edge::whole, -1e-9), 1);
  EXPECT_LT(share(Edge::whole, 0.01), 1);
  EXPECT_NEAR(share(Edge::half, 0), 0.5, 1e-12);
  EXPECT_GT(share(Edge::none, -0.01), 0);
  EXPECT_DOUBLE_EQ(share(Edge::none, 1e-9), 0);
}

// Truth: similar triangles. From a pupil that is a point, a gate half way to the film frames a
// picture twice its size.
TEST(LitFrame, OfAPointPupilIsTheGateEnlarged) {
  const FrameSize f =
      lit_frame({1e-9 * mm, -100 * mm}, {30 * mm, 40 * mm, 0 * mm}, 100 * mm, Edge::half);
  EXPECT_NEAR(f.width.in(mm), 60, 1e-12);
  EXPECT_NEAR(f.height.in(mm), 80, 1e-12);
}

// Law: at the clearing set-back, lens and film moved alike, the frame's corner sees all of the
// pupil; a tenth of a millimetre less and it does not.
TEST(ClearingSetBack, IsWhereTheCornerFirstSeesTheWholePupil) {
  const FrameSize frame{95 * mm, 120 * mm};
  const Length s = *clearing_set_back(pupil, gate, frame);
  const auto corner_share = [&](Length set_back) {
    const ExitPupil moved{pupil.radius, pupil.z + set_back};
    const std::array openings{gate};
    return pupil_share_seen({frame.width / 2, frame.height / 2, set_back}, moved, openings);
  };
  EXPECT_DOUBLE_EQ(corner_share(s + 1e-9 * mm), 1);
  EXPECT_LT(corner_share(s - 0.1 * mm), 1);
  EXPECT_EQ(*clearing_set_back(pupil, gate, {60 * mm, 80 * mm}), 0 * mm);
  EXPECT_FALSE(clearing_set_back(pupil, {10 * mm, 10 * mm, -1 * mm}, frame));
}

// Truth: the cosine-fourth law's textbook table, 5 to 45 degrees, in stops to three figures.
// Jacobson, Photographic Lenses Tutorial (1995), question 18, READ in words; values computed.
TEST(LightLost, FollowsTheCosineFourthLawWithNothingInTheWay) {
  const double degrees[] = {5, 10, 15, 20, 25, 30, 35, 40, 45};
  const double stops[] = {0.022, 0.088, 0.200, 0.359, 0.568, 0.830, 1.151, 1.538, 2.000};
  for (int i = 0; i < 9; ++i) {
    const Length x = 116 * mm * tan(degrees[i] * deg);
    EXPECT_NEAR(light_lost({x, 0 * mm, 0 * mm}, pupil, {})->value, stops[i], 5e-4);
  }
}

TEST(LightLost, IsEmptyWhereNoLightArrives) {
  const std::array openings{gate};
  EXPECT_FALSE(light_lost({60 * mm, 0 * mm, 5 * mm}, pupil, openings));
}

// Truth: large-format technical notes (READ): a 9.5 in lens covering 47 degrees gives a circle of
// 210 mm. Tolerance: the printed millimetre.
TEST(ImageCircle, OfA9AndAHalfInchLensAt47Degrees) {
  EXPECT_NEAR(image_circle(9.5 * inch, 47 * deg).in(mm), 210, 0.5);
}

// Truth: same notes (READ): on a 7 in lens the corners of 4x5, 5x7 and 8x10 in lie at 24, 31 and 42
// degrees; they round down (24.58, 31.57, 42.45).
TEST(FrameSize, DiagonalPutsTheCornersWhereTheNotesSay) {
  const auto corner = [](double w, double h) {
    return std::floor(arctan(FrameSize{w * inch, h * inch}.diagonal() / 2 / (7 * inch)) / deg);
  };
  EXPECT_EQ(corner(4, 5), 24);
  EXPECT_EQ(corner(5, 7), 31);
  EXPECT_EQ(corner(8, 10), 42);
}

// Truth: a lens turns the picture by half and keeps its hand as seen from behind; so an odd number
// of mirrors, of looks from the lit face and of transfers face to face reverses it. Every row of
// the usual table follows.
TEST(LateralReversal, FollowsFromTheTurnsOfHand) {
  struct Case {
    const char* what;
    int mirrors;
    bool lit_face;
    int transfers;
    bool reversed;
  };
  const Case cases[] = {
      {"negative through its base", 0, false, 0, false},
      {"direct positive", 0, true, 0, true},
      {"paper negative, then contact print", 0, true, 1, false},
      {"peel-apart print", 0, true, 1, false},
      {"integral, lit through its back", 0, false, 0, false},
      {"integral, lit through its front", 0, true, 0, true},
      {"the same behind a mirror", 1, true, 0, false},
      {"integral, lit through its back, behind a mirror", 1, false, 0, true},
  };
  for (const Case& c : cases) {
    EXPECT_EQ(laterally_reversed(c.mirrors, c.lit_face, c.transfers), c.reversed) << c.what;
    EXPECT_EQ((c.mirrors + (c.lit_face ? 1 : 0) + c.transfers) % 2 == 1, c.reversed) << c.what;
  }
}

// Truth: READ in a dictionary of archival terms (direct positives in a plain camera are laterally
// reversed), a survey of instant materials (peel-apart prints and integral film exposed through
// its back read right without a mirror).
TEST(LateralReversal, IsAsTheKnownMaterialsShow) {
  EXPECT_TRUE(laterally_reversed(0, true, 0));    // direct positive paper
  EXPECT_FALSE(laterally_reversed(0, true, 1));   // peel-apart print
  EXPECT_FALSE(laterally_reversed(0, false, 0));  // integral film, exposed through its back
  EXPECT_FALSE(laterally_reversed(1, true, 0));   // one mirror and a front-exposed integral film
}

}  // namespace
}  // namespace backfit
