// SPDX-License-Identifier: MIT
#include "lighttrap/seam_walks.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>
#include <utility>

#include "lighttrap/seam_hollow.hpp"
#include "lighttrap/share_out.hpp"
#include "lighttrap/sky_fields.hpp"

namespace backfit {

using namespace ray;

SeamWalks::SeamWalks(const Surfaces& hollow, const FilmPlane& film, std::vector<SeamLight> lights,
                     std::vector<SeamMouth> mouths, std::vector<LitWall> walls,
                     std::vector<FilmPiece> pieces) {
  assert(!fault_of(hollow, film) && mouths.size() + walls.size() > 0);
  hollow_ = std::make_unique<const Hollow>(hollow, film, std::move(lights), std::move(mouths),
                                           std::move(walls), std::move(pieces));
}
SeamWalks::~SeamWalks() = default;
SeamWalks::SeamWalks(SeamWalks&&) noexcept = default;

const std::vector<SeamLight>& SeamWalks::lights() const { return hollow_->lights; }
const std::vector<SeamMouth>& SeamWalks::mouths() const { return hollow_->mouths; }
const std::vector<LitWall>& SeamWalks::walls() const { return hollow_->walls; }

void SeamWalks::Light::add(const Light& other) {
  for (std::size_t i = 0; i < patches.size(); ++i) {
    patches[i].all.add(other.patches[i].all);
    patches[i].sky.add(other.patches[i].sky);
    patches[i].sun.add(other.patches[i].sun);
  }
  for (std::size_t i = 0; i < of_ways.size(); ++i) {
    of_ways[i] += other.of_ways[i];
    if (other.most[i] <= most[i]) continue;
    most[i] = other.most[i];
    brightest[i] = other.brightest[i];
  }
}

SeamWalks::Light SeamWalks::walked(const Daylight& daylight, const Order& order) const {
  assert(order.threads >= 1 && daylight.sky + daylight.sun > Illuminance{});
  const Hollow& h = *hollow_;
  const Hollow::Sources sources = h.sources(daylight, order.shares);
  constexpr std::size_t block = 4096;
  const std::size_t ways = h.ways();
  const Light dark{std::vector<PatchLight>(h.patches()), std::vector<double>(ways),
                   std::vector<double>(ways), std::vector<std::size_t>(ways)};
  std::vector<Light> blocks((order.histories + block - 1) / block, dark);
  share_out(blocks.size(), order.threads, [&](std::size_t task) {
    Light& b = blocks[task];
    const std::size_t start = task * block, end = std::min(order.histories, start + block);
    std::vector<std::size_t> lit(h.patches());
    Hollow::History found;
    for (std::size_t i = start; i < end; ++i) {
      if (i % 256 == 0 && !order.may_go_on()) return;
      const std::size_t number = order.first + i;
      h.history(sources, order.seed, number, found);
      double on_all = 0;
      for (const auto& [to, sky, sun] : found.ends) {
        PatchLight& patch = b.patches[to];
        patch.all.add(sky + sun);
        patch.sky.add(sky);
        patch.sun.add(sun);
        ++lit[to];
        on_all += (sky + sun) * h.in_patches(to);
      }
      b.of_ways[found.way] += on_all;
      if (on_all > b.most[found.way]) {
        b.most[found.way] = on_all;
        b.brightest[found.way] = number;
      }
    }
    for (std::size_t p = 0; p < lit.size(); ++p) {
      for (Tally* t : {&b.patches[p].all, &b.patches[p].sky, &b.patches[p].sun}) {
        t->add_dark(end - start - lit[p]);
      }
    }
  });
  Light all = dark;
  for (const Light& b : blocks) all.add(b);
  return all;
}

SpacePoint SeamWalks::worst_sun(const Order& order) const {
  const Hollow& h = *hollow_;
  const Daylight sky{1 * lux, {}, {}};
  const Hollow::Sources sources = h.sources(sky, {}, true);
  // How much of what each way sends comes to the film.
  std::vector<double> arrived(h.ways());
  Hollow::History found;
  for (std::size_t i = 0; i < order.histories; ++i) {
    if (i % 256 == 0 && !order.may_go_on()) break;
    h.history(sources, order.seed, order.first + i, found);
    for (const auto& end : found.ends) arrived[found.way] += end.sky * h.in_patches(end.patch);
  }
  std::vector<Vec> candidates;
  for (std::size_t i = 0; i < sun_fields.count(); ++i) {
    candidates.push_back(sun_fields.towards(i, 0.5, 0.5));
  }
  std::vector<double> angles;
  for (const SeamLight& light : h.lights) angles.push_back(light.worst_angle());
  for (const SeamMouth& m : h.mouths) {
    const MouthFrame f = outer_frame(m, h.lights[m.light].profile());
    const double angle = angles[m.light];
    candidates.push_back(-1 * (std::cos(angle) * f.in + std::sin(angle) * f.left));
  }
  for (const LitWall& wall : h.walls) candidates.push_back(unit(vec_mm(wall.outwards)));
  double most = -1;
  Vec worst = candidates.front();
  for (const Vec candidate : candidates) {
    double light = 0;
    for (std::size_t k = 0; k < h.mouths.size(); ++k) {
      if (!(arrived[k] > 0)) continue;
      const SeamLight& seam = h.lights[h.mouths[k].light];
      const SeamDirection d = outer_frame(h.mouths[k], seam.profile()).seen(-1 * candidate);
      if (!(d.in > 0)) continue;
      light += arrived[k] * seam.sun(d) * d.in / seam.sky().through;
    }
    for (std::size_t k = 0; k < h.walls.size(); ++k) {
      const double cosine = dot(candidate, unit(vec_mm(h.walls[k].outwards)));
      light += arrived[h.mouths.size() + k] * std::max(0.0, cosine);
    }
    if (light > most) {
      most = light;
      worst = candidate;
    }
  }
  return {worst.x * mm, worst.y * mm, worst.z * mm};
}

std::vector<double> SeamWalks::shares(const Daylight& daylight, const Order& order) const {
  const Hollow& h = *hollow_;
  const Hollow::Sources sources = h.sources(daylight, {}, true);
  // Light on the picture, and on each piece, by ways.
  std::vector<std::vector<double>> on(1 + h.pieces.size(), std::vector<double>(h.ways()));
  Hollow::History found;
  for (std::size_t i = 0; i < order.histories; ++i) {
    if (i % 256 == 0 && !order.may_go_on()) break;
    h.history(sources, order.seed, order.first + i, found);
    for (const auto& end : found.ends) {
      const std::size_t place = end.patch < h.of_picture() ? 0 : end.patch - h.of_picture() + 1;
      on[place][found.way] += end.sky + end.sun;
    }
  }
  std::vector<double> shares(h.ways());
  for (const std::vector<double>& light : on) {
    const double all = std::accumulate(light.begin(), light.end(), 0.0);
    for (std::size_t k = 0; k < light.size() && all > 0; ++k) {
      shares[k] = std::max(shares[k], light[k] / all);
    }
  }
  return shares;
}

std::vector<SpacePoint> SeamWalks::way(const Daylight& daylight, const Order& order,
                                       std::size_t history) const {
  const Hollow& h = *hollow_;
  std::vector<Vec> inside;
  Hollow::History end;
  h.history(h.sources(daylight, order.shares), order.seed, history, end, &inside);
  if (end.ends.empty()) return {};
  std::vector<SpacePoint> points;
  const auto add = [&](Vec v) { points.push_back({v.x * mm, v.y * mm, v.z * mm}); };
  if (end.way >= h.mouths.size()) {
    for (const Vec& v : inside) add(v);
    return points;
  }
  // From the inner mouth back out, corner by corner along the middle.
  const SeamMouth& m = h.mouths[end.way];
  const GapProfile& profile = h.lights[m.light].profile();
  MouthFrame f = inner_frame(m);
  std::vector<Vec> out;
  const Vec middle = vec_mm(m.corner) + 0.5 * vec_mm(m.across);
  Vec at = inside.front() - dot(inside.front() - middle, f.left) * f.left;
  for (std::size_t arm = profile.arms.size(); arm-- > 0;) {
    const double before = arm == 0 ? 0 : profile.width(arm - 1) / mm / 2;
    const double corner = arm + 1 == profile.arms.size() ? 0 : profile.width(arm + 1) / mm / 2;
    at = at - (profile.arms[arm] / mm + before + corner) * f.in;
    out.push_back(at);
    if (arm == 0) break;
    const MouthFrame now = f;
    const bool left = profile.turns[arm - 1] == Turn::left;
    f.in = left ? -1 * now.left : now.left;
    f.left = left ? now.in : -1 * now.in;
  }
  for (std::size_t i = out.size(); i-- > 0;) add(out[i]);
  for (const Vec& v : inside) add(v);
  return points;
}

}  // namespace backfit
