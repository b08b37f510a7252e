// SPDX-License-Identifier: MIT
// Everything that a conversion's maker gets: papers, parts and the findings for programs.
#pragma once
#include <filesystem>

#include "conversion/report.hpp"
#include "documents/made_sets.hpp"
#include "files/folder.hpp"

namespace backfit {

// build-sheet.pdf, report.json and under parts/ the back plate, or an insert's pieces with the
// gauge to print first, as STEP, 3MF and STL, laid out for the printer in the last two. `data` is
// the folder of shipped data, for its fonts. Requires report.can_be_made() and its made_parts().
// Throws SolidFailure when the geometry kernel fails or the finished body is not sound.
FolderContents result_of(const Report& report, const MadeParts& parts,
                         const std::filesystem::path& data);

}  // namespace backfit
