// SPDX-License-Identifier: MIT
#include "conversion/ring_design.hpp"

#include <algorithm>

#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

// The maker's choice, no source.
constexpr Length usual_grip = 8 * mm, ledge_least = 1 * mm, slot = 2 * mm, wall_least = 1.6 * mm;

}  // namespace

std::vector<AttachmentRing> attachment_rings(const Report& report) {
  const Assembly& a = report.assembly;
  std::vector<AttachmentRing> list;
  for (const AttachmentRingPlan& plan : a.plan.attachment_rings) {
    const Printer& printer = *a.plan.printer;
    const auto& rim = plan.rim_diameter ? plan.rim_diameter : a.camera.lens.filter_thread;
    AttachmentRing r;
    r.name = *plan.name;
    r.smallest_wall = smallest_wall(printer);
    r.gap = printer.clearance->value;
    r.rim = (*rim)->value + (*rim)->half_width;
    r.attachment = plan.attachment_diameter->value + plan.attachment_diameter->half_width;
    r.rim_grip = plan.rim_grip ? **plan.rim_grip : usual_grip;
    r.attachment_grip = plan.attachment_grip ? **plan.attachment_grip : usual_grip;
    r.wall = std::max(wall_least, r.smallest_wall);
    r.ledge = std::max(ledge_least, 2 * r.gap + smallest_detail);
    r.slot = slot;
    r.light = a.camera.lens.focal->value / a.camera.lens.apertures.front()->value;
    // Where the rim stands nobody measured: about where the lens's exit pupil is, for the picture.
    r.rim_front = -a.pupil_distance().value;
    list.push_back(r);
  }
  return list;
}

}  // namespace backfit
