// SPDX-License-Identifier: MIT
#include "parts/fault_list.hpp"

#include <fmt/format.h>

#include "quantity/notation.hpp"
#include "solid/solid.hpp"

namespace backfit {

void FaultList::add(std::string_view id, std::string text, std::string_view remedy) {
  list_.push_back({std::string(id), std::move(text), std::string(remedy)});
}

void FaultList::need(std::string_view id, std::string_view phrase, Length there, Length needed,
                     std::string_view remedy) {
  if (there >= needed - rounding) return;
  add(id, fmt::format("{} {}; {} is needed", phrase, text(there), text(needed)), remedy);
}

void FaultList::need(std::string_view what, Length there, Length needed, std::string_view remedy) {
  need(id_, fmt::format("{} is", what), there, needed, remedy);
}

void FaultList::need_size(std::string_view what, Length size) {
  if (size >= smallest_detail && size <= largest_size / 10) return;
  add(id_,
      fmt::format("{} is {}; it has to lie between {} and {}", what, text(size),
                  text(smallest_detail), text(largest_size / 10, 0)),
      "check the sizes that it follows from");
}

void FaultList::need_room(std::string_view what, Length size, Length room,
                          std::string_view remedy) {
  if (size <= room + rounding) return;
  add(id_, fmt::format("{} is {}; there is room for {}", what, text(size), text(room)), remedy);
}

}  // namespace backfit
