// SPDX-License-Identifier: MIT
// Recordings as owners bring them: sound files, and tables of numbers from an oscilloscope.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "files/diagnostic.hpp"
#include "quantity/quantity.hpp"

namespace backfit {

struct Recording {
  std::string format;                        // "sound, 16 bit", "table of 2 columns"
  Time interval;                             // between two samples, > 0
  std::vector<std::vector<float>> channels;  // one or more, of one length; all samples finite
  std::vector<std::string> names;            // of the channels
  double resolution = 0;                     // smallest step of a sample; 0: not known
  bool clipped = false;  // some samples stand at the end of the converter's scale, in a row

  std::size_t length() const { return channels.front().size(); }
  Time duration() const { return static_cast<double>(length()) * interval; }
};

// The recording in the file `path`: a sound file that libsndfile reads (WAV and its kin), or text
// with a table (see recording_in_text). `step` is the time between two rows of a table without
// times. Empty exactly when an error was added: no such file, a folder, empty, neither sound nor
// text, no channels or more than 64, more than 2^28 samples, fewer than 64 a channel, a sample that
// is not a finite number, or a fault in a table.
std::optional<Recording> read_recording(const std::filesystem::path& path, std::optional<Time> step,
                                        Diagnostics& diagnostics);

// The same of a file's bytes that came another way; `name` is what messages call it. Held in memory
// twice over while it is read.
std::optional<Recording> recording_in_bytes(const std::filesystem::path& name, std::string bytes,
                                            std::optional<Time> step, Diagnostics& diagnostics);

// The recording in a table: a column of times and one or more of values, or one of values alone
// with `step`. Columns part at tabs, semicolons, commas or spaces; decimals take a point, or a
// comma where commas do not part columns. Lines before the first row of numbers are its head:
// names, and the unit of the times, s if none is named. Times must rise evenly. Bytes that aren't
// UTF-8 are taken as Latin-1, as oscilloscopes write "µs". Errors are at their lines and columns.
std::optional<Recording> recording_in_text(const std::filesystem::path& path, std::string text,
                                           std::optional<Time> step, Diagnostics& diagnostics);

}  // namespace backfit
