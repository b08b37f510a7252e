// SPDX-License-Identifier: MIT
// The ways to get a film into a camera: which films each takes, how far it sets them back, what
// frame it leaves.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "optics/light.hpp"
#include "survey/camera.hpp"
#include "survey/plan.hpp"

namespace backfit {

// A number that a study needs and that nobody has given: what to measure, and the key for it.
struct MissingMeasurement {
  std::string key, how;
};

// "back on the seat": as in the plan file.
std::string_view name_of(Method method);

// The ways that a material of `kind` can be loaded, the usual one first.
std::span<const Method> methods_for(FilmKind kind);

// What stands before any study of `film` loaded by `method`.
struct Prospect {
  std::string impossible;                   // why it can't be, a sentence; empty when it may
  std::vector<MissingMeasurement> unknown;  // what must be known to work anything out
};
// `printed`: a back on the seat gets a holder that is printed for the sheet.
Prospect prospect_of(Method method, const Film& film, const Camera& camera, bool printed = false);

// One length of the sum that is the set-back.
struct SetBackPart {
  std::string name;
  Measured<Length> size;
  double way = 1;     // 1: carries the film away from the lens; -1: towards it
  bool made = false;  // by the conversion itself: no measurement to repeat
};

// What lies before the sheet of a holder in the pack's place, and the slot that the sheet has.
struct SetBackLips {
  Measured<Length> depth;
  Length slot;
  bool made = false;  // as of SetBackPart
};

// Emulsion behind the original film plane, as the sum of way times size:
//   back on the seat   seat + printed plate + holder depth - film - its play in the holder
//   instant back       seat + register of the back; with its mounting, + printed adapter as well
//   insert             its rails, which lie in the old plane within the printer's error unless the
//                      plan says otherwise
//   holder in the pack's place   its lips + the sheet's play behind them - face it lies on, before
//                      the film plane
//   own holder         lip of the sheath + the sheet's play behind it; where plates rest on the
//                      floor, + plate - sheath as well
// A play is what a slot leaves, and as likely to lie before the film as behind it. Requires what
// prospect_of() and the method ask for; `holder` only for a back on the seat, `lips`
// for a holder in the pack's place.
std::vector<SetBackPart> set_back_parts(const Camera& camera, const Film& film, const Plan& plan,
                                        const Holder* holder, Length plate_thickness,
                                        const std::optional<SetBackLips>& lips = {});

// Which way roll film runs through the camera as it is: as surveyed, else along the longer side of
// the gate.
FilmRun film_run(const Camera& camera);

// The picture that the method leaves open, and the sheet it cuts it from, as they lie in the
// camera; a sheet too large for a sheath is cut down to it. Roll film in an insert runs as the
// plan's film_goes says, which decides over the survey.
struct LoadedFrame {
  FrameSize window;
  std::optional<FrameSize> sheet;  // empty: roll film
  bool trimmed = false;
};
LoadedFrame loaded_frame(const Camera& camera, const Film& film, const Plan& plan);

// "holder's window", "insert's window", "sheath's opening", "instant back's picture".
std::string_view window_name(Method method);
// "sheet", or "frame" of roll film: what a shadow falls on.
std::string_view shaded_name(FilmKind kind);
// What no part is made for, or why none is, a sentence; empty where one is.
std::string_view part_note(const Plan& plan);

}  // namespace backfit
