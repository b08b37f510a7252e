// SPDX-License-Identifier: MIT
// A back on the seat as a study of leaking light sees it: the seams between camera, plate and
// holder, or between camera, adapter and instant back, and the hollow from the shutter to the film.
#pragma once
#include <optional>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/spacer_stack.hpp"

namespace backfit {

struct LeakBack {
  // Between flat faces that touch somewhere; left out: as far as a printed face may be off. The
  // holder's: between the plate and what it carries, be it an instant back.
  std::optional<Length> seat_gap = {}, holder_gap = {};
  // Left in the holder's slot for the dark slide between its felts; left out: shut. An instant back
  // has none.
  std::optional<Length> slide_gap = {};
  // Along its edges, pressed on the plate; round the opening of an instant back that has neither
  // tongue nor groove.
  bool felt_round_holder = true;
  std::optional<Slab> felt = {};  // as it was measured; left out: what it passes is not counted
  bool felt_in_groove = false;    // lines the seat's groove
  bool matt_all_over = false;     // all of the plate, not only the tongue and what it encloses
  Length deeper = {};             // the seat's groove and its tongue, than the survey has them
  bool lip = false;               // round the plate, over the seat's edge, 3 mm deep
  Length thicker = {};            // the printed plate, than it is designed
  bool foil = false;              // over all of the plate that daylight meets
  LeakSpacer spacer = {};         // where there is one
};

// Gaps are those of the printer's clearance and of LeakBack. Screws fill their holes; front and
// shutter are shut. A holder is a box with its rib, its own seams shut but for the dark slide's
// slot; an instant back is bought and light-tight in itself, round its picture a box. Round corners
// count as square, and each seam as long as it is outside.
// Requires a back on the seat with its plate, or an instant back with its adapter; gaps above 0.
SeamScene seam_scene(const Assembly& assembly, const LeakBack& back, std::size_t columns,
                     std::size_t rows);

// What could be done about it, each by a scene of its own.
std::vector<SeamRemedy> seam_remedies(const Assembly& assembly, const LeakBack& back,
                                      std::size_t columns, std::size_t rows);

}  // namespace backfit
