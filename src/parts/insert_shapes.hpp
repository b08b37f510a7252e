// SPDX-License-Identifier: MIT
// The insert's pieces one by one, in their places, and sizes that follow from its numbers.
#pragma once
#include "parts/roll_insert.hpp"

namespace backfit {

// A body made about the z axis, z outwards, brought to the y axis: outwards to `side` times y,
// its origin at (at.x, y, at.z).
Solid laid_across(const Solid& upright, SectionPoint at, Length y, double side);
// The prism of an outline in x and z between y = low and y = high.
Solid across(const std::vector<OutlineCorner>& outline_xz, Length low, Length high);

Solid insert_body(const RollInsert& insert);
Solid insert_lid(const RollInsert& insert);
// `lid` with the insert's words; the lid itself where there are none.
Solid with_words(const RollInsert& insert, const Solid& lid);
Solid pressure_plate(const RollInsert& insert);

// About the z axis, z outwards from the end of a spool in its place.
Solid spool_pin(const RollInsert& insert);
Solid drive_shaft(const RollInsert& insert);
// Likewise, z outwards from the outside of the camera's wall.
Solid winding_knob(const RollInsert& insert);
// About the z axis, its middle at z = 0.
Solid film_roller(const RollInsert& insert, const RollInsert::Roller& roller);

// Along an axis across the film: the end of a spool, and the outside of the camera's wall.
Length spool_end(const RollInsert& insert);
Length camera_outside(const RollInsert& insert);
// Half an ear of the lid, which takes a screw's countersunk head, and how far it reaches from the
// middle: it is wider than the block of the body that the screw turns into.
Length ear_half(const RollInsert& insert);
Length ear_reach(const RollInsert& insert);
// How far a pin must be drawn to free a spool.
Length draw_of(const RollInsert& insert);

}  // namespace backfit
