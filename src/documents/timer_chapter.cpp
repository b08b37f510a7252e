// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "conversion/timer_box_design.hpp"
#include "conversion/timer_words.hpp"
#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/price_list.hpp"
#include "documents/timer_box_drawing.hpp"
#include "documents/timer_drawing.hpp"
#include "quantity/notation.hpp"
#include "timer/speeds.hpp"

namespace backfit::paper {
namespace {

std::string law_words(const TimerStudy& s) {
  const TimerFit& fit = *s.fit;
  std::string words = fmt::format(
      "With a resistor R in the photocell's place the shutter stays open for {} (95 %), by {}.",
      law_text(fit), basis_text(fit));
  if (fit.lack_of_fit) {
    words += fit.widened
                 ? " They disagree by more than their ± allow; the ± here are widened for it."
                 : " They agree with it as well as their ± promise.";
  }
  std::string wiring = sentence(wiring_text(s.wiring));
  wiring.pop_back();
  words += fmt::format(
      " {}, values from {}, tolerance {:g} %; all speeds lie within {:.2g} stop of what they mean "
      "with odds {}.",
      wiring, values_text(s), 100 * s.tolerance, s.allowed.value, odds_text(s.odds_all));
  if (s.advice && s.advice->after.value < 0.8 * s.advice->before.value) {
    words += fmt::format(" One more trial with {}, about {}, would help most.",
                         resistance_text(s.advice->resistor), time_text(s.advice->expected));
  }
  return words;
}

std::string reading_text(const TimerStudy& s, const TimerSpeed& t) {
  const Resistance r = t.spread.resistance;
  return range_text((1 - s.tolerance) * r, (1 + s.tolerance) * r);
}

Table speed_table(const TimerStudy& s) {
  Table table{{{"Place", 14 * mm, Align::right},
               {"Speed", 18 * mm},
               {"Resistors", 36 * mm},
               {"Ohmmeter, A to B", 38 * mm},
               {"Time", 19 * mm, Align::right},
               {"Off, stop", 18 * mm, Align::right},
               {"Odds", 23 * mm, Align::right},
               {"Timed", 14 * mm}},
              {}};
  int place = 0;
  for (const TimerSpeed& t : s.speeds) {
    if (t.lack != Lack::none) continue;
    table.rows.push_back({std::to_string(++place), speed_text(t.marked), parts_text(s, t.position),
                          reading_text(s, t), time_text(t.spread.time),
                          signed_stops(t.spread.error), odds_text(t.spread.yield), ""});
  }
  table.rows.push_back({std::to_string(++place), "B", "none, left open", "open", "", "", "", ""});
  return table;
}

std::string missing_words(const TimerStudy& s) {
  std::string words;
  for (const TimerSpeed& t : s.speeds) {
    if (t.lack == Lack::none) continue;
    words += fmt::format("{}{} can't be had: {}.", words.empty() ? "" : " ", speed_text(t.marked),
                         t.why);
  }
  return words;
}

std::string trimmer_words(const TimerStudy& s) {
  std::string list;
  for (const TimerSpeed& t : s.speeds) {
    if (!t.trimmer) continue;
    list += fmt::format("{}{}: {}", list.empty() ? "" : "; ", speed_text(t.marked),
                        trimmer_text(*t.trimmer));
  }
  if (list.empty()) return {};
  return "Odds are poor for some speeds. Set these by a recording, with a trimmer in place of the "
         "resistor: " +
         list + ".";
}

// "750 Ω, 2 × 8.2 kΩ": values in rising order with how many of each.
std::string resistor_list(const TimerStudy& s) {
  std::vector<Resistance> parts = s.design.parts;
  std::ranges::sort(parts);
  std::string list;
  for (auto it = parts.begin(); it != parts.end();) {
    const auto end = std::find_if(it, parts.end(), [&](Resistance r) { return r != *it; });
    list += list.empty() ? "" : ", ";
    if (end - it > 1) list += fmt::format("{} × ", end - it);
    list += resistance_text(*it);
    it = end;
  }
  return list;
}

void add_parts(Flow& flow, const Report& report) {
  const Assembly& a = report.assembly;
  const TimerStudy& s = *report.timer;
  const TimerPlan plan = a.plan.timer.value_or(TimerPlan{});
  PriceList list(a.plan.prices);
  const auto count = static_cast<int>(s.design.parts.size());
  std::optional<double> resistors;
  if (plan.resistor_price) resistors = count * plan.resistor_price->value.amount;
  list.add(fmt::format("resistors, {:g} %: {}", 100 * s.tolerance, resistor_list(s)), count,
           resistors);
  list.add(plan.parts);
  flow.together([&] {
    flow.heading("Timer: parts and cost");
    flow.table(list.table("Timer in all"));
    flow.paragraph(plan.parts.empty()
                       ? fmt::format("And a rotary switch of {} places or more, break before make, "
                                     "a plug and socket of two contacts, thin wire, a box.",
                                     s.design.positions.size() + 1)
                       : "A module such as this costs about as much as a film: common practice.",
                   small_text);
  });
}

void add_box(Flow& flow, const TimerBox& box) {
  flow.together([&] {
    flow.heading("Timer: box to print");
    flow.block(box_drawing_height(box),
               [&box](Sheet& sheet, PagePoint at) { draw_timer_box(sheet, at, box); });
  });
  flow.paragraph(fmt::format(
      "Tray and panel print as they lie in their files, the panel's face on the bed, without "
      "supports. The dial is engraved {} deep: rub paint in and wipe it off. Hold the switch by "
      "its "
      "nut, turn its stop so that the knob's line meets the first mark, and lead the wire out "
      "through the notch in the tray's rim, with a knot inside.",
      text(box.dial.engraving)));
}

void add_timer_steps(Flow& flow, const TimerStudy& s) {
  flow.heading("Timer: steps, in order");
  int number = 0;
  const auto step = [&](std::string title, std::string text,
                        std::vector<std::string> cautions = {}) {
    flow.step({++number, std::move(title), std::move(text), std::move(cautions)});
  };
  step(
      "Make the camera safe",
      "Take the cells out. Look whether the camera holds a flash circuit or a capacitor for one, "
      "and stop here if it does.",
      {"A flash capacitor holds a dangerous charge for days to weeks with the cells out. Leave its "
       "discharge to somebody qualified.",
       "Old cells leak and may burst: gloves and eye protection, never open or charge them, "
       "hazardous waste by the local rules."});
  step("Free the photocell",
       "Find its two wires, mark which contact each came from, and part them from the cell. Keep "
       "the "
       "cell: the conversion can be undone. One wire becomes A, the other B; with resistors either "
       "way round will do.",
       {"Solder with the cells out and with ventilation; wash your hands after leaded solder."});
  step(
      "Bring A and B out",
      "To a socket of two contacts on the body, not one that mains or audio leads fit. Relieve the "
      "wires of pull, and keep the hole tight against light.");
  step("Wire the switch",
       s.wiring == SwitchWiring::chain
           ? "As drawn from its lugs: the links from lug to lug, the first between plug B and lug "
             "1, "
             "A on the moving contact. The place for B stays empty."
           : "As drawn from its lugs: each resistor from its lug to the common wire B, A on the "
             "moving contact. The place for B stays empty.",
       {"This circuit runs on the camera's own cells alone. Never connect it to the mains or to a "
        "charger."});
  step("Measure before you plug it in",
       "Unplugged, an ohmmeter from A to B must read, place by place, what the table says.");
  step("Time it",
       "Cells in, film out, back open: record each speed three times and write the times into the "
       "table. Where they lie off by more than is allowed, add them to the camera file as trials "
       "and "
       "make this sheet anew.");
  step(
      "Try B",
      "At B nothing ends the exposure but the release: look whether this shutter closes when it is "
      "let go. If it doesn't, take the plug out to end it, and don't leave it so: the magnet draws "
      "current as long as it is open.");
}

}  // namespace

void add_timer(Flow& flow, const Report& report) {
  const TimerStudy& s = *report.timer;
  flow.new_page();
  flow.heading("Shutter timed by hand");
  if (!s.fit) {
    flow.paragraph("Not known yet: see the findings. Two trial resistors and their times tell it.");
    return;
  }
  flow.paragraph(law_words(s));
  if (const std::string words = missing_words(s); !words.empty()) {
    flow.boxed({Sign::warning, "Speeds that this shutter doesn't give", words});
  }
  if (s.design.positions.empty()) return;
  flow.table(speed_table(s));
  if (const std::string words = trimmer_words(s); !words.empty()) flow.paragraph(words);
  flow.paragraph(
      "Off: marked values against what the speed means. Odds: that it lies within what is allowed, "
      "with the tolerance of the parts and the doubt of the law. The circuit of each place was "
      "simulated; see the findings for any that failed.",
      small_text);
  flow.together([&] {
    flow.heading("Timer: circuit");
    flow.block(circuit_height(s), [&s](Sheet& sheet, PagePoint at) { draw_circuit(sheet, at, s); });
  });
  flow.together([&] {
    flow.heading("Timer: switch from its lugs");
    flow.block(lugs_height, [&s](Sheet& sheet, PagePoint at) { draw_lugs(sheet, at, s); });
  });
  const auto box = timer_box(report.assembly, s);
  if (box) add_box(flow, *box);
  add_parts(flow, report);
  add_timer_steps(flow, s);
}

}  // namespace backfit::paper
