// SPDX-License-Identifier: MIT
// What light on the film means for a conversion.
#pragma once
#include "conversion/leak_study.hpp"
#include "conversion/report.hpp"

namespace backfit {

// Adds the study of a back's seams and its finding. Requires report.assembly.camera.seat.
void add_light(Report& report, LeakStudy study);

}  // namespace backfit
