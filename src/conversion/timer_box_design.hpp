// SPDX-License-Identifier: MIT
// The timer's box, from the switch at hand, the speeds that it gets and the printer.
#pragma once
#include "conversion/assembly.hpp"
#include "conversion/timer_study.hpp"
#include "parts/timer_box.hpp"

namespace backfit {

// "125", "2S", "B": a speed as the dial names it; a second and more with an S.
std::string dial_mark(Time marked);

// The smallest box whose dial is clear and whose tray takes the switch. Empty unless the plan asks
// for one and the switch has a speed. Requires a printer in the plan then.
std::optional<TimerBox> timer_box(const Assembly& assembly, const TimerStudy& study);

}  // namespace backfit
