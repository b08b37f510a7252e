// SPDX-License-Identifier: MIT
#include "survey/plan.hpp"

namespace backfit {

template <>
std::span<const std::pair<std::string_view, Method>> choices_of<Method>() {
  static constexpr std::pair<std::string_view, Method> list[] = {
      {"back on the seat", Method::back_on_seat},
      {"insert in the chamber", Method::insert},
      {"own holder", Method::own_holder},
      {"holder in the pack's place", Method::pack_holder},
      {"instant back", Method::instant_back}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, WayUp>> choices_of<WayUp>() {
  static constexpr std::pair<std::string_view, WayUp> list[] = {{"upright", WayUp::upright},
                                                                {"lengthways", WayUp::lengthways}};
  return list;
}

template <>
std::span<const std::pair<std::string_view, DepthBy>> choices_of<DepthBy>() {
  static constexpr std::pair<std::string_view, DepthBy> list[] = {
      {"the standard", DepthBy::standard}, {"the ground glass", DepthBy::ground_glass}};
  return list;
}

template <>
std::span<const std::pair<std::string_view, MattSide>> choices_of<MattSide>() {
  static constexpr std::pair<std::string_view, MattSide> list[] = {
      {"to the lens", MattSide::to_lens}, {"to the eye", MattSide::to_eye}};
  return list;
}

template <>
std::span<const std::pair<std::string_view, SwitchWiring>> choices_of<SwitchWiring>() {
  static constexpr std::pair<std::string_view, SwitchWiring> list[] = {
      {"one each", SwitchWiring::one_each},
      {"two each", SwitchWiring::two_each},
      {"chain", SwitchWiring::chain}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, ResistorSeries>> choices_of<ResistorSeries>() {
  static constexpr std::pair<std::string_view, ResistorSeries> list[] = {
      {"E6", ResistorSeries::e6},
      {"E12", ResistorSeries::e12},
      {"E24", ResistorSeries::e24},
      {"E48", ResistorSeries::e48},
      {"E96", ResistorSeries::e96}};
  return list;
}

void describe(Fields& f, StrapsPlan& s) {
  f.value("width", s.width, {"width of the strap's band", "6.0 mm ± 0.5", Tool::caliper});
  f.value("thickness", s.thickness,
          {"thickness of the strap's band", "1.5 mm ± 0.2", Tool::caliper});
  f.value("holder_thickness", s.holder_thickness,
          {"thickness of the holder, outside; left out for a printed one", "15.5 mm ± 0.3",
           Tool::caliper});
  f.value("price", s.price, {"price of both straps", "0.90", Tool::none, Sign::not_negative});
}

void describe(Fields& f, BackPlan& b) {
  f.value("way_up", b.way_up, {"long side of the picture up, or along the camera's width"});
  f.value("holder_depth", b.holder_depth,
          {"holder's face to the septum that the film rests on, measured on your own holders",
           "5.0 mm ± 0.1", Tool::caliper});
  f.value("holder_width", b.holder_width,
          {"outside width of the holder", "120.5 mm ± 0.2", Tool::caliper});
  f.value("rib_from_centre", b.rib_from_centre,
          {"centre of the picture to the centre of the holder's locking rib", "78.0 mm ± 0.3",
           Tool::caliper});
  f.value("rib_width", b.rib_width, {"width of the locking rib", "1.6 mm ± 0.1", Tool::caliper});
  f.value("rib_height", b.rib_height,
          {"height of the locking rib over the holder's face", "1.5 mm ± 0.1", Tool::caliper});
  f.value("plate_thickness", b.plate_thickness,
          {"seat to holder face; leave out for the thinnest that holds its screws", "4.0 mm"});
  f.value("back_register", b.back_register,
          {"of an instant back: from the face that it is mounted by back to the film's sensitive "
           "layer",
           "6.0 mm ± 0.1", Tool::caliper});
  f.record("straps", b.straps, {"Straps that press the holder on, over lugs of the back plate"});
  f.record("mounting", b.mounting,
           {"The instant back's own mounting, for an adapter between it and the seat"});
}

void describe(Fields& f, HolderPlan& h) {
  f.value("sheet_width", h.sheet_width,
          {"shorter side of your sheets as cut; left out with sheet_height: the catalogue's",
           "100.4 mm ± 0.2", Tool::caliper});
  f.value("sheet_height", h.sheet_height, {"their longer side", "125.8 mm ± 0.2", Tool::caliper});
  f.value("rails", h.rails,
          {"what the rails cover of the sheet at each edge; left out: what leaves the catalogue's "
           "picture, or 3 mm",
           "2.7 mm"});
  f.value("depth_by", h.depth_by,
          {"what its depth is made by: the standard for the sheet, or the ground glass at hand"});
  f.value("depth", h.depth, {"face to septum; left out: the standard's for the sheet", "5.0 mm"});
  f.value("sheet_slot", h.sheet_slot,
          {"height of the slot that the sheet slides into; left out: as the standard's, in whole "
           "layers",
           "0.3 mm"});
  f.value("slide_thickness", h.slide_thickness,
          {"thickness of the dark slides; left out: 0.8 mm", "0.8 mm ± 0.05", Tool::caliper});
  f.value("felt_thickness", h.felt_thickness,
          {"thickness of the felt in the slides' mouths; left out: 1.5 mm", "1.5 mm ± 0.2",
           Tool::caliper});
  f.value("felt_width", h.felt_width,
          {"width of its strips; left out: 8 mm", "8.0 mm ± 0.5", Tool::ruler});
  f.value("pin", h.pin,
          {"diameter of the flap's pins; left out: 1.5 mm", "1.5 mm ± 0.05", Tool::caliper});
  f.value("screw", h.screw,
          {"thread of its countersunk screws; left out: 2 mm", "2.0 mm ± 0.05", Tool::caliper});
}

void describe(Fields& f, GlassFramePlan& g) {
  f.value("width", g.width, {"shorter side of the glass", "102.0 mm ± 0.2", Tool::caliper});
  f.value("height", g.height, {"longer side of the glass", "127.0 mm ± 0.2", Tool::caliper});
  f.value("thickness", g.thickness,
          {"thickness of the glass; left out: that of [focus.ground_glass]", "1.5 mm ± 0.05",
           Tool::caliper});
  f.value("screw", g.screw,
          {"thread of the clips' screws; left out: 2 mm", "2.0 mm ± 0.05", Tool::caliper});
}

void describe(Fields& f, PackHolderPlan& h) {
  f.value(
      "dark_slide", h.dark_slide,
      {"true for a dark slide through the camera's slit, false for changing in a dark bag; left "
       "out: a slide where the survey has a slit",
       "true"});
  f.value("slide_thickness", h.slide_thickness,
          {"thickness of the dark slide; left out: 0.5 mm", "0.5 mm ± 0.05", Tool::caliper});
  f.value("felt_thickness", h.felt_thickness,
          {"thickness of the felt in the slide's mouth; left out: 1 mm", "1.0 mm ± 0.2",
           Tool::caliper});
  f.value("measured_depth", h.measured_depth,
          {"of the finished holder: from its face back to where the sheet's front lies",
           "3.4 mm ± 0.05", Tool::caliper});
}

template <>
std::span<const std::pair<std::string_view, FilmTravel>> choices_of<FilmTravel>() {
  static constexpr std::pair<std::string_view, FilmTravel> list[] = {
      {"up", FilmTravel::up},
      {"down", FilmTravel::down},
      {"to the left", FilmTravel::left},
      {"to the right", FilmTravel::right}};
  return list;
}
template <>
std::span<const std::pair<std::string_view, SpoolLoading>> choices_of<SpoolLoading>() {
  static constexpr std::pair<std::string_view, SpoolLoading> list[] = {
      {"through the back", SpoolLoading::through_back},
      {"insert taken out", SpoolLoading::insert_taken_out}};
  return list;
}

void describe(Fields& f, SpoolPlan& s) {
  f.value("flange_diameter", s.flange_diameter,
          {"diameter of the flanges", "25.1 mm ± 0.1", Tool::caliper});
  f.value("core_diameter", s.core_diameter,
          {"diameter of the bare core", "11.8 mm ± 0.1", Tool::caliper});
  f.value("full_roll_diameter", s.full_roll_diameter,
          {"diameter of a fresh roll, between the flanges", "21.6 mm ± 0.2", Tool::caliper});
  f.value("length", s.length, {"over both flanges", "65.8 mm ± 0.1", Tool::caliper});
  f.value("end_hole", s.end_hole,
          {"diameter of the round hole in its ends", "5.6 mm ± 0.1", Tool::caliper});
  f.value(
      "slot_length", s.slot_length,
      {"length of the slot across that hole, which a key turns", "9.0 mm ± 0.1", Tool::caliper});
  f.value("slot_width", s.slot_width, {"width of that slot", "2.4 mm ± 0.1", Tool::caliper});
  f.value("slot_depth", s.slot_depth,
          {"depth of hole and slot from the flange's outside", "4.0 mm ± 0.2", Tool::caliper});
}

void describe(Fields& f, BackingPaperPlan& b) {
  f.value("paper_thickness", b.paper_thickness,
          {"thickness of the paper: of ten layers, a tenth", "0.10 mm ± 0.005", Tool::caliper});
  f.value("film_thickness", b.film_thickness,
          {"thickness of the film with its coatings", "0.13 mm ± 0.005", Tool::caliper});
  f.value("paper_width", b.paper_width, {"width of the paper", "62.5 mm ± 0.2", Tool::caliper});
  f.value("film_start", b.film_start,
          {"from the end of the paper that the take-up spool catches to the taped end of the film",
           "400 mm ± 1", Tool::ruler});
  f.value("film_length", b.film_length, {"length of the film", "825 mm ± 1", Tool::ruler});
  f.value("paper_length", b.paper_length,
          {"length of the whole paper", "1510 mm ± 1", Tool::ruler});
  f.value("first_number", b.first_number,
          {"from the taped end of the film to the middle of number 1, in this format's row; "
           "negative if the number comes first",
           "45 mm ± 0.5", Tool::ruler, Sign::any});
  f.value("last_number", b.last_number,
          {"from the taped end of the film to the middle of the row's last number", "730 mm ± 0.5",
           Tool::ruler});
  f.value(
      "row_from_edge", b.row_from_edge,
      {"from the paper's edge to the middle of the row: the edge that is up in the camera, or with "
       "film that goes up or down, the one that is up once the film goes to the right",
       "15.0 mm ± 0.3", Tool::caliper});
}

void describe(Fields& f, KnobPlan& k) {
  f.value("wall", k.wall,
          {"the camera's wall that the knob sits on, beside the film, seen from behind"});
  f.value("wall_thickness", k.wall_thickness,
          {"thickness of that wall where the shaft goes through", "1.5 mm ± 0.1", Tool::caliper});
}

void describe(Fields& f, InsertPlan& i) {
  f.value("set_back", i.set_back,
          {"how far its rails hold the film behind the old film plane", "0.6 mm ± 0.1",
           Tool::caliper, Sign::any});
  f.value("film_goes", i.film_goes,
          {"which way the film goes over the gate when it is wound on, seen from behind"});
  f.value("loading", i.loading, {"how a spool gets in"});
  f.value("wall", i.wall, {"wall of its body; leave out for four widths of the nozzle", "1.6 mm"});
  f.value("pressure_plate", i.pressure_plate,
          {"from the film plane to the back of the pressure plate, its spring pressed together",
           "3.2 mm"});
  f.record("spool", i.spool, {"The spools you have, by caliper"});
  f.record("backing_paper", i.backing_paper, {"A scrap backing paper, measured"});
  f.record("knob", i.knob, {"The knob that winds the film on"});
}

void describe(Fields& f, GroundGlass& g) {
  f.value("depth", g.depth,
          {"from the face that a holder lies on back to the glass's face nearer the lens",
           "4.8 mm ± 0.1", Tool::caliper});
  f.value("thickness", g.thickness, {"thickness of the glass", "1.5 mm ± 0.05", Tool::caliper});
  f.value("matt_side", g.matt_side, {"which way the ground side faces"});
}

void describe(Fields& f, StopTest& t) {
  f.value("distance", t.distance,
          {"from the ground glass to a subject that is sharp on it", "3 m ± 0.01", Tool::ruler});
  f.value("travel", t.travel,
          {"how far forward of the new infinity stop the lens then stands", "4.9 mm ± 0.1",
           Tool::caliper, Sign::not_negative});
}

void describe(Fields& f, FocusPlan& o) {
  f.value("circle_of_confusion", o.circle_of_confusion,
          {"largest blur on the film that still counts as sharp", "0.1 mm"});
  f.value("aperture", o.aperture, {"widest stop at which it shall hold", "f/9"});
  f.value("film_bulge", o.film_bulge,
          {"how much nearer the lens the film's middle stands than its edges", "0.3 mm ± 0.1",
           Tool::caliper});
  f.values("shims", o.shims, {"thicknesses of shims at hand", "0.1 mm, 0.2 mm, 0.5 mm"}, false);
  f.record("ground_glass", o.ground_glass, {"The ground glass that takes a holder's place"});
  f.record("stop_test", o.stop_test, {"A test of the new infinity stop on a near subject"});
}

void describe(Fields& f, WallReading& r) {
  f.value("thickness", r.thickness,
          {"of a printed step, infill and colour as the parts'", "0.8 mm ± 0.05", Tool::caliper});
  f.value("stops", r.stops,
          {"what a light meter reads less behind it", "7.5", Tool::none, Sign::not_negative});
  f.value("within_stops", r.within_stops,
          {"how far that may be off; left out: a third of a stop, as meters are marked", "0.2",
           Tool::none, Sign::not_negative});
}

void describe(Fields& f, Printer& p) {
  f.value("material", p.material,
          {"printed material: an id that `backfit films --materials` lists", "petg"});
  f.value("nozzle", p.nozzle, {"nozzle diameter", "0.4 mm"});
  f.value("layer_height", p.layer_height, {"layer height", "0.2 mm"});
  f.value("bed_width", p.bed_width, {"largest print, across", "220 mm"});
  f.value("bed_depth", p.bed_depth, {"largest print, along", "220 mm"});
  f.value("clearance", p.clearance,
          {"gap a side at which printed parts slide, from a printed gauge", "0.25 mm ± 0.1"});
  f.value("error", p.error,
          {"what a printed thickness adds to its drawing, and how it scatters", "0.00 mm ± 0.1",
           Tool::caliper, Sign::any});
  f.value("density", p.density,
          {"density of the material, from the spool's data sheet", "1.27 g/cm3 ± 0.02"});
  f.records("wall_readings", p.wall_readings,
            {"What light its walls take: two steps of it before a light meter"}, false);
}

void describe(Fields& f, BoughtItem& i) {
  f.value("what", i.what, {"what to buy", "countersunk screw M2 × 8"});
  f.value("count", i.count, {"how many", "4"});
  f.value("price", i.price, {"price of all of them", "1.20", Tool::none, Sign::not_negative});
}

void describe(Fields& f, Prices& p) {
  f.value("currency", p.currency, {"currency of all prices here", "EUR"});
  f.value("filament_per_kg", p.filament_per_kg, {"price of a kilogram of filament", "24.00"});
}

void describe(Fields& f, StockedResistor& r) {
  f.value("resistor", r.resistor, {"its marked value", "47 kΩ"});
  f.value("count", r.count, {"how many; leave out for as many as it takes", "2"});
}

void describe(Fields& f, TimerBoxPlan& p) {
  f.value("bush", p.bush, {"diameter of the switch's bush", "9.4 mm ± 0.05", Tool::caliper});
  f.value("switch_across", p.switch_across,
          {"across the switch's body behind the panel", "28.0 mm ± 0.1", Tool::caliper});
  f.value("switch_depth", p.switch_depth,
          {"depth of that body, lugs included", "21.0 mm ± 0.2", Tool::caliper});
  f.value("knob", p.knob,
          {"diameter of the knob; left out: 18 mm", "18.0 mm ± 0.1", Tool::caliper});
  f.value("step", p.step, {"angle from place to place; left out: 30 deg", "30 deg"});
  f.value("screw", p.screw,
          {"diameter of the panel's four screws; left out: 3 mm", "2.9 mm ± 0.05", Tool::caliper});
  f.value("lead", p.lead,
          {"diameter of the lead to the camera; left out: 3 mm", "3.0 mm ± 0.1", Tool::caliper});
}

void describe(Fields& f, TimerPlan& t) {
  f.values("speeds", t.speeds,
           {"speeds wanted, B aside; leave out for 1/500 s to 4 s", "1/60 s, 1/30 s, 1 s"}, false);
  f.value("wiring", t.wiring,
          {"one resistor or up to two for each speed, or one chain with a tap for each"});
  f.value("series", t.series, {"preferred values that you buy from; E24 if left out"});
  f.value("tolerance_percent", t.tolerance_percent,
          {"tolerance of the resistors; 1 if left out", "1", Tool::none, Sign::not_negative});
  f.value("allowed_stops", t.allowed_stops,
          {"how far a speed may be off; a third of a stop if left out", "0.33"});
  f.value("resistor_price", t.resistor_price,
          {"price of one resistor", "0.05", Tool::none, Sign::not_negative});
  f.records("stock", t.stock, {"Resistors of one value at hand"}, false);
  f.records("parts", t.parts, {"Another part of the timer to buy"}, false);
  f.record("box", t.box, {"The box to print for it, from the switch at hand"});
}

void describe(Fields& f, Plan& p) {
  f.value("camera", p.camera,
          {"path of the camera file, from this file's folder", "kestrel.camera.toml"});
  f.value("film", p.film, {"what to load: an id that `backfit films` lists", "sheet-4x5"});
  f.value("method", p.method, {"how the film gets into the camera"});
  f.value("remark", p.remark, {"anything that helps the next reader", "for the loan shelf"});
  f.record("back", p.back, {"The back that carries the film, on the camera's seat"});
  f.record("holder", p.holder, {"The holder to print for it; leave out for bought ones"});
  f.record("glass_frame", p.glass_frame, {"The frame to print for a ground glass on that back"});
  f.record("pack_holder", p.pack_holder, {"The holder to print that lies in the pack's place"});
  f.record("insert", p.insert, {"The insert that carries roll film in the chamber"});
  f.record("focus", p.focus, {"What sharp means here"});
  f.record("printer", p.printer, {"The printer"});
  f.record("timer", p.timer, {"A switch with resistors that times the shutter by hand"});
  f.record("exposure", p.exposure, {"Film speed, light and flash, for the exposure card"});
  f.record("focus_gauge", p.focus_gauge,
           {"A frame with ground glass or frosted tape in the film's place, to set infinity by"});
  f.record("depth_gauge", p.depth_gauge, {"A bridge for the caliper's depth rod"});
  f.record("gate_mask", p.gate_mask, {"A mask in the old gate for a smaller picture"});
  f.record("lens_spacer", p.lens_spacer, {"A spacer and shims under the lens board"});
  f.records("attachment_rings", p.attachment_rings,
            {"A ring that holds a lens attachment on the lens's rim"}, false);
  f.record("window_cover", p.window_cover, {"A slider over the red window"});
  f.record("blank_cover", p.blank_cover, {"A cover that closes the seat"});
  f.record("prices", p.prices, {"Prices"});
  f.records("bought", p.bought, {"A part to buy"}, false);
}

}  // namespace backfit
