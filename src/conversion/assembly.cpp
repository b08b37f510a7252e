// SPDX-License-Identifier: MIT
#include "conversion/assembly.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "conversion/glass_frame_design.hpp"
#include "conversion/holder_design.hpp"
#include "conversion/pack_design.hpp"
#include "conversion/adapter_design.hpp"
#include "conversion/plate_design.hpp"
#include "optics/paraxial.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// How well a stop is set with a caliper at the bed. Common practice, no source.
constexpr Measured<Length> stop_setting_error{0 * mm, 0.1 * mm};

MeasuredInputs inputs_of(const Assembly& a) {
  MeasuredInputs in;
  const Camera& c = a.camera;
  const Holder* holder = a.holder ? &*a.holder : nullptr;
  for (SetBackPart& part : set_back_parts(c, a.film, a.plan, holder, a.plate_thickness, a.lips)) {
    in.set_back.push_back({in.all.add(std::move(part.name), part.size), part.way, part.made});
  }
  in.room_behind =
      in.all.add("room behind the infinity stop", c.focusing.room_behind_infinity.value);
  in.travel_forward = in.all.add("travel forward", c.focusing.travel_forward.value);
  in.stop_setting = in.all.add("setting of the new infinity stop", stop_setting_error);
  in.focal = in.all.add("focal length", c.lens.focal.value);
  in.pupil_distance = in.all.add("exit pupil to film", a.pupil_distance());
  in.gate_width = in.all.add("gate width", c.gate.width.value);
  in.gate_height = in.all.add("gate height", c.gate.height.value);
  in.gate_before_film = in.all.add("gate before the film plane", c.gate.before_film.value);
  return in;
}

void note_memory(Assembly& a) {
  const auto note = [&](const auto& cited, std::string what) {
    if (cited && cited->doubtful()) a.from_memory.push_back(std::move(what));
  };
  const Method method = a.method();
  const bool cut_to_gate = method == Method::own_holder || method == Method::pack_holder;
  if (!cut_to_gate) {
    note(a.film.image_width, "picture size of " + a.film.name.value);
  }
  if (a.holder || cut_to_gate) {
    note(a.film.thickness, "thickness of " + a.film.name.value);
  }
  if (a.holder && !a.plan.back->holder_depth && a.holder->depth.doubtful()) {
    a.from_memory.push_back("depth of the " + a.holder->name.value);
  }
  if (a.spool && a.camera.spools && a.spool->length.doubtful()) {
    a.from_memory.push_back("size of a " + a.spool->name.value);
  }
  if (!a.prescription && !a.camera.lens.image_circle && a.lens_kind.coverage.doubtful()) {
    a.from_memory.push_back("angle covered by a " + a.lens_kind.name.value);
  }
}

std::vector<double> estimates_of(const MeasuredInputs& in) {
  std::vector<double> estimates;
  for (const Input& input : in.all.list()) estimates.push_back(input.value);
  return estimates;
}

// Every opening lies between the exit pupil and the new film wherever within its ± each was
// measured, as the studies of light require; else adds an error at the opening.
bool light_passes(const Assembly& a, Diagnostics& diagnostics) {
  const MeasuredInputs& in = a.inputs;
  const std::vector<double> estimates = estimates_of(in);
  const Draw at(estimates);
  const auto spread = [&](InputRef<Length> ref) {
    return Length::of_base(in.all.list()[ref.index].spread);
  };
  const Length moved = std::min(a.set_back(at), at(in.room_behind));
  const Length pupil = moved - at(in.pupil_distance) + spread(in.pupil_distance);
  Length film = a.set_back(at);
  for (const MeasuredInputs::Term& term : in.set_back) film -= spread(term.input);
  struct Plane {
    std::string name;
    Measured<Length> z;
    Place place;
  };
  const auto before_film = [](std::string name, const Stated<Measured<Length>>& distance) {
    return Plane{std::move(name), {-distance->value, distance->half_width}, distance.place};
  };
  std::vector<Plane> planes{before_film("old gate", a.camera.gate.before_film)};
  for (const auto* list : {&a.camera.openings, &a.camera.obstacles}) {
    for (const Outline& o : *list) planes.push_back(before_film(*o.name, o.before_film));
  }
  if (a.method() == Method::back_on_seat || a.method() == Method::instant_back) {
    const Stated<Measured<Length>>& seat = a.camera.seat->behind_film;
    planes.push_back({"seat", {seat->value, 0 * mm}, seat.place});  // the film moves with it
  }
  bool passes = true;
  for (const auto& [name, z, place] : planes) {
    if (z.value - z.half_width <= pupil) {
      passes = false;
      diagnostics.error(place,
                        fmt::format("the {} must lie behind the exit pupil of the lens, which "
                                    "may stand {} before the original film plane",
                                    name, text(-pupil)));
    } else if (z.value + z.half_width >= film) {
      passes = false;
      diagnostics.error(place,
                        fmt::format("the {} must lie before the new film, which may stand {} "
                                    "{} the original film plane",
                                    name, text(abs(film)), film < 0 * mm ? "before" : "behind"));
    }
  }
  return passes;
}

// What the method leaves open shrinks to the picture that the gate mask leaves; adds an error where
// that is the larger.
bool take_masked_picture(Assembly& a, Diagnostics& diagnostics) {
  const GateMaskPlan& mask = *a.plan.gate_mask;
  bool fits = true;
  const auto take = [&](Length& side, const Stated<Length>& wanted, std::string_view name) {
    if (*wanted > side) {
      fits = false;
      diagnostics.error(wanted.place,
                        fmt::format("a picture of {} {} is larger than what the film is given, {}",
                                    text(*wanted), name, text(side)),
                        fmt::format("write {} = \"{}\" or less", name, text(side, 1)));
    }
    side = std::min(side, *wanted);
  };
  take(a.window.width, mask.width, "width");
  take(a.window.height, mask.height, "height");
  return fits;
}

}  // namespace

Length Assembly::set_back(const Draw& at) const {
  Length sum;
  for (const MeasuredInputs::Term& term : inputs.set_back) sum += term.way * at(term.input);
  return sum;
}

Length Assembly::behind_plate(const Draw& at) const {
  Length sum;
  for (std::size_t i = 2; i < inputs.set_back.size(); ++i) {
    sum += inputs.set_back[i].way * at(inputs.set_back[i].input);
  }
  return sum;
}

std::vector<NamedScreen> Assembly::screens() const {
  std::vector<NamedScreen> list;
  for (const Outline& o : camera.openings) list.push_back(screen_of(o, false));
  for (const Outline& o : camera.obstacles) list.push_back(screen_of(o, true));
  const Gate& gate = camera.gate;
  list.push_back(rectangular_screen(
      "old gate", {gate.width->value, gate.height->value, -gate.before_film->value},
      gate.width.place));
  list.back().is_old_gate = true;
  if (const auto mask = mask_opening()) {
    list.push_back(rectangular_screen("gate mask", *mask, plan.gate_mask->place));
  }
  if (plate) {
    list.push_back(rectangular_screen(
        "window of the new plate",
        {plate->window_width, plate->window_height, camera.seat->behind_film->value},
        plan.back->place));
  }
  if (adapter) {
    const MountingPlan& back = *plan.back->mounting;
    list.push_back(rectangular_screen(
        "window of the adapter", {adapter->window_width, adapter->window_height, adapter->rest},
        plan.back->place));
    list.push_back(rectangular_screen(
        "opening of the instant back",
        {back.opening_width->value, back.opening_height->value, adapter->rest + adapter->thickness},
        back.opening_width.place));
  }
  std::ranges::stable_sort(list, {}, [](const NamedScreen& s) { return s.screen.z; });
  return list;
}

std::optional<RectangularOpening> Assembly::mask_opening() const {
  if (!plan.gate_mask) return {};
  const std::vector<double> estimates = estimates_of(inputs);
  const Draw at(estimates);
  const Length film_z = set_back(at), z = -camera.gate.before_film->value;
  const Length pupil_z = std::min(film_z, at(inputs.room_behind)) - pupil_distance().value;
  const double shrunk = 1 - (film_z - z) / (film_z - pupil_z);
  return RectangularOpening{shrunk * *plan.gate_mask->width, shrunk * *plan.gate_mask->height, z};
}

Length Assembly::traced_pupil_distance() const {
  const LensModel model = model_of(*prescription, line_d);
  return first_order(model)->back_focal - pupils(model).exit;
}

Measured<Length> Assembly::pupil_distance() const {
  const Measured<Length>& focal = *camera.lens.focal;
  if (camera.lens.exit_pupil_before_film) return camera.lens.exit_pupil_before_film->value;
  if (prescription) {
    const Length traced = traced_pupil_distance();
    return {traced, traced * (focal.half_width / focal.value)};
  }
  return {focal.value, 0.1 * focal.value};
}

ExitPupil Assembly::pupil(FNumber aperture, Length moved) const {
  const Length distance = pupil_distance().value;
  return {exit_pupil_radius(distance, aperture), moved - distance};
}

LensModel Assembly::traced_lens(FNumber aperture) const {
  LensModel model = model_of(*prescription, line_d);
  const Length entrance_radius = first_order(model)->focal / (2 * aperture.value);
  const Length stop = entrance_radius * pupils(model).stop_over_entrance;
  return stopped_to(std::move(model), stop);
}

LensLight Assembly::lens_light(FNumber aperture, Length moved, Length film_z, Length reach) const {
  if (!prescription) return LensLight::disc(pupil(aperture, moved));
  const LensModel model = traced_lens(aperture);
  return LensLight::traced(model, moved - first_order(model)->back_focal, film_z, reach);
}

std::optional<Assembly> conversion_of(SurveyedCamera surveyed, Plan plan, const Film& film,
                                      const Catalogue& catalogue, Diagnostics& diagnostics) {
  Assembly a;
  a.file = std::move(surveyed.file);
  a.camera = std::move(surveyed.camera);
  a.lens_kind = std::move(surveyed.lens_kind);
  a.prescription = std::move(surveyed.prescription);
  a.lit_circle = surveyed.lit_circle;
  a.plan = std::move(plan);
  a.film = a.plan.holder ? held_film(film, *a.plan.holder) : film;
  const LoadedFrame frame = loaded_frame(a.camera, a.film, a.plan);
  a.window = frame.window;
  a.sheet = frame.sheet;
  a.trimmed = frame.trimmed;
  const auto copied = [](const auto* entry) {
    return entry == nullptr ? std::nullopt : std::optional(*entry);
  };
  if (a.plan.printer) a.material = copied(catalogue.material(*a.plan.printer->material));
  if (a.method() == Method::back_on_seat) {
    const Holder* standard = film.holder ? catalogue.holder(**film.holder) : nullptr;
    a.holder = copied(standard);
    if (a.plan.holder) design_holder(a, standard);
    design_plate(a);
    if (a.plan.glass_frame && a.plate) design_glass_frame(a);
  }
  if (a.method() == Method::pack_holder) design_pack_holder(a);
  if (a.method() == Method::instant_back && a.plan.back->mounting) design_adapter(a);
  if (a.method() == Method::insert) {
    if (film.spool) a.spool = copied(catalogue.spool(**film.spool));
    // An insert in a surveyed chamber brings places for its spools.
    const bool own_places = a.camera.chamber && a.plan.insert && a.plan.insert->film_goes;
    if (!a.camera.spools && !own_places) {
      a.missing.push_back({"spools.length", "room for a spool across the film"});
      a.missing.push_back({"spools.diameter", "room for a full roll"});
    }
  }
  if (a.plan.gate_mask && !take_masked_picture(a, diagnostics)) return {};
  a.inputs = inputs_of(a);
  if (!light_passes(a, diagnostics)) return {};
  note_memory(a);
  return a;
}

}  // namespace backfit
