// SPDX-License-Identifier: MIT
#include "timer/netlist.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace backfit {
namespace {

using testing::HasSubstr;

TimingCircuit one(Resistance r, double k, std::optional<Resistance> leak) {
  TimingCircuit c;
  c.law = {4 * ms, time_per_ohm(0.47 * uF, k), k, leak};
  c.design = {{r}, {{1 * second, Joint::series, {0}}}};
  c.supply = 6 * volt;
  return c;
}

// Truth: the closed form of the charging capacitor, to 0.1 %, over five decades of time, thresholds
// low and high, with and without a leak; the simulator is a general-purpose library.
TEST(Simulated, AgreesWithTheClosedForm) {
  for (const double ohms : {330.0, 10e3, 470e3, 10e6}) {
    for (const double k : {0.1, 0.5, 0.9}) {
      for (const auto leak : {std::optional<Resistance>{}, std::optional(200 * Mohm)}) {
        const TimingCircuit c = one(ohms * ohm, k, leak);
        const Simulated s = simulated(c);
        ASSERT_TRUE(s.closing) << s.fault;
        const Time expected = *open_time(c.law, ohms * ohm) - c.law.fixed;
        EXPECT_NEAR(*s.closing / expected, 1, 1e-3);
      }
    }
  }
}

// Law: whatever the switch is made of, the wired parts time as their total does.
TEST(Simulated, FindsTheTotalOfWiredParts) {
  TimingCircuit c = one(1 * kohm, 0.5, {});
  c.design = {{1 * kohm, 2.2 * kohm, 4.7 * kohm, 82 * kohm, 3.9 * kohm, 390 * kohm, 15 * kohm},
              {{1 * second, Joint::series, {0}},
               {1 * second, Joint::series, {0, 1}},
               {1 * second, Joint::series, {0, 1, 2}},
               {1 * second, Joint::series, {3, 4}},
               {1 * second, Joint::parallel, {5, 6}}}};
  for (c.position = 0; c.position < c.design.positions.size(); ++c.position) {
    const Simulated s = simulated(c);
    ASSERT_TRUE(s.closing) << s.fault;
    const Resistance total = total_of(c.design.positions[c.position], c.design.parts);
    EXPECT_NEAR(*s.closing / (c.law.per_ohm * total), 1, 1e-3);
  }
  c.position = 4;
  const std::string text = netlist_of(c, 1 * second);
  EXPECT_THAT(text, HasSubstr("R1 com n1 1000\nR2 n1 n2 2200\nR3 n2 n3 4700\nR4 com n4 82000\n"
                              "R5 n4 n5 3900\nR6 com n6 390000\nR7 com n6 15000\n"));
  EXPECT_THAT(text, HasSubstr("Rcontact plus n6 1m\n"));
}

TEST(Simulated, ReportsWhatFailsAndGoesOn) {
  const TimingCircuit good = one(10 * kohm, 0.5, {});
  ASSERT_TRUE(simulated(good).closing);
  // A part that doesn't exist: the circuit before must not answer for it.
  const Simulated bad = simulated(
      "* bad\nVs plus 0 6\nXq plus com 10k\nC1 com 0 1u\n.tran 1u 1m uic\n"
      ".meas tran closing when v(com)=3\n.end\n");
  EXPECT_FALSE(bad.closing);
  EXPECT_THAT(bad.fault, HasSubstr("the circuit simulator says: "));
  EXPECT_FALSE(simulated("").closing);
  EXPECT_FALSE(simulated("* nothing\n.end\n").closing);
  // Never reached.
  EXPECT_THAT(simulated(one(10 * Mohm, 0.5, 5 * Mohm)).fault, HasSubstr("never reached"));
  EXPECT_FALSE(simulated(netlist_of(good, 1 * ms)).closing);
  ASSERT_TRUE(simulated(good).closing);
}

}  // namespace
}  // namespace backfit
