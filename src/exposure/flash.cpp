// SPDX-License-Identifier: MIT
#include "exposure/flash.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

#include "exposure/scales.hpp"

namespace backfit {

BeamEnergy beam_of(LuminousEnergy light, double factor) {
  assert(factor > 0);
  return factor / (4 * std::numbers::pi) * light / (rad * rad);
}

GuideNumber guide_number(BeamEnergy beam, IsoSpeed speed, const FlashConstant& constant) {
  assert(beam > BeamEnergy{} && speed.value > 0);
  return {sqrt(speed.value * beam * (rad * rad) / constant.value), speed};
}

GuideNumber guide_number_from(FNumber right, Length distance, IsoSpeed speed) {
  return {right.value * distance, speed};
}

GuideNumber at_speed(const GuideNumber& number, IsoSpeed speed) {
  assert(number.speed.value > 0 && speed.value > 0);
  return {number.value * std::sqrt(speed.value / number.speed.value), speed};
}

GuideNumber with_light(const GuideNumber& number, Stops more) {
  return {number.value * std::exp2(more.value / 2), number.speed};
}

FNumber stop_for(const GuideNumber& number, Length distance) {
  assert(distance > Length{});
  return {number.value / distance};
}

Length distance_for(const GuideNumber& number, FNumber stop) {
  assert(stop.value > 0);
  return number.value / stop.value;
}

FNumber stop_close_up(FNumber stop, double close_up_factor) {
  assert(close_up_factor > 0);
  return {stop.value / std::sqrt(close_up_factor)};
}

Stops flash_falloff(Length near, Length far) {
  assert(near > Length{} && far > Length{});
  return {2 * std::log2(far / near)};
}

std::vector<LadderRung> distance_ladder(const GuideNumber& number,
                                        std::span<const FNumber> marked) {
  std::vector<LadderRung> ladder;
  for (const FNumber stop : marked) {
    ladder.push_back({stop, distance_for(number, true_stop(stop))});
  }
  return ladder;
}

Energy stored_energy(Capacitance capacitance, Voltage voltage) {
  return 0.5 * capacitance * voltage * voltage;
}

Time bleed_time(Resistance bleeder, Capacitance capacitance, Voltage from, Voltage to) {
  assert(from >= to && to > Voltage{});
  return bleeder * capacitance * std::log(from / to);
}

}  // namespace backfit
