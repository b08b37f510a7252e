// SPDX-License-Identifier: MIT
#include "conversion/methods.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

#include "quantity/notation.hpp"

namespace backfit {
namespace {

std::string size_text(Length width, Length height) {
  return fmt::format("{} × {} mm", fixed(width / mm, 1), fixed(height / mm, 1));
}

Length width_of(const Film& film) { return film.width.value->value; }
Length height_of(const Film& film) {
  return film.height ? film.height->value->value : width_of(film);
}

// Into `sheath` as it is, or cut down to it.
bool fills(const Film& film, const Sheath& sheath) {
  const Length short_side = std::min(sheath.opening_width->value, sheath.opening_height->value);
  const Length long_side = std::max(sheath.opening_width->value, sheath.opening_height->value);
  return width_of(film) > short_side && height_of(film) > long_side;
}

void ask_own_holder(Prospect& p, const Film& film, const Camera& camera) {
  if (!camera.plate_holder) {
    p.impossible = "the survey has no [plate_holder]";
    return;
  }
  const auto& sheath = camera.plate_holder->sheath;
  if (!sheath) {
    p.unknown.push_back({"plate_holder.sheath", "film sheath in place of a plate"});
  } else if (!fills(film, *sheath)) {
    p.impossible =
        fmt::format("a sheet of {} falls through the sheath's opening of {}",
                    size_text(width_of(film), height_of(film)),
                    size_text(sheath->opening_width->value, sheath->opening_height->value));
  }
  if (!film.thickness) p.unknown.push_back({"thickness", "thickness of " + *film.name});
}

void ask_seat(Prospect& p, const Camera& camera) {
  if (!camera.seat) p.impossible = "the survey has no [seat]";
}

void ask_picture(Prospect& p, const Film& film, std::string_view what) {
  if (film.image_width && film.image_height) return;
  p.unknown.push_back({"picture", fmt::format("{} of {}", what, *film.name)});
}

// What of a sheet in the pack's place lies under the rails. Common practice, no source.
constexpr Length under_rails = 3 * mm;

// Picture and sheet of a holder in the pack's place: the picture is the old gate's.
FrameSize pack_picture(const Camera& camera) {
  return {camera.gate.width->value, camera.gate.height->value};
}
FrameSize pack_sheet(const Camera& camera) {
  const FrameSize picture = pack_picture(camera);
  return {picture.width + 2 * under_rails, picture.height + 2 * under_rails};
}

void ask_pack(Prospect& p, const Film& film, const Camera& camera) {
  if (!camera.pack) {
    p.impossible = "the survey has no [pack]";
    return;
  }
  const FrameSize needed = pack_sheet(camera);
  const FrameSize sheet{width_of(film), height_of(film)};
  if (std::min(sheet.width, sheet.height) < std::min(needed.width, needed.height) ||
      std::max(sheet.width, sheet.height) < std::max(needed.width, needed.height)) {
    p.impossible = fmt::format(
        "a sheet of {} is smaller than the {} that the picture and its rails "
        "take",
        size_text(sheet.width, sheet.height), size_text(needed.width, needed.height));
  }
  if (!film.thickness) p.unknown.push_back({"thickness", "thickness of " + *film.name});
}

Measured<Length> play(Length room, const Film& film) {
  const Length slack = std::max(0 * mm, room - film.thickness->value->value);
  return {slack / 2, slack / 2};
}

FrameSize turned(FrameSize size, bool turn) {
  return turn ? FrameSize{size.height, size.width} : size;
}

}  // namespace

std::string_view name_of(Method method) {
  for (const auto& [name, value] : choices_of<Method>()) {
    if (value == method) return name;
  }
  return {};
}

std::span<const Method> methods_for(FilmKind kind) {
  static constexpr Method roll[] = {Method::insert};
  static constexpr Method flat[] = {Method::own_holder, Method::back_on_seat, Method::pack_holder};
  static constexpr Method integral[] = {Method::instant_back};
  switch (kind) {
    case FilmKind::roll:
      return roll;
    case FilmKind::integral:
      return integral;
    case FilmKind::sheet:
    case FilmKind::paper:
      break;
  }
  return flat;
}

Prospect prospect_of(Method method, const Film& film, const Camera& camera, bool printed) {
  Prospect p;
  if (std::ranges::find(methods_for(*film.kind), method) == methods_for(*film.kind).end()) {
    p.impossible = method == Method::back_on_seat
                       ? fmt::format(
                             "{} goes in no sheet-film holder that the catalogue knows; a "
                             "back on the seat carries one",
                             *film.name)
                       : fmt::format("{} can't be loaded by '{}'", *film.name, name_of(method));
    return p;
  }
  switch (method) {
    case Method::back_on_seat:
      if (!film.holder && !printed) {
        p.impossible = fmt::format(
            "{} goes in no sheet-film holder that the catalogue knows; a back on the seat carries "
            "one",
            *film.name);
        break;
      }
      ask_seat(p, camera);
      if (!film.thickness) p.unknown.push_back({"thickness", "thickness of " + *film.name});
      if (!printed) ask_picture(p, film, "picture that a holder leaves");
      break;
    case Method::instant_back:
      ask_seat(p, camera);
      ask_picture(p, film, "picture");
      break;
    case Method::insert:
      ask_picture(p, film, "picture");
      break;
    case Method::own_holder:
      ask_own_holder(p, film, camera);
      break;
    case Method::pack_holder:
      ask_pack(p, film, camera);
      break;
  }
  return p;
}

std::vector<SetBackPart> set_back_parts(const Camera& camera, const Film& film, const Plan& plan,
                                        const Holder* holder, Length plate_thickness,
                                        const std::optional<SetBackLips>& lips) {
  std::vector<SetBackPart> parts;
  switch (*plan.method) {
    case Method::back_on_seat: {
      assert(camera.seat && plan.back && plan.printer && holder != nullptr);
      const Measured<Length> error = plan.printer->error.value;
      const Measured<Length> depth =
          plan.back->holder_depth ? plan.back->holder_depth->value : holder->depth.value.value;
      const Length slot = holder->slot ? holder->slot->value->value : 0 * mm;
      parts = {
          {"seat behind the film plane", *camera.seat->behind_film},
          {"printed plate's thickness", {plate_thickness + error.value, error.half_width}, 1, true},
          {"holder depth", depth, 1, plan.holder && !plan.back->holder_depth},
          {"film thickness", film.thickness->value.value, -1},
          {"play of the film in its slot", play(slot, film), -1}};
      break;
    }
    case Method::instant_back:
      assert(camera.seat && plan.back && plan.back->back_register);
      parts = {{"seat behind the film plane", *camera.seat->behind_film},
               {"register of the instant back", **plan.back->back_register}};
      if (plan.back->mounting) {
        const Measured<Length>& error = *plan.printer->error;
        parts.insert(parts.begin() + 1, {"printed adapter's thickness",
                                         {plate_thickness + error.value, error.half_width},
                                         1,
                                         true});
      }
      break;
    case Method::insert: {
      Measured<Length> rails{};
      if (plan.printer) rails.half_width = plan.printer->error->half_width;
      if (plan.insert) rails = *plan.insert->set_back;
      parts = {{"insert's rails behind the old film plane", rails, 1, true}};
      break;
    }
    case Method::pack_holder:
      assert(camera.pack && lips);
      parts = {{"pack's face before the film plane", *camera.pack->before_film, -1},
               {"lips of the pack holder", lips->depth, 1, lips->made},
               {"play of the sheet in its slot", play(lips->slot, film)}};
      break;
    case Method::own_holder: {
      assert(camera.plate_holder && camera.plate_holder->sheath);
      const PlateHolder& own = *camera.plate_holder;
      if (*own.plate_rests == PlateRest::floor) {
        parts = {{"thickness of the old plates", *own.plate_thickness},
                 {"thickness of the sheath", *own.sheath->thickness, -1}};
      }
      parts.push_back({"lip of the sheath", *own.sheath->lip});
      parts.push_back({"play of the sheet in the sheath", play(own.sheath->slot->value, film)});
      break;
    }
  }
  return parts;
}

FilmRun film_run(const Camera& camera) {
  if (camera.spools) return *camera.spools->film_runs;
  return camera.gate.width->value > camera.gate.height->value ? FilmRun::across : FilmRun::up;
}

LoadedFrame loaded_frame(const Camera& camera, const Film& film, const Plan& plan) {
  LoadedFrame f;
  if (*plan.method == Method::own_holder) {
    const Sheath& sheath = *camera.plate_holder->sheath;
    f.window = {sheath.opening_width->value, sheath.opening_height->value};
    const FrameSize room{sheath.sheet_width->value, sheath.sheet_height->value};
    const FrameSize cut = turned({width_of(film), height_of(film)}, room.width > room.height);
    f.sheet = {std::min(cut.width, room.width), std::min(cut.height, room.height)};
    f.trimmed = cut.width > room.width || cut.height > room.height;
    return f;
  }
  if (*plan.method == Method::pack_holder) {
    f.window = pack_picture(camera);
    f.sheet = pack_sheet(camera);
    const FrameSize cut =
        turned({width_of(film), height_of(film)}, f.sheet->width > f.sheet->height);
    f.trimmed = cut.width > f.sheet->width || cut.height > f.sheet->height;
    return f;
  }
  f.window = {film.image_width->value->value, film.image_height->value->value};
  if (*plan.method == Method::insert) {
    const auto goes = plan.insert ? plan.insert->film_goes : std::nullopt;
    const bool across = goes ? **goes == FilmTravel::left || **goes == FilmTravel::right
                             : film_run(camera) == FilmRun::across;
    f.window = turned(f.window, across);
    return f;
  }
  const bool lengthways = *plan.back->way_up == WayUp::lengthways;
  f.window = turned(f.window, lengthways);
  f.sheet = turned({width_of(film), height_of(film)}, lengthways);
  return f;
}

std::string_view window_name(Method method) {
  switch (method) {
    case Method::back_on_seat:
      return "holder's window";
    case Method::instant_back:
      return "instant back's picture";
    case Method::insert:
      return "insert's window";
    case Method::pack_holder:
      return "pack holder's window";
    case Method::own_holder:
      break;
  }
  return "sheath's opening";
}

std::string_view shaded_name(FilmKind kind) { return kind == FilmKind::roll ? "frame" : "sheet"; }

std::string_view part_note(const Plan& plan) {
  switch (*plan.method) {
    case Method::back_on_seat:
    case Method::pack_holder:
      return {};
    case Method::instant_back:
      if (plan.back->mounting) return {};
      return "no file is made for the adapter between seat and instant back";
    case Method::insert:
      return "no file is made for the insert: the build sheet has the numbers to make it by";
    case Method::own_holder:
      break;
  }
  return "no part is needed: the camera's own holder and its sheath carry the sheet";
}

}  // namespace backfit
