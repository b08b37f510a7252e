// SPDX-License-Identifier: MIT
// Rolls that grow and shrink: turns of the knob for each frame, where frames and numbers lie.
// Lengths along the roll count from the end of the paper that is caught in the take-up spool.
// Derivations: docs/derivations/film-path.md.
#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "quantity/quantity.hpp"

namespace backfit {

// Paper alone, then paper and film, then paper alone. Requires lengths and thicknesses >= 0, paper
// thickness > 0 and packing >= 1.
struct RollMake {
  Length paper_thickness, film_thickness;  // film with its coatings
  double packing = 1;                      // room that a layer takes over its thickness, for air
  Length leader, film, trailer;            // paper before the film, film, paper behind it
  Length total() const { return leader + film + trailer; }
};

// Radius of the take-up roll with the first `wound` of the roll on a core, and of the supply roll
// with all but that: pi (R^2 - core^2) = sum of length * thickness * packing (area rule; the exact
// spiral differs by 1e-5). Values of `wound` outside the roll count as its ends.
Length take_up_radius(const RollMake& make, Length core, Length wound);
Length supply_radius(const RollMake& make, Length core, Length wound);

// Turns of the take-up core that wind the first `wound` on: in each stretch (R2 - R1) / (thickness
// * packing).
double take_up_turns(const RollMake& make, Length core, Length wound);
// The length that `turns` wind on, at most the whole roll. Requires turns >= 0.
Length wound_by(const RollMake& make, Length core, double turns);

// Whole frames of `frame` with `gap` between them on `usable` film: floor((U + g) / (f + g)); at
// least 0. Requires frame > 0 and gap >= 0.
int frames_on(Length usable, Length frame, Length gap);

// Frames along the film: frame n's middle lies first + (n - 1) * pitch behind the film's start.
struct FrameRow {
  int count = 0;
  Length frame;  // length of one
  Length first, pitch;
  Length middle(int n) const { return first + (n - 1) * pitch; }
  Length gap() const { return pitch - frame; }
  Length before_first() const { return first - frame / 2; }
  Length behind_last(Length film) const { return film - middle(count) - frame / 2; }
};

// `count` frames spread with `gap` between them in the middle of the film, as much film left
// before the first as behind the last.
FrameRow centred_row(Length film, Length frame, Length gap, int count);

// Distance along the strip from the middle of the gate to where it meets the take-up roll of the
// given radius.
using Reach = std::function<Length(Length take_up_radius)>;

// A line of the winding table.
struct FrameWinding {
  int frame = 0;
  double turns = 0;        // of the take-up core since the roll's end was caught
  double advance = 0;      // turns from the frame before; from the start for the first
  Length wound;            // on the take-up roll
  Length take_up, supply;  // radii of the rolls
};

// The table: each frame's middle in the middle of the gate. `start` is how much of the roll has
// passed the middle of the gate where the counting begins, perhaps with the arrow at a mark.
// Requires start > reach at the bare core.
std::vector<FrameWinding> winding_table(const RollMake& make, Length core, const FrameRow& row,
                                        const Reach& reach, Length start);

// How much of the roll has passed the middle of the gate after `turns` from `start`: the inverse.
Length passed_after(const RollMake& make, Length core, const Reach& reach, Length start,
                    double turns);

// Numbers on the backing paper, from the film's start.
struct NumberRow {
  Length first, pitch;
};

// Where a window must lie so that number n in it means frame n in the gate: its distance along the
// strip from the middle of the gate, towards the take-up positive. The frames then stand as the
// numbers do: their first middle is numbers.first + distance. `least` and `most` keep `before` of
// film before the first frame and `behind` behind the last. Empty when the row's pitch is less
// than a frame or its frames are longer than the film leaves.
struct WindowReach {
  Length least, most;
};
std::optional<WindowReach> window_reach(const NumberRow& numbers, Length film, Length frame,
                                        int count, Length before, Length behind);

}  // namespace backfit
