// SPDX-License-Identifier: MIT
// The straps that press a holder on the back plate: the plate's lugs, their length and their force.
#pragma once
#include <optional>
#include <vector>

#include "conversion/report.hpp"

namespace backfit {

// How deep a strap's band lies in a lug's neck: its thickness, at the most, and the clearance.
Length strap_recess(const StrapsPlan& plan, Length clearance);

// The lugs for the straps of `plan`, on a plate whose holder's edges are guided by screws `third`
// from the middle: halfway between them and the middle. Upright the holder lies between the left
// and right edges, lengthways between the upper and lower ones.
StrapLugs strap_lugs(const StrapsPlan& plan, bool upright, Length third, Length clearance,
                     Length smallest_wall);

// One strap, a ring round two necks and over the holder's back between them.
struct StrapWay {
  Length strand;        // from neck to neck: up to the holder's edge, across it and down again
  Length ring;          // round the whole, drawn
  Length least, most;   // round the ring as it's bought: drawn 2 times and 1.4 times as long
  double press_factor;  // how hard a strap presses, over the pull of one strand
};

// `aside` from the neck's middle to the holder's edge, `up` from the strap in its recess to the
// holder's back. The ring has two strands of the same pull P, friction at the edges left out; at
// each of four places a strand presses with P up / hypot(aside, up), by the parallelogram of
// forces. How far rubber is drawn: common practice. Requires all above 0.
StrapWay strap_way(Length holder_width, Length neck_width, Length aside, Length up);

// That of the plan; empty without straps, plate or the thickness of the holder. Requires a plate
// that can be made.
std::optional<StrapWay> strap_way(const Assembly& assembly);

// The neighbours of the seat that a lug runs into, the worst of all ± in it.
std::vector<const Neighbour*> in_the_way_of_lugs(const Assembly& assembly);

}  // namespace backfit
