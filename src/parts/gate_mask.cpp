// SPDX-License-Identifier: MIT
#include "parts/gate_mask.hpp"

#include <fmt/format.h>

#include <cassert>

#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

}  // namespace

Solid solid_of(const GateMask& m) {
  assert(faults(m).empty());
  const Length front = m.rear - m.thickness;
  const auto centred = [](Length width, Length height, Length low, Length high) {
    return box({-width / 2, -height / 2, low}, {width / 2, height / 2, high});
  };
  return difference_of(
      centred(m.width, m.height, front, m.rear),
      {centred(m.opening_width, m.opening_height, front - overshoot, m.rear + overshoot)});
}

Volume volume_of(const GateMask& m) {
  assert(faults(m).empty());
  return (m.width * m.height - m.opening_width * m.opening_height) * m.thickness;
}

PieceSet set_of(const GateMask& m) {
  PieceSet set;
  set.name = "gate mask";
  set.purpose = fmt::format(
      "Lies in the old gate and leaves a picture of {} × {} mm on the film, its edges {} soft.",
      fixed(m.picture_width / mm, 1), fixed(m.picture_height / mm, 1), text(m.soft));
  const Solid mask = solid_of(m);
  const Solid on_bed = laid(mask, BedSide::high_z);
  using Shown = PieceSize::Shown;
  const Length x = m.opening_width / 2, y = m.opening_height / 2;
  set.pieces.push_back({"mask",
                        {mask},
                        on_bed,
                        on_bed,
                        "rear face down",
                        {{"opening, width", m.opening_width, 0.2 * mm,
                          Shown{PieceView::above, {-x, -y, {}}, {x, -y, {}}}},
                         {"opening, height", m.opening_height, 0.2 * mm,
                          Shown{PieceView::above, {x, -y, {}}, {x, y, {}}}}},
                        true});
  set.steps.push_back({"Blacken the edges",
                       "Break the opening's edges and make them matt black, and the mask's face "
                       "towards the lens: a bright edge beside the picture fogs it.",
                       {"Paint and glue: fresh air, no flame, and the safety data sheet of the one "
                        "you use."}});
  set.steps.push_back(
      {"Put it in",
       fmt::format("Into the old gate with its rear face flush with the gate's edge, {} before the "
                   "original film plane, so that nothing stands nearer the film. Black tape on the "
                   "lens's side holds it; it comes out again without a trace.",
                   text(-m.rear)),
       {"Close the shutter first, and keep tape and fingers off bellows and lens."}});
  set.cut = CutPlane{CutPlane::Axis::x, Length{}};
  return set;
}

}  // namespace backfit
