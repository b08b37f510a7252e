// SPDX-License-Identifier: MIT
// A back on the seat as bodies for a study of leaking light: the plate that is printed, the camera
// and the holder as far as they were measured, and the gaps between them.
#pragma once
#include <optional>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/leak_study.hpp"

namespace backfit {

struct LeakBack {
  // Between flat faces that touch somewhere; left out: as far as a printed face may be off.
  std::optional<Length> seat_gap, holder_gap;
  // Left in the holder's slot for the dark slide between its felts; left out: shut.
  std::optional<Length> slide_gap;
  bool felt_round_holder = true;  // along its edges, pressed on the plate: shuts that seam
  bool felt_in_groove = false;    // lines the groove
  bool matt_all_over = false;     // all of the plate, not only the tongue and what it encloses
  Length deeper;                  // groove and tongue, than the survey has them
  bool lip = false;               // round the plate, over the seat's edge, 3 mm deep
};

// Why a conversion can't be studied so; empty when it can: a back on the seat whose plate has all
// its numbers.
std::optional<std::string> leak_refusal(const Assembly& assembly);

// The bodies, shrunk or parted by the printer's clearance and the gaps. Screws fill their holes;
// front and shutter are shut; the holder is a box with its rib, its own seams shut but for the
// dark slide's slot. Requires no leak_refusal(assembly); gaps above 0.
// Throws SolidFailure.
LeakScene leak_scene(const Assembly& assembly, const LeakBack& back, std::size_t columns,
                     std::size_t rows);

// What could be done about it, each by a scene of its own.
std::vector<LeakRemedy> leak_remedies(const Assembly& assembly, const LeakBack& back,
                                      std::size_t columns, std::size_t rows);

}  // namespace backfit
