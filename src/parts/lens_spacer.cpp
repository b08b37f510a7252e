// SPDX-License-Identifier: MIT
#include "parts/lens_spacer.hpp"

#include <fmt/format.h>

#include <cassert>
#include <numbers>

#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

Area circle(Length diameter) { return std::numbers::pi / 4 * (diameter * diameter); }

std::string shim_name(Length thickness) { return fmt::format("shim {}", fixed(thickness / mm, 2)); }

// Four, at the corners of a rectangle round the middle.
bool is_rectangle(const std::vector<PlatePoint>& screws) {
  if (screws.size() != 4) return false;
  int quarters = 0;
  for (const PlatePoint& p : screws) {
    if (abs(abs(p.x) - abs(screws.front().x)) >= smallest_detail ||
        abs(abs(p.y) - abs(screws.front().y)) >= smallest_detail) {
      return false;
    }
    quarters |= 1 << ((p.x > Length{} ? 1 : 0) + (p.y > Length{} ? 2 : 0));
  }
  return quarters == 15;
}

std::vector<PieceSize> sizes_of(const LensSpacer& s) {
  using Shown = PieceSize::Shown;
  std::vector<PieceSize> sizes{
      {"opening, diameter",
       s.opening,
       {},
       Shown{PieceView::above, {-s.opening / 2, {}, {}}, {s.opening / 2, {}, {}}}}};
  if (is_rectangle(s.screws)) {
    const PlatePoint& p = s.screws.front();
    const Length x = abs(p.x), y = abs(p.y);
    sizes.push_back({"screw holes, from left to right",
                     2 * x,
                     {},
                     Shown{PieceView::above, {-x, y, {}}, {x, y, {}}}});
    sizes.push_back({"screw holes, from below to above",
                     2 * y,
                     {},
                     Shown{PieceView::above, {x, -y, {}}, {x, y, {}}}});
  } else {
    for (const PlatePoint& p : s.screws) {
      sizes.push_back({"screw hole, right of the middle",
                       abs(p.x),
                       {},
                       Shown{PieceView::above, {{}, p.y, {}}, {p.x, p.y, {}}}});
      sizes.push_back({"screw hole, above the middle",
                       abs(p.y),
                       {},
                       Shown{PieceView::above, {p.x, {}, {}}, {p.x, p.y, {}}}});
      if (abs(p.x) < smallest_detail) sizes.erase(sizes.end() - 2);
      if (abs(p.y) < smallest_detail) sizes.pop_back();
    }
  }
  if (!s.screws.empty()) sizes.push_back({"screw holes, diameter", s.screw_hole});
  return sizes;
}

}  // namespace

Solid layer_of(const LensSpacer& s, Length thickness) {
  assert(faults(s).empty());
  const Solid outline =
      s.round ? cylinder(s.width, Length{}, thickness)
              : rounded_prism(s.width, s.height, s.corner_radius, Length{}, thickness);
  std::vector<Solid> cutters{cylinder(s.opening, -overshoot, thickness + overshoot)};
  for (const PlatePoint& p : s.screws) {
    cutters.push_back(
        translated(cylinder(s.screw_hole, -overshoot, thickness + overshoot), {p.x, p.y, {}}));
  }
  return difference_of(outline, cutters);
}

Area area_of(const LensSpacer& s) {
  const Area outline =
      s.round ? circle(s.width)
              : s.width * s.height - (4 - std::numbers::pi) * (s.corner_radius * s.corner_radius);
  return outline - circle(s.opening) - static_cast<double>(s.screws.size()) * circle(s.screw_hole);
}

PieceSet set_of(const LensSpacer& s) {
  PieceSet set;
  set.name = "lens spacer";
  set.purpose = fmt::format("Lies under the lens board and moves the lens {} away from the film.",
                            text(s.thickness()));
  // From the lens board backwards: shims first, the printed spacer last.
  Length z = s.front;
  const auto add = [&](const std::string& name, Length thickness, int count,
                       const std::string& cut_from) {
    const Solid flat = layer_of(s, thickness);
    std::vector<Solid> in_place;
    for (int i = 0; i < count; ++i) {
      in_place.push_back(translated(flat, {{}, {}, z}));
      z += thickness;
    }
    const Solid on_bed = laid(flat, BedSide::low_z);
    set.pieces.push_back({name, std::move(in_place), on_bed, on_bed, "flat", sizes_of(s), true});
    set.pieces.back().cut_from = cut_from;
  };
  for (std::size_t i = 0; i < s.shims.size();) {
    std::size_t same = i;
    while (same < s.shims.size() && s.shims[same] == s.shims[i]) ++same;
    add(shim_name(s.shims[i]), s.shims[i], static_cast<int>(same - i),
        fmt::format("{} sheet, {}", s.shim_sheet, text(s.shims[i])));
    i = same;
  }
  if (s.printed > Length{}) add("spacer", s.printed, 1, {});
  set.steps.push_back(
      {"Take the lens board off",
       "Mark which way up it sits. Note the way of every cable before you loosen it, and keep the "
       "screws in the order of their holes.",
       {"A camera with a flash holds a charge of hundreds of volts for days, its battery out or "
        "not: "
        "leave its inside to somebody qualified."}});
  if (!s.shims.empty()) {
    set.steps.push_back(
        {"Cut the shims",
         fmt::format("From {} sheet of the thickness in each one's name, measured at its corners: "
                     "by the outline at the end of this chapter, glued on, or by its DXF or SVG "
                     "file. Holes first, the opening next, the outside last. Take off the burr on "
                     "both faces, on a flat stone: it would be counted with the sheet.",
                     s.shim_sheet),
         {"Thin sheet cuts like a blade: gloves and eye protection, and clamp it between two "
          "boards "
          "to drill it."}});
  }
  set.steps.push_back(
      {"Lay the stack",
       fmt::format(
           "Measure the stack with the caliper before it goes in: {} in all{}. Drawn, it is known "
           "to ± {} (95 %). Nothing else between the faces, no paint where they touch.",
           text(s.thickness()),
           abs(s.thickness() - s.wanted) > 0.005 * mm
               ? fmt::format(", {} is wanted", text(s.wanted))
               : std::string(),
           text(coverage_95 * s.doubt())),
       {}});
  set.steps.push_back(
      {"Screw the board on",
       fmt::format(
           "Screws longer by {}, crosswise, a little at a time. Check that shutter and stop "
           "still move, then set infinity again on a ground glass.",
           text(s.thickness(), 1)),
       {}});
  if (!s.screws.empty()) {
    set.bought.push_back({fmt::format("screw for the lens board, {} longer than the old one",
                                      text(s.thickness(), 1)),
                          static_cast<int>(s.screws.size())});
  }
  set.cut = CutPlane{CutPlane::Axis::x, Length{}};
  // Towards the lens as they lie, far enough apart to be told from each other.
  const Length step = std::max(s.width, s.height) / 5;
  for (std::size_t i = 0; i < set.pieces.size() && set.pieces.size() > 1; ++i) {
    set.apart.push_back({{}, {}, static_cast<double>(i) * step});
  }
  return set;
}

}  // namespace backfit
