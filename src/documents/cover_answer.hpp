// SPDX-License-Identifier: MIT
// What a study of the light on the sheet says, for people and for programs.
#pragma once
#include <string>

#include "conversion/cover_study.hpp"

namespace backfit {

// Tables for the terminal: each stop far and near, then the map, seen from behind the camera.
// Requires a study with its rows.
std::string cover_summary(const Report& report, const CoverStudy& study);

// Schema "backfit.cover/1"; ends in a newline.
std::string cover_json(const Report& report, const CoverStudy& study);

}  // namespace backfit
