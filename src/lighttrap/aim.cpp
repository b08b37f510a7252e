// SPDX-License-Identifier: MIT
#include "lighttrap/aim.hpp"

#include <algorithm>
#include <utility>

namespace backfit::ray {

Aim::Aim(double sky, std::vector<Vec> ways, double cone, std::vector<Goal> goals,
         const std::vector<Pane>& panes)
    : light_(sky), ways_(std::move(ways)), cap_(cone / (2 * std::numbers::pi)) {
  for (const Goal& goal : goals) light_ += goal.light;
  for (const Pane& pane : panes) light_ += pane.light;
  if (!(light_ > 0)) return;
  goals_ = goals.size();
  pack(goals, 0, goals.size());
  const auto single = [](Vec v) {
    return std::array{static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
  };
  for (const Pane& pane : panes) {
    const double area = 4 * length(cross(pane.one, pane.two));
    windows_.push_back({single(pane.middle), single(pane.one), single(pane.two),
                        static_cast<float>(pane.light / light_ / area)});
  }
  const auto count = static_cast<double>(ways_.size());
  if (!ways_.empty()) strength_ = sky / light_ / count / cone;
  // How many times the fair part each has; one with less is filled up from one with more.
  std::vector<double> times(ways_.size(), ways_.empty() ? 0 : sky / light_ / count);
  for (const Goal& goal : goals) times.push_back(goal.light / light_);
  for (const Pane& pane : panes) times.push_back(pane.light / light_);
  choices_.resize(times.size());
  std::vector<std::uint32_t> poor, rich;
  for (std::uint32_t i = 0; i < times.size(); ++i) {
    times[i] *= static_cast<double>(times.size());
    (times[i] < 1 ? poor : rich).push_back(i);
  }
  while (!poor.empty() && !rich.empty()) {
    const std::uint32_t one = poor.back(), other = rich.back();
    poor.pop_back();
    choices_[one] = {static_cast<float>(times[one]), other};
    times[other] -= 1 - times[one];
    if (times[other] >= 1) continue;
    rich.pop_back();
    poor.push_back(other);
  }
}

// Halved across where they lie widest apart, until eight are left.
void Aim::pack(std::vector<Goal>& goals, std::size_t first, std::size_t end) {
  if (first == end) return;
  const auto begin = goals.begin();
  const auto at = [&](std::size_t i) { return begin + static_cast<std::ptrdiff_t>(i); };
  Vec low = goals[first].middle, high = low;
  for (std::size_t i = first; i < end; ++i) {
    const Vec m = goals[i].middle;
    low = {std::min(low.x, m.x), std::min(low.y, m.y), std::min(low.z, m.z)};
    high = {std::max(high.x, m.x), std::max(high.y, m.y), std::max(high.z, m.z)};
  }
  if (end - first > pack_size) {
    const Vec wide = high - low;
    double Vec::*axis = wide.x >= wide.y && wide.x >= wide.z ? &Vec::x
                        : wide.y >= wide.z                   ? &Vec::y
                                                             : &Vec::z;
    // Whole packs in the first half, so that goal i is in pack i / 8.
    const std::size_t packs = (end - first + pack_size - 1) / pack_size;
    const std::size_t half = first + packs / 2 * pack_size;
    std::nth_element(at(first), at(half), at(end), [axis](const Goal& a, const Goal& b) {
      return a.middle.*axis < b.middle.*axis;
    });
    pack(goals, first, half);
    pack(goals, half, end);
    return;
  }
  Pack& p = packs_.emplace_back();
  const Vec centre = 0.5 * (low + high);
  double reach = 0;
  for (std::size_t i = first; i < end; ++i) {
    const auto& [middle, radius, light] = goals[i];
    const double square = radius * radius;
    p.x.at(i - first) = static_cast<float>(middle.x);
    p.y.at(i - first) = static_cast<float>(middle.y);
    p.z.at(i - first) = static_cast<float>(middle.z);
    p.square.at(i - first) = static_cast<float>(square);
    p.strength.at(i - first) = static_cast<float>(light / light_ / (std::numbers::pi * square));
    reach = std::max(reach, length(middle - centre) + radius);
  }
  // Wider by more than rounding.
  reach = 1.001 * reach + 1e-6 * length(centre);
  balls_.push_back({static_cast<float>(centre.x), static_cast<float>(centre.y),
                    static_cast<float>(centre.z), static_cast<float>(reach * reach)});
}

void Sight::look(const Aim& aim, Vec from) {
  aim_ = &aim;
  from_ = from;
  const std::size_t count = aim.balls_.size();
  balls_.resize(count);
  if (packs_.size() < count) packs_.resize(count);
  for (std::size_t k = 0; k < count; ++k) {
    const Aim::Ball& ball = aim.balls_[k];
    const Vec way{ball.x - from.x, ball.y - from.y, ball.z - from.z};
    const double beyond = dot(way, way) - ball.square;
    balls_[k] = {way.x, way.y, way.z, beyond > 0 ? std::sqrt(beyond) : -HUGE_VAL, false};
  }
  look_at_panes();
}

void Sight::look_at_panes() {
  panes_.clear();
  for (const Aim::Window& w : aim_->windows_) {
    const Vec one{w.one[0], w.one[1], w.one[2]}, two{w.two[0], w.two[1], w.two[2]};
    const Vec way = Vec{w.middle[0], w.middle[1], w.middle[2]} - from_;
    Pane p{unit(cross(one, two)), 1 / dot(one, one) * one, 1 / dot(two, two) * two};
    p.off = dot(p.normal, way);
    p.along_one = dot(p.one, way);
    p.along_two = dot(p.two, way);
    p.strength = w.strength * p.off * p.off;
    panes_.push_back(p);
  }
}

const Sight::Pack& Sight::seen(std::size_t pack) {
  Pack& p = packs_[pack];
  if (balls_[pack].seen) return p;
  balls_[pack].seen = true;
  const Aim::Pack& of = aim_->packs_[pack];
  const auto two = [](const Aim::Lanes& of_all, std::size_t i) {
    return Two{of_all[i], of_all[i + 1]};
  };
  for (std::size_t i = 0; i < Aim::pack_size; i += 2) {
    Pair& pair = p[i / 2];
    pair.x = two(of.x, i) - from_.x;
    pair.y = two(of.y, i) - from_.y;
    pair.z = two(of.z, i) - from_.z;
    const Two square = two(of.square, i);
    const Two far = pair.x * pair.x + pair.y * pair.y + pair.z * pair.z, cone = far + square;
    // The cosine to the axis at the cone's edge is 1 - r^2 / 2 (d^2 + r^2).
    const Two edge = 1 - square / (2 * cone);
    pair.limit = edge * edge * far;
    pair.density = two(of.strength, i) * cone;
  }
  return p;
}

double Sight::density(Vec direction) {
  double density = 0;
  for (const Vec way : aim_->ways_) {
    if (dot(way, direction) >= 1 - aim_->cap_) density += aim_->strength_;
  }
  for (std::size_t k = 0; k < balls_.size(); ++k) {
    const Ball& ball = balls_[k];
    if (ball.x * direction.x + ball.y * direction.y + ball.z * direction.z < ball.least) continue;
    Two sum{};
    for (const Pair& pair : seen(k)) {
      const Two ahead = pair.x * direction.x + pair.y * direction.y + pair.z * direction.z;
      const auto in = (ahead > 0) & (ahead * ahead >= pair.limit);
      sum += in ? pair.density : Two{};
    }
    density += sum[0] + sum[1];
  }
  for (const Pane& p : panes_) {
    const double ahead = dot(p.normal, direction);
    if (ahead * p.off <= 0) continue;
    const double far = p.off / ahead;
    if (std::abs(far * dot(p.one, direction) - p.along_one) > 1 ||
        std::abs(far * dot(p.two, direction) - p.along_two) > 1) {
      continue;
    }
    density += p.strength / std::abs(ahead * ahead * ahead);
  }
  return density;
}

Vec Sight::direction(double choice, Random& random) const {
  const auto& choices = aim_->choices_;
  const double place = choice * static_cast<double>(choices.size());
  const std::size_t fair = std::min(static_cast<std::size_t>(place), choices.size() - 1);
  const double own = place - static_cast<double>(fair);
  const std::size_t chosen = own < choices[fair].own ? fair : choices[fair].other;
  const auto& ways = aim_->ways_;
  if (chosen < ways.size()) return within_cone(ways[chosen], aim_->cap_, random);
  const std::size_t goal = chosen - ways.size(), i = goal % Aim::pack_size;
  if (goal >= aim_->goals_) {
    const Aim::Window& w = aim_->windows_[goal - aim_->goals_];
    const double x = 2 * random.unit() - 1, y = 2 * random.unit() - 1;
    const auto at = [&](std::size_t k) { return w.middle[k] + x * w.one[k] + y * w.two[k]; };
    return unit(Vec{at(0), at(1), at(2)} - from_);
  }
  const Aim::Pack& p = aim_->packs_[goal / Aim::pack_size];
  const Vec way = Vec{p.x[i], p.y[i], p.z[i]} - from_;
  const double square = dot(way, way);
  return within_cone(1 / std::sqrt(square) * way, p.square[i] / (2 * (square + p.square[i])),
                     random);
}

}  // namespace backfit::ray
