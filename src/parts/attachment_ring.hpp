// SPDX-License-Identifier: MIT
// A slotted ring that slips over the lens's rim and carries a lens attachment.
#pragma once
#include <string>
#include <vector>

#include "parts/part_fault.hpp"
#include "parts/piece.hpp"

namespace backfit {

// All numbers of the ring. Two grips, each slotted so that a clip closes it, and between them a
// ledge that both lie against. The wider grip prints on the bed; over it the bore narrows under 45
// degrees, so that nothing hangs free.
struct AttachmentRing {
  std::string name;                  // of the attachment
  Length rim, attachment;            // diameters that are gripped
  Length rim_grip, attachment_grip;  // lengths
  Length gap;                        // a side, slots open
  Length wall;                       // of the grips, and the ledge's thickness
  Length ledge;                      // how far it reaches in over the narrower bore
  Length slot;                       // width of the four slots in each grip
  Length light;                      // diameter that the lens's light needs
  Length rim_front;                  // z of the rim's front in the camera's axes
  Length smallest_wall;

  Length rim_bore() const { return rim + 2 * gap; }
  Length attachment_bore() const { return attachment + 2 * gap; }
  bool rim_is_wider() const { return rim >= attachment; }
  Length opening() const { return (rim_is_wider() ? attachment_bore() : rim_bore()) - 2 * ledge; }
};

// What keeps it from being made, with both numbers each; empty when it can be built.
std::vector<PartFault> faults(const AttachmentRing& ring);

// As it prints: the wider grip on z = 0. Requires faults() empty. The solid throws SolidFailure.
Solid solid_of(const AttachmentRing& ring);
Volume volume_of(const AttachmentRing& ring);  // by the numbers alone
PieceSet set_of(const AttachmentRing& ring);

}  // namespace backfit
