// SPDX-License-Identifier: MIT
// An instant back on its adapter as a study of leaking light sees it. For leak_back.cpp.
#pragma once
#include "conversion/leak_back.hpp"

namespace backfit {

// See seam_scene() of a LeakBack. Requires an instant back with its adapter.
SeamScene adapter_scene(const Assembly& assembly, const LeakBack& back, std::size_t columns,
                        std::size_t rows);

}  // namespace backfit
