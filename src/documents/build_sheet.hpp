// SPDX-License-Identifier: MIT
// The paper that lies on the bench: what is converted, whether it works, what to make and how.
#pragma once
#include <filesystem>
#include <string>

#include "conversion/report.hpp"
#include "solid/solid.hpp"

namespace backfit {

// A PDF of A4 pages at true scale: verdict with odds and reasons, the camera in section, the
// frame on the sheet, the dimensioned part, a 1:1 template with check rulers, steps with cautions,
// materials and cost. `body` is the back plate. Requires report.assembly.plate.
std::string build_sheet(const Report& report, const Solid& body,
                        const std::filesystem::path& font_folder);

}  // namespace backfit
