// SPDX-License-Identifier: MIT
#include "survey/mounting_plan.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, BackStands>> choices_of<BackStands>() {
  static constexpr std::pair<std::string_view, BackStands> list[] = {
      {"upright", BackStands::upright}, {"inverted", BackStands::inverted}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, TrapKind>> choices_of<TrapKind>() {
  static constexpr std::pair<std::string_view, TrapKind> list[] = {{"a tongue", TrapKind::tongue},
                                                                   {"a groove", TrapKind::groove}};
  return list;
}

void describe(Fields& f, MountingScrew& s) {
  f.value("x", s.x,
          {"right of the middle of the back's outline, the back upright, seen from behind",
           "40.0 mm ± 0.1", Tool::caliper, Sign::any});
  f.value("y", s.y, {"above that middle", "50.0 mm ± 0.1", Tool::caliper, Sign::any});
}

void describe(Fields& f, MountingTrap& t) {
  f.value("back_has", t.back_has,
          {"what the back's own face has; the adapter gets what goes with it"});
  f.value("inner_width", t.inner_width,
          {"width inside its inner edge", "66.0 mm ± 0.1", Tool::caliper});
  f.value("inner_height", t.inner_height,
          {"height inside its inner edge", "82.0 mm ± 0.1", Tool::caliper});
  f.value("inner_corner_radius", t.inner_corner_radius,
          {"radius of the inner edge at the corners; left out: square", "2.0 mm ± 0.3",
           Tool::caliper, Sign::not_negative});
  f.value("width", t.width, {"width of tongue or groove", "2.4 mm ± 0.1", Tool::caliper});
  f.value("depth", t.depth,
          {"depth of the groove, or how far the tongue stands out", "2.0 mm ± 0.1", Tool::caliper});
}

void describe(Fields& f, MountingPlan& m) {
  f.value("stands", m.stands, {"how the back shall stand on the camera"});
  f.value("picture_leaves", m.picture_leaves,
          {"side that the picture comes out of, the back upright, seen from behind"});
  f.value("width", m.width,
          {"width of the whole back where it is widest", "98.0 mm ± 0.2", Tool::caliper});
  f.value("height", m.height, {"height of the whole back", "118.0 mm ± 0.2", Tool::caliper});
  f.value("picture_x", m.picture_x,
          {"middle of the picture right of the middle of that outline, the back upright, seen from "
           "behind",
           "0.0 mm ± 0.2", Tool::caliper, Sign::any});
  f.value("picture_y", m.picture_y,
          {"middle of the picture above that middle", "4.0 mm ± 0.2", Tool::caliper, Sign::any});
  f.value("opening_width", m.opening_width,
          {"clear width of the opening in its face, around the picture", "54.0 mm ± 0.1",
           Tool::caliper});
  f.value("opening_height", m.opening_height,
          {"clear height of that opening", "70.0 mm ± 0.1", Tool::caliper});
  f.value("screw_diameter", m.screw_diameter,
          {"thread of the screws that hold the back", "2.0 mm ± 0.05", Tool::caliper});
  f.record("trap", m.trap, {"The ring around that opening that keeps light out"});
  f.records("screws", m.screws, {"A screw hole in the back's face, from the middle of its outline"},
            true);
}

}  // namespace backfit
