// SPDX-License-Identifier: MIT
#include "parts/adapter_plate.hpp"

#include <cassert>
#include <numbers>

#include "parts/printing.hpp"

namespace backfit {
namespace {

// Cutters reach past the faces they open, so that no face of a cutter lies in a face of the plate.
constexpr Length overshoot = 1 * mm;
// A countersink widens as it goes on; this is too little to meet a neighbour.
constexpr Length countersink_overshoot = 0.4 * smallest_detail;

enum class HeadsIn { rear_face, front_face };

void add_holes(std::vector<Solid>& cutters, const BackPlate::CountersunkHoles& holes,
               Length thickness, HeadsIn face) {
  if (holes.places.empty()) return;
  const Length tip = holes.hole_diameter / 2;  // within the hole
  const Length deep = (holes.head_diameter - tip) / 2;
  const Length wide = holes.head_diameter + 2 * countersink_overshoot;
  const Solid head = face == HeadsIn::rear_face
                         ? frustum(tip, thickness - deep, wide, thickness + countersink_overshoot)
                         : frustum(wide, -countersink_overshoot, tip, deep);
  const Solid cutter =
      union_of({cylinder(holes.hole_diameter, -overshoot, thickness + overshoot), head});
  for (const PlatePoint& p : holes.places) {
    cutters.push_back(translated(cutter, {p.x, p.y, {}}));
  }
}

Area rounded_area(Length width, Length height, Length radius) {
  return width * height - (4 - std::numbers::pi) * (radius * radius);
}

Area ring_area(Length inner_width, Length inner_height, Length radius, Length wall) {
  return rounded_area(inner_width + 2 * wall, inner_height + 2 * wall, radius + wall) -
         rounded_area(inner_width, inner_height, radius);
}

// Straight holes, each with a 45 degree cone frustum that opens to the head's diameter.
Volume holes_volume(const BackPlate::CountersunkHoles& h, Length thickness) {
  const Length cone = (h.head_diameter - h.hole_diameter) / 2;
  const Volume each =
      std::numbers::pi / 4 * (h.hole_diameter * h.hole_diameter) * (thickness - cone) +
      std::numbers::pi / 12 *
          (h.head_diameter * h.head_diameter + h.head_diameter * h.hole_diameter +
           h.hole_diameter * h.hole_diameter) *
          cone;
  return static_cast<double>(h.places.size()) * each;
}

// The loose tongue in plan: inside, wall.
AdapterPlate::Groove shrunk(const AdapterPlate& a) {
  const AdapterPlate::Groove& g = *a.groove;
  const Length gap = a.loose_tongue->gap;
  return {g.inner_width + 2 * gap, g.inner_height + 2 * gap,
          g.inner_corner_radius > Length{} ? g.inner_corner_radius + gap : Length{},
          g.width - 2 * gap, g.depth};
}

void add_steps(PieceSet& set, const AdapterPlate& a) {
  set.steps.push_back(
      {"Take the cells out",
       "Before the instant back leaves its own camera, and before each piece of work on it. Its "
       "rollers, motor, gears and the switch of its door stay together as they are: they are the "
       "part that can't be made.",
       {"A camera with a flash holds a charge of some 300 V for days without cells. Leave its "
        "circuit closed; if it must be opened, a competent person discharges the capacitor through "
        "a resistor and measures that it is empty."}});
  set.steps.push_back(
      {"Clean the rollers",
       "Turn them by hand, wipe them with a damp lint-free cloth all round and let them dry: dried "
       "paste prints as a dent at each turn.",
       {"The paste of an instant picture is caustic. Gloves and eye protection; wash it off the "
        "skin at once with much water; the film's safety data sheet decides. Never open or cut a "
        "picture."}});
  if (a.loose_tongue) {
    set.steps.push_back({"Glue the loose tongue in",
                         "It stands on the floor of the groove in the adapter's rear face, as far "
                         "from one side as from the other, and goes into the back's own groove.",
                         {"Glue: fresh air, no flame, and its safety data sheet."}});
  } else if (!a.groove) {
    set.steps.push_back({"Lay felt round the opening",
                         "The back has neither tongue nor groove: a closed ring of thin black felt "
                         "between the flat faces, pressed to nothing where the faces meet. Measure "
                         "the register again with it."});
  }
  set.steps.push_back(
      {"Blacken the inside",
       "Matt black on the window's edges, on all that faces the lens, and on tongues "
       "and groove, which mirror else; nothing on the faces that touch.",
       {"Dust mask while sanding. Paint: fresh air, no flame, and the safety data "
        "sheet."}});
  set.steps.push_back(
      {"Screw the back to the adapter",
       "First, on the bench: heads in the adapter's front face, flush or deeper. Screws no longer "
       "than the back's holes are deep, measured with the depth rod: a longer one reaches film or "
       "gears."});
  set.steps.push_back(
      {"Screw the adapter to the seat",
       "Then, with the back on it: heads in the rear face, beside the back. The tongue must sink "
       "into the seat's groove without force, a length of black yarn under it."});
  set.steps.push_back(
      {"What the motor's control must do",
       "The picture passes the rollers once, straight, at the motor's own even speed and in the "
       "dark. Keep the back's own control and its end switch if you can, and give it one closed "
       "contact as its own release did. A control of your own: one run for each push, until the "
       "end switch says that the rollers stand clear; then it waits for the push to end. It must "
       "not run twice for one push. It must not run on, nor start, while the back's door is open. "
       "It must not start while the shutter is open: an interlock in the shutter's contact, or a "
       "rule to keep. It is fed by cells of the kind and number that the back had and by nothing "
       "else, over a fuse: a weaker cell stops the picture half way, a stronger one spreads the "
       "paste unevenly.",
       {"Cells out while you solder. Never bridge the door's switch: fingers get between the "
        "rollers."}});
  set.steps.push_back(
      {"Send a spent picture through",
       "It must come out straight and touch nothing. In daylight with the pack's cover sheet or a "
       "spent picture first, in the loaded camera only with all seams shut."});
}

}  // namespace

Solid solid_of(const AdapterPlate& a) {
  assert(faults(a).empty());
  const BackPlate::Tongue& t = a.tongue;
  std::vector<Solid> cutters{rounded_prism(a.window_width, a.window_height, Length{}, -overshoot,
                                           a.thickness + overshoot)};
  add_holes(cutters, a.seat_screws, a.thickness, HeadsIn::rear_face);
  add_holes(cutters, a.back_screws, a.thickness, HeadsIn::front_face);
  if (a.groove) {
    const AdapterPlate::Groove& g = *a.groove;
    cutters.push_back(
        translated(rounded_ring(g.inner_width, g.inner_height, g.inner_corner_radius, g.width,
                                a.thickness - g.depth, a.thickness + overshoot),
                   {a.back_middle.x, a.back_middle.y, {}}));
  }
  // The tongue's root ends as deep as the thinnest floor above it, inside the plate.
  const Solid body =
      union_of({rounded_prism(a.width, a.height, a.corner_radius, Length{}, a.thickness),
                rounded_ring(t.inner_width, t.inner_height, t.inner_corner_radius, t.wall, -t.depth,
                             a.smallest_wall / 2)});
  return translated(difference_of(body, cutters), {{}, {}, a.rest});
}

Solid tongue_of(const AdapterPlate& a) {
  assert(a.groove && a.loose_tongue && faults(a).empty());
  const AdapterPlate::Groove in = shrunk(a);
  const Length floor = a.rest + a.thickness - in.depth;
  return translated(rounded_ring(in.inner_width, in.inner_height, in.inner_corner_radius, in.width,
                                 floor, floor + a.loose_tongue->height),
                    {a.back_middle.x, a.back_middle.y, {}});
}

Volume volume_of(const AdapterPlate& a) {
  assert(faults(a).empty());
  const BackPlate::Tongue& t = a.tongue;
  Volume v = (rounded_area(a.width, a.height, a.corner_radius) - a.window_width * a.window_height) *
                 a.thickness +
             ring_area(t.inner_width, t.inner_height, t.inner_corner_radius, t.wall) * t.depth -
             holes_volume(a.seat_screws, a.thickness) - holes_volume(a.back_screws, a.thickness);
  if (a.groove) {
    const AdapterPlate::Groove& g = *a.groove;
    v -= ring_area(g.inner_width, g.inner_height, g.inner_corner_radius, g.width) * g.depth;
  }
  return v;
}

Volume tongue_volume(const AdapterPlate& a) {
  const AdapterPlate::Groove in = shrunk(a);
  return ring_area(in.inner_width, in.inner_height, in.inner_corner_radius, in.width) *
         a.loose_tongue->height;
}

PieceSet set_of(const AdapterPlate& a) {
  PieceSet set;
  set.name = "instant back adapter";
  set.purpose =
      "Carries the instant back on the camera's seat, its picture in the middle of the lens's.";
  using Shown = PieceSize::Shown;
  const Solid plate = solid_of(a);
  const Solid on_bed = laid(plate, BedSide::high_z);
  const BackPlate::Tongue& t = a.tongue;
  const Length x = t.inner_width / 2 + t.wall, top = a.thickness + t.depth;
  const Length window_x = a.window_width / 2, window_y = a.window_height / 2;
  std::vector<PieceSize> sizes{
      {"tongue, width outside", 2 * x, 0.2 * mm,
       Shown{PieceView::front, {-x, {}, top}, {x, {}, top}}},
      {"plate, thickness", a.thickness, 0.1 * mm,
       Shown{PieceView::front, {-a.width / 2, {}, {}}, {-a.width / 2, {}, a.thickness}}},
      {"window, width",
       2 * window_x,
       {},
       Shown{PieceView::above, {-window_x, -window_y, top}, {window_x, -window_y, top}}},
      {"window, height",
       2 * window_y,
       {},
       Shown{PieceView::above, {window_x, -window_y, top}, {window_x, window_y, top}}},
      {"tongue, wall", t.wall, 0.1 * mm, {}}};
  if (a.groove) {
    sizes.push_back({"groove in the rear face, width", a.groove->width, 0.1 * mm, {}});
    sizes.push_back({"groove in the rear face, depth", a.groove->depth, 0.1 * mm, {}});
  }
  if (!a.seat_screws.places.empty()) {
    sizes.push_back({"seat's screw holes, diameter", a.seat_screws.hole_diameter, {}, {}});
  }
  if (!a.back_screws.places.empty()) {
    sizes.push_back({"back's screw holes, diameter", a.back_screws.hole_diameter, {}, {}});
  }
  set.pieces.push_back({"plate", {plate}, on_bed, on_bed, "rear face down", std::move(sizes)});
  set.cut = CutPlane{CutPlane::Axis::x, Length{}};
  if (a.loose_tongue) {
    const AdapterPlate::Groove in = shrunk(a);
    const Length out = in.inner_width / 2 + in.width, high = a.loose_tongue->height;
    const Solid loose = tongue_of(a);
    const Solid lies = laid(loose, BedSide::low_z);
    set.pieces.push_back(
        {"loose tongue",
         {loose},
         lies,
         lies,
         "as it stands",
         {{"wall", in.width, 0.1 * mm,
           Shown{PieceView::above, {out - in.width, {}, high}, {out, {}, high}}}}});
    set.apart = {{}, {{}, {}, 3 * a.thickness + 2 * high}};
  }
  add_steps(set, a);
  for (const PlatePoint& p : a.seat_screws.places) {
    set.screws.push_back({"screw to the seat",
                          {p.x, p.y, a.rest + a.thickness},
                          a.seat_screws.head_diameter,
                          true,
                          true});
  }
  for (const PlatePoint& p : a.back_screws.places) {
    set.screws.push_back(
        {"screw to the instant back", {p.x, p.y, a.rest}, a.back_screws.head_diameter, false});
  }
  if (!a.seat_screws.places.empty()) {
    set.bought.push_back(
        {"countersunk screw for the seat's thread", static_cast<int>(a.seat_screws.places.size())});
  }
  set.bought.push_back(
      {"countersunk screw for the back's thread", static_cast<int>(a.back_screws.places.size())});
  return set;
}

}  // namespace backfit
