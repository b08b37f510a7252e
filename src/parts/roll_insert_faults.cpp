// SPDX-License-Identifier: MIT
// What keeps an insert from being made, or film from going in.
#include <algorithm>
#include <cassert>
#include <utility>

#include "parts/fault_list.hpp"
#include "parts/insert_shapes.hpp"
#include "parts/roll_insert.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Something in a cheek as seen across the film: round, or an upright strip that is open backwards.
struct CheekFeature {
  std::string name;
  SectionPoint at;
  Length half;  // radius, or half the strip's width
  bool strip = false;
};

Length apart(const CheekFeature& a, const CheekFeature& b) {
  if (!a.strip && !b.strip) return distance(a.at, b.at) - a.half - b.half;
  if (a.strip && b.strip) return abs(a.at.x - b.at.x) - a.half - b.half;
  const CheekFeature &strip = a.strip ? a : b, &round = a.strip ? b : a;
  const Strand middle{strip.at, {strip.at.x, 1000 * mm}};
  return distance(round.at, middle) - strip.half - round.half;
}

class FaultFinder {
 public:
  explicit FaultFinder(const RollInsert& insert) : i_(insert) {}

  std::vector<PartFault> faults() && {
    find_sizes();
    if (!faults_.clean())
      return std::move(faults_).take();  // distances mean something between real sizes
    find_walls();
    find_gate();
    find_spools();
    find_cheek_features();
    find_rollers();
    find_room_beside();
    find_window();
    return std::move(faults_).take();
  }

 private:
  void find_sizes() {
    const RollInsert& i = i_;
    const std::pair<const char*, Length> sizes[] = {
        {"the gap of the printer's gauge", i.gap},
        {"the smallest wall", i.smallest_wall},
        {"the inside along the film", i.body.half_length},
        {"the inside across the film", i.body.half_width},
        {"the wall", i.body.wall},
        {"the cheek's thickness", i.body.cheek},
        {"the depth", i.body.back - i.body.front},
        {"the frame's length", i.gate.frame_length},
        {"the frame's width", i.gate.frame_width},
        {"the floor's length in the gate", i.gate.spigot_half_length},
        {"the floor's width in the gate", i.gate.spigot_half_width},
        {"the floor's thickness", i.gate.floor - i.gate.front},
        {"the film channel", i.gate.seat},
        {"the lip", i.trap.lip},
        {"the lip's depth", i.trap.depth},
        {"the pressure plate's thickness", i.plate.thickness},
        {"the spool's length", i.spools.length},
        {"the spool's play", i.spools.play},
        {"the spool's flange", i.spools.flange},
        {"the hole in the spool's end", i.spools.end_hole - 2 * i.gap},
        {"the slot's length", i.spools.slot_length - 2 * i.gap},
        {"the slot's width", i.spools.slot_width - 2 * i.gap},
        {"a pin's reach into the spool", i.spools.stub},
        {"the felt pad", i.spools.pad},
        {"the knob's diameter", i.knob.diameter},
        {"the lid's screws", i.pilot()}};
    for (const auto& [name, size] : sizes) faults_.need_size(name, size);
  }

  void find_walls() {
    const RollInsert& i = i_;
    const Length wall = i.smallest_wall;
    const std::string thicker = "a finer nozzle makes thinner walls";
    faults_.need("insert-wall-thin", "the insert's walls are", i.body.wall, wall, thicker);
    faults_.need("insert-wall-thin", "the lid's lip is", i.trap.lip, wall, thicker);
    faults_.need("insert-wall-thin", "the floor in the old gate is", i.gate.floor - i.gate.front,
                 wall, thicker);
    faults_.need("insert-wall-thin", "the pressure plate is", i.plate.thickness, wall, thicker);
    faults_.need("insert-wall-thin", "the cheeks are", i.body.cheek,
                 std::max({
                     i.rim(),
                     i.ear_groove() + wall,
                     i.spools.collar_depth + i.spools.pad_depth + wall,
                 }),
                 "thicker cheeks");
    faults_.need("insert-wall-thin", "the window's picture leaves beside the floor's edge",
                 i.gate.spigot_half_width - i.gate.frame_width / 2, wall, "a narrower picture");
    faults_.need("insert-wall-thin", "the knob's tail is", i.knob.tail, i.knob.screw + 2 * wall,
                 "a thicker tail");
    const Length key = hypot(i.spools.slot_length, i.spools.slot_width);
    faults_.need("insert-wall-thin", "the journal of the drive shaft is", i.spools.journal, key,
                 "a thicker journal");
    faults_.need("insert-wall-thin", "the step of a pin's collar is",
                 (i.spools.collar - i.spools.journal) / 2 - 2 * i.gap, wall, "a wider collar");
  }

  void find_gate() {
    const RollInsert& i = i_;
    const RollInsert::Gate& g = i.gate;
    faults_.need("gate-too-narrow",
                 "the floor in the old gate, on whose edges the cheeks stand, reaches",
                 g.spigot_half_width, i.body.half_width + i.smallest_wall,
                 "widen the old gate by " +
                     text(2 * (i.body.half_width + i.smallest_wall - g.spigot_half_width), 1) +
                     " across the film");
    faults_.need("gate-too-short", "the floor in the old gate, which carries the rails, reaches",
                 g.spigot_half_length, std::max(-g.rails_low, g.rails_high),
                 "lengthen the old gate by " +
                     text(2 * (std::max(-g.rails_low, g.rails_high) - g.spigot_half_length), 1) +
                     " along the film");
    faults_.need(
        "rails-short", "beside the picture the rails reach",
        std::min(-g.rails_low - g.radius_low, g.rails_high - g.radius_high) - g.frame_length / 2,
        smallest_detail, "a layout with longer rails");
    faults_.need("film-too-wide", "between the pressure plate's seats there is half",
                 i.body.half_width - i.smallest_wall, i.spools.film_width / 2 + i.gap,
                 "a longer spool, or narrower seats");
    faults_.need("insert-plate-clash", "the lid lies behind the pressure plate by",
                 i.body.back - g.seat - i.plate.thickness - i.plate.foam, i.smallest_wall,
                 "a thinner pressure plate");
  }

  Region rim(double end) const {
    const Length outside = i_.half_length(), back = i_.body.back;
    const Length inside = i_.body.half_length, edge = std::min(inside, outside - i_.rim());
    const Length under = back - i_.trap.depth - i_.gap - i_.smallest_wall;
    std::vector<SectionPoint> corners{{outside, under - (inside - edge)},
                                      {outside, back},
                                      {edge, back},
                                      {edge, under},
                                      {inside, under - (inside - edge)}};
    if (end < 0) {
      for (SectionPoint& c : corners) c.x = -c.x;
      std::ranges::reverse(corners);
    }
    return {"rim", corners};
  }

  void find_spools() {
    const RollInsert& i = i_;
    const RollInsert::Spools& s = i.spools;
    const std::pair<const char*, SectionPoint> spools[] = {{"supply spool", s.supply},
                                                           {"take-up spool", s.take_up}};
    for (const auto& [name, at] : spools) {
      for (const double end : {-1.0, 1.0}) {
        faults_.need(
            "insert-rim-clash", "between the " + std::string(name) + " and the lid's seat lie",
            gap(rim(end), Disc{at, s.flange}), i.gap,
            "a printer with a smaller clearance or nozzle makes a narrower rim; else a longer "
            "chamber");
      }
      const SpoolWay way = way_out(i, at);
      faults_.need("spool-no-way-in",
                   "the " + std::string(name) + " comes in through the back, at best slanted by " +
                       fixed(abs(way.slant) / deg, 0) + "°, with a free",
                   way.free, i.gap, "load it with the rollers out, or make the chamber longer");
    }
    faults_.need("insert-sizes-differ", "between the cheeks there is", 2 * i.body.half_width,
                 s.length + 2 * s.play, "wider apart");
    faults_.need("brake-no-place", "the felt pad beside the supply spool's bore measures", s.pad,
                 3 * mm, "a smaller collar");
  }

  void find_cheek_features() {
    const RollInsert& i = i_;
    const Length collar = i.spools.collar / 2 + i.gap;
    std::vector<CheekFeature> features{{"supply spool's bore", i.spools.supply, collar},
                                       {"take-up spool's bore", i.spools.take_up, collar}};
    for (std::size_t k = 0; k < i.rollers.size(); ++k) {
      features.push_back(
          {"rod of roller " + std::to_string(k + 1), i.rollers[k].centre, i.rod / 2 + i.gap});
    }
    for (std::size_t k = 0; k < i.plate.ears.size(); ++k) {
      features.push_back({"groove " + std::to_string(k + 1) + " of the pressure plate",
                          {i.plate.ears[k], i.gate.seat},
                          i.plate.ear_width / 2,
                          true});
    }
    for (std::size_t a = 0; a < features.size(); ++a) {
      for (std::size_t b = a + 1; b < features.size(); ++b) {
        faults_.need(
            "cheek-crowded",
            "in a cheek the " + features[a].name + " and the " + features[b].name + " leave",
            apart(features[a], features[b]), i.smallest_wall, "another layout");
      }
      const CheekFeature& f = features[a];
      if (f.strip) continue;
      faults_.need("cheek-crowded", "the " + f.name + " leaves to the front edge of the cheek",
                   f.at.z - f.half - i.body.front, i.smallest_wall,
                   "another layout, or a deeper chamber before the film");
      faults_.need("cheek-crowded", "the " + f.name + " leaves to the lid's groove",
                   i.body.back - i.trap.depth - i.gap - f.at.z - f.half, i.smallest_wall,
                   "a deeper chamber");
      faults_.need("cheek-crowded", "the " + f.name + " leaves to the end of the cheek",
                   i.half_length() - abs(f.at.x) - f.half, i.smallest_wall, "a longer chamber");
    }
    if (i.plate.ears.size() < 2) {
      faults_.add("plate-unguided",
                  "the cheeks have no place for two grooves of the pressure plate",
                  "another layout, or a smaller collar");
    }
    const Length beside =
        std::min(abs(i.screws.x - i.spools.supply.x), abs(i.screws.x - i.spools.take_up.x)) -
        i.spools.collar / 2 - i.boss() / 2;
    faults_.need("cheek-crowded", "beside the lid's screws the pins leave", beside, i.gap,
                 "another place for the screws");
  }

  void find_rollers() {
    const RollInsert& i = i_;
    for (std::size_t k = 0; k < i.rollers.size(); ++k) {
      const RollInsert::Roller& r = i.rollers[k];
      const std::string name = "roller " + std::to_string(k + 1);
      faults_.need("roller-thin", name + " has a radius of", r.radius, i.least_hub(),
                   "a rod of " + text(i.rod - 2 * (i.least_hub() - r.radius), 1));
      for (const SectionPoint spool : {i.spools.supply, i.spools.take_up}) {
        faults_.need("roller-clash", "beside the hub of " + name + " a flange leaves",
                     distance(spool, r.centre) - i.spools.flange - r.hub, i.gap,
                     "tubes of thin steel in place of its hubs");
      }
      faults_.need("roller-thin", name + " has hubs of", r.hub, i.least_hub(),
                   "tubes of thin steel in place of its hubs");
    }
  }

  void find_room_beside() {
    const RollInsert& i = i_;
    const Length room = i.knob.chamber_half;
    const auto need_beside = [&](const char* id, const std::string& what, Length needed) {
      faults_.need(id, what, room, needed,
                   "widen the chamber there by " + text(needed - room, 1) +
                       " to each side, or make " + "what stands out of thin metal");
    };
    need_beside("insert-too-wide", "for the lid's screws the chamber reaches to each side",
                ear_reach(i) + i.knob.clearance);
    need_beside("pin-not-drawn",
                "to free a spool its pins are drawn by " + text(draw_of(i)) +
                    "; the chamber reaches to each side",
                i.half_width() + i.spools.head + draw_of(i));
    const Length cone = (i.spools.collar - i.knob.tail) / 2;
    need_beside("pin-not-drawn",
                "the knob draws the drive shaft by " + text(draw_of(i)) +
                    "; the chamber reaches to that side",
                i.half_width() + cone + draw_of(i));
    faults_.need("knob-clash", "between the middles of knob and supply spool's pin there is",
                 distance(i.spools.supply, i.spools.take_up), i.knob.tail / 2 + i.spools.collar / 2,
                 "another layout");
  }

  void find_window() {
    if (!i_.window) return;
    const RollInsert::Window& w = *i_.window;
    const Length tube = w.filter / 2 + i_.gap + i_.smallest_wall;
    for (const SectionPoint spool : {i_.spools.supply, i_.spools.take_up}) {
      // Between the flanges the tube passes beside the roll.
      const Region round =
          box("tube", {w.x - tube, w.end}, {w.x + tube, std::max(w.end, i_.body.back)});
      faults_.need("window-clash", "beside the window's tube a full roll leaves",
                   gap(round, Disc{spool, i_.spools.full}), i_.gap, "wind by the table of turns");
    }
    faults_.need("window-clash", "the window's tube leaves to the flanges",
                 i_.spools.film_width / 2 - abs(w.y) - tube, i_.gap, "wind by the table of turns");
    faults_.need("window-clash", "in front of its filter the window is wide", w.filter - 3 * mm,
                 4 * mm, "a larger filter");
  }

  const RollInsert& i_;
  FaultList faults_{"insert-size"};
};

}  // namespace

SpoolWay way_out(const RollInsert& i, SectionPoint spool) {
  const Length flange = i.spools.flange, full = i.spools.full;
  const Length out = i.body.back + flange;  // there it is free
  const Length inside = i.body.half_length, edge = std::min(inside, i.half_length() - i.rim());
  const Length under = i.body.back - i.trap.depth - i.gap - i.smallest_wall;
  const SectionPoint other = spool == i.spools.supply ? i.spools.take_up : i.spools.supply;
  SpoolWay best{{}, -largest_size};
  for (int k = 0; k <= 18; ++k) {  // straight first, then a little to either side
    const Angle slant = 5 * (k % 2 == 0 ? k / 2 : -(k + 1) / 2) * deg;
    const Length reach = std::max(Length{}, out - spool.z);
    const Strand way{spool, {spool.x + reach * tan(slant), out}};
    Length free = largest_size;
    const auto keep = [&](Length there) { free = std::min(free, there); };
    for (const double end : {-1.0, 1.0}) {
      const Strand rim_face{{end * edge, under}, {end * edge, i.body.back}};
      const Strand wall{{end * inside, i.body.front}, {end * inside, under - (inside - edge)}};
      keep(distance(way, rim_face) - flange);
      keep(distance(way, wall) - flange);
    }
    for (const RollInsert::Roller& r : i.rollers) {
      keep(distance(r.centre, way) - flange - r.hub);
      keep(distance(r.centre, way) - full - r.radius);
    }
    keep(distance(other, way) - 2 * flange);
    const Length half = i.plate.half_length, plate = i.gate.seat + i.plate.thickness;
    keep(gap(box("plate", {-half, Length{}}, {half, plate}), way) - flange);
    if (free > best.free + FaultList::rounding) best = {slant, free};
  }
  return best;
}

std::vector<PartFault> faults(const RollInsert& insert) { return FaultFinder(insert).faults(); }

}  // namespace backfit
