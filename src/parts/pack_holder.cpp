// SPDX-License-Identifier: MIT
#include "parts/pack_holder.hpp"

#include <cassert>
#include <utility>

#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Cutters reach past the faces they open, so that no face of a cutter lies in a face of the part.
constexpr Length overshoot = 1 * mm;

// A rectangle about the axis.
Solid block(Length width, Length height, Length low, Length high) {
  return box({-width / 2, -height / 2, low}, {width / 2, height / 2, high});
}

Solid tray_of(const PackHolder& h) {
  return difference_of(block(h.width, h.length, {}, h.tray()),
                       {block(h.picture_width, h.picture_height, -overshoot, h.tray()),
                        block(h.slot_width(), h.slot_height(), h.rail, h.tray() + overshoot),
                        block(h.lid_width() + 2 * h.gap, h.lid_height() + 2 * h.gap,
                              h.rail + h.sheet_slot, h.tray() + 2 * overshoot)});
}

Solid lid_of(const PackHolder& h) { return block(h.lid_width(), h.lid_height(), {}, h.lid); }

Solid face_of(const PackHolder& h) {
  const PackHolder::Slide& s = *h.slide;
  const Length end = h.groove() / 2, mouth = h.mouth() / 2, top = h.length / 2 + overshoot;
  return difference_of(block(h.width, h.length, {}, h.face()),
                       {block(h.picture_width, h.picture_height, -overshoot, h.face()),
                        prism({{-end, h.groove_end()},
                               {end, h.groove_end()},
                               {end, s.stops},
                               {mouth, s.stops},
                               {mouth, top},
                               {-mouth, top},
                               {-mouth, s.stops},
                               {-end, s.stops}},
                              s.wall, h.face() + overshoot),
                        box({-s.width / 2, s.felt_at, s.wall - s.pocket},
                            {s.width / 2, s.felt_at + s.felt_width, h.face()})});
}

Solid slide_of(const PackHolder& h) {
  const PackHolder::Slide& s = *h.slide;
  const Length end = s.end_width / 2, half = s.width / 2;
  const Length low = h.slide_end(), shoulder = low + s.end_length, high = low + h.slide_length();
  return prism({{-end, low},
                {end, low},
                {end, shoulder},
                {half, shoulder},
                {half, high},
                {-half, high},
                {-half, shoulder},
                {-end, shoulder}},
               {}, s.thickness);
}

std::vector<AssemblyStep> steps_of(const PackHolder& h) {
  std::vector<AssemblyStep> steps{
      {"Print and blacken",
       "All black. Hold every piece against a lamp: where one shines through, paint it or cut it "
       "from opaque sheet. Matt black on the edges of the picture; nothing where a sheet slides.",
       {"Printing gives off fumes and fine particles: ventilate, and don't print where somebody "
        "sleeps. The filament's safety data sheet decides.",
        "Paint and glue: fresh air, no flame, and the safety data sheet of the one you use."}}};
  if (h.slide) {
    steps.push_back(
        {"Lay in the slide",
         "Felt in the face's pocket, pile upwards, glued thinly. The slide in its "
         "groove, its wide end inside; then glue the tray on the face, its edges flush. "
         "No glue may run to the slide: draw it until the glue has set.",
         {}});
    steps.push_back({"Try the slide",
                     "Drawn by " + text(h.travel(), 1) +
                         " it meets its stops and leaves the picture free; pushed in its tab "
                         "stands out by " +
                         text(h.slide->tab, 0) + ".",
                     {}});
  }
  steps.push_back({"Try a sheet",
                   "A spoiled sheet of " + fixed(h.sheet_width / mm, 1) + " × " +
                       fixed(h.sheet_height / mm, 1) +
                       " mm lies flat in its slot, the lid flat on the ledge around it.",
                   {}});
  steps.push_back(
      {"Measure the depth",
       "Depth rod from the front through the picture to the lid, less the sheet's slot: "
       "the lips are " +
           text(h.lips()) +
           " thick. Write what you find as measured_depth under [pack_holder] and make "
           "this sheet anew.",
       {}});
  steps.push_back(
      {"Load",
       h.slide
           ? "In the dark: the sheet in its slot, sensitive face to the front, the lid on it, "
             "black tape along all four of its edges."
           : "In the dark bag, where the camera is changed, too: the sheet in its slot, "
             "sensitive face to the front, the lid on it, a strip of tape to hold it. The holder "
             "is no light trap: it leaves the bag in the closed camera alone.",
       {"Whoever works in the dark clears the bench of blades first."}});
  if (h.slide) {
    steps.push_back({"Look for light",
                     "Loaded and shut it lies five minutes in daylight on each face; develop the "
                     "sheet: it must be clear. Fog from the mouth: new felt; from the edges: wider "
                     "tape.",
                     {}});
  }
  return steps;
}

}  // namespace

Volume tray_volume(const PackHolder& h) {
  assert(faults(h).empty());
  return h.width * h.length * h.tray() - h.picture_width * h.picture_height * h.rail -
         h.slot_width() * h.slot_height() * h.sheet_slot -
         (h.lid_width() + 2 * h.gap) * (h.lid_height() + 2 * h.gap) * h.lid;
}

Volume lid_volume(const PackHolder& h) { return h.lid_width() * h.lid_height() * h.lid; }

Volume face_volume(const PackHolder& h) {
  assert(faults(h).empty());
  const PackHolder::Slide& s = *h.slide;
  return h.width * h.length * h.face() - h.picture_width * h.picture_height * s.wall -
         (h.groove() * (s.stops - h.groove_end()) + h.mouth() * (h.length / 2 - s.stops)) * s.slot -
         s.width * s.felt_width * s.pocket;
}

Volume slide_volume(const PackHolder& h) {
  const PackHolder::Slide& s = *h.slide;
  return (s.end_width * s.end_length + s.width * (h.slide_length() - s.end_length)) * s.thickness;
}

PieceSet set_of(const PackHolder& h, const PackHolderPose& pose) {
  assert(faults(h).empty());
  const auto placed = [&](const Solid& body, Length w) {
    Solid turned = body;
    for (int k = 0; k < pose.quarters; ++k) turned = quarter_turned_about_z(turned);
    return translated(turned, {{}, {}, pose.face + w});
  };
  PieceSet set{"pack holder",
               std::string("Thin holder for one sheet where the old pack lay, ") +
                   (h.slide ? "its dark slide drawn through the camera's slit."
                            : "without a dark slide: it is changed in a dark bag."),
               {}};
  using Shown = PieceSize::Shown;
  const Length error = 0.1 * mm;  // common practice: what is worth measuring with a caliper
  const auto across = [](Length width, Length w) {
    return Shown{PieceView::above, {-width / 2, {}, w}, {width / 2, {}, w}};
  };
  const auto add = [&](std::string name, const Solid& body, Length w, std::string lies,
                       std::vector<PieceSize> sizes, bool flat = false) {
    const Solid lying = laid(body, BedSide::low_z);
    set.pieces.push_back({std::move(name),
                          {placed(body, w)},
                          lying,
                          lying,
                          std::move(lies),
                          std::move(sizes),
                          flat});
  };
  if (h.slide) {
    const PackHolder::Slide& s = *h.slide;
    add("face", face_of(h), {}, "face down",
        {{"picture, across", h.picture_width, {}, across(h.picture_width, {})},
         {"slide's groove in the mouth", h.mouth(), error,
          Shown{PieceView::above,
                {-h.mouth() / 2, h.length / 2, {}},
                {h.mouth() / 2, h.length / 2, {}}}},
         {"face to the slide's groove", s.wall, error,
          Shown{PieceView::front, {h.mouth() / 2, {}, {}}, {h.mouth() / 2, {}, s.wall}}}});
  }
  add("tray", tray_of(h), h.face(), "picture down",
      {{"slot for the sheet, across", h.slot_width(), error, across(h.slot_width(), h.rail)},
       {"rails before the sheet", h.rail, error,
        Shown{PieceView::front, {h.picture_width / 2, {}, {}}, {h.picture_width / 2, {}, h.rail}}},
       {"recess for the lid, across", h.lid_width() + 2 * h.gap, error,
        across(h.lid_width() + 2 * h.gap, h.tray())}});
  add("lid", lid_of(h), h.lips() + h.sheet_slot, "either face down", {}, true);
  if (h.slide) {
    const PackHolder::Slide& s = *h.slide;
    add("dark slide", slide_of(h), s.wall + (s.slot - s.thickness) / 2, "either face down",
        {{"where it covers the picture, across", s.width, error, across(s.width, {})}}, true);
    set.bought.push_back({"black felt, " + text(s.felt, 1) + " thick, strip " +
                              text(s.felt_width, 1) + " × " + text(s.width, 0),
                          1});
  }
  set.bought.push_back({"black tape, 12 mm wide, a roll", 1});
  set.steps = steps_of(h);
  const bool turned = pose.quarters % 2 != 0;
  set.cut = CutPlane{turned ? CutPlane::Axis::y : CutPlane::Axis::x, {}};
  // Apart along the light, in the order in which they lie; the slide out of its mouth.
  const Length step = 3 * h.thickness();
  Length out;
  const Solid way = placed(box({-1 * mm, h.length, {}}, {1 * mm, h.length + 1 * mm, 1 * mm}), {});
  const Bounds b = bounds_of(way);
  for (const Piece& p : set.pieces) {
    if (p.name == "dark slide") {
      set.apart.push_back({(b.low.x + b.high.x) / 2, (b.low.y + b.high.y) / 2, {}});
    } else {
      set.apart.push_back({{}, {}, out});
      out += step;
    }
  }
  return set;
}

}  // namespace backfit
