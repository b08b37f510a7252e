// SPDX-License-Identifier: MIT
#include "conversion/shutter_speeds.hpp"

#include <algorithm>
#include <numbers>

#include "exposure/scales.hpp"

namespace backfit {
namespace {

constexpr Stops of_a_mark{0.5 * std::numbers::inv_sqrt3};

}  // namespace

ShutterSpeeds speeds_of(const Report& report) {
  const Shutter& shutter = report.assembly.camera.shutter;
  ShutterSpeeds speeds;
  if (report.timer) {
    for (const TimerSpeed& s : report.timer->speeds) {
      if (s.lack != Lack::none) continue;
      speeds.list.push_back({s.marked, s.spread.time, s.spread.standard_uncertainty});
    }
    if (!speeds.list.empty()) speeds.by = SpeedsBy::timer;
  }
  if (speeds.list.empty()) {
    for (const MeasuredSpeed& m : shutter.measured) {
      const Measured<Time>& t = *m.effective;
      speeds.list.push_back(
          {*m.marked, t.value, {t.standard_uncertainty() / t.value / std::numbers::ln2}});
    }
    const auto recorded = speeds.list;
    for (const auto& marked : shutter.marked_speeds) {
      if (std::ranges::find(recorded, *marked, &ShutterSpeed::marked) == recorded.end())
        speeds.list.push_back({*marked, true_speed(*marked), of_a_mark});
    }
    if (!speeds.list.empty()) speeds.by = recorded.empty() ? SpeedsBy::marks : SpeedsBy::recordings;
  }
  std::ranges::sort(speeds.list, {}, &ShutterSpeed::gives);
  return speeds;
}

std::string_view name_of(SpeedsBy by) {
  switch (by) {
    case SpeedsBy::nothing:
      return "nothing";
    case SpeedsBy::marks:
      return "marks";
    case SpeedsBy::recordings:
      return "recordings";
    case SpeedsBy::timer:
      return "timer";
  }
  return {};
}

}  // namespace backfit
