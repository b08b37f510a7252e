// SPDX-License-Identifier: MIT
// The numbers of the rings that carry lens attachments.
#pragma once
#include <vector>

#include "conversion/report.hpp"
#include "parts/attachment_ring.hpp"

namespace backfit {

// One for each ring that the plan asks for, in its order. Requires a plan that check_extras() finds
// no fault with.
std::vector<AttachmentRing> attachment_rings(const Report& report);

}  // namespace backfit
