// SPDX-License-Identifier: MIT
#include "documents/loading_steps.hpp"

#include <fmt/format.h>

#include "documents/build_words.hpp"
#include "quantity/notation.hpp"

namespace backfit::paper {
namespace {

// What is left between two pictures on a roll. Common practice, no source.
constexpr Length between_pictures = 5 * mm;

const std::string sun_caution =
    "Never look through a lens at the sun; a lens left lying in the sun can start a fire.";
const std::string lamp_caution = "A lamp warms bellows and print: use a cold one. " + sun_caution;
const std::string darkroom_caution = "Whoever works in the dark clears the bench of blades first.";

void add_insert_steps(Steps& steps, const Report& report) {
  if (report.insert && report.insert->can_be_made()) {
    return add_printed_insert_steps(steps, report);
  }
  const Assembly& a = report.assembly;
  std::string pockets;
  if (report.spools) {
    pockets = fmt::format(
        " The chamber is longer than the spool: fill {} at each end, so that it turns in the "
        "middle.",
        mm_of(report.spools->spare_length.value / 2, 1));
  }
  steps.add(
      "Make the insert",
      fmt::format("No file is made for it: build it by these numbers. Window {} mm, its edges "
                  "bevelled on the side of the film, so that they don't scratch or flare. Rails "
                  "beside it that hold the film {} mm behind the old film plane, flat and parallel "
                  "to it.{}",
                  sides(a.window), place_mm(report.register_.set_back.value), pockets),
      {"Eye protection with every cutting tool. If it is printed: ventilate, don't print where "
       "somebody sleeps; the filament's safety data sheet decides."});
  steps.add("Measure the rails",
            fmt::format("Depth rod on the old rails, at four corners: {} mm. What differs by more "
                        "than {} goes into the plan, and this sheet is made anew.",
                        place_mm(report.register_.set_back.value),
                        mm_of(coverage_95 * report.register_.set_back.standard_uncertainty)));
  steps.add("Blacken",
            "Matt black on the window's edges and all that faces the lens; nothing on the rails.",
            {"Dust mask while sanding or flocking. Paint and glue: fresh air, no flame, and the "
             "safety data sheet of the one you use."});
  steps.add("Wind a spoiled film through",
            "Both spools turn without force, the film lies flat on the rails from side to side and "
            "runs parallel to them, and comes out without a scratch on either face.");
  const Length along = film_run(a.camera) == FilmRun::across ? a.window.width : a.window.height;
  steps.add("Find the pictures' places",
            fmt::format(
                "The old red window was made for other numbers: close it with opaque tape inside "
                "and out. A picture and the gap behind it take about {} of film. On the spoiled "
                "film mark the window's edge, wind on by that, and note the turns of the knob for "
                "each picture: they grow fewer as the roll grows.",
                mm_of(along + between_pictures, 0)));
  // Without a spool of its own the film comes without paper, and so without a leader.
  if (!a.film.spool) {
    steps.add(
        "Load in the dark",
        "This film has no backing paper. In a dark room, no safelight, tape its end to one of "
        "the camera's own spools and wind it on, the emulsion inward; lead it over the rails "
        "to the other spool, tape it there, and close the back. Count the turns. Take it "
        "out in the dark as well. Try it in the light with a spoiled film first.");
  }
  steps.add("Look for light",
            "A cold lamp inside the camera, the back closed, the room dark, your eyes used to it "
            "for ten minutes: go along every seam, and the red window. Then wind on a film, leave "
            "the camera five minutes in daylight on each side, shutter closed, and develop it: it "
            "must be clear.",
            {lamp_caution});
}

void add_own_holder_steps(Steps& steps, const Report& report) {
  const Assembly& a = report.assembly;
  const Sheath& sheath = *a.camera.plate_holder->sheath;
  const bool on_floor = *a.camera.plate_holder->plate_rests == PlateRest::floor;
  steps.add("Try the sheath in each holder",
            fmt::format("It goes in as a plate did and lies {}; the dark slide must clear it. "
                        "Number holders and sheaths that fit each other. Lip {} mm, slot {} mm: a "
                        "bent lip moves the sheet.",
                        on_floor ? "flat on the floor" : "against the front lips all round",
                        within(*sheath.lip), within(*sheath.slot)));
  const std::string sheet = a.trimmed
                                ? fmt::format("{}, cut to {} mm,", *a.film.name, sides(*a.sheet))
                                : fmt::format("A spoiled sheet of {} mm", sides(*a.sheet));
  std::vector<std::string> cautions;
  if (a.trimmed) {
    cautions.emplace_back(
        "Blades: cut away from the hand, against a stop. In the dark a guillotine with a guard, "
        "and "
        "a stop set beforehand.");
  }
  steps.add(a.trimmed ? "Cut the sheets" : "Try a sheet in daylight",
            sheet +
                " goes into the sheath: it must slide in without force and lie flat. One that "
                "bows lies nearer the lens in the middle.",
            cautions);
  steps.add("Load",
            fmt::format("In the dark{}: sensitive side to the lens, under the lips on all sides, "
                        "then the sheath into the holder, then the dark slide.",
                        *a.film.kind == FilmKind::paper
                            ? ", or under a safelight that the paper's maker allows"
                            : ""),
            {darkroom_caution});
  steps.add("Look for light",
            "Leave a loaded holder in the camera for five minutes in daylight on each side, dark "
            "slide drawn, shutter closed, and develop the sheet: it must show no mark. Old "
            "holders leak at the slide's slot and at their hinge.",
            {sun_caution});
}

void add_pack_holder_steps(Steps& steps, const Report& report) {
  const Assembly& a = report.assembly;
  const PackHolder& h = *a.pack_holder;
  const std::string sheet = fmt::format("{} mm", sides(*a.sheet));
  if (a.trimmed) {
    steps.add("Cut the sheets",
              fmt::format("{}, cut to {}: each must slide into the holder's slot without force and "
                          "lie flat. One that bows lies nearer the lens in the middle.",
                          *a.film.name, sheet),
              {"Blades: cut away from the hand, against a stop. In the dark a guillotine with a "
               "guard, and a stop set beforehand."});
  }
  const Length behind = a.camera.pack->depth->value - h.thickness();
  steps.add(
      "Lay the holder in the camera",
      fmt::format("{}Its face lies where the pack's did, all round, or the picture is off. "
                  "{} are left behind it: springs or foam press it forward when the back "
                  "closes. A camera without its door gets a light-tight cover.",
                  h.slide ? "The slide's tab through the slit first. " : "", mm_of(behind, 1)));
  steps.add("Draw the slide and push it in",
            h.slide ? "Back closed, it moves without force to its stops and back. It never comes "
                      "out: the felt in its mouth stays shut."
                    : "There is none: the camera is loaded and emptied in the dark bag.");
  steps.add(
      "Look for light",
      "Leave the loaded camera for five minutes in daylight on each side, shutter closed, the "
      "slide drawn, and develop the sheet: it must show no mark.",
      {sun_caution});
}

void add_instant_steps(Steps& steps, const Report& report) {
  const Assembly& a = report.assembly;
  steps.add(a.adapter ? "Measure the register" : "Mount the instant back",
            fmt::format("{}Measure from the face that {} to the film, at four corners: {} mm, or "
                        "the plan is mended and this sheet made anew.",
                        a.adapter ? "Before the back goes on its adapter: "
                                  : "No file is made for its adapter. ",
                        a.adapter ? "lies on the adapter" : "lies on the seat",
                        within(**a.plan.back->back_register)),
            {"Eye protection with every cutting tool. Backs with a motor: take the cells out "
             "first."});
  steps.add("Try the rollers",
            "The back keeps its own rollers: they spread the developer once, straight and at an "
            "even pressure. Send a spent picture through: nothing may touch it on the way out.",
            {"What is inside an instant picture is caustic: don't open or bend it, wash it off the "
             "skin at once, and see the maker's safety data sheet."});
  steps.add("Look for light",
            "A cold lamp inside the camera, the back in place, the room dark: go along every seam. "
            "Then leave the loaded camera five minutes in daylight on each side, shutter closed: "
            "the first picture must come out evenly dark.",
            {lamp_caution});
}

}  // namespace

void add_loading(Steps& steps, const Report& report) {
  switch (report.assembly.method()) {
    case Method::back_on_seat:
      return add_plate_steps(steps, report);
    case Method::instant_back:
      return add_instant_steps(steps, report);
    case Method::insert:
      return add_insert_steps(steps, report);
    case Method::own_holder:
      return add_own_holder_steps(steps, report);
    case Method::pack_holder:
      return add_pack_holder_steps(steps, report);
  }
}

std::string glass_place(const Report& report) {
  const Assembly& a = report.assembly;
  const Length set_back = report.register_.set_back.value;
  switch (a.method()) {
    case Method::back_on_seat:
      return fmt::format(
          "{} mm behind the plate's rear face",
          fixed((set_back - a.camera.seat->behind_film->value - a.plate_thickness) / mm, 2));
    case Method::instant_back:
      return fmt::format("{} mm behind the seat",
                         fixed((set_back - a.camera.seat->behind_film->value) / mm, 2));
    case Method::insert:
      return "on the insert's rails";
    case Method::pack_holder:
      return fmt::format("{} mm {} the old film plane", fixed(abs(set_back) / mm, 2),
                         set_back < 0 * mm ? "before" : "behind");
    case Method::own_holder:
      break;
  }
  return fmt::format("{} mm {} the old plane (that of the camera's own glass)",
                     fixed(abs(set_back) / mm, 2), set_back < 0 * mm ? "before" : "behind");
}

std::string tools(const Report& report) {
  std::string list = "☐\u00a0caliper with depth rod   ☐\u00a0steel straightedge   ";
  switch (report.assembly.method()) {
    case Method::back_on_seat:
      list +=
          "☐\u00a0printer   ☐\u00a0drills and hand drill   ☐\u00a0screwdrivers that fit   "
          "☐\u00a0scraper or fine file   "
          "☐\u00a0brush or flocking kit   ";
      break;
    case Method::instant_back:
    case Method::insert:
      list +=
          "☐\u00a0saw, files or printer   ☐\u00a0screwdrivers that fit   ☐\u00a0brush or flocking "
          "kit   ";
      break;
    case Method::pack_holder:
      list +=
          "☐\u00a0printer   ☐\u00a0guarded paper cutter   ☐\u00a0dark bag   ☐\u00a0brush or "
          "flocking kit   ";
      break;
    case Method::own_holder:
      list += "☐\u00a0guarded paper cutter   ☐\u00a0safelight or dark bag   ";
      break;
  }
  return list +
         "☐\u00a0ground glass and loupe   ☐\u00a0cold lamp   ☐\u00a0dust mask, eye protection, "
         "gloves";
}

}  // namespace backfit::paper
