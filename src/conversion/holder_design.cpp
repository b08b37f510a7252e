// SPDX-License-Identifier: MIT
#include "conversion/holder_design.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "conversion/focus_study.hpp"
#include "conversion/plate_design.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// Of a good holder, common practice, no source; what the plan says goes before it.
constexpr Length usual_rails = 3 * mm;  // cover the sheet at each edge
constexpr Length usual_slide = 0.8 * mm;
constexpr Length usual_felt = 1.5 * mm;
constexpr Length usual_felt_width = 8 * mm;
constexpr Length usual_pin = 1.5 * mm;
constexpr Length usual_screw = 2 * mm;
constexpr Length usual_sheet_slot = 0.305 * mm;  // that of 4 × 5 in holders, in data/holders.toml
constexpr Length usual_rib_width = 1.6 * mm, usual_rib_height = 1.5 * mm;  // likewise, 1/16 in
constexpr Length best_cover = 3.5 * mm, least_cover = 2 * mm;  // of a slide beside the picture
constexpr Length stop_hold = 0.5 * mm;  // of a slide's stop, when it lies to one side
constexpr Length reach = 8 * mm;        // of a slide into the flap
constexpr Length end_length = 5 * mm;   // of its wide end
constexpr Length drawn_clear = 1 * mm;  // picture to the drawn slide's end
constexpr Length pin_in_arm = 2 * mm;
constexpr Length most_pin_in_flap = 6 * mm;
constexpr double pressed_felt = 0.65;    // of its thickness, between slide and pocket
constexpr Length screw_pitch = 27 * mm;  // along a bar, the screws of both faces in turn
// As many felts, one behind the other.
constexpr int felts = 2;

Length or_usual(const std::optional<Stated<Measured<Length>>>& stated, Length usual) {
  return stated ? stated->value.value : usual;
}

Length length_of(const Cited<Measured<Length>>& cited) { return cited.value->value; }

template <class T>
Cited<T> derived(T value, const Place& place) {
  return {place, {value, place}, {"constructed", place}, {Standing::derived, place}};
}

bool lengthways(const Assembly& a) { return *a.plan.back->way_up == WayUp::lengthways; }

// The plan's own number, the standard's, or `otherwise`.
Length chosen(const std::optional<Stated<Measured<Length>>>& own, const Holder* standard,
              std::optional<Cited<Measured<Length>>> Holder::*shipped, Length otherwise) {
  if (own) return own->value.value;
  if (standard != nullptr && standard->*shipped) return length_of(*(standard->*shipped));
  return otherwise;
}

// The least slot in whole layers that the thickest of such sheets slides into, or the nearest to
// the standard's.
Length sheet_slot(const Assembly& a, const Holder* standard) {
  if (a.plan.holder->sheet_slot) return a.plan.holder->sheet_slot->value;
  const Length layer = *a.plan.printer->layer_height;
  const Length usual =
      standard != nullptr && standard->slot ? length_of(*standard->slot) : usual_sheet_slot;
  const Measured<Length>& sheet = *a.film.thickness->value;
  return std::max(nearest_layers(usual, layer), layers_up(sheet.value + sheet.half_width, layer));
}

// Frame and rails share the depth: what rails, slot and slide leave is the wall before the slide.
void put_layers(const Assembly& a, const Holder* standard, SheetHolder& h) {
  const Length layer = *a.plan.printer->layer_height;
  h.slide.thickness = or_usual(a.plan.holder->slide_thickness, usual_slide);
  h.film_slot = sheet_slot(a, standard);
  h.slide_slot = layers_up(h.slide.thickness + 2 * h.gap, layer);
  h.rail = layers_up(h.smallest_wall + h.gap, layer);
  h.septum = layers_up(h.smallest_wall, layer);
  h.front = nearest_layers(a.asked_depth->value, layer) - h.slide_slot - h.rail - h.film_slot;
}

void put_slide(SheetHolder& h) {
  SheetHolder::Slide& s = h.slide;
  const Length step = 2 * h.gap + stop_hold;
  const Length bars = h.screw_head() + 2 * h.smallest_wall;
  const Length room = (h.width - h.picture_width) / 2 - bars - step - h.gap;
  const Length cover = std::clamp(room, least_cover + h.gap, best_cover);
  s.width = h.picture_width + 2 * cover;
  s.end_width = s.width + 2 * step;
  s.end_length = end_length;
  s.reach = reach;
  s.stops = h.picture_height / 2 + drawn_clear + end_length;
}

// Felts and rib along the mouth: each felt as near to the stops as walls and rib allow; a rib
// without a place of its own behind the first felt.
void put_mouth(const Assembly& a, const Holder* standard, SheetHolder& h) {
  const HolderPlan& plan = *a.plan.holder;
  const BackPlan& back = *a.plan.back;
  const Length layer = *a.plan.printer->layer_height, wall = h.smallest_wall;
  h.felt.thickness = or_usual(plan.felt_thickness, usual_felt);
  h.felt.width = or_usual(plan.felt_width, usual_felt_width);
  const Length pocket = pressed_felt * h.felt.thickness - (h.slide_slot - h.slide.thickness);
  h.felt.pocket = std::max(layer, layers_down(std::min(pocket, h.front - wall), layer));
  h.rib.width = chosen(back.rib_width, standard, &Holder::rib_width, usual_rib_width);
  h.rib.height = chosen(back.rib_height, standard, &Holder::rib_height, usual_rib_height);
  h.rib.sunk = std::max(layer, layers_down(std::min(h.front - wall, h.rib.height), layer));
  const Length half = h.rib_groove() / 2;
  Length from = h.slide.stops + wall;
  h.rib.from_middle = chosen(back.rib_from_centre, standard, &Holder::rib_from_centre,
                             from + h.felt.width + wall + half);
  for (int k = 0; k < felts; ++k) {
    const bool meets_rib = from < h.rib.from_middle + half + wall &&
                           from + h.felt.width > h.rib.from_middle - half - wall;
    if (meets_rib) from = h.rib.from_middle + half + wall;
    h.felt.at.push_back(from);
    from += h.felt.width + wall;
  }
  h.top =
      std::max({from, h.rib.from_middle + half + wall, h.sheet_height / 2 + h.sheet_play + wall});
}

// The loading end where the standard has it, if that leaves room for the flap.
void put_flap(const Assembly& a, const Holder* standard, SheetHolder& h) {
  h.flap.pin = or_usual(a.plan.holder->pin, usual_pin);
  h.flap.pin_in_arm = pin_in_arm;
  h.flap.arm = pin_in_arm + h.smallest_wall;
  h.flap.pin_in_flap =
      std::min(most_pin_in_flap, (h.flap_width() - h.groove()) / 2 - h.smallest_wall);
  const Length least =
      -h.seam() + h.smallest_wall +
      std::max({h.slide_groove(), h.sheet_groove(), h.pin_radius() + h.pin_notch() / 2});
  h.bottom = least;
  if (standard != nullptr && standard->rib_from_end) {
    h.bottom = std::max(least, length_of(*standard->rib_from_end) - h.rib.from_middle);
  }
}

// Along a bar from the flap to the rib, left and right in turn, so that the screws of both faces
// don't meet; and one beyond the rib on each side where there is room.
void put_screws(SheetHolder& h) {
  const Length edge = h.screw_head() / 2 + h.smallest_wall;
  const Length rib = h.rib_groove() / 2 + edge;
  const Length low = h.seam() + h.gap + edge, high = h.rib.from_middle - rib;
  const int spaces = std::max(3, static_cast<int>(std::ceil((high - low) / screw_pitch)));
  for (int k = 0; k <= spaces; ++k) {
    (k % 2 == 0 ? h.screws.left : h.screws.right).push_back(low + k * ((high - low) / spaces));
  }
  const Length first = h.rib.from_middle + rib, last = h.top - edge;
  if (last < first) return;
  const bool right_is_next = h.screws.left.size() > h.screws.right.size();
  std::vector<Length>& next = right_is_next ? h.screws.right : h.screws.left;
  std::vector<Length>& other = right_is_next ? h.screws.left : h.screws.right;
  next.push_back(first);
  if (last - first >= h.screw_pilot() + h.smallest_wall) other.push_back(last);
}

}  // namespace

Length nearest_layers(Length length, Length layer) { return std::round(length / layer) * layer; }
Length layers_up(Length length, Length layer) { return std::ceil(length / layer - 1e-9) * layer; }
Length layers_down(Length length, Length layer) {
  return std::floor(length / layer + 1e-9) * layer;
}

Film held_film(const Film& film, const HolderPlan& plan) {
  Film held = film;
  if (!film.height) return held;
  if (plan.sheet_width && plan.sheet_height) {
    held.width = derived(plan.sheet_width->value, plan.sheet_width->place);
    held.height = derived(plan.sheet_height->value, plan.sheet_height->place);
  }
  const bool as_shipped = film.image_width && film.image_height && !plan.sheet_width && !plan.rails;
  if (as_shipped) return held;
  const Length rails = plan.rails ? plan.rails->value : usual_rails;
  const auto picture = [&](const Cited<Measured<Length>>& sheet) {
    return derived(Measured<Length>{length_of(sheet) - 2 * rails, {}}, plan.place);
  };
  held.image_width = picture(held.width);
  held.image_height = picture(*held.height);
  return held;
}

bool holder_depth_known(const Plan& plan, const Holder* standard) {
  if (plan.holder->depth) return true;
  if (plan.holder->depth_by && **plan.holder->depth_by == DepthBy::ground_glass) {
    return plan.focus.ground_glass.has_value();
  }
  return standard != nullptr;
}

Measured<Length> wanted_depth(const Assembly& a, const Holder* standard) {
  const HolderPlan& plan = *a.plan.holder;
  if (plan.depth) return {plan.depth->value, {}};
  if (!plan.depth_by || **plan.depth_by == DepthBy::standard) return *standard->depth.value;
  // A sheet lies anywhere in its slot: on average with as much play before it as behind.
  const Length sheet = length_of(*a.film.thickness);
  return {sharp_plane(*a.plan.focus.ground_glass) + sheet + (sheet_slot(a, standard) - sheet) / 2,
          {}};
}

void design_holder(Assembly& a, const Holder* standard) {
  const Printer& printer = *a.plan.printer;
  const HolderPlan& plan = *a.plan.holder;
  const auto across = [&](const FrameSize& s) { return lengthways(a) ? s.height : s.width; };
  const auto along = [&](const FrameSize& s) { return lengthways(a) ? s.width : s.height; };
  SheetHolder h;
  h.gap = printer.clearance->value;
  h.smallest_wall = smallest_wall(printer);
  h.picture_width = across(a.window);
  h.picture_height = along(a.window);
  h.sheet_width = across(*a.sheet);
  h.sheet_height = along(*a.sheet);
  // As large as such sheets are cut, and free by half of what slides: the slot is wide and low.
  const Measured<Length>& cut = *a.film.height->value;
  h.sheet_play = cut.half_width / 2 + h.gap;
  h.screws.thread = or_usual(plan.screw, usual_screw);
  a.asked_depth = wanted_depth(a, standard);
  put_layers(a, standard, h);
  const Length least_width = h.picture_width + 2 * (best_cover + 2 * h.gap + stop_hold + h.gap +
                                                    h.screw_head() + 2 * h.smallest_wall);
  h.width = chosen(a.plan.back->holder_width, standard, &Holder::outer_width, least_width);
  put_slide(h);
  put_mouth(a, standard, h);
  put_flap(a, standard, h);
  put_screws(h);

  Holder entry;
  entry.place = plan.place;
  entry.id = {"printed", plan.place};
  entry.name = {"printed holder", plan.place};
  const auto number = [&](Length value, Length half_width = {}) {
    return derived(Measured<Length>{value, half_width}, plan.place);
  };
  // Frame and rails are printed apart, and what one is off the other may be, too.
  entry.depth = number(h.depth() + 2 * printer.error->value, 2 * printer.error->half_width);
  entry.slot = number(h.film_slot);
  entry.rib_height = number(h.rib.height);
  entry.rib_width = number(h.rib.width);
  entry.rib_from_centre = number(h.rib.from_middle);
  entry.rib_from_end = number(h.bottom + h.rib.from_middle);
  entry.outer_width = number(h.width);
  entry.outer_length = number(h.top + h.bottom);
  entry.outer_thickness = number(h.thickness());
  a.holder = std::move(entry);
  a.sheet_holder = std::move(h);
}

HolderPose pose_of_holder(const Assembly& a) {
  assert(a.plate);
  return {a.camera.seat->behind_film->value + a.plate_thickness, lengthways(a)};
}

}  // namespace backfit
