// SPDX-License-Identifier: MIT
#include "conversion/assembly.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/plate_design.hpp"
#include "conversion/timer_study.hpp"
#include "files/reader.hpp"
#include "optics/paraxial.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

// How well a stop is set with a caliper at the bed. Common practice, no source.
constexpr Measured<Length> stop_setting_error{0 * mm, 0.1 * mm};

// The entry that `stated` names, or null with an error that offers the nearest id; null without
// one for a name that was not read.
template <class T>
const T* looked_up(const std::vector<T>& list, const Stated<std::string>& stated,
                   std::string_view what, std::string_view command, Diagnostics& diagnostics) {
  if (!stated.place) return nullptr;
  const auto it = std::ranges::find_if(list, [&](const T& t) { return t.id.value == *stated; });
  if (it != list.end()) return &*it;
  std::vector<std::string_view> ids;
  ids.reserve(list.size());
  for (const T& t : list) ids.push_back(t.id.value);
  const std::string_view near = nearest_name(*stated, ids);
  diagnostics.error(
      stated.place, fmt::format("the catalogue has no {} '{}'", what, *stated),
      near.empty() ? fmt::format("`{}` lists them", command) : fmt::format("write \"{}\"", near));
  return nullptr;
}

void check_order(const Camera& camera, Diagnostics& diagnostics) {
  const std::vector<Stated<FNumber>>& stops = camera.lens.apertures;
  const auto wider = [](const Stated<FNumber>& a, const Stated<FNumber>& b) {
    return a.value < b.value;
  };
  if (const auto it = std::ranges::is_sorted_until(stops, wider); it != stops.end()) {
    std::vector<Stated<FNumber>> sorted = stops;
    std::ranges::stable_sort(sorted, wider);
    std::string list;
    for (const Stated<FNumber>& a : sorted)
      list += fmt::format("{}\"{}\"", list.empty() ? "" : ", ", text(*a));
    diagnostics.error(it->place,
                      fmt::format("{} is wider than the stop before it, {}; the widest comes first",
                                  text(it->value), text(std::prev(it)->value)),
                      fmt::format("write apertures = [{}]", list));
  }
  for (const Stated<Length>& mark : camera.focusing.marks) {
    if (*mark <= 2 * camera.lens.focal->value) {
      diagnostics.error(mark.place,
                        fmt::format("the mark {} is nearer than twice the focal length, {}",
                                    text(*mark), text(camera.lens.focal->value)));
    }
  }
}

void check_aperture(const Camera& camera, const Plan& plan, Diagnostics& diagnostics) {
  const Stated<FNumber>& wanted = plan.focus.aperture;
  const FNumber widest = *camera.lens.apertures.front();
  const FNumber smallest = *camera.lens.apertures.back();
  if (std::string fault = stop_fault(camera, *wanted); !fault.empty()) {
    diagnostics.add(
        {Severity::error,
         wanted.place,
         std::move(fault),
         fmt::format("write aperture = \"{}\"", text(*wanted < widest ? widest : smallest)),
         {{camera.lens.apertures.front().place, "its stops are given here"}}});
  }
}

// Shims are tried in all combinations: of this many thicknesses in no time.
constexpr std::size_t most_shim_thicknesses = 20;

void check_focus(const Camera& camera, const FocusPlan& focus, Diagnostics& diagnostics) {
  if (focus.shims.size() > most_shim_thicknesses) {
    diagnostics.error(focus.shims[most_shim_thicknesses].place,
                      fmt::format("{} thicknesses of shims; {} at most are looked through",
                                  focus.shims.size(), most_shim_thicknesses));
  }
  if (!focus.stop_test) return;
  if (*camera.focusing.moves != LensMotion::standard) {
    diagnostics.error(focus.stop_test->travel.place,
                      "a travel tells where infinity lies only if the whole lens travels; here it "
                      "is not a standard that moves");
  }
  const Measured<Length>& focal = *camera.lens.focal;
  const Measured<Length>& distance = *focus.stop_test->distance;
  const Length nearest = 4 * (focal.value + focal.half_width);
  if (distance.value - distance.half_width < nearest) {
    diagnostics.error(
        focus.stop_test->distance.place,
        fmt::format("the test subject may stand {} from the ground glass; a lens of {} needs {} "
                    "for a sharp image",
                    text(distance.value - distance.half_width), text(focal.value), text(nearest)));
  }
}

MeasuredInputs inputs_of(const Assembly& a) {
  MeasuredInputs in;
  const Camera& c = a.camera;
  const Measured<Length> error = a.plan.printer.error.value;
  const Measured<Length> depth =
      a.plan.back.holder_depth ? a.plan.back.holder_depth->value : a.holder.depth.value.value;
  const Measured<Length> thickness = a.film.thickness->value.value;
  const Length slack =
      a.holder.slot ? std::max(0 * mm, a.holder.slot->value->value - thickness.value) : 0 * mm;
  in.seat = in.all.add("seat behind the film plane", c.seat.behind_film.value);
  in.plate = in.all.add("printed plate's thickness",
                        Measured<Length>{a.plate_thickness + error.value, error.half_width});
  in.holder_depth = in.all.add("holder depth", depth);
  in.film_thickness = in.all.add("film thickness", thickness);
  in.film_play = in.all.add("play of the film in its slot", Measured<Length>{slack / 2, slack / 2});
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
  note(a.film.image_width, "picture size of " + a.film.name.value);
  note(a.film.thickness, "thickness of " + a.film.name.value);
  if (!a.plan.back.holder_depth && a.holder.depth.doubtful()) {
    a.from_memory.push_back("depth of the " + a.holder.name.value);
  }
  if (!a.prescription && !a.camera.lens.image_circle && a.lens_kind.coverage.doubtful()) {
    a.from_memory.push_back("angle covered by a " + a.lens_kind.name.value);
  }
}

bool is_known_enough(const Film& film) {
  return film.image_width && film.image_height && film.thickness;
}

// The film's own checks: a back on the seat takes what goes in a sheet-film holder.
bool goes_in_holder(const Film& film, const Plan& plan, const Catalogue& catalogue,
                    Diagnostics& diagnostics) {
  if (film.holder && is_known_enough(film)) return true;
  std::string others;
  for (const Film& f : catalogue.films) {
    if (f.holder && is_known_enough(f)) others += (others.empty() ? "" : ", ") + *f.id;
  }
  diagnostics.error(
      plan.film.place,
      film.holder
          ? fmt::format("the catalogue does not know the {} of {}",
                        film.thickness ? "picture that a holder leaves" : "thickness", *film.name)
          : fmt::format("{} goes in no sheet-film holder that the catalogue knows; a back on the "
                        "seat carries one",
                        *film.name),
      "films that can be planned with: " + others);
  return false;
}

// The camera's prescription scaled to its focal length; empty without one, and with an error for
// one that can't stand in this camera.
std::optional<Prescription> prescription_of(const Camera& camera,
                                            const std::filesystem::path& folder,
                                            const Catalogue& catalogue, Diagnostics& diagnostics) {
  const auto& stated = camera.lens.prescription;
  if (!stated) return {};
  const auto design = read_lens(folder / stated->value, catalogue, diagnostics, stated->place);
  if (!design) return {};
  if (design->file.is_afocal()) {
    diagnostics.error(stated->place, "an afocal attachment is no lens to take pictures with");
    return {};
  }
  const Length focal = first_order(model_of(design->prescription, line_d))->focal;
  const Length wanted = camera.lens.focal->value;
  if (!(focal > Length{}) || !(wanted > Length{})) return {};
  return scaled(design->prescription, wanted / focal);
}

// Every opening lies between the exit pupil and the new film wherever within its ± each was
// measured, as the studies of light require; else adds an error at the opening.
bool light_passes(const Assembly& a, Diagnostics& diagnostics) {
  const MeasuredInputs& in = a.inputs;
  std::vector<double> estimates;
  for (const Input& input : in.all.list()) estimates.push_back(input.value);
  const Draw at(estimates);
  const auto spread = [&](InputRef<Length> ref) {
    return Length::of_base(in.all.list()[ref.index].spread);
  };
  const Length moved = std::min(a.set_back(at), at(in.room_behind));
  const Length pupil = moved - at(in.pupil_distance) + spread(in.pupil_distance);
  const Length film = a.set_back(at) - spread(in.seat) - spread(in.plate) -
                      spread(in.holder_depth) - spread(in.film_thickness) - spread(in.film_play);
  struct Plane {
    std::string name;
    Measured<Length> z;
    Place place;
  };
  const auto before_film = [](std::string name, const Stated<Measured<Length>>& distance) {
    return Plane{std::move(name), {-distance->value, distance->half_width}, distance.place};
  };
  std::vector<Plane> planes{before_film("old gate", a.camera.gate.before_film)};
  for (const Opening& o : a.camera.openings) planes.push_back(before_film(*o.name, o.before_film));
  const Stated<Measured<Length>>& seat = a.camera.seat.behind_film;
  planes.push_back({"seat", {seat->value, 0 * mm}, seat.place});  // the film moves with it
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

}  // namespace

Length Assembly::set_back(const Draw& at) const {
  return at(inputs.seat) + at(inputs.plate) + at(inputs.holder_depth) - at(inputs.film_thickness) -
         at(inputs.film_play);
}

std::vector<Assembly::NamedOpening> Assembly::openings() const {
  std::vector<NamedOpening> list;
  for (const Opening& o : camera.openings) {
    list.push_back(
        {*o.name, {o.width->value, o.height->value, -o.before_film->value}, o.width.place});
  }
  list.push_back(
      {"old gate",
       {camera.gate.width->value, camera.gate.height->value, -camera.gate.before_film->value},
       camera.gate.width.place,
       true});
  if (plate) {
    list.push_back({"window of the new plate",
                    {plate->window_width, plate->window_height, camera.seat.behind_film->value},
                    plan.back.place});
  }
  std::ranges::sort(list, {}, [](const NamedOpening& o) { return o.opening.z; });
  return list;
}

std::string stop_fault(const Camera& camera, std::optional<FNumber> aperture) {
  const FNumber widest = *camera.lens.apertures.front();
  const FNumber smallest = *camera.lens.apertures.back();
  if (!aperture || (*aperture >= widest && *aperture <= smallest)) return {};
  return fmt::format("{} is not a stop of this lens, which has {} to {}", text(*aperture),
                     text(widest), text(smallest));
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

std::optional<Assembly> assemble(const std::filesystem::path& path, const Catalogue& catalogue,
                                 Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.list().size();
  const auto plan_source = read_source(path, diagnostics);
  if (plan_source == nullptr) return {};
  if (path.string().ends_with(".camera.toml")) {
    read_record<Camera>(plan_source, diagnostics);
    diagnostics.error({}, fmt::format("'{}' is a camera file; the conversion file that names it is "
                                      "needed",
                                      path.string()));
    return {};
  }
  // Whatever was read is used, mistakes beside it or not, so that one run finds all.
  Plan plan;
  const bool plan_good = read_by(
      plan_source, [&](Fields& fields) { describe(fields, plan); }, diagnostics);
  Camera camera;
  bool camera_good = false;
  std::filesystem::path camera_folder;
  if (plan.camera.place) {
    const std::filesystem::path camera_path = path.parent_path() / *plan.camera;
    camera_folder = camera_path.parent_path();
    const auto source = read_source(camera_path, diagnostics, plan.camera.place);
    camera_good = source != nullptr &&
                  read_by(
                      source, [&](Fields& fields) { describe(fields, camera); }, diagnostics);
  }
  const Film* film = looked_up(catalogue.films, plan.film, "film", "backfit films", diagnostics);
  const LensKind* kind = looked_up(catalogue.lens_kinds, camera.lens.kind, "lens kind",
                                   "backfit films --lenses", diagnostics);
  const Material* material = looked_up(catalogue.materials, plan.printer.material, "material",
                                       "backfit films --materials", diagnostics);
  const bool goes = film != nullptr && goes_in_holder(*film, plan, catalogue, diagnostics);
  if (camera_good) check_order(camera, diagnostics);
  if (camera_good && plan_good) {
    check_aperture(camera, plan, diagnostics);
    check_focus(camera, plan.focus, diagnostics);
    check_timer(camera, plan, diagnostics);
  }
  const auto prescription = prescription_of(camera, camera_folder, catalogue, diagnostics);
  const bool clean = std::none_of(
      diagnostics.list().begin() + static_cast<std::ptrdiff_t>(before), diagnostics.list().end(),
      [](const Diagnostic& d) { return d.severity == Severity::error; });
  if (!clean || film == nullptr || kind == nullptr || material == nullptr || !goes) return {};
  const Holder* holder = catalogue.holder(**film->holder);
  if (holder == nullptr) return {};  // the catalogue's own check makes this impossible

  Assembly a{path,         camera, plan, *film, *holder, *kind, *material,
             prescription, {},     {},   {},    {},      {},    {}};
  a.window = {film->image_width->value->value, film->image_height->value->value};
  if (*plan.back.way_up == WayUp::lengthways) std::swap(a.window.width, a.window.height);
  design_plate(a);
  a.inputs = inputs_of(a);
  if (!light_passes(a, diagnostics)) return {};
  note_memory(a);
  return a;
}

}  // namespace backfit
