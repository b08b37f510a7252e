// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "parts/timer_box.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// How far apart two words stand, the larger of along and across; negative where they overlap.
Length apart(const DialWord& a, const DialWord& b) {
  return std::max(std::max(a.left, b.left) - std::min(a.right, b.right),
                  std::max(a.low, b.low) - std::min(a.high, b.high));
}

}  // namespace

DialWord word_of(const Dial& d, std::size_t mark) {
  const Length x = d.letters_at * sin(d.angle(mark)), y = d.letters_at * cos(d.angle(mark));
  const Length half = d.lettering.width(d.marks[mark].size()) / 2;
  return {x - half, x + half, y - d.lettering.height / 2, y + d.lettering.height / 2};
}

std::vector<std::string> faults(const TimerBox& b, Length smallest_wall, Length nozzle) {
  std::vector<std::string> list;
  const auto too_small = [&](std::string_view what, Length is, Length needed) {
    if (is >= needed - 1e-6 * mm) return;
    list.push_back(fmt::format("{} of {} is under {}", what, text(is), text(needed)));
  };
  too_small("a wall", b.wall, smallest_wall);
  too_small("a panel", b.panel, smallest_wall + b.dial.engraving);
  too_small("a stroke of the dial", b.dial.lettering.stroke, nozzle);
  too_small("the letters' height", b.dial.lettering.height, 6 * b.dial.lettering.stroke);
  too_small("a post", b.post, b.pilot + 2 * smallest_wall);
  too_small("the depth", b.depth, b.lip + b.lead);
  too_small("the corners' radius outside", b.corner_radius, b.wall + smallest_detail);
  if (b.corner_radius > 1.7 * b.wall) {
    list.push_back(fmt::format("corners of {} leave the posts outside; {} is the most",
                               text(b.corner_radius), text(1.7 * b.wall)));
  }
  too_small("the radius of the dial's ticks", b.dial.ticks_from, b.bush / 2 + smallest_wall);
  const Length free = smallest_wall;
  for (std::size_t i = 0; i < b.dial.marks.size(); ++i) {
    const DialWord word = word_of(b.dial, i);
    const Length reach_x = std::max(-word.left, word.right);
    const Length reach_y = std::max(-word.low, word.high);
    if (reach_x > b.width / 2 - free || reach_y > b.height / 2 - free) {
      list.push_back(fmt::format("the dial's '{}' runs over the panel's edge", b.dial.marks[i]));
    }
    for (const double x : {-1.0, 1.0}) {
      for (const double y : {-1.0, 1.0}) {
        const Length half = b.through / 2;
        const DialWord hole{x * b.screw_x() - half, x * b.screw_x() + half, y * b.screw_y() - half,
                            y * b.screw_y() + half};
        if (apart(word, hole) < nozzle) {
          list.push_back(fmt::format("the dial's '{}' runs into a screw", b.dial.marks[i]));
        }
      }
    }
    for (std::size_t j = i + 1; j < b.dial.marks.size(); ++j) {
      if (apart(word, word_of(b.dial, j)) >= nozzle) continue;
      list.push_back(
          fmt::format("the dial's '{}' and '{}' touch", b.dial.marks[i], b.dial.marks[j]));
    }
  }
  return list;
}

}  // namespace backfit
