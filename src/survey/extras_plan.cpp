// SPDX-License-Identifier: MIT
#include "survey/extras_plan.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, GaugeRest>> choices_of<GaugeRest>() {
  static constexpr std::pair<std::string_view, GaugeRest> list[] = {
      {"the rails", GaugeRest::rails},
      {"the seat", GaugeRest::seat},
      {"the old gate", GaugeRest::gate}};
  return list;
}

template <>
std::span<const std::pair<std::string_view, BridgeRest>> choices_of<BridgeRest>() {
  static constexpr std::pair<std::string_view, BridgeRest> list[] = {
      {"the seat", BridgeRest::seat}, {"the holder", BridgeRest::holder}};
  return list;
}

void describe(Fields& f, FocusGaugePlan& g) {
  f.value("lies_on", g.lies_on, {"what carries it in the camera"});
  f.value("glass_thickness", g.glass_thickness,
          {"of its ground glass; matt side to the lens", "1.5 mm ± 0.05", Tool::caliper});
  f.value("tape_thickness", g.tape_thickness,
          {"of frosted tape in place of a glass: of ten layers, a tenth", "0.06 mm ± 0.01",
           Tool::caliper});
  f.value("width", g.width,
          {"outside width of the frame; left out: as what carries it allows", "90 mm"});
  f.value("height", g.height, {"outside height of the frame; left out: likewise", "120 mm"});
}

void describe(Fields& f, DepthGaugePlan& g) {
  f.value("lies_on", g.lies_on, {"the face from which the depth counts"});
  f.value("rod", g.rod,
          {"across the caliper's depth rod; left out: 4.5 mm", "4.5 mm ± 0.1", Tool::caliper});
}

void describe(Fields& f, GateMaskPlan& m) {
  f.value("width", m.width, {"width of the picture wanted on the film", "56 mm"});
  f.value("height", m.height, {"height of the picture wanted on the film", "56 mm"});
  f.value("thickness", m.thickness,
          {"of the sheet that it is cut from; left out: the thinnest printed wall", "0.5 mm"});
}

void describe(Fields& f, LensSpacerPlan& s) {
  f.value("forward", s.forward,
          {"how far the lens shall move away from the film; left out: as the test of the infinity "
           "stop says, else as far as the film moves",
           "2.4 mm ± 0.1", Tool::caliper});
  f.value("shim_sheet", s.shim_sheet,
          {"the sheet that shims are cut from, in the thicknesses of focus.shims; left out: brass",
           "brass"});
  f.value("shim_error", s.shim_error,
          {"how far the thickness of that sheet may be off; left out: 0.02 mm, as a micrometer "
           "tells it",
           "0.02 mm"});
}

void describe(Fields& f, AttachmentRingPlan& r) {
  f.value("name", r.name, {"the attachment that it holds", "close-up lens"});
  f.value("attachment_diameter", r.attachment_diameter,
          {"outside diameter of the attachment where the ring holds it", "46.0 mm ± 0.1",
           Tool::caliper});
  f.value("rim_diameter", r.rim_diameter,
          {"outside diameter of the lens's rim; left out: the camera file's filter_thread",
           "42.0 mm ± 0.1", Tool::caliper});
  f.value("rim_grip", r.rim_grip, {"length that grips the lens's rim; left out: 8 mm", "8 mm"});
  f.value("attachment_grip", r.attachment_grip,
          {"length that grips the attachment; left out: 8 mm", "8 mm"});
}

void describe(Fields& f, WindowCoverPlan& c) {
  f.value("window_diameter", c.window_diameter,
          {"diameter of the red window", "12.0 mm ± 0.2", Tool::caliper});
  f.value("x", c.x,
          {"middle of the window right of the axis, seen from behind", "0.0 mm ± 0.5",
           Tool::caliper, Sign::any});
  f.value("y", c.y,
          {"middle of the window above the axis", "20.0 mm ± 0.5", Tool::caliper, Sign::any});
  f.value("behind_film", c.behind_film,
          {"from the original film plane back to the outside of the camera's back", "38.0 mm ± 0.5",
           Tool::caliper});
  f.value(
      "felt", c.felt,
      {"thickness of the felt under the slider, pressed together", "0.8 mm ± 0.2", Tool::caliper});
}

void describe(Fields& f, BlankCoverPlan& c) {
  f.value("thickness", c.thickness,
          {"thickness of its plate; left out: 3 mm or the thinnest printed wall", "3.0 mm"});
}

}  // namespace backfit
