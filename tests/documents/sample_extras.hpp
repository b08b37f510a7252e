// SPDX-License-Identifier: MIT
// A conversion that asks for all that is small; its figures are invented.
#pragma once
#include "conversion/assembly.hpp"

namespace backfit {

inline Stated<Measured<Length>> measured(double value_mm) {
  return {{value_mm * mm, 0.1 * mm}, {}};
}

// Requires a camera with a seat.
inline void ask_for_extras(Assembly& a) {
  Plan& plan = a.plan;
  plan.focus_gauge = FocusGaugePlan{};
  plan.focus_gauge->lies_on = {GaugeRest::seat, {}};
  plan.focus_gauge->glass_thickness = measured(1.5);
  plan.depth_gauge = DepthGaugePlan{};
  plan.gate_mask = GateMaskPlan{{}, {56 * mm, {}}, {83 * mm, {}}, {}};
  plan.lens_spacer = LensSpacerPlan{};
  plan.lens_spacer->forward = measured(1.2);
  LensBoard board;
  board.diameter = measured(52);
  board.opening = measured(34);
  board.before_film = measured(112);
  a.camera.lens_board = board;
  a.camera.lens.filter_thread = measured(40.5);
  AttachmentRingPlan ring;
  ring.name = {"close-up lens", {}};
  ring.attachment_diameter = measured(46);
  plan.attachment_rings = {ring};
  plan.window_cover =
      WindowCoverPlan{{}, measured(12), measured(1), measured(20), measured(38), measured(0.8)};
  plan.blank_cover = BlankCoverPlan{};
}

}  // namespace backfit
