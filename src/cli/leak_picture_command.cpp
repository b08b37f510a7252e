// SPDX-License-Identifier: MIT
// Leaking light into a conversion, and as a picture: what needs the geometry kernel or the page.
#include <fmt/format.h>

#include <ostream>

#include "cli/leak_watched.hpp"
#include "documents/leak_answer.hpp"
#include "files/folder.hpp"

namespace backfit {

int draw_leak(const LeakRequest& request, const std::filesystem::path& svg, bool json,
              const Surroundings& around) {
  std::optional<LeakScene> scene;
  std::vector<LeakRemedy> remedies;
  std::optional<Assembly> assembly;
  std::string title;
  if (request.conversion.empty()) {
    scene = scene_of_meshes(request, json, around);
    if (!scene) return unusable;
    remedies = remedies_of_meshes(*scene);
    title = title_of_meshes(request);
  } else {
    assembly = assembled(request.conversion, json, around);
    if (!assembly) return unusable;
    if (const auto why = leak_refusal(*assembly)) {
      Diagnostics diagnostics;
      diagnostics.error(assembly->plan.method.place, *why);
      print(diagnostics, json, around);
      return unusable;
    }
    const auto [columns, rows] = std::pair(request.film.columns, request.film.rows);
    scene = leak_scene(*assembly, request.back, columns, rows);
    remedies = leak_remedies(*assembly, request.back, columns, rows);
    title = fmt::format("{} to {}: light", *assembly->camera.name, *assembly->film.name);
  }
  const auto study = watched_study(*scene, request.questions, remedies, around);
  if (!study) return unusable;
  if (!svg.empty()) replace_file(svg, leak_svg(title, *study, around.data / "fonts"));
  around.out << (json ? leak_json(*study) : leak_summary(title, *study));
  return fine;
}

}  // namespace backfit
