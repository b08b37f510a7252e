// SPDX-License-Identifier: MIT
#include "optics/infinity_stop.hpp"

#include <algorithm>
#include <cassert>

#include "optics/focus.hpp"

namespace backfit {
namespace {

struct Search {
  Length needed;
  std::vector<Length> stock;  // thickest first
  ShimStack best;

  // Tries every stack that goes on from `stack` with shims of stock[from] or thinner.
  void extend(std::vector<Length>& stack, Length thickness, std::size_t from, int more) {
    // What rounding leaves is no reason for another shim.
    const Length gained = abs(best.left) - abs(needed - thickness);
    if (gained > 1e-9 * mm || (gained > -1e-9 * mm && stack.size() < best.shims.size())) {
      best = {stack, thickness, needed - thickness};
    }
    if (more == 0 || thickness >= needed) return;
    for (std::size_t i = from; i < stock.size(); ++i) {
      stack.push_back(stock[i]);
      extend(stack, thickness + stock[i], i, more - 1);
      stack.pop_back();
    }
  }
};

}  // namespace

std::optional<Length> stop_error(Length focal, Length subject, Length travel) {
  const std::optional<Length> extension = extension_for(focal, subject);
  if (!extension) return {};
  return travel - *extension;
}

ShimStack shim_stack(Length needed, std::span<const Length> stock, int most) {
  assert(needed >= 0 * mm && most >= 0);
  assert(std::ranges::all_of(stock, [](Length t) { return t > 0 * mm; }));
  Search search{needed, {stock.begin(), stock.end()}, {{}, 0 * mm, needed}};
  std::ranges::sort(search.stock, std::ranges::greater{});
  std::vector<Length> stack;
  search.extend(stack, 0 * mm, 0, most);
  return search.best;
}

}  // namespace backfit
