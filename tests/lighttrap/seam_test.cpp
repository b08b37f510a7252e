// SPDX-License-Identifier: MIT
// Seams solved in section and walked on in the hollow behind: against the section of the whole, and
// against walks in space.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "lighttrap/seam_walks.hpp"
#include "lighttrap/transmission.hpp"
#include "lighttrap/walk.hpp"
#include "profiles.hpp"
#include "surfaces.hpp"

namespace backfit {
namespace {

using namespace profiles;
using namespace surfaces;

GapProfile wide_and_narrow(const std::vector<double>& arms, std::string_view turns,
                           const std::vector<double>& widths) {
  GapProfile p = profile(arms, turns, widths.front() * mm);
  for (const double width : widths) p.widths.push_back(width * mm);
  return p;
}

SeamWalls patchwork(const GapProfile& p) {
  SeamWalls walls = walls_all(p, {0.05});
  for (std::size_t i = 0; i < p.arms.size(); ++i) {
    walls.left[i].reflectance = 0.02 + 0.03 * static_cast<double>(i % 3);
  }
  return walls;
}

// Law: with arms all as wide as the gap it is the plain gap.
TEST(SeamLight, OfOneWidthIsThatOfTheGap) {
  GapProfile p = profile({2, 5, 2}, "LR");
  const Transmission plain = transmission(p, {0.05});
  p.widths = {p.gap, p.gap, p.gap};
  const Transmission seam = SeamLight(p, walls_all(p, {0.05})).sky();
  EXPECT_NEAR(seam.through, plain.through, 3 * (seam.mesh_error + plain.mesh_error));
  EXPECT_LT(seam.mesh_error, 0.02 * seam.through);
}

// Law: walks in the section, which cut nothing into pieces, agree where widths differ.
TEST(SeamLight, OfUnevenWidthsIsThatOfWalks) {
  const GapProfile p = wide_and_narrow({6, 2, 3, 2, 5}, "RLLR", {0.5, 1, 2, 1, 0.5});
  const Wall wall{0.05};
  const Transmission seam = SeamLight(p, walls_all(p, wall)).sky();
  const TallyResult t = GapWalks(p, wall).through(20000);
  ASSERT_TRUE(t.interval);
  EXPECT_NEAR(t.mean, seam.through, 3.9 * t.standard_error + 2 * seam.mesh_error);
  EXPECT_LT(t.standard_error, 0.05 * t.mean);
}

// Law: one wall that mirrors at its face, as walks in the section have it all round.
TEST(SeamLight, OfMirroringWallsIsThatOfWalks) {
  const GapProfile p = profile({3, 2}, "L");
  const Wall wall{0.05, 1.5};
  const Transmission seam = SeamLight(p, walls_all(p, wall)).sky();
  const TallyResult t = GapWalks(p, wall).through(60000);
  EXPECT_NEAR(t.mean, seam.through, 3.9 * t.standard_error + 2 * seam.mesh_error);
  EXPECT_LT(seam.mesh_error, 0.1 * seam.through);
}

// Law: the way in is the way out, whatever each wall is like.
TEST(SeamLight, PassesTheSameBothWays) {
  const GapProfile p = wide_and_narrow({4, 2, 3}, "RL", {0.5, 1, 2});
  const GapProfile back = wide_and_narrow({3, 2, 4}, "RL", {2, 1, 0.5});
  const SeamWalls walls = patchwork(p);
  // Walked the other way, the right wall is the left one.
  const SeamWalls walls_back{{walls.left.rbegin(), walls.left.rend()},
                             {walls.right.rbegin(), walls.right.rend()}};
  const Transmission in = SeamLight(p, walls).sky(), out = SeamLight(back, walls_back).sky();
  EXPECT_NEAR(in.through * 0.5, out.through * 2, 3 * (0.5 * in.mesh_error + 2 * out.mesh_error));
}

// Law: a sky is many suns: their mean over the half sphere, by the cosine, is what passes of it.
TEST(SeamLight, OfASkyIsThatOfAllItsSuns) {
  const GapProfile p = wide_and_narrow({2, 3}, "L", {1, 0.7});
  for (const auto& [index, length] : {std::pair{1.0, endless}, {1.5, endless}, {1.5, 15 * mm}}) {
    const SeamLight seam(p, walls_all(p, {0.05, index}), length);
    double sum = 0;
    constexpr int sines = 400, heights = 32;
    for (int i = 0; i < sines; ++i) {
      for (int k = 0; k < heights; ++k) {
        const double sine = 2 * (i + 0.5) / sines - 1;
        // The along component of even light: the half circle, by equal parts of its area, is the
        // weight cos^2 over the elevation.
        const double e = std::numbers::pi * ((k + 0.5) / heights - 0.5);
        const double weight = 2.0 / heights * std::cos(e) * std::cos(e);
        sum +=
            weight / sines *
            seam.sun({std::cos(e) * std::sqrt(1 - sine * sine), std::cos(e) * sine, std::sin(e)});
      }
    }
    EXPECT_NEAR(sum, seam.sky().through, 0.03 * sum + 2 * seam.sky().mesh_error)
        << index << " " << length / mm;
  }
}

// Law: the rays that come out carry what comes out, of sky and of sun, bent or straight.
TEST(SeamLight, SendsOutWhatPasses) {
  for (const GapProfile& p : {wide_and_narrow({6, 2, 3, 2, 5}, "RLLR", {0.5, 1, 2, 1, 0.5}),
                              profile({3, 4}, "L"), profile({5}, "")}) {
    const SeamLight seam(p, walls_all(p, {0.05}));
    const SeamLight::Source source = seam.source({2, 3, {std::cos(0.1), std::sin(0.1), 0}});
    Random random(3);
    Tally sky, sun;
    for (int i = 0; i < 60000; ++i) {
      const SeamLight::Source::Ray ray = source.ray(random);
      sky.add(ray.sky_mm);
      sun.add(ray.sun_mm);
      EXPECT_GE(ray.direction.in, 0);
    }
    const TallyResult by_sky = sky.result(), by_sun = sun.result();
    EXPECT_NEAR(by_sky.mean, source.sky_mm, 3.9 * by_sky.standard_error + 0.02 * source.sky_mm);
    EXPECT_NEAR(by_sun.mean, source.sun_mm, 3.9 * by_sun.standard_error + 0.02 * source.sun_mm);
    EXPECT_LT(by_sky.standard_error, 0.03 * by_sky.mean);
    EXPECT_LT(by_sun.standard_error, 0.03 * by_sun.mean);
  }
}

// Law: in a long straight seam with a glossy wall the rays that see the sky in it, few and bright,
// are foreseen: no ray carries a thousand times what the mean does.
TEST(SeamLight, ForeseesWhatItsWallsMirror) {
  const GapProfile p = profile({100}, "");
  const SeamWalls walls{{{0.05, 1.5}}, {{0.05}}};
  const SeamLight seam(p, walls);
  const SeamLight::Source source = seam.source({1, 0, {}});
  Random random(4);
  Tally tally;
  double most = 0;
  for (int i = 0; i < 200000; ++i) {
    const double sky = source.ray(random).sky_mm;
    tally.add(sky);
    most = std::max(most, sky);
  }
  const TallyResult t = tally.result();
  EXPECT_NEAR(t.mean, source.sky_mm, 3.9 * t.standard_error + 0.03 * source.sky_mm);
  EXPECT_LT(most, 100 * t.mean);
  EXPECT_LT(t.variance_of_variance, 1e-3);
}

// Law: so are rays nearly along a bent seam of glossy walls, which are mirrored all the way.
TEST(SeamLight, ForeseesWhatRunsAlongIt) {
  const GapProfile p = wide_and_narrow({12, 4, 8}, "RL", {1, 0.4, 1});
  for (const double length : {50.0, 400.0}) {
    const SeamLight seam(p, walls_all(p, {0.05, 1.5}), length * mm);
    const SeamLight::Source source = seam.source({1, 0, {}});
    for (const std::uint64_t seed : {5, 6}) {
      Random random(seed);
      Tally tally;
      for (int i = 0; i < 400000; ++i) tally.add(source.ray(random).sky_mm);
      const TallyResult t = tally.result();
      ASSERT_TRUE(t.interval) << t.variance_of_variance;
      EXPECT_NEAR(t.mean, source.sky_mm, 3.9 * t.standard_error + 3 * seam.sky().mesh_error)
          << length;
    }
  }
}

// Law: the shorter a glossy seam, the less; without gloss its length is nothing to it.
TEST(SeamLight, LosesPastItsEnds) {
  const GapProfile p = profile({6, 2, 3}, "RL");
  double before = 0;
  for (const double length : {10.0, 40.0, 160.0}) {
    const double through = SeamLight(p, walls_all(p, {0.05, 1.5}), length * mm).sky().through;
    EXPECT_GT(through, before);
    before = through;
  }
  EXPECT_GT(before, SeamLight(p, walls_all(p, {0.05})).sky().through);
  EXPECT_EQ(SeamLight(p, walls_all(p, {0.05}), 10 * mm).sky().through,
            SeamLight(p, walls_all(p, {0.05})).sky().through);
}

// A seam that opens into a wide hollow, the last arm of `p`, drawn out between mirrors; the film
// at the hollow's end.
struct Behind {
  Built whole;
  SeamWalks walks;
};
Behind hollow_behind(const GapProfile& p, const Wall& wall, double depth) {
  Built whole = seam(p, depth, {wall, false});
  // The hollow alone: the last corner and the last arm, in units of the gap, closed all round.
  const gap::Cells cells = gap::cells_of(p);
  const gap::Portal& in = cells.portals[cells.portals.size() - 3];
  const gap::Portal& out = cells.portals.back();
  Built alone;
  alone.film = whole.film;
  Surfaces& s = alone.surfaces;
  s.stuffs = {{wall, false}, {{}, true}};
  const auto [x0, x1] = std::minmax({in.left.x, in.right.x, out.left.x, out.right.x});
  const auto [y0, y1] = std::minmax({in.left.y, in.right.y, out.left.y, out.right.y});
  // A little behind the film.
  const double beyond = 0.01;
  const double left = out.heading.x < -0.5 ? x0 - beyond : x0;
  const double right = out.heading.x > 0.5 ? x1 + beyond : x1;
  const double low = out.heading.y < -0.5 ? y0 - beyond : y0;
  const double high = out.heading.y > 0.5 ? y1 + beyond : y1;
  std::array<std::uint32_t, 8> c{};
  for (std::size_t i = 0; i < 8; ++i) {
    c.at(i) = point(s, i % 4 == 1 || i % 4 == 2 ? right : left, i % 4 >= 2 ? high : low,
                    i < 4 ? 0 : depth);
  }
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t j = (i + 1) % 4;
    quad(s, {c.at(i), c.at(j), c.at(j + 4), c.at(i + 4)}, 0);
  }
  quad(s, {c[0], c[1], c[2], c[3]}, 1);
  quad(s, {c[4], c[5], c[6], c[7]}, 1);
  // The section is in units of the gap, which is 1 mm.
  const auto at = [](gap::Point q, double z) { return SpacePoint{q.x * mm, q.y * mm, z * mm}; };
  SeamMouth mouth;
  mouth.corner = at(in.right, 0);
  mouth.across = at(in.left - in.right, 0);
  mouth.along = {{}, {}, depth * mm};
  mouth.length = depth * mm;
  const gap::Point heading = in.heading;
  const gap::Point across = in.left - in.right;
  if (across.y * 1 * heading.x < 0 || -across.x * heading.y < 0) {  // across x along: inwards
    mouth.corner.z = depth * mm;
    mouth.along.z = -depth * mm;
  }
  GapProfile front = p;
  front.arms.pop_back();
  front.turns.pop_back();
  front.widths.pop_back();
  std::vector<SeamLight> lights{SeamLight(front, walls_all(front, wall))};
  return {std::move(whole), SeamWalks(s, alone.film, std::move(lights), {mouth})};
}

// Law: a wide seam into a hollow passes by section and walk behind it what the section of both
// together passes, and what walks in space find. The light that goes back into the seam and comes
// again is left out: below the reflectance times the mouth's part of the walls, 0.2 %.
TEST(SeamWalks, AreTheWholeSectionAndTheWalksInSpace) {
  const Wall wall{0.1};
  for (const char* turns : {"LRL", "RLR"}) {
    const GapProfile p = wide_and_narrow({2, 2, 3, 24}, turns, {1, 1, 1, 16});
    const Transmission whole = SeamLight(p, walls_all(p, wall)).sky();
    const double on_film = whole.through / 16;  // the film is 16 times as wide as the outer mouth
    const Behind b = hollow_behind(p, wall, 3);
    const TallyResult hybrid =
        b.walks.walked({1 * lux, {}, {}}, {0, 200000, 2, 1, [] { return true; }})
            .patches[0]
            .all.result();
    ASSERT_TRUE(hybrid.interval);
    EXPECT_LT(hybrid.standard_error, 0.03 * hybrid.mean);
    EXPECT_NEAR(
        hybrid.mean, on_film,
        3.9 * hybrid.standard_error + (2e-3 + 2 * whole.mesh_error / whole.through) * on_film);
    const TallyResult space = LeakWalks(b.whole.surfaces, b.whole.film, 2).light(20000, 2).front();
    ASSERT_TRUE(space.interval);
    EXPECT_NEAR(space.mean, hybrid.mean,
                3.9 * std::hypot(space.standard_error, hybrid.standard_error));
    EXPECT_LT(space.standard_error, 0.06 * space.mean);
  }
}

// Law: the answer is the same from any number of threads, to the last bit; what is walked in two
// goes adds up; and the way of its brightest light runs from the outer mouth to the film.
TEST(SeamWalks, RepeatAndAddUp) {
  const GapProfile p = wide_and_narrow({2, 2, 24}, "LR", {1, 1, 16});
  const Behind b = hollow_behind(p, {0.1}, 3);
  const Daylight day{1 * lux, 2 * lux, {-1 * mm, 0.2 * mm, 0.1 * mm}};
  const auto go = [] { return true; };
  const SeamWalks::Light one = b.walks.walked(day, {0, 20000, 1, 1, go});
  EXPECT_EQ(one.patches[0].all.result().mean,
            b.walks.walked(day, {0, 20000, 3, 1, go}).patches[0].all.result().mean);
  SeamWalks::Light sum = b.walks.walked(day, {0, 5000, 1, 1, go});
  sum.add(b.walks.walked(day, {5000, 15000, 1, 1, go}));
  EXPECT_NEAR(sum.patches[0].all.result().mean / one.patches[0].all.result().mean, 1, 1e-12);
  EXPECT_EQ(sum.brightest, one.brightest);
  const auto way = b.walks.way(day, {0, 0, 1, 1, go}, one.brightest[0]);
  ASSERT_GE(way.size(), 4U);
  EXPECT_NEAR(way.front().x / mm, 0, 1e-9);
  EXPECT_FALSE(one.patches[0].sun.result().mean == 0);
}

// Law: the worst sun is worse than others.
TEST(SeamWalks, FindTheWorstSun) {
  const Behind b = hollow_behind(wide_and_narrow({6, 2, 24}, "LR", {1, 1, 16}), {0.1}, 3);
  const auto go = [] { return true; };
  const SpacePoint worst = b.walks.worst_sun({0, 4000, 2, 1, go});
  const auto light = [&](const SpacePoint& towards) {
    return b.walks.walked({{}, 1 * lux, towards}, {0, 20000, 2, 1, go})
        .patches[0]
        .all.result()
        .mean;
  };
  const double most = light(worst);
  for (const SpacePoint& other :
       {SpacePoint{-1 * mm, 1 * mm, {}}, {-1 * mm, {}, 1 * mm}, {-1 * mm, -0.4 * mm, -0.4 * mm}}) {
    EXPECT_GT(most, light(other));
  }
}

// A box of 10 mm, its film opposite to a lit wall, wall and film as wide as the box but for the
// hair between film and end.
struct LitBox {
  Surfaces hollow;
  FilmPlane film;
  LitWall wall;
};
LitBox lit_box(double reflectance) {
  constexpr double size = 10, beyond = 0.001;
  LitBox b;
  Surfaces& s = b.hollow;
  s.stuffs = {{{reflectance, 1}, false}};
  std::array<std::uint32_t, 8> c{};
  for (std::size_t i = 0; i < 8; ++i) {
    c.at(i) = point(s, i % 4 == 1 || i % 4 == 2 ? size : 0, i % 4 >= 2 ? size : 0,
                    i < 4 ? 0 : size + beyond);
  }
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t j = (i + 1) % 4;
    quad(s, {c.at(i), c.at(j), c.at(j + 4), c.at(i + 4)}, 0);
  }
  quad(s, {c[0], c[1], c[2], c[3]}, 0);
  quad(s, {c[4], c[5], c[6], c[7]}, 0);
  const Length edge = size * mm;
  b.film = {{{}, edge, edge}, {edge, {}, {}}, {{}, -edge, {}}, 1, 1};
  b.wall = {{}, {edge, {}, {}}, {{}, edge, {}}, {{}, {}, -1 * mm}, 1};
  return b;
}

// The view factor of two like rectangles that face each other, x and y their sides over the
// distance: the closed form of the handbooks (parallel rectangles, by the lines' integral).
double view_between_rectangles(double x, double y) {
  const double u = std::sqrt(1 + x * x), v = std::sqrt(1 + y * y);
  return 2 / (std::numbers::pi * x * y) *
         (std::log(u * v / std::sqrt(1 + x * x + y * y)) + x * v * std::atan(x / v) +
          y * u * std::atan(y / u) - x * std::atan(x) - y * std::atan(y));
}

// Law: a wall that passes a part of the light outside sends the film opposite that part times the
// view factor between both, of sky and of a sun by the cosine on its outside.
TEST(SeamWalks, OfALitWallAreItsViewFactor) {
  const LitBox b = lit_box(0);
  const double through = 3e-7, view = view_between_rectangles(1, 1);
  LitWall wall = b.wall;
  wall.passes = through;
  const SeamWalks walks(b.hollow, b.film, {}, {}, {wall});
  const auto go = [] { return true; };
  const SeamWalks::Light sky = walks.walked({1 * lux, {}, {}}, {0, 200000, 2, 1, go});
  const TallyResult of_sky = sky.patches[0].all.result();
  EXPECT_NEAR(of_sky.mean, through * view, 3.9 * of_sky.standard_error);
  EXPECT_LT(of_sky.standard_error, 0.01 * of_sky.mean);
  // A sun 60 degrees off the wall's outside: half of what it would give straight on.
  const SpacePoint slanted{std::sqrt(3.0) * mm, {}, -1 * mm};
  const TallyResult of_sun =
      walks.walked({{}, 1 * lux, slanted}, {0, 200000, 2, 1, go}).patches[0].all.result();
  EXPECT_NEAR(of_sun.mean, 0.5 * through * view, 3.9 * of_sun.standard_error);
  const SpacePoint worst = walks.worst_sun({0, 4000, 2, 1, go});
  EXPECT_NEAR(worst.z / mm, -1, 1e-9);
  EXPECT_EQ(walks.way({1 * lux, {}, {}}, {0, 0, 1, 1, go}, sky.brightest[0]).size(), 2U);
}

// Law: film beside the picture takes what falls on its emulsion and nothing through its back: half
// way between wall and picture it hides the picture, and turned over it is dark.
TEST(SeamWalks, CountFilmBesideThePicture) {
  const auto go = [] { return true; };
  for (const bool towards_wall : {true, false}) {
    LitBox b = lit_box(0);
    Surfaces& s = b.hollow;
    std::array<std::uint32_t, 4> c{point(s, 0, 0, 5), point(s, 0, 10, 5), point(s, 10, 10, 5),
                                   point(s, 10, 0, 5)};
    if (!towards_wall) std::swap(c[1], c[3]);
    s.triangles.push_back({{c[0], c[1], c[2]}, 0, 1});
    s.triangles.push_back({{c[0], c[2], c[3]}, 0, 1});
    const SeamWalks walks(s, b.film, {}, {}, {b.wall}, {{100 * mm * mm}});
    const SeamWalks::Light light = walks.walked({1 * lux, {}, {}}, {0, 100000, 2, 1, go});
    EXPECT_EQ(light.patches[0].all.result().mean, 0);
    const TallyResult piece = light.patches[1].all.result();
    if (towards_wall) {
      EXPECT_NEAR(piece.mean, view_between_rectangles(2, 2), 3.9 * piece.standard_error);
    } else {
      EXPECT_EQ(piece.mean, 0);
    }
  }
}

}  // namespace
}  // namespace backfit
