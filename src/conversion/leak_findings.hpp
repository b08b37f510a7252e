// SPDX-License-Identifier: MIT
// What light on the film means for a conversion.
#pragma once
#include "conversion/leak_study.hpp"
#include "conversion/report.hpp"

namespace backfit {

// Adds the study of a conversion's seams and walls and its finding.
void add_light(Report& report, LeakStudy study);

}  // namespace backfit
