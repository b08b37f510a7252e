// SPDX-License-Identifier: MIT
// What a study of leaking light says, for people, for programs, and as a picture.
#pragma once
#include <filesystem>
#include <string>

#include "conversion/leak_study.hpp"

namespace backfit {

// Lines for the terminal under `title`.
std::string leak_summary(const std::string& title, const LeakStudy& study);

// Schema "backfit.leak/1"; ends in a newline. Six figures of each number.
std::string leak_json(const LeakStudy& study);

// One A4 page: the film from behind with the light on it, and the ways there. Throws as Document
// does.
std::string leak_svg(const std::string& title, const LeakStudy& study,
                     const std::filesystem::path& font_folder);

// Where the sun stands, as seen from behind the film: "from the right, 30 degrees behind the film".
std::string sun_words(const LeakStudy& study);

// "light-tight: the worst patch stays under 0.02 for an hour of sun"; both say where that is of the
// seams alone. The short one: "light-tight by its seams alone".
std::string verdict_words(const LeakStudy& study);
std::string short_verdict(const LeakStudy& study);

// What the printed walls must take, and what to read of them: a part of a sentence.
std::string wall_words(const WallNeed& need);

// By how many stops a patch's light is less than outside: "41.3", "?" where it has not converged,
// "dark".
std::string patch_words(const TallyResult& light);

// What a remedy gains: "2.1 stops ± 0.4".
std::string remedy_words(const LeakStudy& study, const LeakStudy::Remedied& remedy);

// "2.4e-11 (2.1e-11 to 2.7e-11)", or that it has not converged, and why.
std::string light_words(const TallyResult& light);

}  // namespace backfit
