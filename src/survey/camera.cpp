// SPDX-License-Identifier: MIT
#include "survey/camera.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, Construction>> choices_of<Construction>() {
  static constexpr std::pair<std::string_view, Construction> list[] = {
      {"folding", Construction::folding},
      {"plate", Construction::plate},
      {"box", Construction::box},
      {"rigid", Construction::rigid}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, LensMotion>> choices_of<LensMotion>() {
  static constexpr std::pair<std::string_view, LensMotion> list[] = {
      {"standard", LensMotion::standard},
      {"front element", LensMotion::front_element},
      {"fixed", LensMotion::fixed}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, FinderCoupling>> choices_of<FinderCoupling>() {
  static constexpr std::pair<std::string_view, FinderCoupling> list[] = {
      {"standard", FinderCoupling::standard},
      {"front element", FinderCoupling::front_element},
      {"not coupled", FinderCoupling::none}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, ShutterTiming>> choices_of<ShutterTiming>() {
  static constexpr std::pair<std::string_view, ShutterTiming> list[] = {
      {"mechanical", ShutterTiming::mechanical},
      {"photocell", ShutterTiming::photocell},
      {"single speed", ShutterTiming::single_speed}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, Sync>> choices_of<Sync>() {
  static constexpr std::pair<std::string_view, Sync> list[] = {
      {"none", Sync::none}, {"X", Sync::x}, {"M", Sync::m}, {"X and M", Sync::x_and_m}};
  return list;
}

template <>
std::span<const std::pair<std::string_view, FilmRun>> choices_of<FilmRun>() {
  static constexpr std::pair<std::string_view, FilmRun> list[] = {
      {"up and down", FilmRun::up}, {"side to side", FilmRun::across}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, PlateRest>> choices_of<PlateRest>() {
  static constexpr std::pair<std::string_view, PlateRest> list[] = {
      {"against the front", PlateRest::front}, {"on the floor", PlateRest::floor}};
  return list;
}

template <>
std::span<const std::pair<std::string_view, CameraWall>> choices_of<CameraWall>() {
  static constexpr std::pair<std::string_view, CameraWall> list[] = {
      {"left", CameraWall::left},
      {"right", CameraWall::right},
      {"top", CameraWall::top},
      {"bottom", CameraWall::bottom}};
  return list;
}

void describe(Fields& f, Outline& o) {
  f.value("name", o.name, {"what it is", "bellows frame"});
  f.value("width", o.width, {"width of a rectangle", "90.0 mm ± 0.1", Tool::caliper});
  f.value("height", o.height, {"height of a rectangle", "112.0 mm ± 0.1", Tool::caliper});
  f.value("diameter", o.diameter, {"diameter of a circle", "60.0 mm ± 0.1", Tool::caliper});
  f.values("corners_x", o.corners_x,
           {"right of the axis, each corner of any other shape", "-40 mm, 40 mm, 30 mm", Tool::none,
            Sign::any},
           false);
  f.values("corners_y", o.corners_y,
           {"above the axis, the same corners in the same order", "-50 mm, -50 mm, 50 mm",
            Tool::none, Sign::any},
           false);
  f.value("x", o.x,
          {"middle of rectangle or circle right of the axis; leave out if it is centred",
           "40.0 mm ± 0.2", Tool::caliper, Sign::any});
  f.value("y", o.y,
          {"middle of rectangle or circle above the axis", "0 mm ± 0.2", Tool::caliper, Sign::any});
  f.value("before_film", o.before_film,
          {"how far it lies in front of the original film plane", "30 mm ± 0.5", Tool::ruler});
}

void describe(Fields& f, Gate& g) {
  f.value("width", g.width, {"clear width, seen from behind", "73.0 mm ± 0.1", Tool::caliper});
  f.value("height", g.height, {"clear height", "95.0 mm ± 0.1", Tool::caliper});
  f.value("before_film", g.before_film,
          {"from the edge that cuts the light to the original film plane", "0.6 mm ± 0.1",
           Tool::caliper, Sign::not_negative});
}

void describe(Fields& f, ScrewPlace& s) {
  f.value("x", s.x,
          {"right of the axis, seen from behind", "60.0 mm ± 0.1", Tool::caliper, Sign::any});
  f.value("y", s.y, {"above the axis", "70.0 mm ± 0.1", Tool::caliper, Sign::any});
}

void describe(Fields& f, SeatGroove& g) {
  f.value("inner_width", g.inner_width,
          {"width inside the groove's inner edge", "108.0 mm ± 0.1", Tool::caliper});
  f.value("inner_height", g.inner_height,
          {"height inside the groove's inner edge", "138.0 mm ± 0.1", Tool::caliper});
  f.value("inner_corner_radius", g.inner_corner_radius,
          {"radius of the inner edge at the corners; 0 mm if square", "3.0 mm ± 0.3", Tool::caliper,
           Sign::not_negative});
  f.value("width", g.width, {"width of the groove", "2.5 mm ± 0.1", Tool::caliper});
  f.value("depth", g.depth,
          {"depth of the groove, with the caliper's depth rod", "3.0 mm ± 0.1", Tool::caliper});
}

void describe(Fields& f, Neighbour& n) {
  f.value("name", n.name, {"what it is", "viewfinder"});
  f.value("x", n.x,
          {"its middle, right of the axis, seen from behind", "0.0 mm ± 0.5", Tool::caliper,
           Sign::any});
  f.value("y", n.y, {"its middle, above the axis", "98.0 mm ± 0.5", Tool::caliper, Sign::any});
  f.value("width", n.width, {"its size across", "40.0 mm ± 0.5", Tool::caliper});
  f.value("height", n.height, {"its size up and down", "24.0 mm ± 0.5", Tool::caliper});
  f.value("behind_seat", n.behind_seat,
          {"how far it stands behind the seat's face; negative if it ends before it",
           "12.0 mm ± 0.5", Tool::caliper, Sign::any});
  f.value("looked_through", n.looked_through,
          {"true for a finder or rangefinder, which the eye needs free from behind", "true"});
}

void describe(Fields& f, Seat& s) {
  f.value(
      "behind_film", s.behind_film,
      {"from the original film plane back to the seat; negative if the seat lies nearer the lens",
       "0.8 mm ± 0.1", Tool::caliper, Sign::any});
  f.value("width", s.width, {"width that the new back may cover", "134.0 mm ± 0.2", Tool::caliper});
  f.value("height", s.height,
          {"height that the new back may cover", "172.0 mm ± 0.2", Tool::caliper});
  f.value(
      "corner_radius", s.corner_radius,
      {"radius of its corners; 0 mm if square", "6.0 mm ± 0.5", Tool::caliper, Sign::not_negative});
  f.value("screw_diameter", s.screw_diameter,
          {"thread of the seat's screws", "2.0 mm ± 0.05", Tool::caliper});
  f.record("groove", s.groove, {"The groove around the back opening, which keeps light out"});
  f.records("screws", s.screws, {"A screw place on the seat, from the optical axis"}, true);
  f.records("neighbours", s.neighbours,
            {"Something beside the seat that a back could run into: finder, latch, bed"}, false);
}

void describe(Fields& f, SpoolRoom& s) {
  f.value("film_runs", s.film_runs, {"which way the film runs behind the gate"});
  f.value(
      "length", s.length,
      {"across the film, between what holds the ends of a spool", "76.5 mm ± 0.3", Tool::caliper});
  f.value("diameter", s.diameter,
          {"largest roll that has room in each chamber", "28.0 mm ± 0.5", Tool::caliper});
}

void describe(Fields& f, ChamberPart& p) {
  f.value("name", p.name, {"what it is", "old roller"});
  f.value("x", p.x,
          {"its middle, right of the axis, seen from behind", "0.0 mm ± 0.2", Tool::caliper,
           Sign::any});
  f.value("y", p.y, {"its middle, above the axis", "55.0 mm ± 0.2", Tool::caliper, Sign::any});
  f.value("width", p.width, {"its size across", "80.0 mm ± 0.2", Tool::caliper});
  f.value("height", p.height, {"its size up and down", "6.0 mm ± 0.2", Tool::caliper});
  f.value("behind_film", p.behind_film,
          {"from the original film plane back to its nearer face; negative if it begins before the "
           "film",
           "2.0 mm ± 0.2", Tool::caliper, Sign::any});
  f.value("depth", p.depth,
          {"from its nearer face to its farther one", "6.0 mm ± 0.2", Tool::caliper});
  f.value("may_be_cut", p.may_be_cut, {"whether you are willing to take it out", "true"});
}

void describe(Fields& f, Chamber& c) {
  f.value("width", c.width, {"clear width", "90.0 mm ± 0.2", Tool::caliper});
  f.value("height", c.height, {"clear height", "124.0 mm ± 0.2", Tool::caliper});
  f.value("before_film", c.before_film,
          {"from the front wall beside the gate to the original film plane", "2.0 mm ± 0.2",
           Tool::caliper, Sign::not_negative});
  f.value("behind_film", c.behind_film,
          {"from the original film plane to the inside of the closed back, or as far as a new back "
           "may reach",
           "36.0 mm ± 0.2", Tool::caliper});
  f.records("parts", c.parts, {"Something in the chamber that is in the way"}, false);
}

void describe(Fields& f, TabSlit& s) {
  f.value("wall", s.wall, {"the wall that it is in, seen from behind"});
  f.value("length", s.length, {"its length along the wall", "88.0 mm ± 0.2", Tool::caliper});
  f.value("height", s.height, {"its height along the light", "3.0 mm ± 0.1", Tool::caliper});
  f.value("behind_film", s.behind_film,
          {"from the original film plane back to its middle; negative if it lies before the film",
           "1.0 mm ± 0.2", Tool::caliper, Sign::any});
}

void describe(Fields& f, PackRoom& p) {
  f.value("width", p.width, {"clear width where the pack lay", "90.0 mm ± 0.2", Tool::caliper});
  f.value("height", p.height, {"clear height", "124.0 mm ± 0.2", Tool::caliper});
  f.value("before_film", p.before_film,
          {"from the face that the pack lay on back to the original film plane", "2.0 mm ± 0.1",
           Tool::caliper, Sign::not_negative});
  f.value("depth", p.depth,
          {"from that face to the inside of the closed back", "18.0 mm ± 0.2", Tool::caliper});
  f.record("slit", p.slit, {"The slit that the pack's tabs were drawn through"});
}

void describe(Fields& f, Sheath& s) {
  f.value("sheet_width", s.sheet_width,
          {"width of the largest sheet that slides in", "88.8 mm ± 0.2", Tool::caliper});
  f.value("sheet_height", s.sheet_height,
          {"height of the largest sheet that slides in", "118.8 mm ± 0.2", Tool::caliper});
  f.value("opening_width", s.opening_width,
          {"width that its lips leave open", "84.0 mm ± 0.2", Tool::caliper});
  f.value("opening_height", s.opening_height,
          {"height that its lips leave open", "114.0 mm ± 0.2", Tool::caliper});
  f.value("lip", s.lip,
          {"thickness of its lips, before the sheet", "0.25 mm ± 0.05", Tool::caliper});
  f.value(
      "slot", s.slot,
      {"height of the slot behind them that the sheet slides in", "0.40 mm ± 0.05", Tool::caliper});
  f.value("thickness", s.thickness,
          {"thickness of the sheath over all", "1.00 mm ± 0.05", Tool::caliper});
}

void describe(Fields& f, PlateHolder& h) {
  f.value("plate_rests", h.plate_rests,
          {"where a plate lies: pressed against the front lips by springs, or on the floor"});
  f.value("plate_thickness", h.plate_thickness,
          {"thickness of the plates that it was made for", "1.4 mm ± 0.2", Tool::caliper});
  f.record("sheath", h.sheath, {"The film sheath that lies in it in place of a plate"});
}

void describe(Fields& f, LensBoard& b) {
  f.value("width", b.width, {"width of a rectangular board", "60.0 mm ± 0.1", Tool::caliper});
  f.value("height", b.height, {"height of a rectangular board", "60.0 mm ± 0.1", Tool::caliper});
  f.value("diameter", b.diameter, {"diameter of a round flange", "52.0 mm ± 0.1", Tool::caliper});
  f.value("corner_radius", b.corner_radius,
          {"radius of a board's corners; left out: square", "3.0 mm ± 0.3", Tool::caliper,
           Sign::not_negative});
  f.value("opening", b.opening,
          {"diameter that must stay free behind it for lens and light", "34.0 mm ± 0.1",
           Tool::caliper});
  f.value("before_film", b.before_film,
          {"from its rear face to the original film plane, lens at infinity", "112 mm ± 1",
           Tool::ruler});
  f.value("screw_diameter", b.screw_diameter,
          {"thread of the screws that hold it", "2.0 mm ± 0.05", Tool::caliper});
  f.records("screws", b.screws, {"A screw place on the lens board, from the optical axis"}, false);
}

void describe(Fields& f, Lens& l) {
  f.value("kind", l.kind, {"lens kind: an id that `backfit films --lenses` lists", "triplet"});
  f.value("focal", l.focal, {"focal length, engraved or measured", "118 mm", Tool::engraved});
  f.values("apertures", l.apertures, {"the stops that can be set, widest first", "f/9, f/12.5"},
           true);
  f.value("image_circle", l.image_circle,
          {"diameter of the sharp picture, if measured at infinity", "128 mm ± 4", Tool::ruler});
  f.value("pupil_magnification", l.pupil_magnification,
          {"exit pupil over entrance pupil, seen from both ends", "1.0x ± 0.1"});
  f.value("exit_pupil_before_film", l.exit_pupil_before_film,
          {"from the pupil seen from behind to the original film plane, lens at infinity",
           "116 mm ± 2", Tool::ruler});
  f.value("filter_thread", l.filter_thread,
          {"outside thread or push-on rim", "40.5 mm ± 0.1", Tool::caliper});
  f.value(
      "prescription", l.prescription,
      {"lens file of a lens like it, which is scaled to this focal length", "triplet.lens.toml"});
}

void describe(Fields& f, Focusing& o) {
  f.value("moves", o.moves, {"what moves to focus"});
  f.value("travel_forward", o.travel_forward,
          {"how far it goes from infinity towards the subject", "14.0 mm ± 0.2", Tool::caliper,
           Sign::not_negative});
  f.value("room_behind_infinity", o.room_behind_infinity,
          {"how far it could go from infinity towards the film with the infinity stop taken off",
           "9.0 mm ± 0.3", Tool::caliper, Sign::not_negative});
  f.values("marks", o.marks, {"engraved distances", "1 m, 3 m"}, false);
}

void describe(Fields& f, Rangefinder& r) {
  f.value("coupled_to", r.coupled_to, {"what drives it"});
  f.value("base", r.base,
          {"between its two windows, centre to centre", "60 mm ± 0.5", Tool::ruler});
  f.value("magnification", r.magnification,
          {"how much larger its telescope shows things; leave out if it has none", "0.7x ± 0.05"});
}

void describe(Fields& f, ShutterTrial& t) {
  f.value("resistor", t.resistor,
          {"resistor in the photocell's place, measured", "47.1 kΩ ± 0.2", Tool::multimeter});
  f.values("times", t.times,
           {"open times measured with it", "34.1 ms ± 0.3, 33.8 ms ± 0.3", Tool::recording}, true);
}

void describe(Fields& f, ShutterCell& c) {
  f.value("light", c.light, {"on the cell, by a lux meter", "10 lx ± 10 %"});
  f.value("resistance", c.resistance,
          {"of the cell, out of its circuit", "25 kΩ 3 %", Tool::multimeter});
}

void describe(Fields& f, ShutterTimer& t) {
  f.value("fixed_time", t.fixed_time,
          {"open time with no resistance at all, if known", "3.4 ms ± 0.5", Tool::recording});
  f.value("capacitance", t.capacitance,
          {"timing capacitor, if known", "1 µF ± 0.1", Tool::part_marking});
  f.value("threshold", t.threshold,
          {"share of the supply at which the shutter closes, if known", "50 % ± 3"});
  f.value("threshold_follows_supply", t.threshold_follows_supply,
          {"true if the threshold is a share of the supply, false if it is a fixed voltage"});
  f.value("leakage", t.leakage, {"leak across the timing capacitor, if measured", "40 MΩ ± 10"});
  f.value("supply", t.supply, {"voltage of fresh cells", "6.2 V ± 0.1", Tool::multimeter});
  f.value("supply_low", t.supply_low,
          {"lowest voltage at which the shutter still works", "4.9 V ± 0.1", Tool::multimeter});
  f.value("cells", t.cells, {"how many alkaline AA cells feed it", "4"});
  f.value("current", t.current,
          {"current while the shutter is open", "180 mA ± 5", Tool::multimeter});
  f.records("cell_readings", t.cell_readings,
            {"The photocell's resistance, an hour after it saw bright light"}, false);
  f.records("trials", t.trials, {"A resistor in the photocell's place, and its open times"}, false);
}

void describe(Fields& f, MeasuredSpeed& s) {
  f.value("marked", s.marked, {"as marked", "1/125 s"});
  f.value(
      "effective", s.effective,
      {"effective time of a recording with the lens wide open", "11.2 ms ± 0.3", Tool::recording});
}

void describe(Fields& f, Shutter& s) {
  f.value("timing", s.timing, {"what times it"});
  f.values("marked_speeds", s.marked_speeds, {"marked speeds", "1/125 s, 1/30 s"}, false);
  f.value(
      "blades_open", s.blades_open,
      {"from the first light to blades fully open, by a recording", "3 ms ± 0.5", Tool::recording});
  f.value("sync", s.sync, {"flash contact"});
  f.records("measured", s.measured, {"A speed as a recording showed it"}, false);
  f.record("timer", s.timer, {"The circuit that times a photocell-timed shutter"});
}

void describe(Fields& f, Accessory& a) {
  f.value("name", a.name, {"what it is", "close-up lens"});
  f.value("close_up", a.close_up, {"power of a close-up lens", "2 dpt"});
  f.value("tele_factor", a.tele_factor, {"factor of a tele attachment", "1.9x ± 0.05"});
  f.value("front_glass", a.front_glass,
          {"clear diameter of a tele attachment's front glass; left out: large enough",
           "44.0 mm ± 0.5", Tool::caliper});
}

void describe(Fields& f, Camera& c) {
  f.value("name", c.name, {"what you call the camera", "Kestrel"});
  f.value("construction", c.construction, {"how it is built"});
  f.value("remark", c.remark, {"anything that helps the next reader", "found without a back"});
  f.record("gate", c.gate, {"The opening that framed the old picture"});
  f.record("seat", c.seat, {"The face that the old back closed against"});
  f.record("spools", c.spools, {"The chambers of a roll-film camera"});
  f.record("chamber", c.chamber, {"The hollow behind the gate that an insert can fill"});
  f.record("pack", c.pack, {"The place where the old pack lay"});
  f.record("plate_holder", c.plate_holder, {"The camera's own plate holder"});
  f.record("lens", c.lens, {"The lens"});
  f.record("lens_board", c.lens_board, {"The board or flange that carries the lens"});
  f.record("focusing", c.focusing, {"How it focuses"});
  f.record("shutter", c.shutter, {"The shutter"});
  f.record("rangefinder", c.rangefinder, {"The rangefinder"});
  f.records("openings", c.openings, {"A further opening between lens and film"}, false);
  f.records("obstacles", c.obstacles, {"Something that stands in the light: an old roller, a post"},
            false);
  f.records("accessories", c.accessories, {"A lens attachment at hand"}, false);
}

}  // namespace backfit
