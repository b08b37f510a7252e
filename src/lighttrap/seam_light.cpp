// SPDX-License-Identifier: MIT
#include "lighttrap/seam_light.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <utility>

#include "lighttrap/gloss.hpp"
#include "lighttrap/labyrinth.hpp"
#include "lighttrap/seam_solved.hpp"

namespace backfit {

using namespace gap;

namespace {

std::vector<double> reflectances_of(const Section& section, const Pieces& pieces,
                                    const SeamWalls& walls) {
  std::vector<double> of_pieces;
  for (std::size_t i = 0; i < pieces.count; ++i) {
    const WallPiece& wall = section.walls()[pieces.wall[i]];
    of_pieces.push_back(walls.of(wall.arm, wall.right).reflectance);
  }
  return of_pieces;
}

double through(const Exchange& x, const std::vector<double>& bright) {
  double sum = x.direct;
  for (std::size_t i = 0; i < x.pieces(); ++i) sum += x.exit[i] * bright[i];
  return sum / x.mouth;
}

// The mean of both, piece by piece.
Exchange mean_of(Exchange a, const Exchange& b) {
  a.direct = (a.direct + b.direct) / 2;
  for (std::size_t i = 0; i < a.pieces(); ++i) {
    a.area[i] = (a.area[i] + b.area[i]) / 2;
    a.entry[i] = (a.entry[i] + b.entry[i]) / 2;
    a.exit[i] = (a.exit[i] + b.exit[i]) / 2;
    for (std::size_t j = 0; j < a.pieces(); ++j)
      a.mutual(i, j) = (a.mutual(i, j) + b.mutual(i, j)) / 2;
  }
  return a;
}

bool any_gloss(const SeamWalls& walls) {
  const auto mirrors = [](const Wall& wall) { return wall.gloss_index > 1; };
  return std::ranges::any_of(walls.right, mirrors) || std::ranges::any_of(walls.left, mirrors);
}

}  // namespace

SeamLight::SeamLight(const GapProfile& profile, const SeamWalls& walls, Length length,
                     const std::function<bool()>& may_go_on) {
  assert(!fault_of(profile) && length > Length{});
  assert(walls.right.size() == profile.arms.size() && walls.left.size() == profile.arms.size());
  const bool glossy = any_gloss(walls);
  std::vector<double> answers;
  const auto solve = [&](const Exchange& x, std::size_t fineness) {
    auto s = std::make_unique<Solved>(profile, walls, length, fineness, Cut::coarse);
    s->balance.emplace(x, reflectances_of(s->section, s->pieces, walls));
    s->lit_by_sky = s->balance->brightness(x.entry);
    answers.push_back(through(x, s->lit_by_sky));
    return s;
  };
  std::unique_ptr<Solved> finest;
  Exchange last(0);
  if (glossy) {
    constexpr std::size_t rays = 2048;
    const auto traced = [&](std::size_t fineness, double shift) {
      return glossy_exchange(profile, walls, fineness, rays, shift, length, Cut::coarse, may_go_on);
    };
    solve(traced(1, 0), 1);
    const Exchange one = traced(2, 0), other = traced(2, 0.5);
    solve(one, 2);
    solve(other, 2);
    last = mean_of(one, other);
    finest = solve(last, 2);
    finest->sky = {answers[3], std::hypot(answers[1] - answers[2], (answers[3] - answers[0]) / 3)};
  } else {
    for (const std::size_t fineness : {1U, 2U, 4U}) {
      last = exchange_of(profile, fineness, Cut::coarse);
      finest = solve(last, fineness);
    }
    finest->sky = refined({answers[0], answers[1], answers[2]});
  }
  finest->scale = answers.back() > 0 ? finest->sky.through / answers.back() : 1;
  finest->worth = finest->balance->brightness(last.exit);
  solved_ = std::move(finest);
}

Transmission SeamLight::sky() const { return solved_->sky; }
const GapProfile& SeamLight::profile() const { return solved_->profile; }

double SeamLight::sun(const SeamDirection& towards) const {
  if (!(towards.in > 0)) return 0;
  const Solved& s = *solved_;
  double elevation = 1, sum = 0;
  const Point way = s.at_mouth(towards, elevation);
  for (std::size_t i = 0; i < sun_rays; ++i) {
    const Point at = s.section.on_mouth((static_cast<double>(i) + 0.5) / sun_rays);
    s.follow(
        {0, at, way, elevation},
        [&](std::size_t piece, double part) { sum += part * s.worth[piece] * s.scale; },
        [&](Meets mouth, double part, Point, Point) {
          if (mouth == Meets::inner_mouth) sum += part;
        });
  }
  return sum / sun_rays;
}

double SeamLight::worst_angle() const {
  double worst = 0, most = -1;
  // Finely about the straight way in, where a long arm takes most.
  for (int i = -40; i <= 40; ++i) {
    const double t = i / 40.0, angle = 1.5 * t * std::abs(t * t);
    const double light = sun({std::cos(angle), std::sin(angle), 0}) * std::cos(angle);
    if (light > most) {
      most = light;
      worst = angle;
    }
  }
  return worst;
}

}  // namespace backfit
