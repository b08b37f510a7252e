// SPDX-License-Identifier: MIT
// A lens file joined with the glass catalogue and proved against what its source states.
#pragma once
#include <filesystem>
#include <optional>

#include "catalogue/catalogue.hpp"
#include "files/diagnostic.hpp"
#include "optics/prescription.hpp"
#include "survey/lens_file.hpp"

namespace backfit {

struct LensDesign {
  LensFile file;
  Prescription prescription;
  // Radius of the entrance pupil wide open: as stated, else by the stop's clear radius; empty when
  // the file tells neither, and of an attachment.
  std::optional<Length> entrance_radius;
};

// Reads the lens file at `path`, named at `asked_at`. Adds an error for each mistake and returns
// empty then: no or several stops, unknown glass, index under 1, surfaces that cross within their
// clear radii, a clear radius beyond the sphere, and a focal length or back focal distance that is
// not the stated one (within its ±, or 1 % where none is written).
std::optional<LensDesign> read_lens(const std::filesystem::path& path, const Catalogue& catalogue,
                                    Diagnostics& diagnostics, const Place& asked_at = {});

}  // namespace backfit
