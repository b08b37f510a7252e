// SPDX-License-Identifier: MIT
#include "conversion/camera_front.hpp"

#include <algorithm>

#include "conversion/seam_sides.hpp"

namespace backfit {
namespace {

// Behind the shutter: within the seat's groove, in the chamber, or as wide as what was measured
// between lens and gate.
FrameSize room_of(const Camera& c) {
  FrameSize room{c.gate.width->value, c.gate.height->value};
  if (c.seat) {
    const SeatGroove& groove = c.seat->groove;
    room = {groove.inner_width->value - 2 * body_wall, groove.inner_height->value - 2 * body_wall};
    if (c.chamber) {
      room.width = std::min(room.width, c.chamber->width->value);
      room.height = std::min(room.height, c.chamber->height->value);
    }
  } else if (c.chamber) {
    room = {c.chamber->width->value, c.chamber->height->value};
  } else {
    for (const Outline& o : c.openings) {
      if (o.width && o.height) room = larger(room, {(*o.width)->value, (*o.height)->value});
    }
  }
  return room;
}

}  // namespace

CameraFront::CameraFront(const Assembly& a, Length rest, const LeakSpacer& how)
    : room_(room_of(a.camera)),
      gate_{std::min(a.camera.gate.width->value, room_.width),
            std::min(a.camera.gate.height->value, room_.height)},
      lens_(-a.pupil_distance().value),
      rest_(rest) {
  const Length gate = -a.camera.gate.before_film->value;
  floor_ = std::min(
      rest, a.camera.chamber ? std::min(gate, -a.camera.chamber->before_film->value) : gate);
  lens_ = std::min(lens_, throat() - smallest_detail);
  if (auto spacer = leak_spacer(a)) {
    const HollowRoom before_gate{room_.width, room_.height, lens_, throat(), 0};
    spacer_.emplace(std::move(*spacer), before_gate, how);
  }
}

bool CameraFront::is_deep() const { return rest_ - floor_ > smallest_detail; }

Length CameraFront::throat() const { return floor_ - body_wall; }

std::vector<HollowRoom> CameraFront::rooms(Length rear, std::uint32_t stuff) const {
  std::vector<HollowRoom> rooms;
  if (spacer_) {
    rooms = spacer_->rooms();
    for (HollowRoom& room : rooms) room.stuff = stuff;
  } else {
    rooms = {{room_.width, room_.height, lens_, throat(), stuff}};
  }
  rooms.push_back({gate_.width, gate_.height, throat(), is_deep() ? floor_ : rear, stuff});
  if (is_deep()) rooms.push_back({room_.width, room_.height, floor_, rear, stuff});
  return rooms;
}

void CameraFront::add_spacer(SeamScene& s) const {
  if (spacer_) spacer_->add(s);
}

Length film_plane(const Assembly& a) {
  std::vector<double> estimates;
  for (const Input& input : a.inputs.all.list()) estimates.push_back(input.value);
  return a.set_back(Draw(estimates));
}

FilmPlane film_at(const Assembly& a, Length z, std::size_t columns, std::size_t rows) {
  const Length w = a.window.width, h = a.window.height;
  return {{-w / 2, h / 2, z}, {w, {}, {}}, {{}, -h, {}}, columns, rows};
}

}  // namespace backfit
