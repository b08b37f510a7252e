// SPDX-License-Identifier: MIT
// Numbers of a timer in the words that findings, answers and papers share.
#pragma once
#include <string>

#include "conversion/timer_study.hpp"

namespace backfit {

// "47 kΩ", "4.75 MΩ", "12.4 Ω": up to four figures.
std::string resistance_text(Resistance resistance);
// "24.70 to 25.20 kΩ".
std::string range_text(Resistance least, Resistance most);
// "25.6 ms", "1.03 s": three figures.
std::string time_text(Time time);
// "+0.12", "−0.03", "0.00": a difference in stops.
std::string signed_stops(Stops stops);
// "(3.62 ± 0.21) ms + (0.4713 ± 0.0041) ms/kΩ × R": half-widths of 95 % intervals.
std::string law_text(const TimerFit& fit);
// "4 trials", "the circuit alone", "1 trial and what is known of the circuit".
std::string basis_text(const TimerFit& fit);
// "27 kΩ and a trimmer of 5 kΩ in series".
std::string trimmer_text(const Trimmer& trimmer);
// "27 kΩ + 1.8 kΩ", "390 kΩ ∥ 15 kΩ", of a chain the link that the position adds: "+ 18 kΩ".
std::string parts_text(const TimerStudy& study, std::size_t position);
// "E24", or "stock".
std::string values_text(const TimerStudy& study);
// "one resistor a speed" and the like.
std::string wiring_text(SwitchWiring wiring);

}  // namespace backfit
