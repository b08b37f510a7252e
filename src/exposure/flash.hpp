// SPDX-License-Identifier: MIT
// Guide numbers: from a flash's light to the stop for a distance, with the constant behind them.
#pragma once
#include <span>
#include <string_view>
#include <vector>

#include "quantity/light.hpp"

namespace backfit {

// C in N^2 = I t S / (C d^2): the exposure in lux seconds, times the film's speed, that a rating
// calls right. The lower it is, the larger the guide number that comes out.
struct FlashConstant {
  std::string_view name;
  LuminousExposure value;
};
// Makers' 0.063 ft^2 a candela second and ISO, and the 0.05 of other texts (both from memory), and
// the incident-light constants of a meter. Makers' numbers run 0.55 to 0.95 stop above a meter's,
// since they count on light walls and ceiling (guide-number-course in data/sources.toml, READ in
// kind).
inline constexpr FlashConstant makers_rating{"makers' rating",
                                             candela_second* rad* rad / (0.063 * (foot * foot))};
inline constexpr FlashConstant cautious_rating{"cautious rating",
                                               candela_second* rad* rad / (0.05 * (foot * foot))};
inline constexpr FlashConstant flat_meter{"incident meter, flat receptor", 250 * lux_second};
inline constexpr FlashConstant dome_meter{"incident meter, dome", 340 * lux_second};

// Stop times distance at which a flash exposes film of a speed rightly.
struct GuideNumber {
  Length value;
  IsoSpeed speed;
};

// Light in the beam of a source of `light` in a reflector that sends `factor` times as much that
// way as the bare source would: factor light / 4 pi sr. Requires factor > 0.
BeamEnergy beam_of(LuminousEnergy light, double factor);

// sqrt(beam S / C). Requires beam > 0 and S > 0.
GuideNumber guide_number(BeamEnergy beam, IsoSpeed speed, const FlashConstant& constant);
// N d: a test that finds stop N right at distance d.
GuideNumber guide_number_from(FNumber right, Length distance, IsoSpeed speed);

// The same flash on film of another speed (times sqrt of the ratio), or with more or less light
// (times sqrt 2 a stop: half power is -1).
GuideNumber at_speed(const GuideNumber& number, IsoSpeed speed);
GuideNumber with_light(const GuideNumber& number, Stops more);

// N = GN / d and d = GN / N. Requires d > 0, N > 0. Distances run from the flash to the subject.
FNumber stop_for(const GuideNumber& number, Length distance);
Length distance_for(const GuideNumber& number, FNumber stop);

// The stop to set when the lens is extended by `close_up_factor`: N over its root.
FNumber stop_close_up(FNumber stop, double close_up_factor);

// Light lost from `near` to `far`, in stops: 2 log2(far / near).
Stops flash_falloff(Length near, Length far);

// One rung of the ladder on an exposure card.
struct LadderRung {
  FNumber stop;     // marked
  Length distance;  // at which it is right
};
// The distances for the marked stops, widest first, judged by the true stops behind the marks.
std::vector<LadderRung> distance_ladder(const GuideNumber& number, std::span<const FNumber> marked);

// Energy in a flash's capacitor, C V^2 / 2, and the time for a bleeder to bring it from one
// voltage to another, R C ln(from / to). For the caution: 300 V kept for days can kill.
Energy stored_energy(Capacitance capacitance, Voltage voltage);
Time bleed_time(Resistance bleeder, Capacitance capacitance, Voltage from, Voltage to);

}  // namespace backfit
