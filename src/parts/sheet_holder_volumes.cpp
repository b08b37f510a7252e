// SPDX-License-Identifier: MIT
// A sheet holder's volumes, by its numbers alone.
#include <cassert>
#include <cmath>
#include <numbers>

#include "parts/sheet_holder.hpp"

namespace backfit {
namespace {

Area circle(Length diameter) { return std::numbers::pi / 4 * (diameter * diameter); }

double screw_count(const SheetHolder& h) {
  return static_cast<double>(h.screws.left.size() + h.screws.right.size());
}

// Of a layer with picture and bay cut out.
Area open_slab(const SheetHolder& h) {
  return h.width * (h.top + h.bottom) - h.picture_width * (h.picture_height - h.gap) -
         h.bay() * (h.flap_length() + h.gap);
}

}  // namespace

Volume frame_volume(const SheetHolder& h) {
  assert(faults(h).empty());
  const Length end = h.seam() + h.gap;
  const Area grooves = h.groove() * (h.slide.stops - end) + h.mouth() * (h.top - h.slide.stops) -
                       h.picture_width * (h.picture_height - h.gap);
  const Length hole = h.screw_hole(), head = h.screw_head(), cone = (head - hole) / 2;
  const Volume screw = circle(hole) * (h.frame() - cone) +
                       std::numbers::pi / 12 * (head * head + head * hole + hole * hole) * cone;
  return open_slab(h) * h.frame() - grooves * h.slide_slot -
         static_cast<double>(h.felt.at.size()) * (h.felt_length() * h.felt.width) * h.felt.pocket -
         h.width * h.rib_groove() * h.rib.sunk -
         2 * (h.flap.pin_in_arm * h.pin_notch()) * h.pin_notch() - screw_count(h) * screw;
}

Volume rails_volume(const SheetHolder& h) {
  assert(faults(h).empty());
  const Length sheet = h.sheet_width + 2 * h.sheet_play;
  const Area slot = sheet * (h.sheet_height / 2 + h.sheet_play - h.seam() - h.gap) -
                    h.picture_width * (h.picture_height - h.gap);
  return (open_slab(h) - 2 * screw_count(h) * circle(h.screw_pilot())) * h.rails() -
         slot * h.film_slot;
}

Volume septum_volume(const SheetHolder& h) {
  assert(faults(h).empty());
  return (h.width * (h.top + h.bottom) - h.bay() * (h.flap_length() + h.gap) -
          2 * screw_count(h) * circle(h.screw_pilot())) *
         h.septum;
}

Volume flap_volume(const SheetHolder& h) {
  assert(faults(h).empty());
  const Length r = h.pin_radius();
  const Area section =
      h.flap_length() * (h.thickness() - 2 * h.flap.relief) - (1 - std::numbers::pi / 4) * (r * r);
  // The rounded edge takes a sliver off the mouth of the rear slide's groove.
  const Length into = h.pin_from_face() - h.front;
  Area sliver{};
  if (into > Length{}) {
    const double angle = std::asin(into / r);
    sliver = into * r - 0.5 * (into * r * std::cos(angle) + angle * (r * r));
  }
  const Length sheet = h.sheet_width + 2 * h.sheet_play;
  return section * h.flap_width() - (2 * h.slide_groove() * h.slide_slot - sliver) * h.groove() -
         sheet * h.sheet_groove() * (h.core() - 2 * h.rail + 2 * h.gap) -
         2 * circle(h.pin_notch()) * h.flap.pin_in_flap;
}

Volume slide_volume(const SheetHolder& h) {
  return (h.slide.end_width * h.slide.end_length +
          h.slide.width * (h.slide_length() - h.slide.end_length)) *
         h.slide.thickness;
}

Volume grip_volume(const SheetHolder& h) {
  return h.slide.width *
         (h.grip.depth * h.grip_thickness() - h.grip.slot * (h.slide.thickness + h.gap));
}

Volume rib_volume(const SheetHolder& h) {
  return h.width * h.rib.width * (h.rib.height + h.rib.sunk);
}

}  // namespace backfit
