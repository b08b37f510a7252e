// SPDX-License-Identifier: MIT
#include "timer/model.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "timer/speeds.hpp"
#include "timer/supply.hpp"

namespace backfit {
namespace {

TimerLaw circuit(Capacitance c, double k, Time fixed = {}) {
  return {fixed, time_per_ohm(c, k), k, {}};
}

// Truth: rc-threshold-exercise in data/sources.toml (READ): 22 kΩ, 0.02 µF, 5 V, threshold 3.4 V
// take 0.501 ms. The tolerance is half its last digit.
TEST(OpenTime, AgreesWithAWorkedExercise) {
  EXPECT_NEAR(*open_time(circuit(0.02 * uF, 3.4 / 5), 22 * kohm) / ms, 0.501, 0.0005);
}

// Truth: timer-constants in data/sources.toml (READ): "1.1 RC" for two thirds of the supply,
// "0.693 RC" for a half, and 104 µs for 15 kΩ with 10 nF. Tolerances are half their last digits.
TEST(OpenTime, HasTheTradesConstants) {
  EXPECT_NEAR(time_per_ohm(1 * uF, 2.0 / 3) / uF, 1.1, 0.05);
  EXPECT_NEAR(time_per_ohm(1 * uF, 2.0 / 3) / uF, std::log(3), 1e-12);  // the closed form
  EXPECT_NEAR(time_per_ohm(1 * uF, 0.5) / uF, 0.693, 0.0005);
  EXPECT_NEAR(*open_time(circuit(10 * nF, 0.5), 15 * kohm) / us, 104, 0.5);
}

// Law: emptying from V0 to V takes R C ln(V0/V), which is filling to the share 1 - V/V0. Truth: the
// trade's e^-1 = 36.8 % after one R C (common practice), half its last digit.
TEST(OpenTime, IsTheSameForACapacitorThatEmpties) {
  for (const double left : {0.1, 0.368, 0.5, 0.9}) {
    EXPECT_NEAR(*open_time(circuit(1 * uF, 1 - left), 10 * kohm) / ms, 10 * std::log(1 / left),
                1e-12);
  }
  EXPECT_NEAR(*open_time(circuit(1 * uF, 1 - 0.368), 10 * kohm) / ms, 10, 0.014);
}

// Truth: figures computed apart from this program, to their last digit: a time 20 % long or short
// is +0.263 and -0.322 stop, 30 % +0.379 and -0.515; a third of a stop is +26.0 and -20.6 %.
TEST(StopsOver, SaysPerCentInStops) {
  const Time t = 10 * ms;
  EXPECT_NEAR(stops_over(1.2 * t, t).value, 0.263, 5e-4);
  EXPECT_NEAR(stops_over(0.8 * t, t).value, -0.322, 5e-4);
  EXPECT_NEAR(stops_over(1.3 * t, t).value, 0.379, 5e-4);
  EXPECT_NEAR(stops_over(0.7 * t, t).value, -0.515, 5e-4);
  EXPECT_NEAR(stops_over(1.26 * t, t).value, 1.0 / 3, 1e-3);
  EXPECT_NEAR(stops_over(0.794 * t, t).value, -1.0 / 3, 1e-3);
}

// Truth: figures computed apart from this program, to their last digit: 1 MΩ and 1 µF to half the
// supply beside a leak of 10, 2 and 1 MΩ.
TEST(OpenTime, IsLongerBesideALeakUntilTheShutterNeverCloses) {
  TimerLaw law = circuit(1 * uF, 0.5);
  EXPECT_NEAR(*open_time(law, 1 * Mohm) / second, 0.69315, 5e-6);
  law.leakage = 10 * Mohm;
  EXPECT_NEAR(*open_time(law, 1 * Mohm) / second, 0.72592, 5e-6);
  law.leakage = 2 * Mohm;
  EXPECT_NEAR(*open_time(law, 1 * Mohm) / second, 0.92420, 5e-6);
  law.leakage = 1 * Mohm;
  EXPECT_FALSE(open_time(law, 1 * Mohm));
  EXPECT_NEAR(*greatest_resistance(law) / Mohm, 1, 1e-12);
}

// Truth: figures computed apart from this program, to their last digit: 10 kΩ and 1 µF to 3.0 V
// on 6.0, 5.4 and 4.8 V.
TEST(AtSupply, AFixedThresholdStretchesTheTimeAsCellsFail) {
  const TimerLaw fresh = circuit(1 * uF, 0.5);
  const auto at = [&](double volts) { return *open_time(*at_supply(fresh, volts / 6), 10 * kohm); };
  EXPECT_NEAR(at(6.0) / ms, 6.931, 5e-4);
  EXPECT_NEAR(at(5.4) / ms, 8.109, 5e-4);
  EXPECT_NEAR(at(4.8) / ms, 9.808, 5e-4);
  EXPECT_NEAR(stops_over(at(5.4), at(6.0)).value, 0.226, 5e-4);
  EXPECT_NEAR(stops_over(at(4.8), at(6.0)).value, 0.501, 5e-4);
  EXPECT_FALSE(at_supply(fresh, 0.5));
}

// Law: the resistor found gives the time asked for, with and without a leak.
TEST(ResistorFor, IsTheInverseOfOpenTime) {
  for (const auto leak :
       {std::optional<Resistance>{}, std::optional(300 * Mohm), std::optional(30 * Mohm)}) {
    TimerLaw law = circuit(0.47 * uF, 0.63, 3.1 * ms);
    law.leakage = leak;
    for (int i = 0; i < 35; ++i) {
      const double t = 0.0032 * std::pow(1.3, i);
      const auto r = resistor_for(law, t * second);
      ASSERT_TRUE(r);
      EXPECT_NEAR(*open_time(law, *r) / second / t, 1, 1e-9);
    }
    EXPECT_FALSE(resistor_for(law, 3.1 * ms));
  }
}

// Law: a millionth below the greatest resistance 1 - k' is a millionth of 1 - k. With k = 1/2 its
// logarithm is 14.5, and with half a megohm of R || leak the time ends at 7.25 s.
TEST(ResistorFor, EndsWhereTheLeakDoes) {
  TimerLaw law = circuit(1 * uF, 0.5);
  law.leakage = 1 * Mohm;
  EXPECT_TRUE(resistor_for(law, 7.2 * second));
  EXPECT_FALSE(resistor_for(law, 7.3 * second));
}

// Law: there the leak's own share of the time is what was allowed.
TEST(SlowestReal, IsWhereTheLeakAloneLengthensByWhatIsAllowed) {
  TimerLaw law = circuit(1 * uF, 0.5, 3 * ms);
  EXPECT_FALSE(slowest_real(law, {0.33}));
  law.leakage = 10 * Mohm;
  const Time slowest = *slowest_real(law, {0.33});
  const Resistance r = (slowest - law.fixed) / law.per_ohm;
  EXPECT_NEAR(stops_over(*open_time(law, r), slowest).value, 0.33, 1e-9);
}

// Truth: battery-internal-resistance in data/sources.toml (READ): 5 mA to 505 mA takes the voltage
// from 1.485 to 1.378 V, 0.214 Ω. The tolerance is half its last digit.
TEST(InternalResistance, AgreesWithTheBatteryMakersExample) {
  EXPECT_NEAR(internal_resistance(1.485 * volt, 1.378 * volt, 5 * mA, 505 * mA) / ohm, 0.214, 5e-4);
}

// Truth: the same bulletin (READ): 0.9 Ω at −40 °C, 0.1 Ω at +40 °C. Law: four cells at 1 A.
TEST(Sag, IsNineTimesAsDeepInTheCold) {
  EXPECT_NEAR(sag(4, alkaline_cell_resistance(-40), 1 * ampere) / volt, 3.6, 1e-12);
  EXPECT_NEAR(sag(4, alkaline_cell_resistance(40), 1 * ampere) / volt, 0.4, 1e-12);
  EXPECT_NEAR(alkaline_cell_resistance(0) / ohm, 0.3, 1e-12);  // geometric mean of the ends
  EXPECT_EQ(alkaline_cell_resistance(-60), alkaline_cell_resistance(-40));
}

// Truth: iso-516-marked-speeds in data/sources.toml (READ): 1/15, 1/30 and 1/60 are 0.0931 stop
// away from what they mean, 1/125 to 1/1000 0.0342 stop; figures computed apart from this program.
TEST(MeantBy, TakesAMarkingForTheSpeedHalfTheNext) {
  for (const double fraction : {15.0, 30.0, 60.0}) {
    const Time marked = second / fraction;
    EXPECT_NEAR(std::abs(stops_over(marked, meant_by(marked)).value), 0.0931, 5e-5);
  }
  for (const double fraction : {125.0, 250.0, 500.0, 1000.0}) {
    const Time marked = second / fraction;
    EXPECT_NEAR(std::abs(stops_over(marked, meant_by(marked)).value), 0.0342, 5e-5);
  }
  EXPECT_EQ(meant_by(0.5 * second), 0.5 * second);
  EXPECT_EQ(meant_by(0.3 * second), 0.3 * second);
  const auto usual = usual_speeds();
  ASSERT_EQ(usual.size(), 12U);
  for (std::size_t i = 1; i < usual.size(); ++i) {
    EXPECT_NEAR(meant_by(usual[i]) / meant_by(usual[i - 1]), 2, 1e-12);
  }
  EXPECT_EQ(speed_text(usual.front()), "1/500 s");
  EXPECT_EQ(speed_text(usual.back()), "4 s");
}

}  // namespace
}  // namespace backfit
