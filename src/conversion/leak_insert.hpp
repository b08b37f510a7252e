// SPDX-License-Identifier: MIT
// An insert for roll film as a study of leaking light sees it: the ways into the room of its spools
// and into the room before the picture.
#pragma once
#include <optional>
#include <vector>

#include "conversion/insert_study.hpp"
#include "conversion/spacer_stack.hpp"

namespace backfit {

struct LeakInsert {
  // Under cheeks and end walls, and between lid and body where flat faces touch; left out: as the
  // printer's clearance leaves it, and as far as a printed face may be off.
  std::optional<Length> foot_gap = {}, lid_gap = {};
  bool felt_under_feet = true;    // cheeks and end walls
  bool felt_round_floor = false;  // in the old gate
  bool felt_in_bores = false;     // rings round pins and shaft, under their heads and the knob
  std::optional<Slab> felt = {};  // as it was measured; left out: what it passes is not counted
  bool window_open = false;       // the red window's cover
  bool matt_all_over = false;     // outside as well
  Length deeper = {};             // lip and groove, than they are designed
  Length thicker = {};            // the printed walls, likewise
  bool foil = false;              // over all of the insert that daylight meets
  LeakSpacer spacer = {};         // where there is one
};

// The camera's own back is taken as open: daylight all round the insert in its chamber. Spools and
// rolls are left out, which would only shade; the film lies in the gate, its paper and the plate
// behind it, and half wound in straight pieces to its spools, where its emulsion takes light.
// Requires study.part; gaps above 0; `study` outlives what is returned.
SeamScene seam_scene(const Assembly& assembly, const InsertStudy& study, const LeakInsert& insert,
                     std::size_t columns, std::size_t rows);

// What could be done about it, each by a scene of its own.
std::vector<SeamRemedy> seam_remedies(const Assembly& assembly, const InsertStudy& study,
                                      const LeakInsert& insert, std::size_t columns,
                                      std::size_t rows);

}  // namespace backfit
