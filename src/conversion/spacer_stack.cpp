// SPDX-License-Identifier: MIT
#include "conversion/spacer_stack.hpp"

#include <algorithm>
#include <numbers>
#include <utility>

#include "conversion/lens_spacer_design.hpp"
#include "conversion/seam_sides.hpp"

namespace backfit {
namespace {

constexpr Length barrel = 2 * mm;     // of lens before the stack, at least
constexpr double longest_arm = 1000;  // in gaps, see fault_of(profile)

}  // namespace

SpacerStack::SpacerStack(LensSpacer spacer, const HollowRoom& room, const LeakSpacer& how)
    : spacer_(std::move(spacer)), room_(room), taped_(how.taped) {
  const LensSpacer& s = spacer_;
  // The board's rear face has moved forward from there.
  standard_ = std::min(s.front + s.thickness(), room.rear - smallest_detail);
  struct Layer {
    Length thickness, error;
    Wall face;
  };
  std::vector<Layer> layers;
  for (const Length shim : s.shims) layers.push_back({shim, s.shim_error, bare_metal});
  if (s.printed > Length{}) layers.push_back({s.printed, s.error, bare_print});
  // From the standard forward, so that it stays where it is.
  Length z = standard_;
  const auto meet = [&](const char* name, Length error, const Wall& before, const Wall& behind) {
    const Length gap = how.face_gap.value_or(std::max(smallest_detail, error));
    z -= gap;
    meetings_.push_back({name, z, gap, before, behind});
  };
  for (std::size_t i = layers.size(); i-- > 0;) {
    const Layer& l = layers[i];
    const bool last = i + 1 == layers.size();
    meet(last ? "lens spacer's seam" : "seam within the lens spacer",
         last ? l.error : std::max(l.error, layers[i + 1].error), l.face,
         last ? painted_metal : layers[i + 1].face);
    z -= l.thickness;
  }
  meet("lens board's seam", layers.front().error, painted_metal, layers.front().face);
  std::ranges::reverse(meetings_);
  lens_ = std::min(room.front, z - barrel);
}

std::vector<HollowRoom> SpacerStack::rooms() const {
  return {{spacer_.opening, spacer_.opening, lens_, standard_, room_.stuff},
          {room_.width, room_.height, standard_, room_.rear, room_.stuff}};
}

void SpacerStack::add(SeamScene& s) const {
  s.parts.emplace_back("lens spacer");
  if (taped_) {
    s.not_counted.emplace_back("the lens spacer's seams and rim: black tape shuts them");
    return;
  }
  s.not_counted.emplace_back("the lens board's screws: they fill their holes");
  for (LeakSeam& seam : seams()) s.seams.push_back(std::move(seam));
  for (PrintedWall& wall : walls()) s.walls.push_back(std::move(wall));
}

std::vector<LeakSeam> SpacerStack::seams() const {
  const FrameSize opening{spacer_.opening, spacer_.opening}, outside{spacer_.width, spacer_.height};
  std::vector<LeakSeam> seams;
  for (const Meeting& m : meetings_) {
    for (const SeamSide side : seam_sides) {
      LeakSeam seam = seam_at(side, m.name, opening, m.front, m.front + m.gap);
      const Length way = (across(side, outside) - spacer_.opening) / 2;
      seam.profile = {m.gap, {std::min(way, longest_arm * m.gap)}, {}};
      seam.walls = {{m.before}, {m.behind}};
      seam.length = spacer_.round ? std::numbers::pi / 4 * spacer_.width : along(side, outside);
      seams.push_back(std::move(seam));
    }
  }
  return seams;
}

std::vector<PrintedWall> SpacerStack::walls() const {
  std::vector<PrintedWall> walls;
  if (!(spacer_.printed > Length{})) return walls;
  const FrameSize outside{spacer_.width, spacer_.height};
  const Length rear = meetings_.back().front;
  for (const SeamSide side : seam_sides) {
    walls.push_back(edge_wall(side, "lens spacer's rim",
                              (across(side, outside) - spacer_.opening) / 2,
                              {spacer_.opening, spacer_.opening}, rear - spacer_.printed, rear));
  }
  return walls;
}

std::optional<LensSpacer> leak_spacer(const Assembly& a) {
  if (!a.plan.lens_spacer) return {};
  auto spacer = lens_spacer(a);
  if (!spacer || !(spacer->thickness() > Length{})) return {};
  return spacer;
}

}  // namespace backfit
