// SPDX-License-Identifier: MIT
#include "documents/build_sheet.hpp"

#include <cassert>

#include "documents/build_chapters.hpp"
#include "documents/build_words.hpp"
#include "documents/materials.hpp"

namespace backfit {

std::string build_sheet(const Report& report, const std::optional<Solid>& body,
                        const std::filesystem::path& font_folder,
                        const std::vector<PieceSet>& sets) {
  const Assembly& a = report.assembly;
  const std::string camera = paper::shortened(*a.camera.name, 40);
  const std::string film = paper::shortened(*a.film.name, 40);
  paper::Document document(
      font_folder, {"Build sheet: " + camera + " to " + film, std::string(name_of(report.verdict)),
                    "Lengths in mm. Seen from behind: x right, y up; z along the light."});
  paper::Flow flow(document);
  add_verdict(flow, report);
  add_findings(flow, report);
  add_focus(flow, report);
  if (a.plate) {
    add_section(flow, report);
  } else {
    add_budget(flow, report);
  }
  add_frame(flow, report);
  if (a.plate) add_budget(flow, report);
  add_print(flow, report);
  if (a.plate) {
    assert(body);
    add_part(flow, report, *body);
    add_template(flow, report);
  }
  if (report.insert && report.insert->path.layout) add_path(flow, report);
  for (const PieceSet& set : sets) add_set(flow, report, set);
  if (report.insert && report.insert->part) add_camera_cuts(flow, report);
  add_scale(flow, report);
  add_accessories(flow, report);
  add_steps(flow, report);
  add_materials(flow, paper::materials_of(report, sets));
  add_light(flow, report);
  if (report.timer) add_timer(flow, report);
  flow.finish();
  return document.pdf();
}

}  // namespace backfit
