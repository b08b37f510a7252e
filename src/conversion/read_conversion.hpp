// SPDX-License-Identifier: MIT
// The owner's two files read, looked up in the catalogue and joined.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "conversion/assembly.hpp"
#include "files/drafts.hpp"

namespace backfit {

// Why `aperture` can't be set on this camera, one sentence; empty when it can or none is given.
std::string stop_fault(const Camera& camera, std::optional<FNumber> aperture);

// Reads the camera file at `path`, or its draft. Adds an error for each mistake and returns empty
// then.
std::optional<SurveyedCamera> read_camera(const std::filesystem::path& path,
                                          const Catalogue& catalogue, Diagnostics& diagnostics,
                                          const Drafts& drafts = {});

// Reads the conversion file at `path` and the camera file it names, and joins them with the
// catalogue; of each its draft, if there is one. Adds an error for each mistake and returns empty
// then.
std::optional<Assembly> assemble(const std::filesystem::path& path, const Catalogue& catalogue,
                                 Diagnostics& diagnostics, const Drafts& drafts = {});

}  // namespace backfit
