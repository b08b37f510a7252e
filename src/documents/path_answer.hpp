// SPDX-License-Identifier: MIT
// A film path told on a terminal, as JSON and as a picture.
#pragma once
#include <filesystem>
#include <string>

#include "conversion/path_study.hpp"

namespace backfit {

std::string path_summary(const Assembly& assembly, const PathStudy& study);
// Schema "backfit.path/1"; ends in a newline.
std::string path_json(const Assembly& assembly, const PathStudy& study);
// One A4 page: the film at the first frame and at the last. Requires a layout. Throws as Document
// does.
std::string path_svg(const Assembly& assembly, const PathStudy& study,
                     const std::filesystem::path& font_folder);

}  // namespace backfit
