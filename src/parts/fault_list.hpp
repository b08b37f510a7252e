// SPDX-License-Identifier: MIT
// Collects what keeps a part from being made.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "parts/part_fault.hpp"
#include "quantity/quantity.hpp"

namespace backfit {

// Faults of one part, under its own id but where another is given. Lengths that differ by less than
// 0.001 mm count as equal, and a NaN is a fault.
class FaultList {
 public:
  static constexpr Length rounding = 0.001 * mm;

  explicit FaultList(std::string id) : id_(std::move(id)) {}

  // "`what` is 0.3 mm; 1.2 mm is needed" unless `there` is at least `needed`.
  void need(std::string_view what, Length there, Length needed, std::string_view remedy);
  // Likewise, of a phrase with a verb of its own: "beside the hole the plate has 0.3 mm; ...".
  void need(std::string_view id, std::string_view phrase, Length there, Length needed,
            std::string_view remedy);
  // Unless `size` lies between what the kernel can make least and a tenth of the most, so that
  // sums of sizes can be made too.
  void need_size(std::string_view what, Length size);
  // Unless it fits: 0.001 mm more pass. "`what` is 90 mm; there is room for 80 mm".
  void need_room(std::string_view what, Length size, Length room, std::string_view remedy);

  void add(std::string_view id, std::string text, std::string_view remedy);

  bool clean() const { return list_.empty(); }
  std::vector<PartFault> take() && { return std::move(list_); }

 private:
  std::string id_;
  std::vector<PartFault> list_;
};

}  // namespace backfit
