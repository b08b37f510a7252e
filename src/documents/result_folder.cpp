// SPDX-License-Identifier: MIT
#include "documents/result_folder.hpp"

#include <fmt/format.h>

#include <cmath>

#include "documents/build_sheet.hpp"
#include "documents/json.hpp"
#include "parts/printing.hpp"
#include "solid/mesh.hpp"
#include "solid/step.hpp"
#include "solid/stl.hpp"
#include "solid/three_mf.hpp"

namespace backfit {
namespace {

// Facets this near the true surface are finer than any printer's nozzle draws.
constexpr Length print_chord = 0.01 * mm;
// The same input gives the same bytes, so the time of making is not in the files.
constexpr std::string_view time_stamp = "2026-01-01T00:00:00";

// A wrong part costs a day: what the kernel made must be one sound body of the volume that the
// part's own numbers give.
void demand_sound(const Solid& body, const BackPlate& plate) {
  const Soundness s = soundness_of(body);
  const double off = std::abs(s.volume / volume_of(plate) - 1);
  if (!s.sound() || off > 1e-6) {
    throw SolidFailure(fmt::format(
        "the back plate came out unsound: {} bodies, {} bad edges, volume off by {:.1e}", s.bodies,
        s.bad_edges, off));
  }
}

}  // namespace

FolderContents result_of(const Report& report, const std::filesystem::path& data) {
  const std::filesystem::path fonts = data / "fonts";
  if (!report.assembly.plate) {
    return {{"build-sheet.pdf", build_sheet(report, {}, fonts)},
            {"report.json", report_json(report)}};
  }
  const BackPlate& plate = *report.assembly.plate;
  const Solid body = solid_of(plate);
  demand_sound(body, plate);
  const std::string title =
      fmt::format("{} to {}", *report.assembly.camera.name, *report.assembly.film.name);
  const std::string name = "back plate";
  const Mesh mesh = mesh_of(laid_on_rear_face(body), print_chord);
  return {{"build-sheet.pdf", build_sheet(report, body, fonts)},
          {"report.json", report_json(report)},
          {"parts/back-plate.step", step_file(body, name, time_stamp)},
          {"parts/back-plate.3mf", three_mf_file(mesh, name, title)},
          {"parts/back-plate.stl", stl_file(mesh, name)}};
}

}  // namespace backfit
