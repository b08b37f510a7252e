// SPDX-License-Identifier: MIT
#include "optics/coverage.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "lenses.hpp"
#include "optics/paraxial.hpp"
#include "quantity/random.hpp"

namespace backfit {
namespace {

const ExitPupil pupil{6.4 * mm, -107 * mm};

// Law: a disc of radius r seen squarely from a distance d on its axis has the projected solid angle
// pi r^2 / (r^2 + d^2). The polygon has the disc's area, not its shape: 1e-4 of it for 48 corners.
TEST(ProjectedSolidAngle, OfADiscOnItsAxis) {
  for (const double r : {1.0, 6.4, 40.0}) {
    const double got = projected_solid_angle(circle(2 * r * mm, {}, 360), -100 * mm,
                                             {Length{}, Length{}, Length{}});
    EXPECT_NEAR(got / (std::numbers::pi * r * r / (r * r + 1e4)), 1, 1e-5);
  }
}

// Law: a small source obeys the cosine law to the fourth power.
TEST(ProjectedSolidAngle, OfASmallSourceFallsByTheFourthPowerOfTheCosine) {
  const Polygon small = rectangle(0.02 * mm, 0.02 * mm);
  const double centre = projected_solid_angle(small, -100 * mm, {Length{}, Length{}, Length{}});
  for (const double angle : {10.0, 25.0, 45.0}) {
    const FilmPoint p{100 * mm * tan(angle * deg), Length{}, Length{}};
    const double c = cos(angle * deg);
    EXPECT_NEAR(projected_solid_angle(small, -100 * mm, p) / centre, c * c * c * c, 1e-6);
  }
}

// Law: where a rectangle shades a disc, the share of the light is the share of the disc's area that
// the closed form gives, but for how the cosines vary over the pupil: at most 2 % here.
TEST(LightAt, AgreesWithTheClosedFormForRectangles) {
  const LensLight lens = LensLight::disc(pupil, 240);
  const std::vector<RectangularOpening> closed{{73 * mm, 95 * mm, -0.6 * mm}};
  const std::vector<Screen> screens{opening(-0.6 * mm, rectangle(73 * mm, 95 * mm))};
  for (const double x : {0.0, 20.0, 38.5, 39.3, 40.0}) {
    for (const double y : {0.0, 30.0, 50.8, 51.6}) {
      const FilmPoint p{x * mm, y * mm, 8.56 * mm};
      const double share = pupil_share_seen(p, pupil, closed);
      EXPECT_NEAR(light_at(p, lens, screens) / light_at(p, lens, {}), share, 0.02) << x << " " << y;
    }
  }
}

// Law: obstacle and opening of one outline share all the light between them, and a polygon cut in
// two gives the sum of its parts, over random places and outlines.
TEST(LightAt, AddsUp) {
  const LensLight lens = LensLight::disc(pupil);
  Random random(7);
  for (int i = 0; i < 200; ++i) {
    const auto draw = [&](double a, double b) { return (a + (b - a) * random.unit()) * mm; };
    // An arrowhead: not convex.
    const Polygon arrow{{draw(-9, -6), draw(-5, -3)},
                        {draw(-1, 1), draw(-2, 0)},
                        {draw(6, 9), draw(-5, -3)},
                        {draw(-2, 2), draw(6, 12)}};
    const FilmPoint p{draw(-30, 30), draw(-40, 40), 8 * mm};
    // Where the middle of the pupil's cone passes.
    const Length z = draw(-60, -5);
    const double k = (z - pupil.z) / (p.z - pupil.z);
    Polygon moved = arrow;
    for (PlanePoint& q : moved) {
      q.x += k * p.x;
      q.y += k * p.y;
    }
    const std::vector<Screen> in{opening(z, moved)};
    const std::vector<Screen> out{obstacle(z, moved)};
    const double whole = light_at(p, lens, {});
    EXPECT_NEAR((light_at(p, lens, in) + light_at(p, lens, out)) / whole, 1, 1e-12) << i;
  }
}

TEST(Triangles, HaveTheOutlinesArea) {
  const Polygon notched{
      {0 * mm, 0 * mm}, {10 * mm, 0 * mm}, {10 * mm, 8 * mm}, {5 * mm, 2 * mm}, {0 * mm, 8 * mm}};
  Area sum;
  for (const Polygon& t : triangles(notched)) {
    sum += abs((t[1].x - t[0].x) * (t[2].y - t[0].y) - (t[1].y - t[0].y) * (t[2].x - t[0].x)) / 2;
  }
  EXPECT_NEAR(sum / mm2, 80 - 30, 1e-12);
}

// Law: the traced light of a lens over the frame is that of its bundles, whose area in direction
// cosines was reached another way.
TEST(LensLight, TracedAgreesWithTheBundles) {
  const LensModel lens = stopped_to(model_of(lenses::slow_triplet(), line_d), 4.85 * mm);
  const Length focus = first_order(lens)->back_focal;
  const LensLight light = LensLight::traced(lens, -focus, Length{}, 60 * mm);
  const double centre = light_at({Length{}, Length{}, Length{}}, light, {});
  for (const double h : {7.0, 21.0, 33.0, 44.0}) {
    const double angle = 0.7;
    const FilmPoint p{h * std::sin(angle) * mm, h * std::cos(angle) * mm, Length{}};
    EXPECT_NEAR(light_at(p, light, {}) / centre, *relative_illumination(lens, focus, h * mm), 1e-3);
  }
  EXPECT_EQ(light_at({70 * mm, Length{}, Length{}}, light, {}), 0);
}

// Law: a map over centred rectangles is the same after turning round by half.
TEST(LightMap, IsSymmetric) {
  const LensLight lens = LensLight::disc(pupil);
  const std::vector<Screen> screens{opening(-6 * mm, rectangle(88 * mm, 108 * mm)),
                                    opening(-0.6 * mm, rectangle(73 * mm, 95 * mm))};
  const LightMap map = light_map({95 * mm, 120 * mm}, 8.56 * mm, 16, 16, lens, screens);
  for (int column = 0; column < 16; ++column) {
    for (int row = 0; row < 16; ++row) {
      const auto& a = map.at(column, row);
      const auto& b = map.at(15 - column, 15 - row);
      ASSERT_EQ(a.has_value(), b.has_value());
      if (a) {
        EXPECT_NEAR(a->value, b->value, 1e-9);
      }
    }
  }
  EXPECT_FALSE(map.at(0, 0));
}

// Law: the largest frame's worst point loses just what is allowed.
TEST(LargestFrame, LosesWhatIsAllowed) {
  const LensLight lens = LensLight::disc(pupil);
  const std::vector<Screen> screens{opening(-0.6 * mm, rectangle(73 * mm, 95 * mm))};
  const FrameSize frame = largest_frame({95 * mm, 120 * mm}, 8.56 * mm, {1.5}, lens, screens);
  EXPECT_NEAR(frame.width / frame.height, 95.0 / 120, 1e-12);
  const auto corner = stops_lost({frame.width / 2, frame.height / 2, 8.56 * mm}, lens, screens);
  ASSERT_TRUE(corner);
  EXPECT_NEAR(corner->value, 1.5, 0.02);
}

// Truth: the closed form for a rectangular opening before a round pupil; the disc has 48 corners,
// a thousandth of its radius. Law: an opening of another shape inside that rectangle lights less,
// and an obstacle at the side takes what it covers.
TEST(LitFrame, OfAnyShapeAgreesWithTheRectanglesClosedForm) {
  const LensLight light = LensLight::disc(pupil, 96);
  const Length film = 8.56 * mm;
  const FrameSize window{95 * mm, 120 * mm};
  const Length half_height =
      lit_frame(pupil, {1000 * mm, 95 * mm, -0.6 * mm}, film, Edge::half).height;
  const Length whole = lit_frame(pupil, {1000 * mm, 95 * mm, -0.6 * mm}, film, Edge::whole).height;
  const Screen slot = opening(-0.6 * mm, rectangle(1000 * mm, 95 * mm));
  EXPECT_NEAR(lit_frame(window, film, 1, light, slot).height / mm, whole / mm, 0.03);
  // Half of the pupil's area gives half of its light but for the cosines over the pupil, 0.2 % of
  // the frame.
  EXPECT_NEAR(lit_frame(window, film, 0.5, light, slot).height / mm, half_height / mm, 0.3);

  const FrameSize in_rectangle =
      lit_frame(window, film, 0.5, light, opening(-0.6 * mm, rectangle(73 * mm, 95 * mm)));
  const FrameSize in_circle =
      lit_frame(window, film, 0.5, light, opening(-0.6 * mm, circle(73 * mm)));
  EXPECT_LT(in_circle.width, in_rectangle.width);
  const FrameSize beside_spool =
      lit_frame(window, film, 0.5, light,
                obstacle(-10 * mm, rectangle(10 * mm, 200 * mm, {40 * mm, Length{}})));
  EXPECT_NEAR(beside_spool.width / mm, 2 * (35 + 35.0 / 97 * 18.56), 0.3);  // similar triangles
}

}  // namespace
}  // namespace backfit
