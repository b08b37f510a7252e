// SPDX-License-Identifier: MIT
// What keeps a frame for the ground glass from being made or from working.
#include <algorithm>
#include <utility>

#include "parts/fault_list.hpp"
#include "parts/glass_frame.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// What the glass lies on around the window, and what a clip holds of it. Common practice.
constexpr Length least_ledge = 1.5 * mm, least_over = 2 * mm;

}  // namespace

std::vector<PartFault> faults(const GlassFrame& g) {
  FaultList list("glass-frame-size");
  const std::pair<const char*, Length> sizes[] = {{"the gap of the printer's gauge", g.gap},
                                                  {"the smallest wall", g.smallest_wall},
                                                  {"the window's width", g.window_width},
                                                  {"the window's height", g.window_height},
                                                  {"the glass's width", g.glass_width},
                                                  {"the glass's height", g.glass_height},
                                                  {"the glass's thickness", g.glass_thickness},
                                                  {"the glass's depth", g.depth},
                                                  {"the outside width", g.width},
                                                  {"the end beyond the rib", g.top},
                                                  {"the other end", g.bottom},
                                                  {"what presses the glass", g.press},
                                                  {"the rib's place", g.rib.from_middle},
                                                  {"the rib's width", g.rib.width},
                                                  {"the rib's height", g.rib.height},
                                                  {"the rib's groove", g.rib.sunk},
                                                  {"the clips' thickness", g.clips.thickness},
                                                  {"the clips' width", g.clips.width},
                                                  {"what a clip holds of the glass", g.clips.over},
                                                  {"the clips' place", g.clips.v},
                                                  {"the screws", g.clips.thread}};
  for (const auto& [name, size] : sizes) list.need_size(name, size);
  if (!list.clean()) return std::move(list).take();  // distances mean something between real sizes
  const Length wall = g.smallest_wall;
  const char* const thin = "glass-frame-wall-thin";
  const std::string smaller = "a smaller glass";
  list.need("glass-falls-through", "around the window the glass, pushed to one side, lies on",
            std::min(g.glass_width - g.window_width, g.glass_height - g.window_height) / 2 - g.gap,
            least_ledge, "a larger glass");
  list.need("glass-unpressed", "behind the ledge the frame rises along the glass's edge by",
            g.glass_thickness - g.press, wall / 2, "a thicker glass");
  list.need("glass-frame-too-narrow", "beside the glass the frame, which takes the clips, reaches",
            g.width / 2, g.clip_to(), smaller);
  list.need(thin, "before the glass the frame is", g.depth, wall, "a deeper holder");
  list.need(thin, "under the rib's groove the frame is", g.depth - g.rib.sunk, wall, "a lower rib");
  list.need(thin, "between the glass's recess and the frame's end are",
            std::min(g.top, g.bottom) - g.recess_height() / 2, wall, smaller);
  list.need(thin, "between window and rib the face has",
            g.rib.from_middle - g.rib_groove() / 2 - g.window_height / 2, wall,
            "a smaller picture");
  list.need(thin, "beyond the rib the face has", g.top - g.rib.from_middle - g.rib_groove() / 2,
            wall, "a longer frame");
  list.need(thin, "the clips are", g.clips.thickness, wall, "thicker clips");
  list.need(thin, "beside its hole a clip has", (g.clips.width - g.screw_hole()) / 2, wall,
            "wider clips");
  list.need("glass-unpressed", "a clip holds of the glass, pushed to one side,",
            g.clips.over - g.gap, least_over, "longer clips");
  list.need("glass-unpressed", "the window begins beside the clips by",
            g.clip_from() - g.window_width / 2, Length{}, "shorter clips");
  list.need("glass-unpressed", "along the glass's edge the clips lie apart",
            2 * g.clips.v - g.clips.width, wall, smaller);
  list.need("glass-unpressed", "the clips' ends lie within the glass by",
            g.glass_height / 2 - g.clips.v - g.clips.width / 2, Length{}, "narrower clips");
  list.need("glass-unpressed", "into the frame the clips' screws reach", g.pilot_depth(),
            std::max(1.5 * g.clips.thread, 3 * mm), "a thicker glass");
  return std::move(list).take();
}

}  // namespace backfit
