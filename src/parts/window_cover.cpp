// SPDX-License-Identifier: MIT
#include "parts/window_cover.hpp"

#include <fmt/format.h>

#include <cassert>
#include <numbers>

#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

// A dovetail along y from `low` to `high`: on z = `floor` 2 `half` wide, 45 degrees narrower
// upwards to `top`.
Solid dovetail(Length half, Length floor, Length top, Length low, Length high) {
  const Length narrow = half - (top - floor);
  // (x, y, z) to (x, -z, y): the outline's y points up, and the prism runs towards -y.
  return quarter_turned_about_x(
      prism({{-half, floor}, {half, floor}, {narrow, top}, {-narrow, top}}, -high, -low));
}

Area dovetail_area(Length half, Length rise) { return (2 * half - rise) * rise; }

Length slide(const WindowCover& c) { return std::numbers::sqrt2 * c.gap; }  // gap along x

Length ridge_half(const WindowCover& c) { return c.side() / 2 - c.slider - c.smallest_wall; }

Length plug_half(const WindowCover& c) { return c.half_floor() - slide(c); }

}  // namespace

Solid frame_of(const WindowCover& c) {
  assert(faults(c).empty());
  const Length x = c.half_width(), top = c.height();
  // The channel goes on above the frame by less than would close it.
  const Length above = (c.half_floor() - c.felt - c.slider) / 2;
  return difference_of(
      box({-x, c.low(), {}}, {x, c.high(), top}),
      {dovetail(c.half_floor(), c.base, top + above, c.channel_low(), c.high() + overshoot),
       cylinder(c.window, -overshoot, c.base + c.felt)});
}

Solid slider_of(const WindowCover& c) {
  assert(faults(c).empty());
  const Length half = c.side() / 2, low = c.base + c.felt, top = c.height();
  const Length ridge = c.grip / 4;
  return union_of(
      {dovetail(half, low, top, -half, half),
       box({-ridge_half(c), -ridge, low + c.slider / 2}, {ridge_half(c), ridge, top + c.grip})});
}

Solid plug_of(const WindowCover& c) {
  assert(faults(c).empty());
  return dovetail(plug_half(c), c.base, c.height(), c.high() - c.plug, c.high());
}

Volume frame_volume(const WindowCover& c) {
  return 2 * c.half_width() * (c.high() - c.low()) * c.height() -
         dovetail_area(c.half_floor(), c.felt + c.slider) * (c.high() - c.channel_low()) -
         std::numbers::pi / 4 * (c.window * c.window) * c.base;
}

Volume slider_volume(const WindowCover& c) {
  return dovetail_area(c.side() / 2, c.slider) * c.side() +
         2 * ridge_half(c) * (c.grip / 2) * c.grip;
}

Volume plug_volume(const WindowCover& c) {
  return dovetail_area(plug_half(c), c.felt + c.slider) * c.plug;
}

PieceSet set_of(const WindowCover& c) {
  PieceSet set;
  set.name = "window cover";
  set.purpose =
      fmt::format("Keeps daylight off the red window of ⌀{} mm but while the film is wound.",
                  fixed(c.window / mm, 1));
  using Shown = PieceSize::Shown;
  const auto add = [&](const char* name, const Solid& solid, const char* lies,
                       std::vector<PieceSize> sizes) {
    const Solid on_bed = laid(solid, BedSide::low_z);
    set.pieces.push_back(
        {name, {translated(solid, c.place)}, on_bed, on_bed, lies, std::move(sizes)});
  };
  const Length middle = (c.low() + c.high()) / 2, f = c.half_floor(), top = c.height();
  const Length narrow = f - c.felt - c.slider;
  add("frame", frame_of(c), "floor down",
      {{"window",
        c.window,
        {},
        Shown{PieceView::above, {-c.window / 2, -middle, c.base}, {c.window / 2, -middle, c.base}}},
       {"channel between the walls, at the top",
        2 * narrow,
        {},
        Shown{
            PieceView::above, {-narrow, c.high() - middle, top}, {narrow, c.high() - middle, top}}},
       {"floor",
        c.base,
        {},
        Shown{PieceView::front, {c.half_width(), {}, {}}, {c.half_width(), {}, c.base}}}});
  const Length half = c.side() / 2;
  add("slider", slider_of(c), "felt side down",
      {{"width at the felt", c.side(), 0.2 * mm,
        Shown{PieceView::front, {-half, -half, {}}, {half, -half, {}}}},
       {"thickness",
        c.slider,
        {},
        Shown{PieceView::front, {half, -half, {}}, {half, -half, c.slider}}}});
  add("plug", plug_of(c), "wide side down", {});
  set.steps.push_back(
      {"Glue the felt",
       fmt::format("Black felt over the slider's whole wide side, {} pressed together. The slider "
                   "must go in with slight pressure and stay where it is put.",
                   text(c.felt)),
       {"Glue: fresh air, no flame, and the safety data sheet of the one you use."}});
  set.steps.push_back({"Close the frame",
                       "Slider in, ridge outside, then a little glue on the plug and press it into "
                       "the open end, flush.",
                       {}});
  set.steps.push_back(
      {"Glue it on",
       "Window over window, the way that it opens pointing up, with thin black double-sided tape "
       "all round the hole. Look for light from inside, a lamp on the cover, your eyes used to "
       "the dark.",
       {}});
  set.bought.push_back(
      {fmt::format("black felt, {} × {} mm", fixed(c.side() / mm, 0), fixed(c.side() / mm, 0)), 1});
  set.bought.push_back({"thin black double-sided tape", 1});
  set.cut = CutPlane{CutPlane::Axis::x, c.place.x};
  const Length out = 2 * c.height() + c.grip;
  set.apart = {{}, {{}, {}, out}, {{}, c.plug + out, {}}};
  return set;
}

}  // namespace backfit
