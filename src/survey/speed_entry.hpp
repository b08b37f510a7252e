// SPDX-License-Identifier: MIT
// A measured speed written into the text of a camera file, at the place where it is read.
#pragma once
#include <memory>
#include <optional>
#include <string>

#include "survey/camera.hpp"

namespace backfit {

// One entry of [[shutter.measured]], each value as it stands in the file.
struct SpeedEntry {
  Time marked;
  std::string marked_text;     // "1/60 s"
  std::string effective_text;  // "17.2 ms ± 0.4"
};

// The file's text with that entry: the value of an entry for the same speed replaced, else a new
// entry behind the last one, else behind the keys of [shutter]. Everything else stays as it is,
// line ends included. `camera` is what `source` reads as. Empty, with `why` set to a sentence
// without a full stop, when the text has no place for it that reads back as the same camera with
// this speed.
std::optional<std::string> with_speed(const std::shared_ptr<const SourceText>& source,
                                      const Camera& camera, const SpeedEntry& entry,
                                      std::string& why);

}  // namespace backfit
