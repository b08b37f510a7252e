// SPDX-License-Identifier: MIT
// What the workbench is opened on, and who makes results for it.
#pragma once
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <string_view>

namespace backfit {

// Told what is under way and how much of it is done, from 0 to 1; 0 where that can't be told.
using Progress = std::function<void(std::string_view stage, double done)>;

struct MakeOrder {
  std::filesystem::path conversion, folder;
  bool despite_blockers = false;
};

// Makes the results of a conversion as its files stand on disk, as `backfit make` does: its JSON to
// `out`, messages to `err`; the exit status. Throws WorldFailure and SolidFailure.
using Maker = std::function<int(const MakeOrder& order, std::ostream& out, std::ostream& err,
                                const Progress& progress)>;

struct Opening {
  std::filesystem::path conversion;
  std::filesystem::path folder;  // for results; empty: beside the conversion file
  std::filesystem::path data;    // the folder of shipped data
  Maker make;
};

// The folder for results: the one named, else beside the conversion file, named for it:
// "kestrel-4x5-made" of kestrel-4x5.conversion.toml.
std::filesystem::path result_folder(const Opening& opening);

}  // namespace backfit
