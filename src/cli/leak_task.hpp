// SPDX-License-Identifier: MIT
// What the commands about leaking light share.
#pragma once
#include <optional>
#include <string>

#include "cli/commands.hpp"
#include "cli/studied.hpp"
#include "conversion/leak_study.hpp"

namespace backfit {

// The bodies of mesh files with their film, whole and fit to study; empty when they can't be used.
std::optional<LeakScene> scene_of_meshes(const LeakRequest& request, bool json,
                                         const Surroundings& around);
// What could be done about parts from meshes.
std::vector<LeakRemedy> remedies_of_meshes(const LeakScene& scene);

// The study, its progress on a terminal that `err` is; empty, and said so, when it was interrupted.
std::optional<LeakStudy> watched_study(const LeakScene& scene, const LeakQuestions& questions,
                                       const std::vector<LeakRemedy>& remedies,
                                       const Surroundings& around);

// "two-part.3mf: light"
std::string title_of_meshes(const LeakRequest& request);

}  // namespace backfit
