// SPDX-License-Identifier: MIT
#include "parts/attachment_ring.hpp"

#include <algorithm>

#include "parts/fault_list.hpp"

namespace backfit {

std::vector<PartFault> faults(const AttachmentRing& r) {
  FaultList list("attachment-ring-impossible");
  list.need_size("the rim's diameter", r.rim);
  list.need_size("the attachment's diameter", r.attachment);
  list.need_size("the gap", r.gap);
  list.need_size("the ledge", r.ledge);
  list.need_size("the slots' width", r.slot);
  list.need_size("the smallest wall", r.smallest_wall);
  if (!list.clean()) return std::move(list).take();
  list.need("the grips' wall", r.wall, r.smallest_wall, "a thicker wall");
  // A slot that ends a wall before the ledge, and is as long as two walls, lets its fingers spring.
  list.need("the grip on the rim", r.rim_grip, 3 * r.wall, "a longer grip");
  list.need("the grip on the attachment", r.attachment_grip, 3 * r.wall, "a longer grip");
  list.need("the ledge", r.ledge, r.gap + smallest_detail, "a wider ledge");
  list.need("the ring's opening", r.opening(), std::max(r.light, r.slot + 2 * r.wall),
            "an attachment and a rim wide enough for the light of the lens's widest stop");
  return std::move(list).take();
}

}  // namespace backfit
