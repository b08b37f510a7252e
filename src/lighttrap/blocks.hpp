// SPDX-License-Identifier: MIT
// Histories in blocks of a fixed size, so that whoever walks them, their sums are joined in one
// order. For the walks of this room.
#pragma once
#include <algorithm>
#include <vector>

#include "lighttrap/leak.hpp"
#include "lighttrap/share_out.hpp"
#include "quantity/random.hpp"

namespace backfit {

// One sum for each block of each patch, the patch's blocks together: add(patch, random, sum) for
// each history with its own random numbers.
template <class Sum, class Add>
std::vector<Sum> each_block(const LeakWalks::Order& order, const Add& add) {
  constexpr std::size_t block = 1024;
  const std::size_t blocks = (order.histories + block - 1) / block;
  std::vector<Sum> sums(order.patches.size() * blocks);
  share_out(sums.size(), order.threads, [&](std::size_t task) {
    const std::size_t patch = order.patches[task / blocks], first = task % blocks * block;
    for (std::size_t i = first; i < std::min(order.histories, first + block); ++i) {
      if (i % 64 == 0 && !order.may_go_on()) return;
      Random random((order.seed * 0x9e3779b97f4a7c15 + patch) * 0xd1342543de82ef95 + order.first +
                    i);
      add(patch, random, sums[task]);
    }
  });
  return sums;
}

}  // namespace backfit
