// SPDX-License-Identifier: MIT
#include "conversion/mask_design.hpp"

#include <cmath>

#include "conversion/plate_design.hpp"
#include "optics/light.hpp"

namespace backfit {

std::optional<GateMask> gate_mask(const Report& r) {
  const Assembly& a = r.assembly;
  if (!a.plan.gate_mask) return {};
  const GateMaskPlan& plan = *a.plan.gate_mask;
  const Printer& printer = *a.plan.printer;
  const Gate& gate = a.camera.gate;
  const Length gap = printer.clearance->value;
  GateMask m;
  m.smallest_wall = smallest_wall(printer);
  m.width = gate.width->value - gate.width->half_width - 2 * gap;
  m.height = gate.height->value - gate.height->half_width - 2 * gap;
  m.thickness = plan.thickness ? **plan.thickness
                               : std::ceil(m.smallest_wall / *printer.layer_height - 1e-9) *
                                     *printer.layer_height;
  const RectangularOpening opening = *a.mask_opening();
  m.opening_width = opening.width;
  m.opening_height = opening.height;
  m.rear = opening.z;
  m.picture_width = *plan.width;
  m.picture_height = *plan.height;
  // From all of the pupil seen to none of it.
  const ExitPupil pupil = a.pupil(*a.plan.focus.aperture, r.register_.standard_moves);
  const Length film = r.register_.set_back.value;
  m.soft = (lit_frame(pupil, opening, film, Edge::none).width -
            lit_frame(pupil, opening, film, Edge::whole).width) /
           2;
  return m;
}

}  // namespace backfit
