// SPDX-License-Identifier: MIT
#include "conversion/pack_design.hpp"

#include <algorithm>
#include <cassert>

#include "conversion/holder_design.hpp"
#include "conversion/plate_design.hpp"

namespace backfit {
namespace {

// Of a good holder, common practice, no source; what the plan says goes before it.
constexpr Length usual_slide = 0.5 * mm;  // thin enough to bend round a camera's back
constexpr Length usual_felt = 1 * mm;
constexpr Length most_felt_width = 8 * mm, least_felt_width = 3 * mm;
constexpr double pressed_felt = 0.65;  // of its thickness, between slide and pocket
constexpr Length ledge = 2 * mm;       // that the lid lies on
constexpr Length best_cover = 3.5 * mm, least_cover = 1.5 * mm;  // of the slide beside the picture
constexpr Length stop_hold = 0.5 * mm;  // of a slide's stop, when it lies to one side
constexpr Length reach = 4 * mm;        // of the slide beyond the picture, shut
constexpr Length end_length = 5 * mm;   // of its wide end
constexpr Length drawn_clear = 1 * mm;  // picture to the drawn slide's end
constexpr Length tab = 30 * mm;         // of the slide, to draw it by

Length or_usual(const std::optional<Stated<Measured<Length>>>& stated, Length usual) {
  return stated ? stated->value.value : usual;
}

bool has_slide(const Assembly& a) {
  const bool wanted = a.plan.pack_holder && a.plan.pack_holder->dark_slide;
  return wanted ? **a.plan.pack_holder->dark_slide : a.camera.pack->slit.has_value();
}

// v runs up and down in the camera, or to a side.
bool upright(const Assembly& a) {
  if (!a.camera.pack->slit) return true;
  const CameraWall wall = *a.camera.pack->slit->wall;
  return wall == CameraWall::top || wall == CameraWall::bottom;
}

// As far from the face as its felt and the camera's slit ask for.
PackHolder::Slide slide_of(const Assembly& a, const PackHolder& h) {
  const PackRoom& pack = *a.camera.pack;
  const Length layer = *a.plan.printer->layer_height;
  const auto& plan = a.plan.pack_holder;
  PackHolder::Slide s;
  s.thickness = plan ? or_usual(plan->slide_thickness, usual_slide) : usual_slide;
  s.felt = plan ? or_usual(plan->felt_thickness, usual_felt) : usual_felt;
  s.slot = layers_up(s.thickness + 2 * h.gap, layer);
  s.pocket = std::max(layer, layers_down(pressed_felt * s.felt - (s.slot - s.thickness), layer));
  s.wall = layers_up(h.smallest_wall + s.pocket, layer);
  if (pack.slit) {
    const Length slack = (pack.slit->height->value - s.thickness) / 2;
    const Length nearest =
        pack.slit->behind_film->value + pack.before_film->value - slack - s.slot / 2;
    s.wall = std::max(s.wall, layers_up(nearest, layer));
  }
  const Length step = 2 * h.gap + stop_hold;
  const Length room = (h.width - h.picture_width) / 2 - h.smallest_wall - step - h.gap;
  Length cover = std::min(best_cover, room);
  if (pack.slit) {
    cover = std::min(cover, (pack.slit->length->value - h.picture_width) / 2 - h.gap);
  }
  s.width = h.picture_width + 2 * std::max(cover, least_cover + h.gap);
  s.end_width = s.width + 2 * step;
  s.end_length = end_length;
  s.reach = reach;
  s.stops = h.picture_height / 2 + drawn_clear + end_length;
  s.felt_at = s.stops + h.smallest_wall;
  s.felt_width =
      std::clamp(h.length / 2 - s.felt_at - h.smallest_wall, least_felt_width, most_felt_width);
  s.tab = tab;
  return s;
}

}  // namespace

void design_pack_holder(Assembly& a) {
  const PackRoom& pack = *a.camera.pack;
  const Printer& printer = *a.plan.printer;
  const Length layer = *printer.layer_height;
  const bool up = upright(a);
  const auto across = [&](const FrameSize& s) { return up ? s.width : s.height; };
  const auto along = [&](const FrameSize& s) { return up ? s.height : s.width; };
  PackHolder h;
  h.gap = printer.clearance->value;
  h.smallest_wall = smallest_wall(printer);
  h.picture_width = across(a.window);
  h.picture_height = along(a.window);
  h.sheet_width = across(*a.sheet);
  h.sheet_height = along(*a.sheet);
  h.sheet_play = h.gap;
  h.ledge = ledge;
  // Sure to go in.
  const FrameSize room{pack.width->value - pack.width->half_width - 2 * h.gap,
                       pack.height->value - pack.height->half_width - 2 * h.gap};
  h.width = across(room);
  h.length = along(room);
  const Measured<Length>& sheet = *a.film.thickness->value;
  h.sheet_slot = layers_up(sheet.value + sheet.half_width, layer);
  h.lid = layers_up(h.smallest_wall, layer);
  if (has_slide(a)) h.slide = slide_of(a, h);
  const Length play = (h.sheet_slot - sheet.value) / 2;
  h.rail = std::max(layers_up(h.smallest_wall, layer),
                    nearest_layers(pack.before_film->value - play - h.face(), layer));
  const double thicknesses = h.slide ? 2 : 1;  // printed apart, and each may be off
  a.lips = SetBackLips{
      {h.lips() + thicknesses * printer.error->value, thicknesses * printer.error->half_width},
      h.sheet_slot,
      true};
  if (a.plan.pack_holder && a.plan.pack_holder->measured_depth) {
    a.lips->depth = a.plan.pack_holder->measured_depth->value;
    a.lips->made = false;
  }
  a.pack_holder = h;
}

SlitMeeting slit_meeting(const Assembly& a) {
  const PackHolder& h = *a.pack_holder;
  const TabSlit& slit = *a.camera.pack->slit;
  const Length middle = h.slide_middle() - a.camera.pack->before_film->value;
  return {middle - slit.behind_film->value, (slit.height->value - h.slide->thickness) / 2,
          h.slide->width, slit.length->value};
}

PackHolderPose pose_of_pack_holder(const Assembly& a) {
  assert(a.pack_holder);
  const Length face = -a.camera.pack->before_film->value;
  if (!a.camera.pack->slit) return {face, 0};
  switch (*a.camera.pack->slit->wall) {
    case CameraWall::left:
      return {face, 1};
    case CameraWall::bottom:
      return {face, 2};
    case CameraWall::right:
      return {face, 3};
    case CameraWall::top:
      break;
  }
  return {face, 0};
}

}  // namespace backfit
