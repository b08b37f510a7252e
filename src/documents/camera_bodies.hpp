// SPDX-License-Identifier: MIT
// The camera around a part, as solids: no more of it than the survey measured.
#pragma once
#include <string>
#include <vector>

#include "conversion/report.hpp"
#include "parts/piece.hpp"

namespace backfit {

// What stands around a part while it's used.
enum class Around {
  none,        // it is used beside the camera
  gate,        // the old gate's opening
  seat,        // the seat with its groove, and what stands beside it
  back_plate,  // the new back plate on the seat, and what stands beside it
  chamber,     // gate, walls, the closed back and the parts that stay in the chamber
  pack,        // the walls of the pack's place, its slit cut out, and the closed back
  lens_board   // what carries the lens board, and the board itself on the stack
};

// The bodies of `room`, in the camera's axes. Walls whose thickness nobody measured stand as
// shells 1 mm thick outside the faces that were. Empty where the survey has none of it. Throws
// SolidFailure.
std::vector<Surrounding> bodies_of(const Report& report, Around room);

// Where the survey or the plan speaks of the body of that name.
Place place_of(const Report& report, const std::string& name);

inline constexpr const char* closed_back = "closed back";  // the body that a door must not meet

}  // namespace backfit
