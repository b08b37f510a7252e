// SPDX-License-Identifier: MIT
#include "timer/netlist.hpp"

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <map>
#include <set>

namespace backfit {
namespace {

constexpr int steps = 1000;
constexpr std::string_view common = "com";

// The parts of all positions between `common` and the contacts. A part stands where its position's
// parts before it end, so positions that begin alike share them.
class Wiring {
 public:
  explicit Wiring(const ResistorSwitch& design) : design_(design) {
    for (const SwitchPosition& p : design.positions) contacts_.push_back(wire(p));
  }
  const std::string& lines() const { return lines_; }
  const std::string& contact(std::size_t position) const { return contacts_[position]; }

 private:
  std::string wire(const SwitchPosition& position) {
    std::string at(common);
    for (const std::size_t part : position.parts) {
      std::string& far = far_end_[part];
      const bool beside = position.joint == Joint::parallel && part != position.parts.front();
      if (far.empty()) {
        far = beside ? at : fmt::format("n{}", part + 1);
        lines_ +=
            fmt::format("R{} {} {} {:.10g}\n", part + 1, beside ? common : std::string_view(at),
                        far, design_.parts[part] / ohm);
      }
      at = far;
    }
    return at;
  }

  const ResistorSwitch& design_;
  std::map<std::size_t, std::string> far_end_;
  std::vector<std::string> contacts_;
  std::string lines_;
};

}  // namespace

std::string netlist_of(const TimingCircuit& circuit, Time until) {
  const TimerLaw& law = circuit.law;
  assert(!circuit.design.positions[circuit.position].parts.empty());
  const Capacitance capacitance = law.per_ohm / -std::log1p(-law.threshold);
  const Wiring wiring(circuit.design);
  const double until_s = until / second;
  std::string text = fmt::format("* Shutter timer, position {} of {}\n", circuit.position + 1,
                                 circuit.design.positions.size());
  text += fmt::format("Vsupply plus 0 {:.10g}\n", circuit.supply / volt);
  // The contact has a milliohm: a simulator needs two nodes.
  text += fmt::format("Rcontact plus {} 1m\n", wiring.contact(circuit.position));
  text += wiring.lines();
  text += fmt::format("Ctiming {} 0 {:.10g} ic=0\n", common, capacitance / farad);
  if (law.leakage) text += fmt::format("Rleak {} 0 {:.10g}\n", common, *law.leakage / ohm);
  text += fmt::format(".tran {0:.10g} {1:.10g} 0 {0:.10g} uic\n", until_s / steps, until_s);
  text += fmt::format(".meas tran closing when v({})={:.10g}\n", common,
                      law.threshold * (circuit.supply / volt));
  return text + ".end\n";
}

Simulated simulated(const TimingCircuit& circuit) {
  const SwitchPosition& position = circuit.design.positions[circuit.position];
  const auto time = open_time(circuit.law, total_of(position, circuit.design.parts));
  if (!time) return {{}, "beside this leak the threshold is never reached"};
  return simulated(netlist_of(circuit, 1.5 * (*time - circuit.law.fixed)));
}

}  // namespace backfit
