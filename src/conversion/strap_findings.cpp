// SPDX-License-Identifier: MIT
// What the straps of a back plate ask for.
#include <fmt/format.h>

#include "conversion/finding_words.hpp"
#include "conversion/strap_design.hpp"
#include "quantity/notation.hpp"

namespace backfit {

void find_straps(const Report& r, std::vector<Finding>& out) {
  const Assembly& a = r.assembly;
  if (!a.plate || !a.plate->lugs) return;
  const StrapsPlan& plan = *a.plan.back->straps;
  const StrapLugs& lugs = *a.plate->lugs;
  for (const Neighbour* n : in_the_way_of_lugs(a)) {
    out.push_back(
        {"strap-lug-blocked",
         Weight::blocker,
         n->place,
         fmt::format("a strap lug, which stands {} out of the plate's edge, runs into the "
                     "{}",
                     text(lugs.out(), 1), *n->name),
         {},
         {fmt::format("take [back.straps] out, or cut the {} down to the seat's plane",
                      *n->name)}});
  }
  if (a.camera.seat->neighbours.empty()) {
    out.push_back(
        {"neighbours-unknown",
         Weight::warning,
         a.camera.seat->place,
         fmt::format("what stands beside the seat is not surveyed: nobody knows whether "
                     "the strap lugs, {} out of the plate's edge, have room",
                     text(lugs.out(), 1)),
         {},
         {"measure the middle and size of each from the axis, seen from behind, and how "
          "far it stands behind the seat; write [[seat.neighbours]] in the camera file"}});
  }
  const auto way = strap_way(a);
  if (!way) {
    out.push_back(
        {"strap-length-unknown",
         Weight::warning,
         plan.place,
         "how long the straps must be hangs on the holder's thickness, which is not known",
         {},
         {"measure it and write holder_thickness = \"15.5 mm ± 0.3\" under [back.straps]"}});
    return;
  }
  out.push_back(
      {"straps",
       Weight::note,
       plan.place,
       fmt::format("{} straps over the holder, each drawn to {} round: rings of {} to {} mm round; "
                   "each presses with {} times the pull of its strands",
                   lugs.at.size(), text(way->ring, 0), fixed(way->least / mm, 0),
                   fixed(way->most / mm, 0), fixed(way->press_factor, 1)),
       {},
       {}});
}

}  // namespace backfit
