// SPDX-License-Identifier: MIT
#include "transport/winding.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

namespace backfit {
namespace {

constexpr double pi = std::numbers::pi;

// A stretch of even thickness, `layer` with its air.
struct Stretch {
  Length end, layer;
};

std::array<Stretch, 3> stretches(const RollMake& m) {
  const Length paper = m.packing * m.paper_thickness;
  const Length both = m.packing * (m.paper_thickness + m.film_thickness);
  return {{{m.leader, paper}, {m.leader + m.film, both}, {m.total(), paper}}};
}

// Section of the first `wound` of the roll.
Area section(const RollMake& m, Length wound) {
  Area sum;
  Length from;
  for (const auto& [end, layer] : stretches(m)) {
    sum += std::max(Length{}, std::min(wound, end) - from) * layer;
    from = end;
  }
  return sum;
}

Length radius_of(Length core, Area wound) { return sqrt(core * core + wound / pi); }

}  // namespace

Length take_up_radius(const RollMake& make, Length core, Length wound) {
  return radius_of(core, section(make, wound));
}

Length supply_radius(const RollMake& make, Length core, Length wound) {
  return radius_of(core, section(make, make.total()) - section(make, wound));
}

double take_up_turns(const RollMake& make, Length core, Length wound) {
  double turns = 0;
  Length radius = core;
  for (const auto& [end, layer] : stretches(make)) {
    const Length grown = take_up_radius(make, core, std::min(wound, end));
    turns += (grown - radius) / layer;
    radius = grown;
  }
  return turns;
}

Length wound_by(const RollMake& make, Length core, double turns) {
  assert(turns >= 0);
  Length radius = core;
  Length wound;
  for (const auto& [end, layer] : stretches(make)) {
    const Length full = take_up_radius(make, core, end);
    const double takes = (full - radius) / layer;
    if (turns < takes) {
      const Length grown = radius + turns * layer;
      return wound + pi * (grown * grown - radius * radius) / layer;
    }
    turns -= takes;
    radius = full;
    wound = end;
  }
  return wound;
}

int frames_on(Length usable, Length frame, Length gap) {
  assert(frame > Length{} && gap >= Length{});
  return std::max(0, static_cast<int>(std::floor((usable + gap) / (frame + gap))));
}

FrameRow centred_row(Length film, Length frame, Length gap, int count) {
  const Length pitch = frame + gap;
  return {count, frame, (film - (count - 1) * pitch) / 2, pitch};
}

namespace {

// The length wound on when `passed` of the roll has passed the middle of the gate: less by the
// reach, which shortens a little as the roll grows.
Length wound_when(const RollMake& make, Length core, const Reach& reach, Length passed) {
  Length wound = passed - reach(core);
  for (int i = 0; i < 8; ++i) wound = passed - reach(take_up_radius(make, core, wound));
  return wound;
}

}  // namespace

std::vector<FrameWinding> winding_table(const RollMake& make, Length core, const FrameRow& row,
                                        const Reach& reach, Length start) {
  assert(start > reach(core));
  std::vector<FrameWinding> table;
  const double begun = take_up_turns(make, core, wound_when(make, core, reach, start));
  double before = begun;
  for (int n = 1; n <= row.count; ++n) {
    const Length wound = wound_when(make, core, reach, make.leader + row.middle(n));
    const double turns = take_up_turns(make, core, wound);
    table.push_back({n, turns - begun, turns - before, wound, take_up_radius(make, core, wound),
                     supply_radius(make, core, wound)});
    before = turns;
  }
  return table;
}

Length passed_after(const RollMake& make, Length core, const Reach& reach, Length start,
                    double turns) {
  const double begun = take_up_turns(make, core, wound_when(make, core, reach, start));
  const Length wound = wound_by(make, core, begun + turns);
  return wound + reach(take_up_radius(make, core, wound));
}

std::optional<WindowReach> window_reach(const NumberRow& numbers, Length film, Length frame,
                                        int count, Length before, Length behind) {
  const Length last = numbers.first + (count - 1) * numbers.pitch;
  const WindowReach reach{before + frame / 2 - numbers.first, film - behind - frame / 2 - last};
  if (numbers.pitch < frame || reach.least > reach.most) return {};
  return reach;
}

}  // namespace backfit
