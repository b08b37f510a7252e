// SPDX-License-Identifier: MIT
// What light reaches a point of the film through everything between lens and film.
// Axes of the donor camera: z along the light, 0 at the original film plane; all openings and the
// pupil are centred on the axis and square to it. Derivations: docs/derivations/shadow.md.
#pragma once
#include <optional>
#include <span>

#include "quantity/quantity.hpp"

namespace backfit {

// The exit pupil: the bright disc that the film sees.
struct ExitPupil {
  Length radius;
  Length z;
};

// A rectangular opening in a screen that lets no other light by.
struct RectangularOpening {
  Length width, height;
  Length z;
};

struct FilmPoint {
  Length x, y, z;
};

// Width and height, centred on the axis.
struct FrameSize {
  Length width, height;
  Length diagonal() const { return hypot(width, height); }
};

// Radius of the exit pupil of a lens set to infinity: pupil_distance / (2 N), where
// pupil_distance is from exit pupil to film and N the f-number, from the image-side cone
// sin U' = 1 / 2N taken as tan (within 0.2 % at f/8 and slower). Requires N > 0.
Length exit_pupil_radius(Length pupil_distance, FNumber aperture);

// Area of the part of a disc of `radius` about the origin with x0 <= x <= x1 and y0 <= y <= y1.
// Closed form. Zero when the rectangle is empty. Requires radius > 0.
Area disc_area_in(Length radius, Length x0, Length x1, Length y0, Length y1);

// Share of the exit pupil's area that `point` sees through all `openings`, 0 to 1. Exact:
// each opening is projected from the point onto the pupil's plane. Requires pupil.z < every
// opening's z < point.z.
double pupil_share_seen(const FilmPoint& point, const ExitPupil& pupil,
                        std::span<const RectangularOpening> openings);

// Light lost at `point` against the point on the axis with nothing in the way, in stops: share
// of the pupil seen times cos^4 of the angle at which the pupil's centre is seen. Empty when no
// light arrives. A lens's own vignetting is not in it.
std::optional<Stops> light_lost(const FilmPoint& point, const ExitPupil& pupil,
                                std::span<const RectangularOpening> openings);

// How much of the pupil a point at the edge of a lit frame still sees.
enum class Edge {
  whole,  // all of it: no shadow inside this frame
  half,   // half of it: where the picture's edge is seen to lie
  none    // just nothing: no light outside this frame
};

// The frame on a film at `film_z` whose edges see `edge` of the pupil through one opening:
// half-width (a - e d / D) / (1 - d / D), with a the opening's half-width, d from opening to film,
// D from pupil to film, e the pupil's radius, 0 or minus the radius.
// Requires pupil.z < opening.z <= film_z. A side can be zero or less when `whole` is nowhere met.
FrameSize lit_frame(const ExitPupil& pupil, const RectangularOpening& opening, Length film_z,
                    Edge edge);

// Set-back of the film, the lens following it, at which `opening` just stops shadowing `frame`:
// D (h - a) / (h - r) - g for the worse of the two sides, with h the frame's half-width, a the
// opening's, r the pupil's radius, D from pupil to film, g from opening to the original film
// plane. Zero when there is no shadow at the original plane. Empty when no set-back up to the
// pupil's distance does it. `pupil` is that of the lens before it moves; film at z = 0.
std::optional<Length> clearing_set_back(const ExitPupil& pupil, const RectangularOpening& opening,
                                        const FrameSize& frame);

// Diameter of the image circle at infinity from the full angle that the lens covers:
// 2 f tan(angle / 2). Requires 0 < angle < 180 degrees.
Length image_circle(Length focal, Angle full_angle);

// True when the finished picture is a mirror image of the subject: the number of mirrors between
// lens and film, one if it is looked at on the face by which the light came in, and the number of
// face-to-face transfers to another sheet add up to an odd number.
bool laterally_reversed(int mirrors, bool viewed_on_lit_face, int transfers);

}  // namespace backfit
