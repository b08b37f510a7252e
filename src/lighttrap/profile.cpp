// SPDX-License-Identifier: MIT
#include "lighttrap/profile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "lighttrap/cells.hpp"

namespace backfit {
namespace gap {

Cells cells_of(const GapProfile& profile) {
  Cells cells;
  Point at, ahead{1, 0};
  const auto open = [&](double width) {
    const Point aside = 0.5 * width * left_of(ahead);
    cells.portals.push_back({at + aside, at - aside, ahead});
  };
  open(profile.width(0) / profile.gap);
  for (std::size_t i = 0; i < profile.arms.size(); ++i) {
    const Portal in = cells.portals.back();
    const double width = profile.width(i) / profile.gap;
    at = at + profile.arms[i] / profile.gap * ahead;
    open(width);
    const std::size_t arm = cells.portals.size() - 2;
    cells.right_walls.push_back({in.right, cells.portals.back().right, arm, i, true, width});
    cells.left_walls.push_back({in.left, cells.portals.back().left, arm, i, false, width});
    if (i == profile.turns.size()) break;
    const bool left = profile.turns[i] == Turn::left;
    const Portal before = cells.portals.back();
    const Point old = ahead;
    ahead = left ? left_of(old) : -1 * left_of(old);
    const double next = profile.width(i + 1) / profile.gap, narrower = std::min(width, next);
    at = at + 0.5 * next * old + 0.5 * width * ahead;
    open(next);
    // The corner's pivot is one point; name it alike on both sides, to the last bit.
    Portal& after = cells.portals.back();
    (left ? after.left : after.right) = left ? before.left : before.right;
    auto& outer = left ? cells.right_walls : cells.left_walls;
    const Point start = left ? before.right : before.left;
    const Point end = left ? after.right : after.left;
    const Point turned = start + next * old;
    outer.push_back({start, turned, arm + 1, i, left, narrower});
    outer.push_back({turned, end, arm + 1, i + 1, left, narrower});
  }
  return cells;
}

namespace {

struct Box {
  double left, right, bottom, top;
};

Box box_of(const Portal& a, const Portal& b) {
  const std::array<Point, 4> p{a.left, a.right, b.left, b.right};
  const auto [left, right] = std::minmax({p[0].x, p[1].x, p[2].x, p[3].x});
  const auto [bottom, top] = std::minmax({p[0].y, p[1].y, p[2].y, p[3].y});
  return {left, right, bottom, top};
}

bool overlap(const Box& a, const Box& b) {
  constexpr double touch = 1e-9;
  return std::min(a.right, b.right) - std::max(a.left, b.left) > touch &&
         std::min(a.top, b.top) - std::max(a.bottom, b.bottom) > touch;
}

}  // namespace
}  // namespace gap

std::optional<std::string> fault_of(const GapProfile& profile) {
  const std::size_t arms = profile.arms.size();
  if (!(profile.gap > Length{})) return "a gap must be wider than nothing";
  if (arms == 0) return "a gap needs at least one arm";
  if (profile.turns.size() + 1 != arms) {
    return fmt::format("{} arm{} take {} turn{} between them, found {}", arms, arms == 1 ? "" : "s",
                       arms - 1, arms == 2 ? "" : "s", profile.turns.size());
  }
  if (profile.turns.size() > most_turns) {
    return fmt::format("{} turns, {} or fewer can be worked out", profile.turns.size(), most_turns);
  }
  if (!profile.widths.empty()) {
    if (profile.widths.size() != arms) {
      return fmt::format("{} arms have {} widths", arms, profile.widths.size());
    }
    const Length least = std::ranges::min(profile.widths), most = std::ranges::max(profile.widths);
    if (!(least > Length{})) return "every arm must be wider than nothing";
    if (most > 1000 * least) return "one arm is over 1000 times as wide as another";
    if (profile.widths.front() != profile.gap) return "the first arm is not as wide as the gap";
  }
  for (std::size_t i = 0; i < arms; ++i) {
    const double gaps = profile.arms[i] / profile.width(i);
    if (!(gaps >= 0)) return fmt::format("arm {} has no length", i + 1);
    if (gaps == 0 && (i == 0 || i + 1 == arms)) {
      return fmt::format("arm {} ends at a mouth and must be longer than nothing", i + 1);
    }
    if (gaps > 1000) {
      return fmt::format("arm {} is {:g} gaps long, up to 1000 can be worked out", i + 1, gaps);
    }
  }
  const gap::Cells cells = gap::cells_of(profile);
  std::vector<gap::Box> boxes;
  for (std::size_t i = 0; i < cells.count(); ++i) {
    boxes.push_back(gap::box_of(cells.portals[i], cells.portals[i + 1]));
    for (std::size_t j = 0; j + 1 < i; ++j) {
      if (gap::overlap(boxes[i], boxes[j])) {
        return fmt::format("the gap runs into itself: arm {} meets arm {}", (i + 1) / 2 + 1,
                           j / 2 + 1);
      }
    }
  }
  return std::nullopt;
}

}  // namespace backfit
