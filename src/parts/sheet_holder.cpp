// SPDX-License-Identifier: MIT
#include "parts/sheet_holder.hpp"

#include <algorithm>
#include <cassert>
#include <utility>

#include "parts/printing.hpp"
#include "parts/screws.hpp"
#include "parts/sheet_holder_shapes.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Cutters reach past the faces they open, so that no face of a cutter lies in a face of the part.
constexpr Length overshoot = 1 * mm;
// A countersink widens as it goes on; this is too little to meet a neighbour.
constexpr Length countersink_overshoot = 0.4 * smallest_detail;

using Bodies = std::vector<Solid>;

// Picture and flap's bay, open at the loading end.
Solid opening(const SheetHolder& h, Length low, Length high) {
  const Length picture = h.picture_width / 2, bay = h.bay() / 2;
  const Length end = h.seam() + h.gap, out = -h.bottom - overshoot;
  return prism({{-bay, out},
                {bay, out},
                {bay, end},
                {picture, end},
                {picture, h.picture_height / 2},
                {-picture, h.picture_height / 2},
                {-picture, end},
                {-bay, end}},
               low - overshoot, high + overshoot);
}

Solid slab(const SheetHolder& h, Length thickness) {
  return box({-h.width / 2, -h.bottom, Length{}}, {h.width / 2, h.top, thickness});
}

// Where the screws of both sides go through the rails and the septum.
void add_pilots(const SheetHolder& h, Length thickness, Bodies& cutters) {
  const Solid hole = cylinder(h.screw_pilot(), -overshoot, thickness + overshoot);
  for (const std::vector<Length>* list : {&h.screws.left, &h.screws.right}) {
    for (const Length v : *list) {
      for (const double side : {-1.0, 1.0}) {
        cutters.push_back(translated(hole, {side * h.screw_u(), v, {}}));
      }
    }
  }
}

Solid rails_of(const SheetHolder& h) {
  const Length sheet = h.sheet_width / 2 + h.sheet_play;
  Bodies cutters{opening(h, {}, h.rails()),
                 box({-sheet, h.seam(), h.rail},
                     {sheet, h.sheet_height / 2 + h.sheet_play, h.rails() + overshoot})};
  add_pilots(h, h.rails(), cutters);
  return difference_of(slab(h, h.rails()), cutters);
}

Solid septum_of(const SheetHolder& h) {
  Bodies cutters{box({-h.bay() / 2, -h.bottom - overshoot, -overshoot},
                     {h.bay() / 2, h.seam() + h.gap, h.septum + overshoot})};
  add_pilots(h, h.septum, cutters);
  return difference_of(slab(h, h.septum), cutters);
}

Solid slide_of(const SheetHolder& h) {
  const Length end = h.slide.end_width / 2, half = h.slide.width / 2;
  const Length low = h.slide_end(), shoulder = low + h.slide.end_length;
  const Length high = low + h.slide_length();
  return prism({{-end, low},
                {end, low},
                {end, shoulder},
                {half, shoulder},
                {half, high},
                {-half, high},
                {-half, shoulder},
                {-end, shoulder}},
               {}, h.slide.thickness);
}

Solid grip_of(const SheetHolder& h) {
  const Length half = h.slide.width / 2, low = h.grip_start(), thick = h.grip_thickness() / 2;
  const Length slot = (h.slide.thickness + h.gap) / 2;
  return difference_of(box({-half, low, -thick}, {half, low + h.grip.depth, thick}),
                       {box({-half - overshoot, low - overshoot, -slot},
                            {half + overshoot, low + h.grip.slot, slot})});
}

Solid rib_of(const SheetHolder& h) {
  return box({-h.width / 2, h.rib.from_middle - h.rib.width / 2, -h.rib.height},
             {h.width / 2, h.rib.from_middle + h.rib.width / 2, h.rib.sunk});
}

Solid flap_of(const SheetHolder& h) {
  const Length seam = h.seam(), half = h.flap_width() / 2, whole = h.thickness();
  const Length near = h.flap.relief, far = whole - h.flap.relief;
  // Its section in (-w, v), turned so that it runs along u.
  const Solid block = quarter_turned_about_y(
      prism({{-near, -h.bottom}, {-near, seam}, {-far, seam, h.pin_radius()}, {-far, -h.bottom}},
            -half, half));
  const Length groove = h.groove() / 2, sheet = h.sheet_width / 2 + h.sheet_play;
  Bodies cutters;
  for (const Length low : {h.front, whole - h.frame()}) {
    cutters.push_back(box({-groove, seam - h.slide_groove(), low},
                          {groove, seam + overshoot, low + h.slide_slot}));
  }
  const Length beside = h.depth() - h.film_slot - h.gap;
  cutters.push_back(
      box({-sheet, seam - h.sheet_groove(), beside}, {sheet, seam + overshoot, whole - beside}));
  const Solid pin =
      quarter_turned_about_y(cylinder(h.pin_notch(), half - h.flap.pin_in_flap, half + overshoot));
  const Point3 at{{}, seam - h.pin_radius(), whole - h.pin_from_face()};
  cutters.push_back(translated(pin, at));
  cutters.push_back(translated(quarter_turned_about_y(quarter_turned_about_y(pin)), at));
  return difference_of(block, cutters);
}

// The same piece of the other side.
Solid turned_over(const SheetHolder& h, const Solid& piece) {
  return translated(quarter_turned_about_y(quarter_turned_about_y(piece)), {{}, {}, h.thickness()});
}

AssemblyStep step(std::string title, std::string words, std::vector<std::string> cautions = {}) {
  return {std::move(title), std::move(words), std::move(cautions)};
}

std::vector<AssemblyStep> steps_of(const SheetHolder& h) {
  const std::string darkroom = "Whoever works in the dark clears the bench of blades first.";
  return {
      step(
          "Print and blacken",
          "Frames and rails twice, all black. Hold every piece against a lamp: where one shines "
          "through, slides above all, paint it or cut it from opaque sheet. Matt black on the "
          "edges of the picture and in the flap's grooves; nothing where a sheet slides.",
          {"Printing gives off fumes and fine particles: ventilate, and don't print where somebody "
           "sleeps. The filament's safety data sheet decides.",
           "Dust mask while sanding. Paint and glue: fresh air, no flame, and the safety data "
           "sheet of the one you use."}),
      step("Glue the core",
           "Septum between the two rails, their slots towards it. Screws through the holes, or "
           "drills stuck into them, keep the three flush while the glue sets. None may run into a "
           "slot: slide a spoiled sheet through each before it sets."),
      step("Try the sheets",
           "A spoiled sheet goes in from the loading end on both sides, without "
           "force, and stops " +
               text(h.sheet_in_flap(), 1) + " before the end, to be caught by."),
      step("Line the mouths",
           "Felt in the pockets of both frames, pile upwards, glued thinly: wet glue stiffens it."),
      step(
          "Lay in slides and flap",
          "Pins into the flap, a drop of glue at their inner ends. A frame face down, its slide in "
          "the groove with the wider end towards the flap, the pins in the arms' notches; the core "
          "on it, screws from the face. Then the other frame, which has no pins in its notches."),
      step("Glue grips and ribs",
           "A grip on each slide, one side of it marked white: white means unexposed. The ribs in "
           "their grooves, upright to the face."),
      step("Try it",
           "Drawn to its stop a slide leaves the picture free, travel " + text(h.travel(), 1) +
               "; pushed in it stands in the flap and locks it. Both drawn, the flap turns back by "
               "a right angle. No screw's head stands above a face: a straightedge must not rock."),
      step("Measure the depth",
           "With the slide drawn, depth rod from the face to the septum at four corners: " +
               text(h.depth()) +
               ". Write what you find as holder_depth under [back] and make this sheet anew."),
      step("Load",
           "In the dark draw both slides to their stops, open the flap, slide a sheet in on each "
           "side, sensitive face outwards, shut the flap, push the slides in with their white side "
           "out.",
           {darkroom}),
      step("Look for light",
           "A loaded holder lies five minutes in daylight on each face, its slides shut; develop "
           "the sheets: they must be clear. Fog from the mouth: new felt. From the loading end: "
           "black tape over the seam.")};
}

}  // namespace

Solid frame_of(const SheetHolder& h) {
  const Length end = h.groove() / 2, mouth = h.mouth() / 2, top = h.top + overshoot;
  const Length low = h.seam() - overshoot;  // within the bay
  Bodies cutters{opening(h, {}, h.frame()), prism({{-end, low},
                                                   {end, low},
                                                   {end, h.slide.stops},
                                                   {mouth, h.slide.stops},
                                                   {mouth, top},
                                                   {-mouth, top},
                                                   {-mouth, h.slide.stops},
                                                   {-end, h.slide.stops}},
                                                  h.front, h.frame() + overshoot)};
  for (const Length v : h.felt.at) {
    cutters.push_back(box({-h.felt_length() / 2, v, h.front - h.felt.pocket},
                          {h.felt_length() / 2, v + h.felt.width, h.frame()}));
  }
  const Length rib = h.rib_groove() / 2;
  cutters.push_back(box({-h.width / 2 - overshoot, h.rib.from_middle - rib, -overshoot},
                        {h.width / 2 + overshoot, h.rib.from_middle + rib, h.rib.sunk}));
  const Length axis = h.seam() - h.pin_radius(), notch = h.pin_notch();
  for (const double side : {-1.0, 1.0}) {
    const Length from = side * (h.bay() / 2 - overshoot);
    const Length to = side * (h.bay() / 2 + h.flap.pin_in_arm);
    cutters.push_back(box({std::min(from, to), axis - notch / 2, h.frame() - notch},
                          {std::max(from, to), axis + notch / 2, h.frame() + overshoot}));
  }
  const Solid hole = cylinder(h.screw_hole(), -overshoot, h.frame() + overshoot);
  const Length tip = h.screw_hole() / 2;  // diameter within the hole
  const Solid head = frustum(h.screw_head() + 2 * countersink_overshoot, -countersink_overshoot,
                             tip, (h.screw_head() - tip) / 2);
  const Solid screw = union_of({hole, head});
  for (const Length v : h.screws.left) {
    cutters.push_back(translated(screw, {-h.screw_u(), v, {}}));
  }
  for (const Length v : h.screws.right) {
    cutters.push_back(translated(screw, {h.screw_u(), v, {}}));
  }
  return difference_of(slab(h, h.frame()), cutters);
}

PieceSet set_of(const SheetHolder& h, const HolderPose& pose) {
  assert(faults(h).empty());
  const auto placed = [&](const Solid& body, Length w) {
    Solid turned = body;
    for (int quarter = 0; pose.lengthways && quarter < 3; ++quarter) {
      turned = quarter_turned_about_z(turned);
    }
    return translated(turned, {{}, {}, pose.face + w});
  };
  const auto both = [&](const Solid& body, Length w) {
    return std::vector<Solid>{placed(body, w),
                              placed(turned_over(h, translated(body, {{}, {}, w})), {})};
  };

  PieceSet set{"sheet holder",
               "Double-sided holder for two sheets of " + fixed(h.sheet_width / mm, 1) + " × " +
                   fixed(h.sheet_height / mm, 1) + " mm, " + text(h.depth()) +
                   " from its face to the septum.",
               {}};
  const auto add = [&](std::string name, std::vector<Solid> in_place, const Solid& lying,
                       std::string lies, std::vector<PieceSize> sizes, bool flat = false) {
    set.pieces.push_back({std::move(name), std::move(in_place), lying, lying, std::move(lies),
                          std::move(sizes), flat});
  };
  // Where a place of a piece that lies on its low w face, its outline that of the holder, comes to
  // lie.
  const auto at = [&](Length u, Length v, Length w) {
    return Point3{u, v - (h.top - h.bottom) / 2, w};
  };
  using Shown = PieceSize::Shown;
  const Length middle = (h.seam() + h.top) / 2, half = h.picture_width / 2;
  const Length frame_error = 0.1 * mm;  // common practice: what is worth measuring with a caliper

  const Solid frame = frame_of(h);
  add("frame", both(frame, {}), laid(frame, BedSide::low_z), "face down",
      {{"picture, across",
        h.picture_width,
        {},
        Shown{PieceView::above, at(-half, {}, {}), at(half, {}, {})}},
       {"slide's groove, where the wide end runs", h.groove(), frame_error,
        Shown{PieceView::above, at(-h.groove() / 2, 0.3 * h.seam(), {}),
              at(h.groove() / 2, 0.3 * h.seam(), {})}},
       {"slide's groove in the mouth", h.mouth(), frame_error,
        Shown{PieceView::above, at(-h.mouth() / 2, h.top, {}), at(h.mouth() / 2, h.top, {})}},
       {"face to the slide's groove", h.front, frame_error,
        Shown{PieceView::right, at(h.width / 2, middle, {}), at(h.width / 2, middle, h.front)}},
       {"middle of the picture to the rib's groove", h.rib.from_middle, frame_error,
        Shown{PieceView::above, at(h.width / 2, {}, {}), at(h.width / 2, h.rib.from_middle, {})}},
       {"bay of the flap", h.bay(), frame_error,
        Shown{PieceView::above, at(-h.bay() / 2, -h.bottom, {}), at(h.bay() / 2, -h.bottom, {})}}});
  const Solid rails = rails_of(h);
  const Length sheet = h.sheet_width / 2 + h.sheet_play;
  add("rails", both(rails, h.frame()), laid(rails, BedSide::low_z), "slot up",
      {{"slot for the sheet, across", 2 * sheet, frame_error,
        Shown{PieceView::above, at(-sheet, 0.3 * h.seam(), {}), at(sheet, 0.3 * h.seam(), {})}},
       {"slot for the sheet, its depth", h.film_slot, 0.05 * mm,
        Shown{PieceView::front, at(sheet, {}, h.rail), at(sheet, {}, h.rails())}},
       {"picture, across",
        h.picture_width,
        {},
        Shown{PieceView::above, at(-half, {}, {}), at(half, {}, {})}}});
  const Solid septum = septum_of(h);
  add("septum", {placed(septum, h.depth())}, laid(septum, BedSide::low_z), "either face down", {},
      true);
  const Length slide_w = h.front + (h.slide_slot - h.slide.thickness) / 2;
  const Solid slide = slide_of(h);
  const Length slide_middle = h.slide_end() + h.slide_length() / 2;
  add("dark slide", both(slide, slide_w), laid(slide, BedSide::low_z), "either face down",
      {{"where it covers the picture, across", h.slide.width, frame_error,
        Shown{PieceView::above,
              {-h.slide.width / 2, h.slide_length() / 2, {}},
              {h.slide.width / 2, h.slide_length() / 2, {}}}},
       {"from the end inside to the stops",
        h.slide.end_length,
        {},
        Shown{PieceView::above,
              {h.slide.end_width / 2, h.slide_end() - slide_middle, {}},
              {h.slide.end_width / 2, h.slide_end() + h.slide.end_length - slide_middle, {}}}}},
      true);
  const Solid grip = grip_of(h);
  add("grip", both(grip, h.front + h.slide_slot / 2), laid(grip, BedSide::high_y), "slot up",
      {{"slot for the slide", h.slide.thickness + h.gap, frame_error,
        Shown{PieceView::right,
              {h.slide.width / 2, -(h.slide.thickness + h.gap) / 2, h.grip.depth},
              {h.slide.width / 2, (h.slide.thickness + h.gap) / 2, h.grip.depth}}}});
  const Solid rib = rib_of(h);
  add("rib", both(rib, {}), laid(rib, BedSide::low_y), "on its side", {}, true);
  const Solid flap = flap_of(h);
  const auto flap_at = [&](Length u, Length v, Length w) {
    return Point3{u, h.thickness() / 2 - w, v + h.bottom};
  };
  add("flap", {placed(flap, {})}, laid(flap, BedSide::low_y), "grooves up",
      {{"groove for a slide, across", h.groove(), frame_error,
        Shown{PieceView::above, flap_at(-h.groove() / 2, h.seam(), h.front),
              flap_at(h.groove() / 2, h.seam(), h.front)}},
       {"groove for the sheets, across", 2 * sheet, frame_error,
        Shown{PieceView::above, flap_at(-sheet, h.seam(), h.thickness() / 2),
              flap_at(sheet, h.seam(), h.thickness() / 2)}},
       {"axis of the pins to the seam", h.pin_radius(), frame_error,
        Shown{PieceView::right,
              flap_at(h.flap_width() / 2, h.seam() - h.pin_radius(), h.flap.relief),
              flap_at(h.flap_width() / 2, h.seam(), h.flap.relief)}}});

  set.steps = steps_of(h);
  const int screws = 2 * static_cast<int>(h.screws.left.size() + h.screws.right.size());
  set.bought = {{"countersunk screw " + screw_name(h.screws.thread, *screw_length(h)), screws},
                {"black felt, " + text(h.felt.thickness, 1) + " thick, strip " +
                     text(h.felt.width, 0) + " × " + text(h.felt_length(), 0),
                 2 * static_cast<int>(h.felt.at.size())},
                {"steel pin " + text(h.flap.pin, 1) + " × " + text(h.pin_length(), 1), 2}};
  // A frame's screws go in before the slides' grips, which are glued on last.
  const auto is_grip = [](const Piece& p) { return p.name == "grip"; };
  const auto grip_place =
      static_cast<std::size_t>(std::ranges::find_if(set.pieces, is_grip) - set.pieces.begin());
  const auto add_screws = [&](const std::vector<Length>& places, double side) {
    for (const Length v : places) {
      for (const bool rear : {false, true}) {
        // Turned about v the rear ones lie on the other side.
        const Length u = (rear ? -side : side) * h.screw_u();
        const Length w = rear ? h.thickness() : Length{};
        const Point3 head =
            pose.lengthways ? Point3{v, -u, pose.face + w} : Point3{u, v, pose.face + w};
        set.screws.push_back({"screw of a frame", head, h.screw_head(), rear, false, {grip_place}});
      }
    }
  };
  add_screws(h.screws.left, -1);
  add_screws(h.screws.right, 1);
  const Length out = h.top - h.seam();
  const auto away = [&](Length v) {
    return pose.lengthways ? Point3{v, {}, {}} : Point3{{}, v, {}};
  };
  set.cut = CutPlane{pose.lengthways ? CutPlane::Axis::y : CutPlane::Axis::x, {}};
  set.apart = {{}, {}, {}, away(out), away(out + 2 * h.grip.depth), {}, away(-2 * h.flap_length())};
  return set;
}

}  // namespace backfit
