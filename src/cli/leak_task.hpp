// SPDX-License-Identifier: MIT
// What the commands about leaking light share.
#pragma once
#include <functional>
#include <optional>
#include <string>

#include "cli/commands.hpp"
#include "cli/studied.hpp"
#include "conversion/leak_study.hpp"

namespace backfit {

// What was asked, read and fit to study, and the study of it.
struct LeakTask {
  std::string title;  // "two-part.3mf: light"
  std::function<std::optional<LeakStudy>(const LeakWatch&)> study;
};

// Of a conversion's seams or of parts from meshes; empty when they can't be used.
std::optional<LeakTask> leak_task(const LeakRequest& request, bool json,
                                  const Surroundings& around);

// Studies the light on a report's film and adds it, or warns why that can't be done; false when it
// was interrupted. `material` is that of [exposure], or null.
bool add_light(Report& report, const ExposureMaterial* material, const Surroundings& around);

// True once an interrupt has ended a study.
bool was_interrupted();

// The study, its progress on a terminal that `err` is; empty, and said so, when it was interrupted.
std::optional<LeakStudy> watched(const LeakTask& task, const Surroundings& around);

}  // namespace backfit
