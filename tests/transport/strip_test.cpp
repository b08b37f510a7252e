// SPDX-License-Identifier: MIT
#include "transport/strip.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "quantity/random.hpp"

namespace backfit {
namespace {

// A belt round two pulleys of these diameters, running anticlockwise.
StripPath belt(Length d1, Length d2, Length apart, bool crossed) {
  const std::array<Support, 2> pulleys{
      Support{{Length{}, Length{}}, d1 / 2, Face::paper},
      Support{{apart, Length{}}, d2 / 2, crossed ? Face::emulsion : Face::paper}};
  return *laid_belt(pulleys, Length{});
}

// Truth: crossed-belt-example in data/sources.toml (READ): pulleys 450 and 200 mm, 1950 mm apart,
// crossed: 4.975 m of belt, 3.477 rad of wrap on each. Tolerance: the last printed digit; the wrap
// goes through an angle rounded to a tenth of a degree, counted twice.
TEST(Belt, CrossedHasTheLengthAndWrapOfTheTextbook) {
  const StripPath path = belt(450 * mm, 200 * mm, 1950 * mm, true);
  EXPECT_NEAR(path.length() / metre, 4.975, 0.0005);
  ASSERT_EQ(path.wraps.size(), 2U);
  EXPECT_NEAR(path.wraps[0].turn / rad, 3.477, 0.1 * deg / rad);
  EXPECT_NEAR(path.wraps[1].turn / rad, 3.477, 0.1 * deg / rad);
}

// Truth: open-belt-example in data/sources.toml (READ): 1600 and 500 mm, 12 m apart, open: 27.32 m.
// Tolerance: half of the last printed digit.
TEST(Belt, OpenHasTheLengthOfTheWorkedExample) {
  EXPECT_NEAR(belt(1600 * mm, 500 * mm, 12 * metre, false).length() / metre, 27.32, 0.005);
}

// Truth: pulleys-near-each-other in data/sources.toml (READ), exact form L = 2 R1 (pi - a + tan a)
// + 2 R2 (a - tan a), a = acos((R1 - R2)/C). The usual series is 0.5 % low here.
TEST(Belt, OfPulleysNearEachOtherIsExactWhereTheSeriesIsNot) {
  const double a = std::acos(0.7);
  const double exact = 3.0 * (std::numbers::pi - a + std::tan(a)) + 0.2 * (a - std::tan(a));
  const double length = belt(3 * metre, 0.2 * metre, 2 * metre, false).length() / metre;
  EXPECT_NEAR(length, exact, 1e-12);
  EXPECT_NEAR(length, 10.05423, 5e-6);
  const double series = std::numbers::pi * 1.6 + 4 + 2.8 * 2.8 / 8;
  EXPECT_GT(length - series, 0.04);
}

// Truth: closed form, perimeter plus one whole turn: equal rollers r at the corners of a convex
// polygon of perimeter p take p + 2 pi r of belt.
TEST(Belt, RoundThreeEqualRollersIsTheTrianglePlusATurn) {
  const double high = 20 * std::sqrt(3.0);
  const std::array<Support, 3> rollers{Support{{0 * mm, 0 * mm}, 5 * mm, Face::paper},
                                       Support{{40 * mm, 0 * mm}, 5 * mm, Face::paper},
                                       Support{{20 * mm, high * mm}, 5 * mm, Face::paper}};
  EXPECT_NEAR(laid_belt(rollers, Length{})->length() / mm, 120 + 10 * std::numbers::pi, 1e-12);
  // The neutral line lies half the strip outside.
  EXPECT_NEAR(laid_belt(rollers, 0.2 * mm)->length() / mm, 120 + 10.2 * std::numbers::pi, 1e-12);
}

// A path as a camera has it: supply roll, rail ends, take-up roll, with two rollers on the way.
std::vector<Support> camera_path() {
  return {
      {{-45 * mm, 20 * mm}, 10 * mm, Face::emulsion}, {{-50 * mm, 3 * mm}, 4 * mm, Face::paper},
      {{-30 * mm, -1 * mm}, 1 * mm, Face::emulsion},  {{30 * mm, -2 * mm}, 2 * mm, Face::emulsion},
      {{51 * mm, 4 * mm}, 5 * mm, Face::paper},       {{40 * mm, 17 * mm}, 6 * mm, Face::emulsion}};
}

// Law: each strand touches its two circles at a right angle to the radius, at the right face, at
// half the strip from their surface. Tolerance: rounding at 50 mm.
TEST(Strip, TouchesItsSupportsAtTheRightFace) {
  Random random(1);
  const auto drawn = [&](double low, double high) {
    return (low + (high - low) * random.unit()) * mm;
  };
  constexpr Length thickness = 0.23 * mm;
  for (int i = 0; i < 20'000; ++i) {
    const std::array<Support, 2> pair{Support{{drawn(-50, 50), drawn(-50, 50)},
                                              drawn(1, 12),
                                              random.unit() < 0.5 ? Face::paper : Face::emulsion},
                                      Support{{drawn(-50, 50), drawn(-50, 50)},
                                              drawn(1, 12),
                                              random.unit() < 0.5 ? Face::paper : Face::emulsion}};
    const auto path = laid_strip(pair, thickness);
    if (!path) {
      EXPECT_LE(distance(pair[0].centre, pair[1].centre), 25 * mm);
      continue;
    }
    const Strand& s = path->strands.front();
    const std::array<SectionPoint, 2> ends{s.from, s.to};
    for (std::size_t k = 0; k < 2; ++k) {
      const SectionPoint radius = pair[k].centre - ends[k];
      EXPECT_NEAR(hypot(radius.x, radius.z) / mm, pair[k].radius / mm + 0.115, 1e-12);
      EXPECT_NEAR(dot(radius, s.to - s.from) / mm2, 0, 1e-10);
      EXPECT_EQ(cross(s.to - s.from, radius) > Area{}, pair[k].face == Face::paper);
    }
  }
}

// Law: moving and turning everything changes neither lengths nor wraps. Tolerance: rounding.
TEST(Strip, IsAsLongAfterARigidMotion) {
  const std::vector<Support> supports = camera_path();
  const StripPath path = *laid_strip(supports, 0.23 * mm);
  for (const Angle turn : {17 * deg, 90 * deg, 211 * deg}) {
    std::vector<Support> moved = supports;
    for (Support& s : moved) {
      const SectionPoint c = s.centre;
      s.centre = {cos(turn) * c.x - sin(turn) * c.z + 3 * mm,
                  sin(turn) * c.x + cos(turn) * c.z - 8 * mm};
    }
    const StripPath again = *laid_strip(moved, 0.23 * mm);
    EXPECT_NEAR(again.length() / mm, path.length() / mm, 1e-11);
    for (std::size_t i = 0; i < path.wraps.size(); ++i) {
      EXPECT_NEAR(again.wraps[i].turn / rad, path.wraps[i].turn / rad, 1e-13);
    }
  }
}

// Law: the mirror image, run the other way, has the same faces, lengths and wraps.
TEST(Strip, IsAsLongInTheMirror) {
  const std::vector<Support> supports = camera_path();
  const StripPath path = *laid_strip(supports, 0.23 * mm);
  std::vector<Support> mirrored(supports.rbegin(), supports.rend());
  for (Support& s : mirrored) s.centre.x = -s.centre.x;
  const StripPath again = *laid_strip(mirrored, 0.23 * mm);
  EXPECT_NEAR(again.length() / mm, path.length() / mm, 1e-11);
  for (std::size_t i = 0; i < path.wraps.size(); ++i) {
    EXPECT_NEAR(again.wraps[i].turn / rad, path.wraps[path.wraps.size() - 1 - i].turn / rad, 1e-13);
  }
}

// Law (virtual work of a strip under unit tension): moving a roller changes the path by the
// difference of the strands' directions, while the arcs on both its neighbours count too. Central
// difference, step 1e-4 mm.
TEST(Strip, GrowsByTheDifferenceOfDirectionsWhenARollerMoves) {
  std::vector<Support> supports = camera_path();
  const StripPath path = *laid_strip(supports, 0.23 * mm);
  const auto direction = [&](std::size_t i) {
    const Strand& s = path.strands[i];
    return (1 / (s.length() / mm)) * (s.to - s.from);
  };
  constexpr Length step = 1e-4 * mm;
  for (std::size_t i = 2; i + 2 < supports.size(); ++i) {
    const auto length_at = [&](Length moved) {
      std::vector<Support> there = supports;
      there[i].centre.x += moved;
      return laid_strip(there, 0.23 * mm)->length();
    };
    const double slope = (length_at(step) - length_at(-step)) / (2 * step);
    EXPECT_NEAR(slope, (direction(i - 1).x - direction(i).x) / mm, 1e-7);
  }
}

TEST(Strip, BendsTighterInsideThanOutside) {
  const StripPath path = *laid_strip(camera_path(), 0.23 * mm);
  EXPECT_NEAR(path.wraps[0].inner_radius(0.23 * mm) / mm, 4, 1e-12);
  EXPECT_NEAR(path.wraps[0].outer_radius(0.23 * mm) / mm, 4.23, 1e-12);
  EXPECT_EQ(path.wraps[0].face, Face::paper);
}

TEST(Strip, RunsAlongTheFilmPlaneOverTwoRailEnds) {
  const StripPath path = *laid_strip(camera_path(), 0.23 * mm);
  const Strand& gate = path.strands[2];
  // Emulsion on the rails: the middle line lies half a thickness behind the film plane.
  EXPECT_NEAR(gate.from.z / mm, 0.115, 1e-12);
  EXPECT_NEAR(gate.to.z / mm, 0.115, 1e-12);
}

TEST(Strip, HasNoPathBetweenSupportsThatOverlap) {
  const std::array<Support, 2> pair{Support{{0 * mm, 0 * mm}, 5 * mm, Face::paper},
                                    Support{{9 * mm, 0 * mm}, 5 * mm, Face::emulsion}};
  EXPECT_FALSE(laid_strip(pair, Length{}));
}

// Law: a roller that the strip would have to be pulled away from shows a negative wrap.
TEST(Strip, WrapsARollerThatItMissesByLessThanNothing) {
  std::vector<Support> supports{{{-20 * mm, 0 * mm}, 2 * mm, Face::emulsion},
                                {{0 * mm, -1 * mm}, 2 * mm, Face::emulsion},
                                {{20 * mm, 0 * mm}, 2 * mm, Face::emulsion}};
  EXPECT_LT(laid_strip(supports, Length{})->wraps[0].turn, Angle{});
  supports[1].centre.z = 1 * mm;
  EXPECT_GT(laid_strip(supports, Length{})->wraps[0].turn, Angle{});
}

}  // namespace
}  // namespace backfit
