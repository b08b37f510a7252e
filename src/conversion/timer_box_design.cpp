// SPDX-License-Identifier: MIT
#include "conversion/timer_box_design.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "conversion/plate_design.hpp"
#include "exposure/scales.hpp"

namespace backfit {
namespace {

// What a box wants where nothing else is said. Common practice in printed boxes.
constexpr Length usual_knob = 18 * mm, usual_screw = 3 * mm, usual_lead = 3 * mm;
constexpr Angle usual_step = 30 * deg;
constexpr Length usual_wall = 2 * mm, lip = 2 * mm, engraving = 0.4 * mm;
constexpr Length room_for_wires = 4 * mm;  // between the switch's lugs and the floor
constexpr Length tick = 2.5 * mm;
constexpr double pilot_of_screw = 0.85;  // a screw that cuts its own thread in plastic
constexpr Length largest_box = 150 * mm;

Length or_usual(const std::optional<Stated<Measured<Length>>>& stated, Length usual) {
  return stated ? stated->value.value : usual;
}

}  // namespace

std::string dial_mark(Time marked) {
  const std::string mark = speed_mark(marked);  // "1/125 s" or "2 s"
  const std::string number = mark.substr(0, mark.find(' '));
  return number.starts_with("1/") ? number.substr(2) : number + "S";
}

std::optional<TimerBox> timer_box(const Assembly& a, const TimerStudy& s) {
  if (!a.plan.timer || !a.plan.timer->box || s.design.positions.empty()) return {};
  const TimerBoxPlan& plan = *a.plan.timer->box;
  const Printer& printer = *a.plan.printer;
  const Length wall_needed = smallest_wall(printer), nozzle = *printer.nozzle;

  TimerBox b;
  b.gap = printer.clearance->value;
  b.wall = std::max(usual_wall, wall_needed);
  b.panel = std::max(usual_wall, wall_needed) + engraving;
  b.corner_radius = 1.5 * b.wall;
  b.lip = lip;
  b.bush = plan.bush->value + 2 * b.gap;
  const Length screw = or_usual(plan.screw, usual_screw);
  b.pilot = pilot_of_screw * screw;
  b.through = screw + 2 * b.gap;
  b.post = b.pilot + 2 * wall_needed;
  b.lead = or_usual(plan.lead, usual_lead);
  b.depth = std::max(plan.switch_depth->value + room_for_wires, b.lip + b.lead + b.wall);

  Dial& d = b.dial;
  d.lettering.stroke = std::max(nozzle, 0.45 * mm);
  d.lettering.height = 7 * d.lettering.stroke;
  d.engraving = engraving;
  d.step = plan.step ? **plan.step : usual_step;
  for (const TimerSpeed& speed : s.speeds) {
    if (speed.lack == Lack::none) d.marks.push_back(dial_mark(speed.marked));
  }
  d.marks.emplace_back("B");
  d.first = -0.5 * static_cast<double>(d.marks.size() - 1) * d.step;
  const Length knob = or_usual(plan.knob, usual_knob);
  d.ticks_from = std::max(knob / 2 + 1 * mm, b.bush / 2 + wall_needed);
  d.ticks_to = d.ticks_from + tick;
  // The switch's body clears the posts that stand in the corners.
  b.width = b.height = plan.switch_across->value + 2 * (b.wall + b.post);
  d.letters_at = d.ticks_to + d.lettering.height;
  while (b.width < largest_box && !faults(b, wall_needed, nozzle).empty()) {
    d.letters_at = std::max(d.letters_at, d.ticks_to + d.lettering.height);
    // Wider letters' circle while words touch, a larger panel while they run over its edge.
    TimerBox roomy = b;
    roomy.width = roomy.height = 2 * largest_box;
    if (!faults(roomy, wall_needed, nozzle).empty()) {
      d.letters_at += 0.25 * mm;
      if (d.letters_at > largest_box / 2) break;
    } else {
      b.width = b.height = b.width + 0.5 * mm;
    }
  }
  return b;
}

}  // namespace backfit
