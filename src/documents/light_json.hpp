// SPDX-License-Identifier: MIT
// A study of leaking light in a report, as coarse as it is sure.
#pragma once
#include "conversion/leak_study.hpp"
#include "documents/json_numbers.hpp"

namespace backfit {

// Light in stops below daylight, to the tenth; null without an interval.
json::Json light_object(const LeakStudy& study);

// What the printed walls must take; null where they are counted or there are none.
json::Json wall_need_object(const LeakStudy& study);

}  // namespace backfit
