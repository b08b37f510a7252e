// SPDX-License-Identifier: MIT
// Where the insert meets what stands in the chamber, and where its knob goes through the wall.
#include <algorithm>

#include "conversion/insert_meetings.hpp"
#include "parts/insert_shapes.hpp"

namespace backfit {
namespace {

Length least(const Measured<Length>& m) { return m.value - m.half_width; }
Length most(const Measured<Length>& m) { return m.value + m.half_width; }
bool upright(FilmTravel goes) { return goes == FilmTravel::up || goes == FilmTravel::down; }

}  // namespace

Point3 in_camera(const PathDesign& d, Point3 p) {
  const Length z = p.z + d.set_back;
  switch (d.goes) {
    case FilmTravel::up:
      return {-p.y, p.x, z};
    case FilmTravel::down:
      return {p.y, -p.x, z};
    case FilmTravel::left:
      return {-p.x, -p.y, z};
    case FilmTravel::right:
      break;
  }
  return {p.x, p.y, z};
}

void meet_chamber(const Assembly& a, RollInsert& insert, InsertStudy& s) {
  const PathDesign& d = s.path.design;
  const RollInsert::Body& b = insert.body;
  const Length xo = insert.half_length(), xi = xo - std::max(insert.rim(), b.wall);
  const Length yo = ear_reach(insert), yi = b.half_width, top = insert.lid_top();
  struct Box {
    Point3 low, high;
  };
  const Box solid[] = {{{-xo, yi, b.front}, {xo, yo, top}},
                       {{-xo, -yo, b.front}, {xo, -yi, top}},
                       {{xi, -yo, b.front}, {xo, yo, top}},
                       {{-xo, -yo, b.front}, {-xi, yo, top}},
                       {{-xo, -yo, b.back}, {xo, yo, top}}};
  const bool vertical = upright(d.goes);
  const double along_sign = d.goes == FilmTravel::up || d.goes == FilmTravel::right ? 1 : -1;
  // y of the insert is -x of the camera for film going up, and so on round.
  const double across_sign = d.goes == FilmTravel::up || d.goes == FilmTravel::left ? -1 : 1;
  for (const ChamberPart& part : a.camera.chamber->parts) {
    const Measured<Length>&along = vertical ? *part.y : *part.x,
          &across = vertical ? *part.x : *part.y;
    const Measured<Length>&length = vertical ? *part.height : *part.width,
          &width = vertical ? *part.width : *part.height;
    const Length half_x = most(length) / 2 + along.half_width + d.clearance;
    const Length half_y = most(width) / 2 + across.half_width + d.clearance;
    const Length x = along_sign * along.value, y = across_sign * across.value;
    const Length from = least(*part.behind_film) - d.set_back - d.clearance;
    const Length to = most(*part.behind_film) + most(*part.depth) - d.set_back + d.clearance;
    const Box box{{x - half_x, y - half_y, from}, {x + half_x, y + half_y, to}};
    const auto overlaps = [&](const Box& o) {
      return box.low.x < o.high.x && box.high.x > o.low.x && box.low.y < o.high.y &&
             box.high.y > o.low.y && box.low.z < o.high.z && box.high.z > o.low.z;
    };
    const bool meets_body = std::ranges::any_of(solid, overlaps);
    const bool meets_film = std::ranges::find(s.path.cut_away, *part.name) != s.path.cut_away.end();
    if (!meets_body && !meets_film) continue;
    ChamberMeeting m{*part.name, part.place, {}, {}, *part.may_be_cut, false};
    m.low = {part.x->value - part.width->value / 2, part.y->value - part.height->value / 2,
             part.behind_film->value};
    m.high = {part.x->value + part.width->value / 2, part.y->value + part.height->value / 2,
              part.behind_film->value + part.depth->value};
    if (!m.taken_out) {
      // Open to the nearer of front and back: the insert is led in from behind.
      const bool to_front = from + to < b.front + top;
      m.passed = !to_front;
      const Length past = 2 * mm;
      RollInsert::Notch notch{m.name, box.low, box.high};
      (to_front ? notch.low.z : notch.high.z) =
          to_front ? std::min(b.front, insert.gate.front) - past : top + past;
      insert.notches.push_back(notch);
    }
    if (m.taken_out && !meets_film) s.path.cut_away.push_back(m.name);
    s.meetings.push_back(m);
  }
  if (a.plan.insert->knob) {
    const SectionPoint at = s.path.layout->take_up;
    s.hole = KnobHole{*a.plan.insert->knob->wall,
                      in_camera(d, {at.x, insert.knob.side * insert.knob.chamber_half, at.z}),
                      insert.knob.tail + 4 * insert.gap};
  }
}

}  // namespace backfit
