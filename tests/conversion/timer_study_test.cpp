// SPDX-License-Identifier: MIT
#include "conversion/timer_study.hpp"

#include <gmock/gmock.h>

#include <cmath>

#include "kestrel.hpp"

namespace backfit {
namespace {

using testing::HasSubstr;

const TimerSpeed* speed(const TimerStudy& study, Time marked) {
  for (const TimerSpeed& s : study.speeds) {
    if (abs(s.marked - marked) < 1e-9 * second) return &s;
  }
  return nullptr;
}

// Truth: the demo's readings were invented around a shutter of 3.6 ms and 0.4713 ms/kΩ beside
// 60 MΩ; the law found holds these within its own 95 % interval.
TEST(StudyTimer, FindsTheLawBehindTheDemosReadings) {
  const Kestrel k;
  ASSERT_TRUE(k.report);
  const TimerStudy& s = *k.report->timer;
  ASSERT_TRUE(s.fit);
  EXPECT_NEAR(s.fit->law.fixed / ms, 3.6, 2 * (s.fit->fixed_u / ms));
  EXPECT_NEAR(s.fit->law.per_ohm / uF, 0.4713, 2 * (s.fit->per_ohm_u / uF));
  EXPECT_GT(s.fit->lack_of_fit->probability, 0.05);
  EXPECT_EQ(speed(s, second / 500.0)->lack, Lack::too_fast);
  const Finding* missing = k.finding("timer-speed-missing");
  ASSERT_NE(missing, nullptr);
  EXPECT_THAT(missing->text, HasSubstr("1/500 s can't be had: the shutter takes"));
}

// Law: the simulator finds each place of the switch as wired to take what the law says.
TEST(StudyTimer, SimulatesEveryPlace) {
  for (const char* wiring : {"chain", "two each", "one each"}) {
    const Kestrel k("wiring = \"chain\"", std::string("wiring = \"") + wiring + "\"");
    const TimerStudy& s = *k.report->timer;
    int places = 0;
    for (const TimerSpeed& t : s.speeds) {
      if (t.lack != Lack::none) continue;
      ++places;
      ASSERT_TRUE(t.simulated);
      ASSERT_TRUE(t.simulated->closing) << t.simulated->fault;
      const Time expected = t.spread.time - s.fit->law.fixed;
      EXPECT_NEAR(*t.simulated->closing / expected, 1, 1e-3);
      EXPECT_LE(std::abs(t.spread.error.value), s.allowed.value);
    }
    EXPECT_GE(places, 9);
    EXPECT_EQ(k.finding("timer-circuit"), nullptr);
  }
}

// Law: a fixed threshold runs late as cells fail, one that follows the supply doesn't, and nothing
// is said of what isn't known.
TEST(StudyTimer, SaysWhatFailingCellsDo) {
  const Kestrel fixed;
  const TimerSpeed& late = *speed(*fixed.report->timer, 1 * second);
  // ln(1/(1 - 0.5 x 6.2/5.4)) against ln 2, nearly all of the second being the capacitor's; the
  // leak makes it a little more.
  const double alone = std::log2(-std::log(1 - 0.5 * 6.2 / 5.4) / std::log(2));
  EXPECT_NEAR(late.by_low_supply->value, alone, 0.03);
  EXPECT_GT(late.by_low_supply->value, 0.9 * alone);
  ASSERT_NE(fixed.finding("timer-supply"), nullptr);
  const Kestrel follows("threshold_follows_supply = false", "threshold_follows_supply = true");
  EXPECT_FALSE(speed(*follows.report->timer, 1 * second)->by_low_supply);
  EXPECT_EQ(follows.finding("timer-supply"), nullptr);
  const Kestrel unknown("threshold_follows_supply = false\n", "");
  EXPECT_THAT(unknown.finding("timer-supply")->text,
              HasSubstr("if the threshold is a fixed voltage"));
}

TEST(StudyTimer, IsSilentWithoutATimerAndSaysWhatIsMissing) {
  const Kestrel none(Edits{{"[[shutter.timer.trials]]\nresistor = \"47.1 kΩ ± 0.2\"\ntimes = "
                            "[\"25.9 ms ± 0.3\", \"25.6 ms ± 0.3\", \"25.8 ms ± 0.3\"]\n",
                            ""},
                           {"[[shutter.timer.trials]]\nresistor = \"219 kΩ ± 1\"\ntimes = [\"106.6 "
                            "ms ± 1\", \"107.4 ms ± 1\", \"107.0 ms ± 1\"]\n",
                            ""},
                           {"[[shutter.timer.trials]]\nresistor = \"1.002 MΩ ± 0.005\"\ntimes = "
                            "[\"478 ms ± 4\", \"481 ms ± 4\", \"479 ms ± 4\"]\n",
                            ""}});
  ASSERT_TRUE(none.report);
  EXPECT_FALSE(none.report->timer->fit);
  EXPECT_NE(none.finding("timer-unknown"), nullptr);
}

// Law: a chain from a stock of few pieces keeps to it, and what it misses is said.
TEST(StudyTimer, KeepsToTheStock) {
  const Kestrel k("resistor_price = 0.05\n",
                  "resistor_price = 0.05\n[[timer.stock]]\nresistor = \"10 kΩ\"\ncount = 2\n"
                  "[[timer.stock]]\nresistor = \"30 kΩ\"\ncount = 1\n");
  const TimerStudy& s = *k.report->timer;
  EXPECT_TRUE(s.from_stock);
  EXPECT_LE(s.design.parts.size(), 3U);
  EXPECT_FALSE(s.design.parts.empty());
  EXPECT_EQ(speed(s, 4 * second)->lack, Lack::no_part);
  for (const TimerSpeed& t : s.speeds) EXPECT_EQ(t.lack == Lack::none, t.why.empty());
}

}  // namespace
}  // namespace backfit
