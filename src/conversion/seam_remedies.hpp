// SPDX-License-Identifier: MIT
// Remedies of a scene that is made by choices: each the same scene with one choice made otherwise.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "conversion/seam_scene.hpp"

namespace backfit {

// A call that adds to `list`: of what is done, and of the change to `how`, by which `scene` makes
// the scene. `list` and `how` outlive the call.
template <class How, class Scene>
auto adding_to(std::vector<SeamRemedy>& list, const How& how, const Scene& scene) {
  return [&list, &how, scene](std::string what, const auto& change) {
    How changed = how;
    change(changed);
    list.push_back({std::move(what), [scene, changed] { return scene(changed); }});
  };
}

}  // namespace backfit
