// SPDX-License-Identifier: MIT
#include "documents/timer_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "conversion/timer_words.hpp"
#include "documents/document.hpp"
#include "timer/speeds.hpp"

namespace backfit::paper {
namespace {

constexpr Length head_room = 16 * mm;
constexpr Length resistor_long = 9 * mm, resistor_wide = 3 * mm;
constexpr TextStyle tiny{.size = 7 * point};

// Two resistors side by side need more room than one, or than two in a row.
Length row_height(const TimerStudy& study) {
  return (study.wiring == SwitchWiring::two_each ? 10.2 : 8.3) * mm;
}

void wire(Sheet& sheet, const std::vector<PagePoint>& points) {
  sheet.stroke(polyline(points), LineStyle::border);
}
void junction(Sheet& sheet, PagePoint at) { sheet.fill(circle(at, 0.7 * mm), Ink::black); }
void terminal(Sheet& sheet, PagePoint at) {
  sheet.fill(circle(at, 0.9 * mm), Ink::white);
  sheet.stroke(circle(at, 0.9 * mm), LineStyle::border);
}

// A fixed resistor: a rectangle three times as long as wide, centred.
void resistor(Sheet& sheet, PagePoint centre, Angle along = {}) {
  const double c = cos(along), s = -sin(along);  // y runs down on the page
  const auto at = [&](double u, double v) {
    const Length x = u * resistor_long / 2, y = v * resistor_wide / 2;
    return PagePoint{centre.x + c * x - s * y, centre.y + s * x + c * y};
  };
  const Path box = polygon({at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)});
  sheet.fill(box, Ink::white);
  sheet.stroke(box, LineStyle::border);
}

void label(Sheet& sheet, PagePoint at, const std::string& text, Align align,
           TextStyle style = tiny) {
  style.align = align;
  sheet.label(at, text, style);
}

std::vector<const TimerSpeed*> positions_of(const TimerStudy& study) {
  std::vector<const TimerSpeed*> list;
  for (const TimerSpeed& speed : study.speeds) {
    if (speed.lack == Lack::none) list.push_back(&speed);
  }
  return list;
}

// What stands in the camera, its two cell wires ending at `upper` and `lower`.
void draw_camera(Sheet& sheet, PagePoint corner, PagePoint upper, PagePoint lower, Length height) {
  sheet.stroke(rectangle(corner, {corner.x + 62 * mm, corner.y + height}), LineStyle::hidden);
  label(sheet, {corner.x + 2 * mm, corner.y + 4.5 * mm}, "in the camera, as it is", Align::left,
        {.size = 8 * point, .bold = true});
  const Length left = corner.x + 9 * mm, middle = corner.x + 33 * mm;
  const Length top = upper.y, ground = corner.y + height - 8 * mm;
  // Battery: longer line positive.
  const Length cell = (top + ground) / 2;
  wire(sheet, {{left, top}, {left, cell - 1 * mm}});
  sheet.stroke(polyline({{left - 4 * mm, cell - 1 * mm}, {left + 4 * mm, cell - 1 * mm}}),
               LineStyle::border);
  sheet.stroke(polyline({{left - 2 * mm, cell + 1 * mm}, {left + 2 * mm, cell + 1 * mm}}),
               LineStyle::outline);
  wire(sheet, {{left, cell + 1 * mm}, {left, ground}});
  label(sheet, {left + 3 * mm, cell - 2.5 * mm}, "+", Align::left);
  label(sheet, {left + 5 * mm, cell + 1 * mm}, "cells", Align::left);
  wire(sheet, {{left, top}, upper});
  // Capacitor between the lower wire and ground.
  const Length plate = (lower.y + ground) / 2;
  wire(sheet, {lower, {middle, lower.y}, {middle, plate - 0.8 * mm}});
  for (const Length y : {plate - 0.8 * mm, plate + 0.8 * mm}) {
    sheet.stroke(polyline({{middle - 4 * mm, y}, {middle + 4 * mm, y}}), LineStyle::outline);
  }
  wire(sheet, {{middle, plate + 0.8 * mm}, {middle, ground}, {left, ground}});
  junction(sheet, {middle, lower.y});
  label(sheet, {middle - 5.5 * mm, plate + 1 * mm}, "C", Align::right);
  // The threshold stage: a box that says what it does.
  const PagePoint stage{corner.x + 44 * mm, lower.y + 6 * mm};
  wire(sheet, {{stage.x + 7 * mm, lower.y}, {stage.x + 7 * mm, stage.y}});
  junction(sheet, {stage.x + 7 * mm, lower.y});
  sheet.stroke(rectangle(stage, {stage.x + 14 * mm, stage.y + 14 * mm}), LineStyle::border);
  sheet.text({stage.x + 1 * mm, stage.y + 1.5 * mm}, "at k of the supply: shutter closes",
             {.size = 6.5 * point, .align = Align::centre}, 12 * mm);
}

// Resistors of one row between its contact and the common wire.
void draw_row(Sheet& sheet, const TimerStudy& study, const TimerSpeed& speed, PagePoint contact,
              Length common) {
  const SwitchPosition& p = study.design.positions[speed.position];
  const auto value = [&](std::size_t i) { return resistance_text(study.design.parts[p.parts[i]]); };
  const Length y = contact.y;
  if (p.parts.size() == 2 && p.joint == Joint::parallel) {
    const Length x = contact.x + 30 * mm;
    wire(sheet, {contact, {x - 8 * mm, y}});
    wire(sheet, {{x + 8 * mm, y}, {common, y}});
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}}) {
      const Length at = y + (i == 0 ? -2.1 * mm : 2.1 * mm);
      wire(sheet, {{x - 8 * mm, y}, {x - 8 * mm, at}, {x + 8 * mm, at}, {x + 8 * mm, y}});
      resistor(sheet, {x, at});
      label(sheet, {x + 9.5 * mm, y + (i == 0 ? -0.9 * mm : 3.2 * mm)}, value(i), Align::left);
    }
    return;
  }
  wire(sheet, {contact, {common, y}});
  for (std::size_t i = 0; i < p.parts.size(); ++i) {
    const Length x = contact.x + (p.parts.size() == 1 ? 30 * mm : i == 0 ? 19 * mm : 42 * mm);
    resistor(sheet, {x, y});
    label(sheet, {x, y - 2.3 * mm}, value(i), Align::centre);
  }
}

// A link of the chain, upright between two taps.
void draw_link(Sheet& sheet, const TimerStudy& study, std::size_t link, PagePoint top,
               PagePoint bottom) {
  wire(sheet, {top, bottom});
  const PagePoint middle{top.x, (top.y + bottom.y) / 2};
  // Taps lie near each other: a shorter box of the same shape.
  const Path box = rectangle({middle.x - 1.1 * mm, middle.y - 3.1 * mm},
                             {middle.x + 1.1 * mm, middle.y + 3.1 * mm});
  sheet.fill(box, Ink::white);
  sheet.stroke(box, LineStyle::border);
  label(sheet, {middle.x + 2.4 * mm, middle.y + 0.9 * mm},
        resistance_text(study.design.parts[link]), Align::left);
}

}  // namespace

Length circuit_height(const TimerStudy& study) {
  const auto rows = double(positions_of(study).size() + 2);
  return std::max(78 * mm, head_room + rows * row_height(study));
}

void draw_circuit(Sheet& sheet, PagePoint corner, const TimerStudy& study) {
  const auto speeds = positions_of(study);
  const bool chain = study.wiring == SwitchWiring::chain;
  const Length height = circuit_height(study);
  const Length pitch = row_height(study);
  const Length first = corner.y + head_room + pitch;
  const PagePoint plug_b{corner.x + 69 * mm, corner.y + 12 * mm};
  const PagePoint plug_a{corner.x + 69 * mm, corner.y + 24 * mm};
  draw_camera(sheet, corner, plug_b, plug_a, std::min(height, 74 * mm));
  label(sheet, {plug_b.x, plug_b.y - 2.4 * mm}, "B", Align::centre,
        {.size = 8 * point, .bold = true});
  label(sheet, {plug_a.x, plug_a.y + 5 * mm}, "A", Align::centre,
        {.size = 8 * point, .bold = true});
  label(sheet, {plug_b.x, corner.y + 4.5 * mm}, "plug", Align::centre);

  const Length box_left = corner.x + 76 * mm;
  sheet.stroke(rectangle({box_left, corner.y}, {corner.x + content_width, corner.y + height}),
               LineStyle::hidden);
  label(sheet, {box_left + 2 * mm, corner.y + 4.5 * mm}, "in the timer", Align::left,
        {.size = 8 * point, .bold = true});
  const Length contacts = corner.x + 112 * mm, common = corner.x + 172 * mm;
  const Length taps = corner.x + 146 * mm;
  const auto row = [&](std::size_t i) { return first + double(i) * pitch; };
  const Length last = row(speeds.size());

  // The wiper on the first contact; the pivot beside the middle of the row.
  const PagePoint pivot{corner.x + 88 * mm, (first + last) / 2};
  wire(sheet, {plug_a, {corner.x + 82 * mm, plug_a.y}, {corner.x + 82 * mm, pivot.y}, pivot});
  sheet.stroke(polyline({pivot, {contacts - 1.4 * mm, first + 0.6 * mm}}), LineStyle::outline);
  junction(sheet, pivot);

  for (std::size_t i = 0; i < speeds.size(); ++i) {
    const PagePoint contact{contacts, row(i)};
    label(sheet, {contacts + 2 * mm, row(i) - 1.2 * mm}, speed_text(speeds[i]->marked),
          Align::left);
    if (chain) {
      wire(sheet, {contact, {taps, row(i)}});
      junction(sheet, {taps, row(i)});
      const PagePoint above{taps, i == 0 ? first - pitch : row(i - 1)};
      draw_link(sheet, study, i, above, {taps, row(i)});
    } else {
      draw_row(sheet, study, *speeds[i], contact, common);
      junction(sheet, {common, row(i)});
    }
    terminal(sheet, contact);
  }
  terminal(sheet, {contacts, last});
  label(sheet, {contacts + 2 * mm, last - 1.2 * mm}, "B", Align::left);
  label(sheet, {contacts + 8 * mm, last + 0.9 * mm}, "left open", Align::left);

  // The common wire from the plug, above the rows.
  if (!speeds.empty()) {
    const Length x = chain ? taps : common;
    wire(sheet, {plug_b, {x, plug_b.y}, {x, chain ? first - pitch : row(speeds.size() - 1)}});
  }
  terminal(sheet, plug_a);
  terminal(sheet, plug_b);
}

namespace {

constexpr Length body = 23 * mm, lug = 28 * mm, ring = 44 * mm;

// The lugs of a switch around `centre`, counted from the upper left counterclockwise: the switch is
// seen from behind, and turns clockwise from the front.
struct LugCircle {
  PagePoint centre;
  std::size_t places;

  Angle turn(double step) const { return (105 + 360 * step / double(places)) * deg; }
  PagePoint operator()(Length radius, double step) const {
    return {centre.x + radius * cos(turn(step)), centre.y - radius * sin(turn(step))};
  }
  // Words that begin or end at a point outside, away from the centre.
  void outside(Sheet& sheet, Length radius, double step, const std::string& text) const {
    const PagePoint at = (*this)(radius, step);
    const double side = (at.x - centre.x) / radius;
    label(sheet, {at.x, at.y + 0.9 * mm}, text,
          side < -0.2  ? Align::right
          : side > 0.2 ? Align::left
                       : Align::centre);
  }
};

// The links from lug to lug, the first from plug B.
void draw_lug_chain(Sheet& sheet, const LugCircle& at, const TimerStudy& study, std::size_t count) {
  for (std::size_t i = 0; i + 1 < count; ++i) {
    const auto step = double(i);
    const PagePoint from = at(lug, step), to = at(lug, step + 1);
    wire(sheet, {from, to});
    resistor(sheet, {(from.x + to.x) / 2, (from.y + to.y) / 2}, at.turn(step + 0.5) + 90 * deg);
    at.outside(sheet, lug + 3.5 * mm, step + 0.5, resistance_text(study.design.parts[i + 1]));
  }
  wire(sheet, {at(lug, 0), at(ring, 0)});
  resistor(sheet, at((lug + ring) / 2, 0), at.turn(0));
  const PagePoint beside = at((lug + ring) / 2, 0);
  label(sheet, {beside.x + 3 * mm, beside.y}, resistance_text(study.design.parts[0]), Align::left);
}

// A resistor from each lug to the wire around them all.
void draw_lug_star(Sheet& sheet, const LugCircle& at, const TimerStudy& study,
                   const std::vector<const TimerSpeed*>& speeds) {
  if (speeds.size() > 1) {
    sheet.stroke(arc(at.centre, ring, at.turn(0), at.turn(double(speeds.size()) - 1)),
                 LineStyle::outline);
  }
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    const auto step = double(i);
    wire(sheet, {at(lug, step), at(ring, step)});
    resistor(sheet, at((lug + ring) / 2, step), at.turn(step));
    if (i > 0) junction(sheet, at(ring, step));
    at.outside(sheet, ring + 2.5 * mm, step == 0 ? 0.3 : step,
               parts_text(study, speeds[i]->position));
  }
}

}  // namespace

void draw_lugs(Sheet& sheet, PagePoint corner, const TimerStudy& study) {
  const auto speeds = positions_of(study);
  const LugCircle at{{corner.x + content_width / 2, corner.y + lugs_above},
                     std::max<std::size_t>(12, speeds.size() + 1)};
  sheet.stroke(circle(at.centre, body), LineStyle::border);
  sheet.stroke(circle(at.centre, 3.5 * mm), LineStyle::dimension);
  label(sheet, {at.centre.x, at.centre.y + 1 * mm}, "A", Align::centre,
        {.size = 8 * point, .bold = true});
  for (std::size_t i = 0; i < at.places; ++i) {
    sheet.stroke(polyline({at(body, double(i)), at(lug, double(i))}), LineStyle::outline);
    const PagePoint inside = at(body - 6 * mm, double(i));
    label(sheet, {inside.x, inside.y + 0.9 * mm},
          i < speeds.size()    ? speed_text(speeds[i]->marked)
          : i == speeds.size() ? "B"
                               : "–",
          Align::centre);
  }
  if (!speeds.empty()) {
    if (study.wiring == SwitchWiring::chain) {
      draw_lug_chain(sheet, at, study, speeds.size());
    } else {
      draw_lug_star(sheet, at, study, speeds);
    }
    const PagePoint out = at(ring, 0);
    terminal(sheet, out);
    label(sheet, {out.x + 2.2 * mm, out.y - 0.6 * mm}, "B, to the plug", Align::left);
  }
  for (std::size_t i = 0; i < at.places; ++i) terminal(sheet, at(lug, double(i)));
}

}  // namespace backfit::paper
