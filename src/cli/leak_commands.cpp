// SPDX-License-Identifier: MIT
// Leaking light: through a conversion's seams, or between parts from meshes.
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <iostream>
#include <memory>
#include <ostream>
#include <thread>

#include "cli/leak_task.hpp"
#include "conversion/leak_findings.hpp"
#include "conversion/leak_scene.hpp"
#include "documents/leak_answer.hpp"
#include "files/raw_file.hpp"

namespace backfit {
namespace {

constexpr std::uintmax_t largest_mesh_file = std::uintmax_t{1} << 30U;

std::atomic<bool> interrupted = false;
static_assert(std::atomic<bool>::is_always_lock_free);

// While it lives, an interrupt asks to stop instead of ending the program; a second one ends it.
class Interruptible {
 public:
  Interruptible() : before_(std::signal(SIGINT, ask)) {}
  ~Interruptible() { std::signal(SIGINT, before_); }
  Interruptible(const Interruptible&) = delete;
  Interruptible& operator=(const Interruptible&) = delete;

 private:
  static void ask(int) {
    interrupted = true;
    std::signal(SIGINT, SIG_DFL);
  }
  void (*before_)(int);
};

// The bodies of mesh files with their film, whole and fit to study; empty when they can't be used.
std::optional<LeakScene> scene_of_meshes(const LeakRequest& request, bool json,
                                         const Surroundings& around) {
  Diagnostics diagnostics;
  LeakScene scene;
  scene.film = request.film;
  for (std::size_t number = 0; number < request.meshes.size(); ++number) {
    const auto& file = request.meshes[number];
    const auto finish = request.finishes.find(number);
    const Wall wall = finish == request.finishes.end() ? request.wall : finish->second;
    const auto foam = request.foams.find(number);
    const auto bytes = read_bytes(file, largest_mesh_file, diagnostics);
    if (!bytes) continue;
    ReadMeshes read = meshes_of(*bytes);
    if (const auto* fault = std::get_if<MeshFault>(&read)) {
      diagnostics.error({}, fmt::format("{}: {}", file.string(), fault->text), fault->help);
      continue;
    }
    for (NamedMesh& part : std::get<std::vector<NamedMesh>>(read)) {
      if (const auto fault = fault_of(part)) {
        diagnostics.error({}, fmt::format("{}: {}", file.string(), fault->text), fault->help);
      }
      const bool has_name = part.name != "part";
      std::string name = has_name ? std::move(part.name) : file.stem().string();
      const auto taken = std::ranges::count_if(scene.parts, [&](const LeakPart& p) {
        return p.name == name || p.name.starts_with(name + " (");
      });
      if (taken > 0) name += fmt::format(" ({})", taken + 1);
      LeakPart made{std::move(name), std::move(part.mesh), {wall}};
      if (foam != request.foams.end()) made.stuff.soft = foam->second;
      scene.parts.push_back(std::move(made));
    }
  }
  if (!diagnostics.has_errors()) {
    if (const auto fault = fault_of(scene)) diagnostics.error({}, fault->text, fault->help);
  }
  print(diagnostics, json, around);
  if (diagnostics.has_errors()) return {};
  return scene;
}

// What could be done about parts from meshes.
std::vector<LeakRemedy> remedies_of_meshes(const LeakScene& scene) {
  const auto gains = [](const LeakPart& part, Wall wall) {
    const Wall now = part.stuff.finish;
    return !part.stuff.soft &&
           (now.gloss_index > wall.gloss_index || now.reflectance > wall.reflectance);
  };
  const auto changed = [scene, gains](Wall wall) {
    LeakScene other = scene;
    for (LeakPart& part : other.parts) {
      if (gains(part, wall)) part.stuff.finish = wall;
    }
    return other;
  };
  const auto any = [&](Wall wall) {
    return std::ranges::any_of(scene.parts, [&](const LeakPart& p) { return gains(p, wall); });
  };
  std::vector<LeakRemedy> remedies;
  constexpr Wall paint{0.04, 1}, felt{0.01, 1};  // common practice
  if (any(paint)) {
    remedies.push_back({"matt black paint, 4 %", [=] { return changed(paint); }});
  }
  if (any(felt)) {
    remedies.push_back({"black felt on all faces, 1 %", [=] { return changed(felt); }});
  }
  return remedies;
}

// `material` is that of [exposure], or null.
LeakQuestions asked_of(const LeakRequest& request, const ExposureMaterial* material) {
  LeakQuestions asked = request.questions;
  if (request.iso) {
    asked.film = leak_film(*request.iso, "by --iso");
  } else if (material != nullptr) {
    asked.film = leak_film(*material);
  }
  return asked;
}

std::string title_of_meshes(const LeakRequest& request) {
  std::string title;
  for (const auto& file : request.meshes) {
    title += (title.empty() ? "" : ", ") + file.filename().string();
  }
  return title + ": light";
}

std::optional<LeakTask> task_of_meshes(const LeakRequest& request, bool json,
                                       const Surroundings& around) {
  auto scene = scene_of_meshes(request, json, around);
  if (!scene) return {};
  return LeakTask{
      title_of_meshes(request),
      [scene = std::move(*scene), asked = asked_of(request, nullptr)](const LeakWatch& watch) {
        return leak_study(scene, asked, remedies_of_meshes(scene), watch);
      }};
}

std::optional<LeakTask> task_of_conversion(const LeakRequest& request, bool json,
                                           const Surroundings& around) {
  auto read = assembled(request.conversion, json, around);
  if (!read) return {};
  const auto exposure = exposed(*read, json, around);
  if (!exposure) return {};
  const ExposureMaterial* material = exposure->material ? &*exposure->material : nullptr;
  struct Studied {
    Assembly assembly;
    std::optional<InsertStudy> insert;
    LeakSubject subject() const { return {assembly, insert ? &*insert : nullptr}; }
  };
  const auto s = std::make_shared<Studied>(Studied{std::move(*read), {}});
  const Assembly& a = s->assembly;
  if (a.method() == Method::insert) {
    Diagnostics diagnostics;  // assembled() has been through them
    if (const auto catalogue = read_catalogue(around.data, diagnostics)) {
      s->insert = study_insert(a, *catalogue);
    }
  }
  const std::size_t columns = request.film.columns, rows = request.film.rows;
  if (const auto why = leak_refusal(s->subject(), request.choices)) {
    Diagnostics diagnostics;
    diagnostics.error(a.plan.method.place, why->why, why->help);
    print(diagnostics, json, around);
    return {};
  }
  return LeakTask{
      fmt::format("{} to {}: light", *a.camera.name, *a.film.name),
      [=, how = request.choices, asked = asked_of(request, material)](const LeakWatch& watch) {
        return leak_study(seam_scene(s->subject(), how, columns, rows), asked,
                          seam_remedies(s->subject(), how, columns, rows), watch);
      }};
}

}  // namespace

std::optional<LeakTask> leak_task(const LeakRequest& request, bool json,
                                  const Surroundings& around) {
  return request.conversion.empty() ? task_of_meshes(request, json, around)
                                    : task_of_conversion(request, json, around);
}

bool was_interrupted() { return interrupted.load(std::memory_order_relaxed); }

std::optional<LeakStudy> watched(const LeakTask& task, const Surroundings& around) {
  const Interruptible interruptible;
  LeakWatch watch;
  watch.threads = std::clamp(std::thread::hardware_concurrency(), 1U, 64U);
  watch.may_go_on = [] { return !was_interrupted(); };
  const bool shown = &around.err == &std::cerr && isatty(STDERR_FILENO) == 1;
  if (shown) {
    watch.progress = [&around](std::string_view stage, double done) {
      around.err << "\r\x1b[K" << stage;
      if (done > 0) around.err << fmt::format(" {:.0f} %", 100 * done);
      around.err << std::flush;
    };
  }
  auto study = task.study(watch);
  if (shown) around.err << "\r\x1b[K" << std::flush;
  if (!study) around.err << "stopped: nothing was written\n";
  return study;
}

bool add_light(Report& report, const ExposureMaterial* material, const Surroundings& around) {
  const Assembly& a = report.assembly;
  const LeakSubject subject{a, report.insert ? &*report.insert : nullptr};
  if (const auto why = leak_refusal(subject)) {
    report.light_skipped = why->why;
    Diagnostics diagnostics;
    diagnostics.add({Severity::warning,
                     a.plan.method.place,
                     "how dark the film lies was not worked out: " + why->why,
                     (why->help.empty() ? "" : why->help + "; ") +
                         "try it in the sun with a film that you can spare",
                     {}});
    print(diagnostics, false, around);
    return true;
  }
  const bool wide = a.window.width > a.window.height;
  const std::size_t columns = wide ? 5 : 4, rows = wide ? 4 : 5;
  LeakQuestions asked;
  if (material != nullptr) asked.film = leak_film(*material);
  auto study = watched({{},
                        [&](const LeakWatch& watch) {
                          return leak_study(seam_scene(subject, {}, columns, rows), asked,
                                            seam_remedies(subject, {}, columns, rows), watch);
                        }},
                       around);
  if (!study) return false;
  add_light(report, std::move(*study));
  return true;
}

int leak(const LeakRequest& request, bool json, const Surroundings& around) {
  const auto task = leak_task(request, json, around);
  if (!task) return unusable;
  const auto study = watched(*task, around);
  if (!study) return unusable;
  around.out << (json ? leak_json(*study) : leak_summary(task->title, *study));
  return fine;
}

}  // namespace backfit
