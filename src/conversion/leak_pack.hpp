// SPDX-License-Identifier: MIT
// A holder in the pack's place as a study of leaking light sees it: the ways past its face to the
// picture, and those past its lid to the sheet's back.
#pragma once
#include <optional>
#include <vector>

#include "conversion/assembly.hpp"
#include "conversion/spacer_stack.hpp"

namespace backfit {

struct LeakPack {
  // Between the holder's face and its place, and between lid and tray; left out: as far as a
  // printed face may be off.
  std::optional<Length> face_gap = {}, lid_gap = {};
  std::optional<Length> slide_gap = {};  // in the dark slide's mouth; left out: felt shuts it
  bool felt_beside = false;              // in the gap between holder and camera, all round
  std::optional<Slab> felt = {};  // as it was measured; left out: what it passes isn't counted
  std::optional<bool> tape = {};  // along the lid's edges; left out: where it has a slide
  bool matt_all_over = false;     // outside as well
  Length thicker = {};            // the printed walls, than they are designed
  bool foil = false;              // over all of the holder that daylight meets
  LeakSpacer spacer = {};         // where there is one
};

// The slide is drawn, as for a picture. The camera's own back is taken as open: daylight all round
// the holder in its place. What reaches the sheet's back counts as if it met the emulsion.
// Requires a holder in the pack's place; gaps above 0.
SeamScene seam_scene(const Assembly& assembly, const LeakPack& pack, std::size_t columns,
                     std::size_t rows);

// What could be done about it, each by a scene of its own.
std::vector<SeamRemedy> seam_remedies(const Assembly& assembly, const LeakPack& pack,
                                      std::size_t columns, std::size_t rows);

}  // namespace backfit
