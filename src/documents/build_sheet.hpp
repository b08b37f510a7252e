// SPDX-License-Identifier: MIT
// The paper that lies on the bench: what is converted, whether it works, what to make and how.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "conversion/report.hpp"
#include "parts/piece.hpp"
#include "solid/solid.hpp"

namespace backfit {

// A PDF of A4 pages at true scale: verdict with odds and reasons, the camera in section, the
// frame on the sheet, steps with cautions, materials and cost. With `body`, the back plate, also
// the dimensioned part and a 1:1 template with check rulers. Requires it where there is a plate.
// With `sets` a chapter for each; of an insert also the film's way and a template of what must go
// from the camera.
std::string build_sheet(const Report& report, const std::optional<Solid>& body,
                        const std::filesystem::path& font_folder,
                        const std::vector<PieceSet>& sets = {});

}  // namespace backfit
