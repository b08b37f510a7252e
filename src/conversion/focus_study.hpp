// SPDX-License-Identifier: MIT
// What the studies of focus say: is infinity sharp, how deep is a subject sharp, what becomes of
// the rangefinder, how the infinity stop is put right.
#pragma once
#include <optional>
#include <vector>

#include "conversion/assembly.hpp"
#include "optics/depth_of_field.hpp"
#include "optics/infinity_stop.hpp"

namespace backfit {

// Register: how far the film moves, whether the lens can follow it. A lens that sits fast follows
// well enough where its depth of focus at the plan's stop makes up for what is missing.
struct RegisterStudy {
  Estimate<Length> set_back;             // emulsion behind the original film plane
  Estimate<Length> spare_room;           // room behind the infinity stop minus set-back
  double odds_infinity = 0;              // that infinity can be reached
  Length give;                           // of a lens that sits fast, by its depth of focus; else 0
  Length standard_moves;                 // set-back, or all the room there is
  std::optional<Length> farthest_focus;  // from the lens; empty when infinity is reached
  Length nearest_focus;  // from the lens, at full travel forward; infinite if that is infinity
  struct Mark {
    Length engraved;
    // Where the standard then stands, forward of its new stop, as well as the focal length tells
    // it; empty where it can't go.
    std::optional<Estimate<Length>> from_new_stop;
    std::optional<Length> uncorrected;  // what the mark focuses if nothing but the back changes
  };
  std::vector<Mark> marks;
};

// Depth of focus against all errors of the film's plane.
struct FocusStudy {
  FNumber aperture;
  Length depth_of_focus;         // one-sided
  Estimate<Length> plane_error;  // of the film's middle, behind the sharp image at infinity
  double odds_sharp = 0;         // that infinity is sharp all over, with the stop as calculated
  // The widest stop of the lens, from `aperture` on, at which it is so for sure enough; else empty.
  std::optional<FNumber> holds_at;
  // With a film that bulges towards the lens: the stop set forward by half of it.
  struct SharedBulge {
    Length forward;
    double odds_sharp = 0;
  };
  std::optional<SharedBulge> shared_bulge;
  // The film's middle behind the image that looks sharp on the ground glass, and the depth that
  // would make it 0, a bulge shared, with the matt side to the lens.
  struct GlassCheck {
    Estimate<Length> error;
    double odds_sharp = 0;
    Length by_turning;  // of the error; 0 with the matt side to the lens
    Length right_depth;
  };
  std::optional<GlassCheck> glass;
};

// Between which distances a subject is sharp, for each mark and each stop.
struct DepthOfFieldStudy {
  Length circle;
  std::vector<FNumber> apertures;
  std::vector<Length> hyperfocal;  // one for each stop
  struct Row {
    Length subject;
    std::vector<SharpRange> ranges;  // one for each stop
  };
  std::vector<Row> rows;
};

// A coupled rangefinder once film and lens have moved.
struct FinderStudy {
  Length late;  // how much less its drive has travelled than the lens stands from infinity
  Length pose;  // shift of cam or arm, forward on the standard, that makes up for it
  struct Check {
    Length subject;
    std::optional<Length> reads;    // with the lens sharp at `subject`; empty: past infinity
    std::optional<Length> focuses;  // with the finder set on it; empty: past infinity
  };
  std::vector<Check> checks;  // of the finder as it is
  // How well it can be set, when its base is known: what one misalignment of a far subject makes at
  // the film, and base times magnification that the depth of focus asks for and that it has.
  struct Base {
    Length film_error, needed, there;
  };
  std::optional<Base> base;
};

// The test of the new stop.
struct StopStudy {
  Estimate<Length> error;  // lens at its stop too near the film; negative: too far forward
  ShimStack stack;         // for the error's size, to add when it is positive, else to take away
};

// Above this a limit counts as met for sure enough.
inline constexpr double sure_enough = 0.95;

// More shims in a stack don't lie flat. Common practice, no source.
inline constexpr int most_shims = 4;

RegisterStudy study_register(const Assembly& assembly);
FocusStudy study_focus(const Assembly& assembly, const RegisterStudy& register_);
// Where behind the face that a holder lies on a film must lie to be sharp at its edges where the
// ground glass shows it: its depth, and with the matt side to the eye what the glass then errs.
Length sharp_plane(const GroundGlass& glass);
// For the engraved marks; where there are none, for the usual distances within reach. Of a lens
// that sits fast, for what it is focused on.
DepthOfFieldStudy study_depth_of_field(const Assembly& assembly, const RegisterStudy& register_);
// Empty without a coupled rangefinder, or without a test.
std::optional<FinderStudy> study_finder(const Assembly& assembly, const RegisterStudy& register_,
                                        Length depth_of_focus);
std::optional<StopStudy> study_stop(const Assembly& assembly);

}  // namespace backfit
