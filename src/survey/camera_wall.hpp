// SPDX-License-Identifier: MIT
// The walls of a camera, as one sees them from behind.
#pragma once
#include <span>
#include <string_view>
#include <utility>

#include "files/fields.hpp"

namespace backfit {

enum class CameraWall { left, right, top, bottom };

template <>
std::span<const std::pair<std::string_view, CameraWall>> choices_of<CameraWall>();

}  // namespace backfit
