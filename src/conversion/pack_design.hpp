// SPDX-License-Identifier: MIT
// The numbers of the thin holder that lies where the old pack lay, from that place, the gate and
// the printer.
#pragma once
#include "conversion/assembly.hpp"
#include "parts/pack_holder.hpp"

namespace backfit {

// Fills in `pack_holder` and `lips` of an assembly whose method it is. Its lips are as thick as the
// old film lay behind the pack's face, so that the picture stays in the old plane, or as thick as
// they must be for slide and walls. Requires a pack in the survey and a printer in the plan.
void design_pack_holder(Assembly& assembly);

// How far the slide's middle plane lies behind the middle of the camera's slit, as designed, and
// how far it may. Requires a holder with a slide.
struct SlitMeeting {
  Length behind, most;
  Length slide_width, slit_length;
};
SlitMeeting slit_meeting(const Assembly& assembly);

// Where it lies in the camera. Requires it designed.
PackHolderPose pose_of_pack_holder(const Assembly& assembly);

}  // namespace backfit
