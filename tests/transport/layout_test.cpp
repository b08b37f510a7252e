// SPDX-License-Identifier: MIT
#include "transport/layout.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "chamber.hpp"
#include "transport/layout_model.hpp"

namespace backfit {
namespace {

// The clearance that was asked for between two things of the list.
Length asked(const LayoutProblem& p, const Clearance& c) {
  const auto has = [&](const char* word) {
    return c.between.find(word) != std::string::npos || c.and_.find(word) != std::string::npos;
  };
  if (c.between == "film" && c.and_.find("ro") != 0 && !has("rail") && !has("roller")) {
    // On a guide the film only keeps what the guide does.
    return std::min(p.clear.film, p.clear.guide);
  }
  if (has("roller")) return has("flange") ? p.clear.turning : p.clear.guide;
  return has("rail end") ? Length{} : p.clear.turning;
}

void expect_free(const LayoutProblem& p, const Layout& layout) {
  for (const Clearance& c : clearances_of(p, layout)) {
    EXPECT_GE(c.gap / mm, asked(p, c) / mm - 0.01) << c.between << " / " << c.and_;
  }
}

// Law: a layout that the search calls feasible keeps what was asked for, worked out by small steps
// and apart from the search's formulae. Tolerance: the step's square over the least bend.
TEST(Layout, KeepsItsClearancesByAnIndependentCheck) {
  for (const LayoutProblem& p :
       {chamber(118 * mm, 31.5 * mm, 2 * mm, 56 * mm),
        chamber(118 * mm, 31.5 * mm, 2 * mm, 84 * mm), chamber(124 * mm, 5 * mm, 26 * mm, 56 * mm),
        chamber(112 * mm, 33 * mm, 2 * mm, 84 * mm),
        printed_chamber(118 * mm, 33 * mm, 2 * mm, 56 * mm),
        printed_chamber(118 * mm, 33 * mm, 2 * mm, 84 * mm)}) {
    const std::vector<Layout> layouts = layouts_for(p);
    ASSERT_FALSE(layouts.empty());
    for (const Layout& layout : layouts) expect_free(p, layout);
  }
}

TEST(Layout, PutsRollsBesideAShortFrameAndBehindALongOne) {
  const auto spools = [](Length frame) {
    const Layout l = layouts_for(chamber(118 * mm, 34 * mm, 2 * mm, frame)).front();
    return std::pair{l.supply, l.take_up};
  };
  const auto [supply, take_up] = spools(56 * mm);
  EXPECT_LT(supply.x, -28 * mm);
  EXPECT_GT(take_up.x, 28 * mm);
  const auto [folded_supply, folded_take_up] = spools(84 * mm);
  EXPECT_GT(folded_supply.x, -42 * mm);
  EXPECT_LT(folded_take_up.x, 42 * mm);
  EXPECT_GT(folded_supply.z, 3.2 * mm + 12.55 * mm);
}

TEST(Layout, IsTheSameEachTime) {
  const LayoutProblem p = chamber(118 * mm, 31.5 * mm, 2 * mm, 84 * mm);
  const std::vector<Layout> one = layouts_for(p);
  const std::vector<Layout> two = layouts_for(p);
  ASSERT_EQ(one.size(), two.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    EXPECT_EQ(one[i].supply, two[i].supply);
    EXPECT_EQ(one[i].take_up, two[i].take_up);
    EXPECT_EQ(one[i].effort, two[i].effort);
  }
}

// Law: what fits a chamber fits its mirror image, with both spools' parts exchanged: the same
// gaps.
TEST(Layout, MirroredFitsTheMirroredChamber) {
  LayoutProblem p = chamber(122 * mm, 33 * mm, 2 * mm, 56 * mm);
  p.room.high.x -= 3 * mm;
  p.room.keep_outs.push_back({box("hinge", {-61 * mm, 27 * mm}, {-55 * mm, 33 * mm}), false});
  const Layout layout = layouts_for(p).front();
  LayoutProblem q = p;
  q.room.low.x = -p.room.high.x;
  q.room.high.x = -p.room.low.x;
  q.room.keep_outs = {{box("hinge", {55 * mm, 27 * mm}, {61 * mm, 33 * mm}), false}};
  Layout mirrored = layout;
  const auto turned = [](SectionPoint c) { return SectionPoint{-c.x, c.z}; };
  mirrored.supply = turned(layout.take_up);
  mirrored.take_up = turned(layout.supply);
  std::ranges::reverse(mirrored.guides);
  for (Guide& g : mirrored.guides) g.centre = turned(g.centre);
  mirrored.gate = layout.guides.size() - layout.gate;
  const std::vector<Clearance> a = clearances_of(p, layout);
  const std::vector<Clearance> b = clearances_of(q, mirrored);
  ASSERT_EQ(a.size(), b.size());
  // Tolerance: the steps along the film start from the other end.
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i].gap / mm, b[i].gap / mm, 1e-6);
  // And the search finds as good a one there. Tolerance: the two spools' parts differ a little.
  EXPECT_NEAR(layouts_for(q).front().effort / layout.effort, 1, 0.05);
}

// Law: a larger chamber is never worse. Tolerance: 5 % of the cost, which centring may give up.
TEST(Layout, IsNeverWorseInALargerChamber) {
  const auto room = [](Length frame, double grown, bool printed) {
    const auto made = printed ? printed_chamber : chamber;
    return made((112 + grown) * mm, (30.5 + grown / 2) * mm, 2 * mm, frame);
  };
  for (const auto& [frame, printed] : {std::pair{56 * mm, false}, std::pair{84 * mm, false},
                                       std::pair{56 * mm, true}, std::pair{84 * mm, true}}) {
    double best = 1e9;
    for (const double grown : {0.0, 0.5, 1.0, 2.0, 4.0, 8.0}) {
      const auto layouts = layouts_for(room(frame, grown, printed));
      if (layouts.empty()) {
        EXPECT_EQ(best, 1e9) << grown;
        continue;
      }
      EXPECT_LE(layouts.front().cost / newton_mm, 1.05 * best + 0.25) << grown;
      best = std::min(best, layouts.front().cost / newton_mm);
    }
    EXPECT_LT(best, 1e9);
  }
}

// Truth: search over a grid on a reduced problem, one half with a post and no roller: four numbers.
// The solver is never worse than the best point of the grid.
TEST(Layout, IsNoWorseThanAGridOverAReducedProblem) {
  LayoutProblem p = chamber(124 * mm, 5 * mm, 26 * mm, 56 * mm);
  const LayoutModel half(p, {{}, HalfShape{RailEnd::post, {}}});
  double grid = 1e9;
  Evaluation e;
  for (int x = 0; x <= 28; ++x) {
    for (int z = 0; z <= 64; ++z) {
      for (int end = 0; end <= 16; ++end) {
        for (int radius = 0; radius <= 12; ++radius) {
          const std::vector<double> at{36 + 0.5 * x, -16 + 0.25 * z, 30 + 0.5 * end,
                                       2 + 0.25 * radius};
          half.evaluate(at, e);
          if (e.shortfall() <= 1e-4) grid = std::min(grid, e.cost);
        }
      }
    }
  }
  ASSERT_LT(grid, 1e9);
  double best = 1e9;
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    Random random(seed);
    std::vector<double> start;
    double least = 1e9;
    for (int i = 0; i < 60; ++i) {
      const std::vector<double> drawn = half.drawn(random, half.bounds());
      half.evaluate(drawn, e);
      if (e.shortfall() < least) least = e.shortfall(), start = drawn;
    }
    const Attempt near = nearest_feasible(half.model(), half.bounds(), start);
    const Attempt trial = cheapest_feasible(half.model(), half.bounds(), near.x, 1e-4);
    if (trial.shortfall <= 1e-4) best = std::min(best, trial.cost);
  }
  EXPECT_LE(best, grid + 1e-3);
}

// Truth: closed form. Behind a pressure plate of 3.2 mm a flange of 25.1 mm with 0.4 mm on either
// side takes 29.1 mm of depth; a chamber of 25 mm lacks 4.1 mm.
TEST(Shortage, OfDepthIsPlateFlangeAndClearances) {
  const Shortage s = shortage_of(chamber(112 * mm, 25 * mm, 2 * mm, 84 * mm));
  ASSERT_TRUE(s.behind);
  EXPECT_NEAR(*s.behind / mm, 4.1, 0.01);
  ASSERT_TRUE(s.width);
  EXPECT_GT(*s.width, 20 * mm);
}

// Law: what a printed body asks for can only take room away.
TEST(Layout, CostsNoLessInAPrintedBody) {
  for (const Length frame : {56 * mm, 84 * mm}) {
    const auto bare = layouts_for(chamber(120 * mm, 34 * mm, 2 * mm, frame));
    const auto printed = layouts_for(printed_chamber(120 * mm, 34 * mm, 2 * mm, frame));
    ASSERT_FALSE(bare.empty() || printed.empty());
    // Tolerance: 5 % of the cost, which centring may give up.
    EXPECT_GE(1.05 * printed.front().cost, bare.front().cost);
  }
}

// Law: the film's sweep holds the film at every state, and no more than a few hundredths beside
// it: each point of its middle line lies within one of the outlines.
TEST(FilmSweep, HoldsTheFilmAtEveryState) {
  const LayoutProblem p = chamber(118 * mm, 31.5 * mm, 2 * mm, 84 * mm);
  const Layout layout = layouts_for(p, 1).front();
  const std::vector<SectionOutline> sweep = film_sweep(p, layout);
  const auto inside = [](const SectionOutline& o, SectionPoint at) {
    bool in = false;
    for (std::size_t i = 0, j = o.size() - 1; i < o.size(); j = i++) {
      if ((o[i].z > at.z) == (o[j].z > at.z)) continue;
      if (at.x < o[i].x + (at.z - o[i].z) / (o[j].z - o[i].z) * (o[j].x - o[i].x)) in = !in;
    }
    return in;
  };
  for (const double wound : {0.0, 0.13, 0.37, 0.61, 0.99}) {
    const StripPath path = film_of(p, layout, wound);
    std::vector<SectionPoint> points;
    for (const Strand& s : path.strands) {
      for (const double t : {0.01, 0.3, 0.7, 0.99}) points.push_back(s.from + t * (s.to - s.from));
    }
    for (const Wrap& w : path.wraps) {
      for (const double t : {0.02, 0.5, 0.98}) points.push_back(w.at(t));
    }
    for (const SectionPoint at : points) {
      EXPECT_TRUE(std::ranges::any_of(sweep, [&](const auto& o) { return inside(o, at); }))
          << wound << ": " << at.x / mm << ", " << at.z / mm;
    }
  }
}

// Law: with what is missing added, there is a layout.
TEST(Shortage, MadeGoodGivesALayout) {
  const LayoutProblem p = chamber(100 * mm, 33 * mm, 2 * mm, 84 * mm);
  ASSERT_TRUE(layouts_for(p).empty());
  const Shortage s = shortage_of(p);
  ASSERT_TRUE(s.width);
  const LayoutProblem wider = chamber(100 * mm + *s.width + 0.2 * mm, 33 * mm, 2 * mm, 84 * mm);
  const std::vector<Layout> layouts = layouts_for(wider);
  ASSERT_FALSE(layouts.empty());
  expect_free(wider, layouts.front());
}

TEST(Effort, RisesOverTheRoll) {
  const LayoutProblem p = chamber(118 * mm, 31.5 * mm, 2 * mm, 84 * mm);
  const Layout layout = layouts_for(p).front();
  Torque last;
  for (const double wound : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const Effort effort = effort_of(p, layout, wound);
    EXPECT_GT(effort.torque, last);
    EXPECT_TRUE(std::ranges::is_sorted(effort.tensions));
    last = effort.torque;
  }
  EXPECT_EQ(last, layout.effort);
}

// Law: torque is monotone in each friction, on the same layout.
TEST(Effort, RisesWithFriction) {
  LayoutProblem p = chamber(118 * mm, 31.5 * mm, 2 * mm, 84 * mm);
  const Layout layout = layouts_for(p).front();
  Torque last;
  for (const double friction : {0.1, 0.2, 0.3}) {
    p.rules.bearing_friction = friction;
    p.rules.post_friction = 1.5 * friction;
    EXPECT_GT(effort_of(p, layout, 1).torque, last);
    last = effort_of(p, layout, 1).torque;
  }
}

TEST(CutAway, NamesTheRemovableThingInTheWay) {
  LayoutProblem p = chamber(118 * mm, 31.5 * mm, 2 * mm, 84 * mm);
  const Layout layout = layouts_for(p).front();
  const SectionPoint at = layout.take_up;
  p.room.keep_outs = {
      {box("old roller", at - SectionPoint{3 * mm, 3 * mm}, at + SectionPoint{3 * mm, 3 * mm}),
       true},
      {box("hinge", {58 * mm, 30 * mm}, {59 * mm, 31 * mm}), true}};
  EXPECT_EQ(cut_away(p, layout), std::vector<std::string>{"old roller"});
}

}  // namespace
}  // namespace backfit
