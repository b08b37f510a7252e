// SPDX-License-Identifier: MIT
#include "parts/focus_gauge.hpp"

#include <fmt/format.h>

#include <cassert>

#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

Solid centred_box(Length width, Length height, Length low, Length high) {
  return box({-width / 2, -height / 2, low}, {width / 2, height / 2, high});
}

std::vector<PieceSize> sizes_of(const FocusGauge& g) {
  // As it lies, rear face down: z on the bed counts from the rear face towards the lens.
  const auto up = [&](Length z) { return g.back - z; };
  using Shown = PieceSize::Shown;
  const Length x = g.view_width / 2, y = g.view_height / 2;
  const Length px = g.pocket_width() / 2, py = g.pocket_height() / 2;
  std::vector<PieceSize> sizes{
      {"opening, width", g.view_width, {}, Shown{PieceView::above, {-x, y, {}}, {x, y, {}}}},
      {"opening, height", g.view_height, {}, Shown{PieceView::above, {x, -y, {}}, {x, y, {}}}}};
  if (g.has_pocket()) {
    const Length top = up(g.front), floor = up(g.ledge);
    sizes.push_back({"pocket for the glass, width",
                     g.pocket_width(),
                     {},
                     Shown{PieceView::above, {-px, -py, top}, {px, -py, top}}});
    sizes.push_back({"pocket for the glass, height",
                     g.pocket_height(),
                     {},
                     Shown{PieceView::above, {-px, -py, top}, {-px, py, top}}});
    sizes.push_back({"floor of the pocket over the rear face",
                     floor,
                     {},
                     Shown{PieceView::front, {-px, {}, {}}, {-px, {}, floor}}});
  }
  if (g.has_nose()) {
    sizes.push_back(
        {"plate over the rear face",
         up(g.rest),
         {},
         Shown{PieceView::front, {g.width / 2, {}, {}}, {g.width / 2, {}, up(g.rest)}}});
    sizes.push_back({"nose, width",
                     g.nose_width,
                     {},
                     Shown{PieceView::front,
                           {-g.nose_width / 2, {}, up(g.front)},
                           {g.nose_width / 2, {}, up(g.front)}}});
  }
  return sizes;
}

std::string glass_text(const FocusGauge& g) {
  return fmt::format("{} × {} mm, {} mm thick", fixed(g.glass_width / mm, 1),
                     fixed(g.glass_height / mm, 1), fixed(g.glass_thickness / mm, 2));
}

std::vector<AssemblyStep> steps_of(const FocusGauge& g) {
  std::vector<AssemblyStep> steps;
  steps.push_back({"Clean the faces",
                   fmt::format("Front face{}: a straightedge must not rock there, no thread of "
                               "plastic may stand up. It sets the plane.",
                               g.tape ? "" : ", and the ledge that the glass lies on"),
                   {}});
  if (g.tape) {
    steps.push_back(
        {"Stretch the tape",
         fmt::format("Frosted tape, {}, over the opening on the FRONT face, strip beside strip "
                     "without overlap, its frosted side to the lens, smooth as a drum. The tape "
                     "itself lies on what carries the film.",
                     glass_text(g)),
         {}});
  } else {
    const std::string place =
        g.packing() < 0 * mm
            ? fmt::format("It stands {} out of the frame and lies itself on what carries the film.",
                          text(-g.packing()))
            : fmt::format(
                  "Between ledge and glass goes packing of {}, strips of paper on all four "
                  "sides: then its matt face lies in the film's plane.",
                  text(g.packing()));
    steps.push_back({"Put in the glass",
                     fmt::format("Ground glass, {}, into the pocket from the front, matt side to "
                                 "the lens. {} Two small drops of glue at the corners hold it.",
                                 glass_text(g), place),
                     {"Glass has sharp edges: break them with a wet whetstone or cover them with "
                      "tape, and wear glasses while cutting."}});
    const Length matt = g.packing() < 0 * mm ? g.ledge - g.glass_thickness : g.film;
    const std::string how =
        matt > g.rest ? "lies, by the caliper's depth rod, behind the frame's front face by "
                      : "stands before the frame's plate, the face that lies on its rest, by ";
    steps.push_back(
        {"Check the plane",
         fmt::format("At its four corners the matt face {}{}.", how, text(abs(matt - g.rest))),
         {}});
  }
  steps.push_back(
      {"Set infinity",
       "Lens wide open, shutter held open, a far subject with sharp edges: from behind, "
       "with a loupe, move the lens until it is sharpest; its stop goes there, or packing under "
       "the mount of a lens that sits fast. "
       "Do it five times and take the middle.",
       {"Never point a lens at the sun while you look, nor leave it lying in the sun: "
        "it burns eyes and starts fires."}});
  return steps;
}

}  // namespace

Solid solid_of(const FocusGauge& g) {
  assert(faults(g).empty());
  std::vector<Solid> bodies{centred_box(g.width, g.height, g.rest, g.back)};
  if (g.has_nose()) {
    // Its root ends inside the plate, not in its face.
    bodies.push_back(centred_box(g.nose_width, g.nose_height, g.front, (g.rest + g.back) / 2));
  }
  std::vector<Solid> cutters{
      centred_box(g.view_width, g.view_height, g.front - overshoot, g.back + overshoot)};
  if (g.has_pocket()) {
    cutters.push_back(
        centred_box(g.pocket_width(), g.pocket_height(), g.front - overshoot, g.ledge));
  }
  return difference_of(bodies.size() == 1 ? bodies.front() : union_of(bodies), cutters);
}

Volume volume_of(const FocusGauge& g) {
  assert(faults(g).empty());
  const Length deep = g.has_pocket() ? g.ledge - g.front : Length{};
  Volume v = g.width * g.height * (g.back - g.rest) - g.pocket_width() * g.pocket_height() * deep -
             g.view_width * g.view_height * (g.back - g.front - deep);
  if (g.has_nose()) v += g.nose_width * g.nose_height * (g.rest - g.front);
  return v;
}

PieceSet set_of(const FocusGauge& g) {
  PieceSet set;
  set.name = "focus gauge";
  set.purpose =
      "Carries a matt face in the plane in which the film will lie, to set the infinity stop and "
      "to see what the lens draws there.";
  const Solid frame = solid_of(g);
  const Solid on_bed = laid(frame, BedSide::high_z);
  set.pieces.push_back(
      {"frame", {frame}, on_bed, on_bed, "rear face down, pocket up", sizes_of(g)});
  set.steps = steps_of(g);
  set.bought.push_back({(g.tape ? "frosted tape, " : "ground glass, ") + glass_text(g), 1});
  set.cut = CutPlane{CutPlane::Axis::y, Length{}};
  return set;
}

}  // namespace backfit
