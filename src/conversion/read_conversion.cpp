// SPDX-License-Identifier: MIT
#include "conversion/read_conversion.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "conversion/accessory_study.hpp"
#include "conversion/extras_check.hpp"
#include "conversion/holder_design.hpp"
#include "conversion/looked_up.hpp"
#include "conversion/screens.hpp"
#include "conversion/timer_study.hpp"
#include "conversion/wall_readings.hpp"
#include "files/reader.hpp"
#include "optics/paraxial.hpp"
#include "quantity/notation.hpp"

namespace backfit {
namespace {

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

// The films that `method` can load into `camera` with all that must be known.
std::string others_for(Method method, const Camera& camera, const Catalogue& catalogue) {
  std::string list;
  for (const Film& f : catalogue.films) {
    const Prospect p = prospect_of(method, f, camera);
    if (p.impossible.empty() && p.unknown.empty()) list += (list.empty() ? "" : ", ") + *f.id;
  }
  return list;
}

// Can the planned method load the film into this camera? Else adds an error.
void check_method(const Camera& camera, const Film& film, const Plan& plan,
                  const Catalogue& catalogue, Diagnostics& diagnostics) {
  const Method method = *plan.method;
  const Prospect p = prospect_of(method, film, camera, plan.holder.has_value());
  if (p.impossible.empty() && p.unknown.empty()) return;
  const std::string others = others_for(method, camera, catalogue);
  std::string help = others.empty() ? "" : "films that can be planned with: " + others;
  if (others.empty() && method != methods_for(*film.kind).front()) {
    help = fmt::format("write method = \"{}\"", name_of(methods_for(*film.kind).front()));
  }
  const bool of_survey = !p.unknown.empty() && p.unknown.front().key.find('.') != std::string::npos;
  diagnostics.error(plan.film.place,
                    !p.impossible.empty()
                        ? p.impossible
                        : fmt::format("the {} does not know the {}",
                                      of_survey ? "survey" : "catalogue", p.unknown.front().how),
                    std::move(help));
}

// The printed holder of a back on the seat: a depth to make it for, and one sheet. Else adds
// errors.
void check_holder(const Film& film, const Plan& plan, const Catalogue& catalogue,
                  Diagnostics& diagnostics) {
  const HolderPlan& h = *plan.holder;
  const bool by_glass = h.depth_by && **h.depth_by == DepthBy::ground_glass;
  if (by_glass && h.depth) {
    diagnostics.error(h.depth->place,
                      "'depth' says how deep the holder is, and 'depth_by' that its "
                      "ground glass does",
                      "take one of them out");
  } else if (by_glass && !plan.focus.ground_glass) {
    diagnostics.error(h.depth_by->place, "the plan has no [focus.ground_glass] to make a holder by",
                      "add [focus.ground_glass], or write depth_by = \"the standard\"");
  } else if (!holder_depth_known(plan, film.holder ? catalogue.holder(**film.holder) : nullptr)) {
    diagnostics.error(h.place,
                      fmt::format("the catalogue has no depth of a holder for {}", *film.name),
                      "write depth, or depth_by = \"the ground glass\"");
  }
  if (h.sheet_width.has_value() != h.sheet_height.has_value()) {
    const bool width = h.sheet_width.has_value();
    diagnostics.error(width ? h.sheet_width->place : h.sheet_height->place,
                      fmt::format("a sheet has two sides; '{}' is missing",
                                  width ? "sheet_height" : "sheet_width"));
  } else if (h.sheet_width && h.sheet_width->value.value > h.sheet_height->value.value) {
    diagnostics.error(
        h.sheet_width->place,
        fmt::format("the sheet's width, {}, is more than its height, {}; the shorter "
                    "side is the width",
                    text(h.sheet_width->value.value), text(h.sheet_height->value.value)));
  }
  const Film held = held_film(film, h);
  const Length least = 10 * mm;  // less is no picture
  if (held.image_width && held.image_width->value->value < least) {
    diagnostics.error(h.rails ? h.rails->place : h.place,
                      fmt::format("the rails leave a picture of {} across; {} is the least",
                                  text(held.image_width->value->value), text(least)));
  }
}

// A dark slide needs a slit. Else adds an error.
void check_pack_holder(const Camera& camera, const Plan& plan, Diagnostics& diagnostics) {
  const auto& slide = plan.pack_holder->dark_slide;
  if (!slide || !**slide || !camera.pack || camera.pack->slit) return;
  diagnostics.error(slide->place,
                    "a dark slide needs a slit in the camera; the survey has no "
                    "[pack.slit]",
                    "write dark_slide = false, and change the holder in a dark bag");
}

// The tables of the plan that its method asks for are there, and no other. Else adds errors.
void check_tables(const Plan& plan, Diagnostics& diagnostics) {
  const Method method = *plan.method;
  const bool on_seat = method == Method::back_on_seat || method == Method::instant_back;
  const auto lacks = [&](std::string_view table) {
    diagnostics.error(plan.method.place,
                      fmt::format("'{}' asks for the table '{}'", name_of(method), table),
                      fmt::format("add [{}]", table));
  };
  const auto says_nothing = [&](const Place& place, std::string_view table) {
    diagnostics.error(
        place,
        fmt::format("the table '{}' says nothing for the method '{}'", table, name_of(method)),
        "take it out");
  };
  if (on_seat && !plan.back) lacks("back");
  if (!on_seat && plan.back) says_nothing(plan.back->place, "back");
  const bool printed = method == Method::back_on_seat || method == Method::pack_holder;
  if (printed && !plan.printer) lacks("printer");
  if (method != Method::back_on_seat && plan.holder) says_nothing(plan.holder->place, "holder");
  if (method != Method::back_on_seat && plan.glass_frame) {
    says_nothing(plan.glass_frame->place, "glass_frame");
  }
  if (plan.glass_frame && !plan.glass_frame->thickness && !plan.focus.ground_glass) {
    diagnostics.error(plan.glass_frame->place,
                      "the glass's thickness is neither here nor in [focus.ground_glass]",
                      "write thickness");
  }
  if (method != Method::pack_holder && plan.pack_holder) {
    says_nothing(plan.pack_holder->place, "pack_holder");
  }
  if (method != Method::insert && plan.insert) says_nothing(plan.insert->place, "insert");
  if (method != Method::back_on_seat && plan.focus.ground_glass) {
    says_nothing(plan.focus.ground_glass->place, "focus.ground_glass");
  }
  if (!plan.back) return;
  if (method == Method::instant_back && !plan.back->back_register) {
    diagnostics.error(plan.back->place,
                      "[back] lacks the key 'back_register', which an instant back asks for",
                      "measure it, from the face that it is mounted by back to the film");
  }
  if (method == Method::back_on_seat && plan.back->mounting) {
    says_nothing(plan.back->mounting->place, "back.mounting");
  }
  if (method == Method::instant_back && plan.back->straps) {
    says_nothing(plan.back->straps->place, "back.straps");
  }
  if (method == Method::instant_back && plan.back->mounting && !plan.printer) lacks("printer");
  if (method == Method::back_on_seat && plan.back->back_register) {
    diagnostics.error(plan.back->back_register->place,
                      "'back_register' is of an instant back; a holder has a depth",
                      "take it out, or write holder_depth");
  }
}

}  // namespace

std::string stop_fault(const Camera& camera, std::optional<FNumber> aperture) {
  const FNumber widest = *camera.lens.apertures.front();
  const FNumber smallest = *camera.lens.apertures.back();
  if (!aperture || (*aperture >= widest && *aperture <= smallest)) return {};
  return fmt::format("{} is not a stop of this lens, which has {} to {}", text(*aperture),
                     text(widest), text(smallest));
}

std::optional<SurveyedCamera> read_camera(const std::filesystem::path& path,
                                          const Catalogue& catalogue, Diagnostics& diagnostics,
                                          const Drafts& drafts) {
  const auto source = read_source(path, drafts, diagnostics);
  if (source == nullptr) return {};
  if (path.string().ends_with(".conversion.toml")) {
    diagnostics.error({}, fmt::format("'{}' is a conversion file; the camera file that it names is "
                                      "needed",
                                      path.string()));
    return {};
  }
  const auto camera = read_record<Camera>(source, diagnostics);
  if (!camera) return {};
  const LensKind* kind = looked_up(catalogue.lens_kinds, camera->lens.kind, "lens kind",
                                   "backfit films --lenses", diagnostics);
  check_order(*camera, diagnostics);
  check_outlines(*camera, diagnostics);
  check_accessories(*camera, diagnostics);
  check_lens_board(*camera, diagnostics);
  const auto prescription = prescription_of(*camera, path.parent_path(), catalogue, diagnostics);
  if (kind == nullptr || diagnostics.has_errors()) return {};
  return SurveyedCamera{path, *camera, *kind, prescription};
}

std::optional<Assembly> assemble(const std::filesystem::path& path, const Catalogue& catalogue,
                                 Diagnostics& diagnostics, const Drafts& drafts) {
  const std::size_t before = diagnostics.list().size();
  const auto plan_source = read_source(path, drafts, diagnostics);
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
    const auto source = read_source(camera_path, drafts, diagnostics, plan.camera.place);
    camera_good = source != nullptr &&
                  read_by(
                      source, [&](Fields& fields) { describe(fields, camera); }, diagnostics);
  }
  const Film* film = looked_up(catalogue.films, plan.film, "film", "backfit films", diagnostics);
  const LensKind* kind = looked_up(catalogue.lens_kinds, camera.lens.kind, "lens kind",
                                   "backfit films --lenses", diagnostics);
  if (plan.printer) {
    looked_up(catalogue.materials, plan.printer->material, "material", "backfit films --materials",
              diagnostics);
    if (plan_good) wall_readings(*plan.printer, diagnostics);
  }
  if (plan.method.place) check_tables(plan, diagnostics);
  if (camera_good && plan.method.place && film != nullptr) {
    check_method(camera, *film, plan, catalogue, diagnostics);
    if (plan.pack_holder && *plan.method == Method::pack_holder) {
      check_pack_holder(camera, plan, diagnostics);
    }
    if (plan.holder && *plan.method == Method::back_on_seat && film->height) {
      check_holder(*film, plan, catalogue, diagnostics);
    }
  }
  if (camera_good) {
    check_order(camera, diagnostics);
    check_outlines(camera, diagnostics);
    check_accessories(camera, diagnostics);
    check_lens_board(camera, diagnostics);
  }
  if (camera_good && plan_good) {
    check_aperture(camera, plan, diagnostics);
    check_focus(camera, plan.focus, diagnostics);
    check_timer(camera, plan, diagnostics);
    check_extras(camera, plan, diagnostics);
  }
  const auto prescription = prescription_of(camera, camera_folder, catalogue, diagnostics);
  const bool clean = std::none_of(
      diagnostics.list().begin() + static_cast<std::ptrdiff_t>(before), diagnostics.list().end(),
      [](const Diagnostic& d) { return d.severity == Severity::error; });
  if (!clean || film == nullptr || kind == nullptr) return {};
  return conversion_of({path, camera, *kind, prescription}, plan, *film, catalogue, diagnostics);
}

}  // namespace backfit
