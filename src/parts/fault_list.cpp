// SPDX-License-Identifier: MIT
#include "parts/fault_list.hpp"

#include <fmt/format.h>

#include "quantity/notation.hpp"
#include "solid/solid.hpp"

namespace backfit {
namespace {

constexpr Length rounding = 0.001 * mm;

}  // namespace

void FaultList::need(std::string_view what, Length there, Length needed, std::string_view remedy) {
  if (there >= needed - rounding) return;
  list_.push_back({id_, fmt::format("{} is {}; {} is needed", what, text(there), text(needed)),
                   std::string(remedy)});
}

void FaultList::need_size(std::string_view what, Length size) {
  if (size >= smallest_detail && size <= largest_size) return;
  list_.push_back({id_,
                   fmt::format("{} is {}; it has to lie between {} and {}", what, text(size),
                               text(smallest_detail), text(largest_size)),
                   "measure again"});
}

void FaultList::need_room(std::string_view what, Length size, Length room,
                          std::string_view remedy) {
  if (size <= room + rounding) return;
  list_.push_back({id_, fmt::format("{} is {}; there is room for {}", what, text(size), text(room)),
                   std::string(remedy)});
}

}  // namespace backfit
