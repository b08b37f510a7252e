// SPDX-License-Identifier: MIT
// Measured speeds on their way into the camera file, from where the exposure card takes them.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "conversion/trace_study.hpp"
#include "files/drafts.hpp"

namespace backfit {

// A camera file's new text, and what of it is new.
struct SavedSpeeds {
  std::string text;  // bytes to write
  struct Line {
    Time marked;
    std::string effective;  // "17.2 ms ± 0.4"
  };
  std::vector<Line> lines;
  // The card goes by the timer's switch as long as one is surveyed, and not by these.
  bool timer_goes_before = false;
};

// The camera file at `path`, or its draft, with the study's speeds as entries of
// [[shutter.measured]]; nothing is written. Empty, with an error added, when the file can't be
// used, when the study has no marks or no effective times (sound, no flat top), or when the file
// has no place for an entry.
std::optional<SavedSpeeds> with_speeds(const std::filesystem::path& path, const TraceStudy& study,
                                       Diagnostics& diagnostics, const Drafts& drafts = {});

}  // namespace backfit
