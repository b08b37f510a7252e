// SPDX-License-Identifier: MIT
// What the findings of all studies have in common: their weight by the odds, and their words.
#pragma once
#include "conversion/report.hpp"

namespace backfit {

// A note for a limit met for sure enough, `when_missed` for one missed for sure enough, else a
// warning.
Weight weight_of(double odds, Weight when_missed);

// "gate width makes 57 % of the doubt": the measurement to repeat first; empty if none matters.
std::string limit_of(const std::vector<Contribution>& budget);

// "from 10.8 m on at f/12.5, from 6.19 m on at f/22": what a lens that sits fast shows sharp, at
// its widest stop and at its smallest.
std::string sharp_distances(const DepthOfFieldStudy& study);

// Findings on spools, rails and the sheet's size.
void find_loading(const Report& report, std::vector<Finding>& out);

// Findings on a printed holder, on a ground glass's frame, and on a holder in the pack's place.
void find_holder(const Report& report, std::vector<Finding>& out);
void find_glass_frame(const Report& report, std::vector<Finding>& out);
void find_pack_holder(const Report& report, std::vector<Finding>& out);
// Findings on what the plan asks for beside what carries the film: gauges, mask, spacer, rings,
// covers.
void find_extras(const Report& report, std::vector<Finding>& out);
// Findings on the adapter of an instant back.
void find_adapter(const Report& report, std::vector<Finding>& out);
// Those on the straps of a back plate.
void find_straps(const Report& report, std::vector<Finding>& out);

// Findings on film plane, depth of focus, scale, rangefinder and infinity stop.
void find_focus(const Report& report, std::vector<Finding>& out);

}  // namespace backfit
