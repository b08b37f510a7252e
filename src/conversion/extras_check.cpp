// SPDX-License-Identifier: MIT
#include "conversion/extras_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "conversion/methods.hpp"

namespace backfit {
namespace {

class Check {
 public:
  Check(const Camera& camera, const Plan& plan, Diagnostics& diagnostics)
      : camera_(camera), plan_(plan), diagnostics_(diagnostics) {}

  void all() {
    if (plan_.focus_gauge) check_focus_gauge(*plan_.focus_gauge);
    if (plan_.depth_gauge) check_depth_gauge(*plan_.depth_gauge);
    if (plan_.gate_mask) check_gate_mask(*plan_.gate_mask);
    if (plan_.lens_spacer) {
      needs_printer(plan_.lens_spacer->place, "lens_spacer");
      if (!camera_.lens_board) lacks(plan_.lens_spacer->place, "lens spacer", "lens_board");
    }
    for (std::size_t i = 0; i < plan_.attachment_rings.size(); ++i) check_ring(i);
    if (plan_.window_cover) needs_printer(plan_.window_cover->place, "window_cover");
    if (plan_.blank_cover) {
      needs_printer(plan_.blank_cover->place, "blank_cover");
      if (!camera_.seat) lacks(plan_.blank_cover->place, "blank cover", "seat");
    }
  }

 private:
  void needs_printer(const Place& place, std::string_view table) {
    if (plan_.printer) return;
    diagnostics_.error(place, fmt::format("'{}' asks for the table 'printer'", table),
                       "add [printer]");
  }

  // The survey has no such table.
  void lacks(const Place& place, std::string_view part, std::string_view table) {
    diagnostics_.error(place, fmt::format("a {} needs the survey's [{}]", part, table),
                       fmt::format("measure it and add [{}] to the camera file", table));
  }

  void check_focus_gauge(const FocusGaugePlan& g) {
    needs_printer(g.place, "focus_gauge");
    if (g.glass_thickness.has_value() == g.tape_thickness.has_value()) {
      diagnostics_.error(g.place,
                         g.glass_thickness
                             ? "a focus gauge has a ground glass or frosted tape, not both"
                             : "a focus gauge needs the thickness of its ground glass or its tape",
                         g.glass_thickness ? "take glass_thickness or tape_thickness out"
                                           : "write glass_thickness = \"1.5 mm ± 0.05\"");
    }
    const GaugeRest rest = *g.lies_on;
    if (rest == GaugeRest::rails && *plan_.method != Method::insert) {
      diagnostics_.error(
          g.lies_on.place,
          fmt::format("the method '{}' has no rails; an insert has", name_of(*plan_.method)),
          fmt::format("write lies_on = \"{}\"", camera_.seat ? "the seat" : "the old gate"));
    }
    if (rest == GaugeRest::seat && !camera_.seat) {
      diagnostics_.error(g.lies_on.place, "a gauge on the seat needs the survey's [seat]",
                         "measure it and add [seat] to the camera file");
    }
    if (rest != GaugeRest::rails && g.tape_thickness) {
      diagnostics_.error(g.tape_thickness->place,
                         "tape hangs free of a seat or gate, and a print's layers don't reach its "
                         "plane: there a ground glass is packed to it",
                         "write glass_thickness in its place");
    }
  }

  void check_depth_gauge(const DepthGaugePlan& g) {
    needs_printer(g.place, "depth_gauge");
    if (!camera_.seat) {
      lacks(g.place, "depth gauge", "seat");
    } else if (*g.lies_on == BridgeRest::holder && *plan_.method != Method::back_on_seat) {
      diagnostics_.error(g.lies_on.place,
                         fmt::format("the method '{}' has no holder that a bridge could lie on",
                                     name_of(*plan_.method)),
                         "write lies_on = \"the seat\"");
    }
  }

  void check_gate_mask(const GateMaskPlan& m) {
    needs_printer(m.place, "gate_mask");
    const bool printed_insert = *plan_.method == Method::insert && plan_.insert &&
                                plan_.insert->film_goes && camera_.chamber && plan_.printer;
    if (printed_insert) {
      diagnostics_.error(m.place,
                         "the printed insert stands in the old gate itself and frames the picture",
                         "take gate_mask out");
    }
  }

  void check_ring(std::size_t index) {
    const std::vector<AttachmentRingPlan>& rings = plan_.attachment_rings;
    const AttachmentRingPlan& ring = rings[index];
    needs_printer(ring.place, "attachment_rings");
    // Its files bear the name.
    const auto fit_for_files = [](unsigned char c) {
      return c >= 0x80 || std::isalnum(c) != 0 || c == ' ' || c == '-';
    };
    if (!std::ranges::all_of(*ring.name, fit_for_files)) {
      diagnostics_.error(ring.name.place,
                         "the name goes into names of files: letters, digits, spaces and hyphens");
    }
    for (std::size_t i = 0; i < index; ++i) {
      if (*rings[i].name != *ring.name) continue;
      diagnostics_.error(ring.name.place,
                         fmt::format("there is a ring for the {} already", *ring.name));
    }
    if (ring.rim_diameter || camera_.lens.filter_thread) return;
    diagnostics_.error(ring.place, "a ring needs the diameter of the lens's rim",
                       "write rim_diameter here, or filter_thread under [lens] in the camera file");
  }

  const Camera& camera_;
  const Plan& plan_;
  Diagnostics& diagnostics_;
};

}  // namespace

void check_lens_board(const Camera& camera, Diagnostics& diagnostics) {
  if (!camera.lens_board) return;
  const LensBoard& b = *camera.lens_board;
  const bool rectangle = b.width && b.height && !b.diameter;
  const bool round = b.diameter && !b.width && !b.height && !b.corner_radius;
  if (!rectangle && !round) {
    diagnostics.error(b.place,
                      "a lens board has width and height, with a corner_radius or without, or a "
                      "diameter");
  }
  if (!b.screws.empty() && !b.screw_diameter) {
    diagnostics.error(b.place, "the lens board's screws need their diameter",
                      "write screw_diameter = \"2.0 mm ± 0.05\"");
  }
}

void check_extras(const Camera& camera, const Plan& plan, Diagnostics& diagnostics) {
  Check(camera, plan, diagnostics).all();
}

}  // namespace backfit
