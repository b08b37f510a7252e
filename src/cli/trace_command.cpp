// SPDX-License-Identifier: MIT
// The command about recordings of a shutter.
#include <fmt/format.h>

#include <ostream>

#include "cli/commands.hpp"
#include "cli/studied.hpp"
#include "documents/trace_answer.hpp"
#include "files/folder.hpp"

namespace backfit {
namespace {

namespace fs = std::filesystem;

// A picture may not take the place of what it was made from.
void check_targets(const TraceRequest& request, Diagnostics& diagnostics) {
  std::error_code ignored;
  for (const fs::path& picture : {request.svg, request.png}) {
    if (picture.empty()) continue;
    for (const fs::path& precious : {request.recording, request.camera}) {
      if (!precious.empty() && fs::equivalent(picture, precious, ignored)) {
        diagnostics.error(
            {}, fmt::format("the picture would take the place of '{}'", precious.string()),
            "give the picture another name");
      }
    }
    if (fs::is_directory(picture, ignored)) {
      diagnostics.error({},
                        fmt::format("'{}' is a folder; a file's name is needed", picture.string()));
    }
  }
}

// Puts `text` in the place of an owner's file, which stays where it is and keeps its permissions.
void replace_owners_file(const fs::path& path, const std::string& text) {
  std::error_code ignored;
  const fs::path target = fs::canonical(path);
  const auto permissions = fs::status(target).permissions();
  replace_file(target, text);
  fs::permissions(target, permissions, ignored);
}

}  // namespace

int trace(const TraceRequest& request, bool json, const Surroundings& around) {
  Diagnostics diagnostics;
  check_targets(request, diagnostics);
  std::optional<Recording> recording;
  if (!diagnostics.has_errors()) {
    recording = read_recording(request.recording, request.step, diagnostics);
  }
  std::optional<TraceStudy> study;
  if (recording) study = study_trace(*recording, request.questions, diagnostics);
  std::optional<SavedSpeeds> saved;
  if (study && !request.camera.empty()) saved = with_speeds(request.camera, *study, diagnostics);
  print(diagnostics, json, around);
  if (!study || diagnostics.has_errors()) return unusable;

  const TraceAnswer answer{request.recording, *recording, *study, saved};
  if (!request.svg.empty() || !request.png.empty()) {
    const paper::Document picture = trace_picture(answer, around.data / "fonts");
    if (!request.svg.empty()) replace_file(request.svg, picture.svg(0));
    if (!request.png.empty()) replace_file(request.png, picture.png(0, inch / 150));
  }
  if (saved) replace_owners_file(request.camera, saved->text);
  around.out << (json ? trace_json(answer) : trace_summary(answer));
  if (saved && !json) around.out << saving_summary(request.camera, *saved);
  return fine;
}

}  // namespace backfit
