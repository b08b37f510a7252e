// SPDX-License-Identifier: MIT
#include "optics/trace.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "lenses.hpp"
#include "optics/beam.hpp"
#include "optics/paraxial.hpp"

namespace backfit {
namespace {

// Truth: modern-optical-engineering in data/sources.toml, p. 121 (READ): the fifth- and
// seventh-order sums predict the transverse aberration of a ray 3 mm high, -0.00157193 mm, where
// higher orders still vanish.
TEST(Trace, AgreesWithTheSeriesNearTheAxis) {
  const LensModel lens = model_of(lenses::handbook_triplet(), line_d);
  const Length focus = lens.surfaces.back().z + first_order(lens)->back_focal;
  const Traced t = traced(lens, {Length{}, 3 * mm, Length{}, 0, 0, 1});
  EXPECT_NEAR(at_plane(t.ray, focus).y / mm, -0.00157193, 2e-8);
}

struct RealRay {
  double field_deg, px, py, x_mm, y_mm, slope, stop_mm;
};

void agree(const LensModel& lens, double radius_mm, double plane_mm,
           const std::vector<RealRay>& rays) {
  for (const RealRay& r : rays) {
    const Ray start =
        aimed_ray(lens, {r.field_deg * deg}, r.px * radius_mm * mm, r.py * radius_mm * mm);
    const Traced t = traced(lens, start);
    const Ray end = at_plane(t.ray, lens.surfaces.back().z + plane_mm * mm);
    EXPECT_NEAR(end.x / mm, r.x_mm, 2e-6) << r.field_deg << " " << r.py;
    EXPECT_NEAR(end.y / mm, r.y_mm, 2e-6) << r.field_deg << " " << r.py;
    EXPECT_NEAR(t.ray.m / t.ray.n, r.slope, 2e-6) << r.field_deg << " " << r.py;
    EXPECT_NEAR(t.stop_y / mm, r.stop_mm, 2e-6) << r.field_deg << " " << r.py;
  }
}

// Cross-check, not a truth: worked out by a second program in another language. Printed to 1e-6.
TEST(Trace, AgreesWithASecondProgram) {
  agree(model_of(lenses::handbook_triplet(), line_d), 14.6, 77.405,
        {{0, 0, 1, 0, 0.008448, -0.146055, 10.477415},
         {8, 0, -1, 0, 14.068211, 0.296249, -10.434667},
         {11.86, 0, 1, 0, 21.420855, 0.083843, 9.929493},
         {11.86, 0.7, 0.3, -0.070196, 21.380776, 0.179179, 3.054597}});
  agree(model_of(lenses::course_triplet(), line_d), 6.25, 41.2365,
        {{20, 0, 1, 0, 18.233938, 0.224391, 4.415754},
         {20, 0.7, 0.3, -0.024594, 18.181448, 0.306507, 1.415182}});
  agree(model_of(lenses::slow_triplet(), line_d), 6.25, 85.38,
        {{23.4, 0, -1, 0, 43.368029, 0.456473, -3.580586},
         {23.4, 0.7, 0.3, -0.031807, 43.233447, 0.376855, 1.906481}});
  agree(model_of(lenses::four_element(), line_d), 17.86, 79.831,
        {{24.4, 0, 1, 0, 47.876546, 0.249945, 14.268222},
         {24.4, 0.7, 0.3, 0.290130, 45.467304, 0.349378, 4.473316}});
}

// The same second program: foci of narrow pencils around the chief ray, and where it lands.
TEST(PencilFoci, AgreeWithASecondProgram) {
  const LensModel lens = model_of(lenses::slow_triplet(), line_d);
  const Length focus = first_order(lens)->back_focal;
  const double table[3][4] = {{10, -0.338818, 0.106109, 17.614517},
                              {16.38, -0.708957, 0.137833, 29.366084},
                              {23.4, -0.610385, -1.743214, 43.277138}};
  for (const auto& row : table) {
    const auto foci = pencil_foci(lens, {row[0] * deg});
    ASSERT_TRUE(foci);
    EXPECT_NEAR((foci->sagittal - focus) / mm, row[1], 2e-6);
    EXPECT_NEAR((foci->tangential - focus) / mm, row[2], 2e-6);
    EXPECT_NEAR(at_plane(foci->chief, lens.surfaces.back().z + focus).y / mm, row[3], 2e-6);
  }
}

// Law: a ray run backwards through the lens comes out as it went in.
TEST(Trace, IsReversible) {
  for (const Prescription& p : lenses::all()) {
    const LensModel lens = model_of(p, line_d);
    const LensModel back = turned_round(lens);
    const Length last = lens.surfaces.back().z;
    for (const double field : {0.0, 5.0, 11.0}) {
      const Ray start = aimed_ray(lens, {field * deg}, 2 * mm, 1 * mm);
      const Traced t = traced(lens, start);
      ASSERT_TRUE(t.passes());
      const Ray turned{t.ray.x, t.ray.y, last - t.ray.z, -t.ray.l, -t.ray.m, t.ray.n};
      const Traced again = traced(back, turned);
      const Ray end = at_plane(again.ray, last);
      EXPECT_NEAR(end.x / mm, start.x / mm, 1e-9);
      EXPECT_NEAR(end.y / mm, start.y / mm, 1e-9);
      EXPECT_NEAR(again.ray.m, -start.m, 1e-12);
    }
  }
}

// Law: a lens that is its own mirror image about the stop images at -1x without distortion, by
// rays through the stop's centre, whatever its glass.
TEST(ChiefRay, OfASymmetricalLensAtEqualConjugatesIsFreeOfDistortion) {
  for (const double index : {1.45, 1.6, 1.8}) {
    Prescription p =
        lenses::lens_of({{30, 5, index}, {200, 4, 1}, {0, 4, 1}, {-200, 5, index}, {-30, 0, 1}}, 2);
    const LensModel lens = model_of(p, line_d);
    const FirstOrder f = *first_order(lens);
    const Length before = 2 * f.focal - f.front_principal();
    const Length behind = lens.surfaces.back().z + 2 * f.focal + f.back_principal();
    const SubjectPoint subject{8 * deg, before};
    const auto chief = chief_ray(lens, subject);
    ASSERT_TRUE(chief);
    const Length object_y = at_plane(*chief, -before).y;
    const Length image_y = at_plane(traced(lens, *chief).ray, behind).y;
    EXPECT_NEAR((object_y + image_y) / mm, 0, 1e-9);
  }
}

// Law: what a lens does is the same in any azimuth.
TEST(Trace, IsTheSameInEveryAzimuth) {
  const LensModel lens = model_of(lenses::slow_triplet(), line_d);
  const Ray up = traced(lens, {1 * mm, 2 * mm, Length{}, 0, std::sin(0.2), std::cos(0.2)}).ray;
  const Ray right = traced(lens, {2 * mm, -1 * mm, Length{}, std::sin(0.2), 0, std::cos(0.2)}).ray;
  EXPECT_NEAR(up.y / mm, right.x / mm, 1e-12);
  EXPECT_NEAR(up.x / mm, -right.y / mm, 1e-12);
  EXPECT_NEAR(up.m, right.l, 1e-15);
}

TEST(Trace, SaysWhatBecameOfARay) {
  const LensModel lens = model_of(lenses::handbook_triplet(), line_d);
  const auto fate = [&lens](double y_mm, double slope) {
    const double n = 1 / std::hypot(1, slope);
    return traced(lens, {Length{}, y_mm * mm, Length{}, 0, slope * n, n});
  };
  EXPECT_EQ(fate(0, 0).fate, Fate::through);
  EXPECT_EQ(fate(14.9, 0).fate, Fate::clipped);
  EXPECT_EQ(fate(14.9, 0).surface, 0U);
  EXPECT_EQ(fate(80, 0).fate, Fate::missed);
  // Steep light inside a ball of glass can't leave it.
  const LensModel ball = model_of(lenses::lens_of({{0, 1, 1.8}, {-10, 0, 1}}, 0), line_d);
  EXPECT_EQ(traced(ball, {Length{}, 7 * mm, Length{}, 0, 0, 1}).fate, Fate::reflected);
}

// Cross-check with the same second program: light off the axis, in a lens wide open and stopped
// down, to the digits on which its two routes agree.
TEST(RelativeIllumination, AgreesWithASecondProgram) {
  const LensModel lens = model_of(lenses::handbook_triplet(), line_d);
  const Length plane = first_order(lens)->back_focal;
  const double heights[] = {5, 10, 15, 18, 21.248};
  const double open[] = {0.931956, 0.815054, 0.688887, 0.611637, 0.528146};
  const double down[] = {0.996142, 0.984821, 0.966774, 0.953190, 0.936597};
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_NEAR(*relative_illumination(stopped_to(lens, 10.3 * mm), plane, heights[i] * mm),
                open[i], 5e-6);
    EXPECT_NEAR(*relative_illumination(stopped_to(lens, 2.575 * mm), plane, heights[i] * mm),
                down[i], 5e-6);
  }
}

// Law: a hole of radius r at a distance d on its axis fills pi r^2 / (r^2 + d^2) of the plane of
// direction cosines; 360 chords instead of the arc lack 5e-5 of it.
TEST(CosineArea, OfAHoleOnItsAxis) {
  for (const double radius : {1.0, 10.0, 60.0}) {
    const LensModel hole = model_of(lenses::lens_of({{0, 0, 1, radius}}, 0), line_d);
    const double exact = std::numbers::pi * radius * radius / (radius * radius + 1e4);
    EXPECT_NEAR(cosine_area(bundle_at(hole, 100 * mm, Length{}, 360)) / exact, 1, 1e-4);
  }
}

// Law: a lone diaphragm obeys the cosine law to the fourth power, for a small hole.
TEST(RelativeIllumination, OfAHoleFallsByTheFourthPowerOfTheCosine) {
  const LensModel hole = model_of(lenses::lens_of({{0, 0, 1, 0.05}}, 0), line_d);
  for (const double angle : {5.0, 20.0, 40.0}) {
    const double c = cos(angle * deg);
    EXPECT_NEAR(*relative_illumination(hole, 100 * mm, 100 * mm * tan(angle * deg)), c * c * c * c,
                1e-5);
  }
}

// Law: no point gets more light than the axis, over every lens with its apertures.
TEST(RelativeIllumination, IsGreatestOnTheAxis) {
  for (const Prescription& p :
       {lenses::handbook_triplet(), lenses::slow_triplet(), lenses::four_element()}) {
    const LensModel lens = model_of(p, line_d);
    const Length plane = first_order(lens)->back_focal;
    for (const double h : {2.0, 8.0, 16.0, 30.0}) {
      const auto light = relative_illumination(lens, plane, h * mm);
      ASSERT_TRUE(light);
      EXPECT_LE(*light, 1.0);
    }
  }
}

TEST(Bundle, IsEmptyWhereNoLightArrives) {
  const LensModel lens = model_of(lenses::handbook_triplet(), line_d);
  EXPECT_TRUE(bundle_at(lens, 77 * mm, 400 * mm, 60).edge.empty());
}

}  // namespace
}  // namespace backfit
