// SPDX-License-Identifier: MIT
#include "parts/attachment_ring.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "parts/printing.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

constexpr Length overshoot = 1 * mm;

// The ring as it stands: the wider grip from 0 to `wide_top`, the cone to `ledge_low`, the ledge to
// `ledge_high`, the narrower grip to `top`.
struct Profile {
  Length wide_bore, narrow_bore, opening;
  Length wide_outside, narrow_outside;
  Length wide_top, ledge_low, ledge_high, top;
  Length wide_slot, narrow_slot;  // lengths
};

Profile profile_of(const AttachmentRing& r) {
  Profile p;
  p.wide_bore = std::max(r.rim_bore(), r.attachment_bore());
  p.narrow_bore = std::min(r.rim_bore(), r.attachment_bore());
  p.opening = r.opening();
  p.wide_outside = p.wide_bore + 2 * r.wall;
  p.narrow_outside = p.narrow_bore + 2 * r.wall;
  // No step that the kernel can't tell from none.
  if (p.wide_outside - p.narrow_outside < 2 * smallest_detail) p.narrow_outside = p.wide_outside;
  const Length wide_grip = r.rim_is_wider() ? r.rim_grip : r.attachment_grip;
  const Length narrow_grip = r.rim_is_wider() ? r.attachment_grip : r.rim_grip;
  p.wide_top = wide_grip;
  p.ledge_low = p.wide_top + (p.wide_bore - p.opening) / 2;
  p.ledge_high = p.ledge_low + r.wall;
  p.top = p.ledge_high + narrow_grip;
  p.wide_slot = wide_grip - r.wall;
  p.narrow_slot = narrow_grip - r.wall;
  return p;
}

// Of a strip of half width `half` about a radius, from the middle out to the circle.
Area strip_area(Length radius, Length half) {
  return half * sqrt(radius * radius - half * half) + radius * radius * std::asin(half / radius);
}

Area circle(Length diameter) { return std::numbers::pi / 4 * (diameter * diameter); }

}  // namespace

Solid solid_of(const AttachmentRing& r) {
  assert(faults(r).empty());
  const Profile p = profile_of(r);
  std::vector<Solid> bodies;
  if (p.narrow_outside == p.wide_outside) {
    bodies.push_back(cylinder(p.wide_outside, Length{}, p.top));
  } else {
    bodies.push_back(cylinder(p.wide_outside, Length{}, p.ledge_high));
    bodies.push_back(cylinder(p.narrow_outside, p.wide_top, p.top));
  }
  const Length half = r.slot / 2, reach = p.wide_outside;
  const Length low = p.wide_slot, high = p.top - p.narrow_slot;
  const std::vector<OutlineCorner> cross{{half, half},   {reach, half},   {reach, -half},
                                         {half, -half},  {half, -reach},  {-half, -reach},
                                         {-half, -half}, {-reach, -half}, {-reach, half},
                                         {-half, half},  {-half, reach},  {half, reach}};
  // The cone goes on inside the opening, so that it and the opening share no edge.
  const Length narrower = p.opening / 2;
  const std::vector<Solid> cutters{
      union_of(
          {cylinder(p.wide_bore, -overshoot, p.wide_top),
           frustum(p.wide_bore, p.wide_top, narrower, p.wide_top + (p.wide_bore - narrower) / 2)}),
      cylinder(p.opening, p.wide_top, p.top + overshoot),
      cylinder(p.narrow_bore, p.ledge_high, p.top + overshoot), prism(cross, -overshoot, low),
      prism(cross, high, p.top + overshoot)};
  return difference_of(bodies.size() == 1 ? bodies.front() : union_of(bodies), cutters);
}

Volume volume_of(const AttachmentRing& r) {
  assert(faults(r).empty());
  const Profile p = profile_of(r);
  const Length half = r.slot / 2;
  const auto slots = [half](Length outside, Length bore, Length length) {
    return 4 * (strip_area(outside / 2, half) - strip_area(bore / 2, half)) * length;
  };
  const Length a = p.wide_bore, b = p.opening;
  const Volume cone = std::numbers::pi / 12 * (a * a + a * b + b * b) * (p.ledge_low - p.wide_top);
  return circle(p.wide_outside) * p.ledge_high + circle(p.narrow_outside) * (p.top - p.ledge_high) -
         circle(a) * p.wide_top - cone - circle(b) * r.wall -
         circle(p.narrow_bore) * (p.top - p.ledge_high) - slots(p.wide_outside, a, p.wide_slot) -
         slots(p.narrow_outside, p.narrow_bore, p.narrow_slot);
}

PieceSet set_of(const AttachmentRing& r) {
  const Profile p = profile_of(r);
  const bool rim_wide = r.rim_is_wider();
  PieceSet set;
  set.name = "ring for " + r.name;
  set.purpose = fmt::format("Slips over the lens's rim of ⌀{} mm and carries the {}, ⌀{} mm.",
                            fixed(r.rim / mm, 1), r.name, fixed(r.attachment / mm, 1));
  const Solid ring = solid_of(r);
  const Solid on_bed = laid(ring, BedSide::low_z);
  // The rim's end of the ring points backwards; the rim's front lies against cone or ledge.
  const Length seat = rim_wide ? p.wide_top + r.gap : p.ledge_high;
  const Solid in_place = rim_wide
                             ? translated(half_turned_about_x(ring), {{}, {}, r.rim_front + seat})
                             : translated(ring, {{}, {}, r.rim_front - seat});
  using Shown = PieceSize::Shown;
  const Length w = p.wide_bore / 2, n = p.narrow_bore / 2, o = p.opening / 2;
  std::vector<PieceSize> sizes{
      {rim_wide ? "bore for the lens's rim" : "bore for the attachment", p.wide_bore, 0.2 * mm,
       Shown{PieceView::above, {-w, {}, {}}, {w, {}, {}}}},
      {rim_wide ? "bore for the attachment" : "bore for the lens's rim", p.narrow_bore, 0.2 * mm,
       Shown{PieceView::above, {-n, {}, p.top}, {n, {}, p.top}}},
      {"opening in the ledge",
       p.opening,
       {},
       Shown{PieceView::above, {-o, {}, p.ledge_high}, {o, {}, p.ledge_high}}},
      {"wider grip", p.wide_top, {}, Shown{PieceView::front, {w, {}, {}}, {w, {}, p.wide_top}}},
      {"narrower grip",
       p.top - p.ledge_high,
       {},
       Shown{PieceView::front, {w, {}, p.ledge_high}, {w, {}, p.top}}},
      {"slots, width",
       r.slot,
       {},
       Shown{PieceView::front, {-r.slot / 2, {}, {}}, {r.slot / 2, {}, {}}}}};
  set.pieces.push_back({"ring", {in_place}, on_bed, on_bed, "wider grip down", std::move(sizes)});
  set.steps.push_back({"Try it on",
                       "It must slip over rim and attachment without force, the slots open. Scrape "
                       "the bores, never the lens. Black inside: matt paint, or felt.",
                       {"Paint and glue: fresh air, no flame, and the safety data sheet of the one "
                        "you use."}});
  set.steps.push_back(
      {"Clamp it",
       "A clip round each slotted grip, drawn only until nothing turns: more bends the rim or "
       "strains the glass. Hang the attachment on a cord the first time.",
       {"A front that turns or travels with the focus must not carry a heavy attachment: hold it "
        "by "
        "hand at every focus and see that nothing binds."}});
  set.bought.push_back(
      {fmt::format("clip or cable tie round ⌀{} mm", fixed(p.wide_outside / mm, 0)), 1});
  set.bought.push_back(
      {fmt::format("clip or cable tie round ⌀{} mm", fixed(p.narrow_outside / mm, 0)), 1});
  set.cut = CutPlane{CutPlane::Axis::x, r.slot};
  return set;
}

}  // namespace backfit
