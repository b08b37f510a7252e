// SPDX-License-Identifier: MIT
// What a recording says of a shutter's speeds, for people and for programs.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "conversion/trace_saving.hpp"
#include "conversion/trace_study.hpp"
#include "documents/document.hpp"

namespace backfit {

// A recording, where it came from, and what was found in it.
struct TraceAnswer {
  std::filesystem::path path;
  const Recording& recording;
  const TraceStudy& study;
  std::optional<SavedSpeeds> saved;
};

// Lines for the terminal: a row a shot, the speeds, where the doubts come from.
std::string trace_summary(const TraceAnswer& answer);

// What was written into the camera file at `path`.
std::string saving_summary(const std::filesystem::path& path, const SavedSpeeds& saved);

// Schema "backfit.trace/1"; ends in a newline.
std::string trace_json(const TraceAnswer& answer);

// One page with a curve of every shot. Throws std::runtime_error as Fonts does.
paper::Document trace_picture(const TraceAnswer& answer, const std::filesystem::path& font_folder);

}  // namespace backfit
