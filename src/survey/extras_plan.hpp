// SPDX-License-Identifier: MIT
// The small things that a conversion may need beside what carries the film: gauges, a mask, a
// spacer, rings, covers. Each table of a conversion file asks for one.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "files/fields.hpp"

namespace backfit {

enum class GaugeRest { rails, seat, gate };

// A ground glass, or frosted tape, in a frame that lies where the film will lie.
struct FocusGaugePlan {
  Place place;
  Stated<GaugeRest> lies_on;
  std::optional<Stated<Measured<Length>>> glass_thickness, tape_thickness;  // one of both
  std::optional<Stated<Length>> width, height;  // outside; left out: as its rest asks
};

enum class BridgeRest { seat, holder };

// A bridge for the caliper's depth rod.
struct DepthGaugePlan {
  Place place;
  Stated<BridgeRest> lies_on;
  std::optional<Stated<Measured<Length>>> rod;  // across the rod; left out: 4.5 mm
};

// A plate in the old gate that leaves a smaller picture.
struct GateMaskPlan {
  Place place;
  Stated<Length> width, height;             // of the picture on the film
  std::optional<Stated<Length>> thickness;  // of sheet; left out: the thinnest printed wall
};

// A spacer under the lens board, and shims.
struct LensSpacerPlan {
  Place place;
  std::optional<Stated<Measured<Length>>> forward;  // left out: as the film moves
  std::optional<Stated<std::string>> shim_sheet;    // what shims are cut from; left out: brass
  std::optional<Stated<Length>> shim_error;         // of one's thickness; left out: 0.02 mm
};

// A ring that slips over the lens's rim and holds a lens attachment.
struct AttachmentRingPlan {
  Place place;
  Stated<std::string> name;                                 // of the attachment
  Stated<Measured<Length>> attachment_diameter;             // outside, where the ring holds it
  std::optional<Stated<Measured<Length>>> rim_diameter;     // left out: lens.filter_thread
  std::optional<Stated<Length>> rim_grip, attachment_grip;  // lengths; left out: 8 mm
};

// A slider over a red window.
struct WindowCoverPlan {
  Place place;
  Stated<Measured<Length>> window_diameter;
  Stated<Measured<Length>> x, y;         // its middle from the axis, seen from behind
  Stated<Measured<Length>> behind_film;  // the face that the cover is glued to
  Stated<Measured<Length>> felt;         // thickness, pressed together
};

// A cover that closes the seat.
struct BlankCoverPlan {
  Place place;
  std::optional<Stated<Length>> thickness;  // left out: 3 mm or the thinnest that can be printed
};

void describe(Fields& fields, FocusGaugePlan& gauge);
void describe(Fields& fields, DepthGaugePlan& gauge);
void describe(Fields& fields, GateMaskPlan& mask);
void describe(Fields& fields, LensSpacerPlan& spacer);
void describe(Fields& fields, AttachmentRingPlan& ring);
void describe(Fields& fields, WindowCoverPlan& cover);
void describe(Fields& fields, BlankCoverPlan& cover);

template <>
std::span<const std::pair<std::string_view, GaugeRest>> choices_of<GaugeRest>();
template <>
std::span<const std::pair<std::string_view, BridgeRest>> choices_of<BridgeRest>();

}  // namespace backfit
