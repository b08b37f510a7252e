// SPDX-License-Identifier: MIT
#include "documents/result_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "conversion/timer_box_design.hpp"
#include "documents/build_sheet.hpp"
#include "documents/json.hpp"
#include "parts/printing.hpp"
#include "solid/mesh.hpp"
#include "solid/step.hpp"
#include "solid/stl.hpp"
#include "solid/three_mf.hpp"
#include "timer/netlist.hpp"

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

void add_timer_box(FolderContents& contents, const TimerBox& box, const std::string& title) {
  const std::pair<std::string, Solid> pieces[] = {{"timer tray", tray_of(box)},
                                                  {"timer panel", panel_of(box)}};
  for (const auto& [name, body] : pieces) {
    if (!soundness_of(body).sound()) throw SolidFailure("the " + name + " came out unsound");
    std::string file = "parts/" + name;
    std::ranges::replace(file, ' ', '-');
    const Mesh mesh = mesh_of(body, print_chord);
    contents[file + ".step"] = step_file(body, name, time_stamp);
    contents[file + ".3mf"] = three_mf_file(mesh, name, title);
    contents[file + ".stl"] = stl_file(mesh, name);
  }
}

}  // namespace

FolderContents result_of(const Report& report, const std::filesystem::path& data) {
  FolderContents contents;
  std::optional<Solid> body;
  if (report.assembly.plate) {
    const BackPlate& plate = *report.assembly.plate;
    body = solid_of(plate);
    demand_sound(*body, plate);
    const std::string title =
        fmt::format("{} to {}", *report.assembly.camera.name, *report.assembly.film.name);
    const std::string name = "back plate";
    const Mesh mesh = mesh_of(laid_on_rear_face(*body), print_chord);
    contents["parts/back-plate.step"] = step_file(*body, name, time_stamp);
    contents["parts/back-plate.3mf"] = three_mf_file(mesh, name, title);
    contents["parts/back-plate.stl"] = stl_file(mesh, name);
  }
  contents["build-sheet.pdf"] = build_sheet(report, body, data / "fonts");
  contents["report.json"] = report_json(report);
  if (report.timer) {
    if (const auto box = timer_box(report.assembly, *report.timer)) {
      add_timer_box(contents, *box, fmt::format("{}, timer", *report.assembly.camera.name));
    }
  }
  if (report.timer && !report.timer->design.positions.empty()) {
    const TimingCircuit circuit = circuit_of(*report.timer, 0);
    contents["timer.cir"] = netlist_of(circuit, 2 * circuit.design.positions[0].wanted);
  }
  return contents;
}

}  // namespace backfit
